package fit

import (
	"math"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// checkBest measures the best of the pool as the program will. Where copies cut through each other between the points
// that are held against them, the bodies get more points, and the pool is let down again.
func (h *search) checkBest() {
	if len(h.pool) == 0 && h.densified < maxDenser && h.rounds >= barren*(h.densified+1) {
		h.densify()
	}
	for range bestTries {
		if len(h.pool) == 0 || len(h.proven) > 0 && h.proven[0].merit <= h.pool[0].merit {
			return
		}
		a, cut := h.prove(h.pool[0])
		if a != nil {
			h.proven = append([]Answer{*a}, h.proven...)
			return
		}
		if !cut {
			h.pool = h.pool[1:]
			continue
		}
		if h.densified == maxDenser {
			h.pool = h.pool[1:]
			continue
		}
		h.densify()
	}
}

// barren is how many rounds without anything found make the bodies get more points: sharp tips that cross between the
// points look like good fits and keep the better ones out.
const barren = 2

// bestTries is how often in a round the best may prove not to be one.
const bestTries = 6

// densify gives all bodies more points and begins anew from what was found.
func (h *search) densify() {
	h.densified++
	for i := range h.setting.motifs {
		p := &h.setting.motifs[i]
		for side := range p.fine {
			p.fine[side], p.coarse[side] = p.fine[side].denser(), p.coarse[side].denser()
		}
	}
	pool := h.pool
	h.pool, h.seen, h.least = nil, nil, math.Inf(1)
	for _, f := range pool {
		h.refine(f, fineBox)
	}
}

// maxDenser is how often the bodies get more points.
const maxDenser = 2

// prove makes the draft of a configuration and measures it; nil where copies come too near, and then cut says that they
// lie over each other. Where only a few thousandths of a millimetre lack, they are taken from the cell or the scale.
func (h *search) prove(f found) (answer *Answer, cut bool) {
	s, q := h.setting, h.setting.question
	need := q.Draft.Sheet.Bridge
	for range maxTries {
		d, scale, err := s.draftOf(f)
		if err != nil {
			return nil, false
		}
		narrowest, cut, l, err := judge(d, everyMotif, q.shapes)
		if err != nil || cut {
			return nil, cut
		}
		lack := 0.0
		if narrowest.Found {
			lack = need - narrowest.D
		}
		if lack <= 0 {
			a := h.answer(f, d, scale, narrowest, l)
			return &a, false
		}
		if q.Find == Evenest || lack > maxLack {
			return nil, false
		}
		f = h.widened(f, lack)
		if f.y == nil {
			return nil, false
		}
	}
	return nil, false
}

const (
	// maxTries is how often a configuration is widened a little before it is given up.
	maxTries = 5
	// maxLack in mm is how much of a bridge may be made good so. More is what simplifying a very long outline took
	// away.
	maxLack = 0.1
)

// widened returns the configuration let down again with a wider clearance.
func (h *search) widened(f found, lack float64) found {
	s := h.setting
	was, free := s.space.base[clearance], 0.0
	wider := lack + slackForRounding
	y := append([]float64(nil), f.y...)
	if s.question.Find == Largest {
		free = s.space.free[0][clearance]
		s.space.free[0][clearance] *= 1 + wider/max(s.question.Draft.Sheet.Bridge+slackForRounding, 1e-6)
		y[clearance] *= 1 + wider/max(s.question.Draft.Sheet.Bridge+slackForRounding, 1e-6)
	} else {
		y[clearance] += wider
	}
	s.space.list()
	pool := h.pool
	h.pool = nil
	h.refine(found{y: y, hands: f.hands}, fineBox/10)
	out := found{}
	if len(h.pool) > 0 {
		out = h.pool[0]
	}
	h.pool = pool
	s.space.base[clearance] = was
	if s.question.Find == Largest {
		s.space.free[0][clearance] = free
	}
	s.space.list()
	return out
}

// answer describes a proven draft.
func (h *search) answer(f found, d draft.Draft, scale float64, narrowest geometry.Near, l *pattern.Layout) Answer {
	a := Answer{Group: d.Repeat.Group, Find: h.setting.question.Find, Scale: scale, Draft: d, merit: f.merit}
	opening := 0.0
	for i, o := range l.Orbits {
		m := d.Motifs[i]
		opening += float64(len(o.Images)) * m.Scale * m.Scale * o.Shape.Area()
		if len(o.Images) < len(l.Group.Ops) {
			a.Special = true
		}
	}
	a.Cover = opening / l.Cell.Area()
	if narrowest.Found {
		a.Narrowest = narrowest.D
	}
	return a
}

// answers proves the best of the pool and returns up to keep that differ.
func (h *search) answers(keep int) []Answer {
	var out []Answer
	for _, f := range h.pool {
		if len(out) == keep {
			break
		}
		if len(out) > 0 && f.merit > out[0].merit+(worthShowing-1)*math.Abs(out[0].merit) {
			break
		}
		if h.setting.question.Find == Evenest {
			f = h.evened(f)
		}
		if a, _ := h.prove(f); a != nil {
			out = append(out, *a)
		}
	}
	for _, a := range h.proven {
		if len(out) == 0 || a.merit < out[0].merit-alike*math.Abs(out[0].merit) {
			out = append([]Answer{a}, out...)
		}
	}
	for i := range out {
		if l, err := pattern.NewLayout(out[i].Draft, h.setting.question.shapes); err == nil {
			out[i].Evenness = Even(l, out[i].Narrowest)
		}
	}
	return out
}

// worthShowing is how much worse than the best, in parts, another answer may be.
const worthShowing = 1.25
