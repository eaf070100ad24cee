package fit

import (
	"math"
	"math/rand/v2"
	"slices"
)

// search looks for the best configurations of a setting, round by round. A round throws a few starts, lets them down
// on the simplified outlines, shakes the best of them again and again, and lets what is good enough down on the full
// outlines. What a round does depends on the seed, its number and the rounds before it alone, so more rounds never
// give less, and the same number gives the same answer on every machine.
type search struct {
	setting   *setting
	descent   descent
	seed      uint64
	rounds    int
	pool      []found   // on full outlines, the best first
	seen      []float64 // merits on simplified outlines of what went on to the full ones
	least     float64   // the least merit on simplified outlines
	densified int
	proven    *Answer // the best so far that was measured whole
}

// found is a configuration that keeps its distances as far as the bodies' points tell.
type found struct {
	y     []float64
	hands []int
	merit float64
}

const (
	// A round throws so many starts, then so many in which copies lie apart, then shakes the best of them, and then
	// one of the best of all rounds, so often. Shaking finds interlocks two to three times as often as throwing does
	// for the same work.
	throwsPerRound = 5
	apartPerRound  = 2
	shakesPerRound = 10
	poolShakes     = 3
	// leastCover and mostCover are what part of the cell the bodies of a thrown start cover.
	leastCover, mostCover = 0.1, 0.6
	// roughSteps and fineSteps bound a descent.
	roughSteps, fineSteps = 40, 80
	// roughBox is the first box of a descent from a thrown start, fineBox from a good one, in reaches.
	roughBox, fineBox = 0.25, 0.02
	// steadyBox and steadySteps are those of a descent that keeps bodies apart.
	steadyBox, steadySteps = 0.1, 80
	// roughEnd and fineEnd are the boxes, in reaches, at which a descent ends.
	roughEnd, fineEnd = 1e-3, 1e-8
	// roughBreach and fineBreach are what bodies may lie over each other, in reaches, at the end of a descent.
	roughBreach, fineBreach = 0.02, 2e-6
	// strictFrom is the overlap, in reaches, from which a descent goes on with dearer ones.
	strictFrom = 2e-3
	// promising is how much more than the least merit is still let down on the full outlines.
	promising = 1.06
	// poolSize is how many different configurations are kept.
	poolSize = 12
	// alike is the difference of merits, relative, within which configurations count as one.
	alike = 2e-4
)

func newSearch(s *setting, seed uint64) *search {
	h := &search{setting: s, seed: seed, least: math.Inf(1)}
	h.descent.look.space, h.descent.look.only = s.space, everyMotif
	h.descent.find = s.question.Find
	h.descent.bodyArea = s.images
	return h
}

// bodies chooses the bodies of the descent.
func (h *search) bodies(hands []int, full bool) {
	h.descent.look.bodies = h.descent.look.bodies[:0]
	for i := range h.setting.motifs {
		p := &h.setting.motifs[i]
		if full {
			h.descent.look.bodies = append(h.descent.look.bodies, p.fine[hands[i]])
		} else {
			h.descent.look.bodies = append(h.descent.look.bodies, p.coarse[hands[i]])
		}
	}
}

// round does one round; false when it was stopped.
func (h *search) round(stop func() bool) bool {
	rng := rand.New(rand.NewPCG(h.seed, uint64(h.rounds)))
	if h.rounds == 0 && h.setting.start != nil {
		h.refine(found{y: h.setting.start, hands: make([]int, len(h.setting.motifs))}, fineBox)
	}
	h.rounds++
	best := found{merit: math.Inf(1)}
	try := func(y []float64, hands []int, box float64) {
		if f, ok := h.rough(y, hands, box); ok && f.merit < best.merit {
			best = f
		}
	}
	for range throwsPerRound {
		if stop() {
			return false
		}
		y, hands := h.setting.throw(rng, leastCover+(mostCover-leastCover)*rng.Float64())
		try(y, hands, roughBox)
	}
	for range apartPerRound {
		if stop() {
			return false
		}
		if y, hands, ok := h.setting.throwApart(rng); ok {
			if f, ok := h.steady(y, hands); ok && f.merit < best.merit {
				best = f
			}
		}
	}
	for range shakesPerRound {
		if stop() {
			return false
		}
		if best.y != nil {
			try(h.shaken(best, rng), best.hands, roughBox/2)
		}
	}
	h.promote(best)
	for range poolShakes {
		if stop() {
			return false
		}
		if len(h.pool) > 0 {
			f := h.pool[min(int(float64(len(h.pool))*rng.Float64()*rng.Float64()), len(h.pool)-1)]
			if g, ok := h.rough(h.shaken(f, rng), f.hands, roughBox/2); ok {
				h.promote(g)
			}
		}
	}
	return true
}

// shaken returns a configuration near a good one; of several motifs, now and then one with a motif turned anew and
// the cell opened a little.
func (h *search) shaken(f found, rng *rand.Rand) []float64 {
	y := slices.Clone(f.y)
	if n := len(h.setting.motifs); n > 1 && rng.IntN(2) == 0 {
		h.open(y, 1+0.3*rng.Float64())
		i := rng.IntN(n)
		was := [2]float64{y[place(i)], y[place(i)+1]}
		h.setting.throwMotif(y, i, f.hands[i], rng)
		y[place(i)], y[place(i)+1] = was[0], was[1]
		return y
	}
	size := (0.05 + 0.35*rng.Float64()) * h.setting.motifs[0].fine[0].reach
	h.setting.space.stray(y, size, rng)
	return y
}

// open makes the cell larger, as far as it is free, and takes free motifs with it.
func (h *search) open(y []float64, by float64) {
	s := h.setting
	if s.question.Find == Evenest {
		return
	}
	for i := range sides {
		y[i] *= by
	}
	if s.question.Find == Largest {
		y[clearance] *= by
	}
	for i := range s.motifs {
		if !s.motifs[i].heldPlace || s.question.Find == Largest {
			y[place(i)], y[place(i)+1] = y[place(i)]*by, y[place(i)+1]*by
		}
	}
}

// rough lets a start down on the simplified outlines; false when bodies are left lying over each other.
func (h *search) rough(y []float64, hands []int, box float64) (found, bool) {
	h.bodies(hands, false)
	reach := h.descent.reach()
	if !sane(y, reach) {
		return found{}, false
	}
	h.descent.breach = looseBreach
	y, merit, breached := h.descent.run(y, box*reach, roughEnd*reach, roughSteps)
	if breached > strictFrom*reach {
		h.descent.breach = strictBreach
		y, merit, breached = h.descent.run(y, box*reach/2, roughEnd*reach, roughSteps/2)
	}
	return found{y: slices.Clone(y), hands: hands, merit: merit}, breached <= roughBreach*reach
}

// steady lets a start in which no bodies lie over each other down in such steps that they stay so.
func (h *search) steady(y []float64, hands []int) (found, bool) {
	h.bodies(hands, false)
	reach := h.descent.reach()
	h.descent.breach = strictBreach
	y, merit, breached := h.descent.run(y, steadyBox*reach, roughEnd*reach, steadySteps)
	return found{y: slices.Clone(y), hands: hands, merit: merit}, breached <= roughBreach*reach
}

// promote lets what was found on the simplified outlines down on the full ones if it is promising and new.
func (h *search) promote(f found) {
	if f.y == nil || f.merit > h.limit(h.least) {
		return
	}
	for _, m := range h.seen {
		if math.Abs(m-f.merit) < alike/10*math.Abs(f.merit) {
			return
		}
	}
	h.seen = append(h.seen, f.merit)
	// Tips that cross can come to rest a hair's breadth over each other: no yardstick for others.
	if h.refine(f, fineBox) {
		h.least = min(h.least, f.merit)
	}
}

// limit returns the merit up to which what comes near a merit is promising.
func (h *search) limit(merit float64) float64 {
	if math.IsInf(merit, 1) {
		return merit
	}
	return merit + (promising-1)*math.Abs(merit)
}

// refine lets a configuration down on the full outlines and keeps it if it is good and new; false when bodies are left
// lying over each other.
func (h *search) refine(f found, box float64) bool {
	f, ok := h.fine(f, box, fineSteps)
	if ok {
		h.keep(f)
	}
	return ok
}

// fine lets a configuration down on the full outlines; false when bodies are left lying over each other.
func (h *search) fine(f found, box float64, steps int) (found, bool) {
	h.bodies(f.hands, true)
	reach := h.descent.reach()
	h.descent.breach = strictBreach
	y, merit, breached := h.descent.run(f.y, box*reach, fineEnd*reach, steps)
	return found{y: slices.Clone(y), hands: slices.Clone(f.hands), merit: merit}, breached <= fineBreach*reach
}

// keep puts a configuration into the pool, in place of one alike that is no better.
func (h *search) keep(f found) {
	for i, p := range h.pool {
		if math.Abs(p.merit-f.merit) < alike*math.Abs(f.merit) && slices.Equal(p.hands, f.hands) {
			if f.merit < p.merit {
				h.pool[i] = f
				h.sort()
			}
			return
		}
	}
	h.pool = append(h.pool, f)
	h.sort()
	if len(h.pool) > poolSize {
		h.pool = h.pool[:poolSize]
	}
}

func (h *search) sort() {
	slices.SortStableFunc(h.pool, func(a, b found) int {
		switch {
		case a.merit < b.merit:
			return -1
		case a.merit > b.merit:
			return 1
		}
		return 0
	})
}
