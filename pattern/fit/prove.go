package fit

import (
	"math"
	"slices"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/evenness"
)

// checkBest measures the best of the pool as the program will. Where copies cut through each other between the points
// that are held against them, the bodies get more points, and the pool is let down again.
func (h *search) checkBest() {
	if len(h.pool) == 0 && h.densified < maxDenser && h.rounds >= barren*(h.densified+1) {
		h.densify()
	}
	for range bestTries {
		if len(h.pool) == 0 || h.proven != nil && h.proven.merit <= h.pool[0].merit {
			return
		}
		a, cut := h.prove(h.pool[0])
		switch {
		case a != nil:
			h.proven = a
			return
		case cut && h.densified < maxDenser:
			h.densify()
		default:
			h.pool = h.pool[1:]
		}
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
		var ok bool
		if f, ok = h.widened(f, lack); !ok {
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

// widened returns the configuration let down again with a wider clearance; false where that leaves bodies lying over
// each other.
func (h *search) widened(f found, lack float64) (found, bool) {
	s := h.setting
	wider := lack + slackForRounding
	y := slices.Clone(f.y)
	if s.question.Find != Largest {
		y[clearance] += wider
		return h.fine(found{y: y, hands: f.hands}, fineBox/10, fineSteps)
	}

	// There the clearance goes with the cell: for this once by a larger part of it.
	by := 1 + wider/max(s.question.Draft.Sheet.Bridge+slackForRounding, 1e-6)
	scale := s.space.free[0]
	was := scale[clearance]
	y[clearance] *= by
	scale[clearance] *= by
	s.space.list()
	next, ok := h.fine(found{y: y, hands: f.hands}, fineBox/10, fineSteps)
	scale[clearance] = was
	s.space.list()
	return next, ok
}

// answer describes a proven draft.
func (h *search) answer(f found, d draft.Draft, scale float64, narrowest geometry.Near, l *pattern.Layout) Answer {
	a := Answer{Group: d.Repeat.Group, Find: h.setting.question.Find, Scale: scale, Draft: d, merit: f.merit}
	a.Cover = Cover(l)
	for _, o := range l.Orbits {
		a.Special = a.Special || len(o.Images) < len(l.Group.Ops)
	}
	if narrowest.Found {
		a.Narrowest = narrowest.D
	}
	return a
}

// Cover returns the area of a field's openings as a part of the whole, copies counted once.
func Cover(l *pattern.Layout) float64 {
	opening := 0.0
	for i, o := range l.Orbits {
		scale := l.Draft.Motifs[i].Scale
		opening += float64(len(o.Images)) * scale * scale * o.Shape.Area()
	}
	return opening / l.Cell.Area()
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
	if a := h.proven; a != nil && (len(out) == 0 || a.merit < out[0].merit-alike*math.Abs(out[0].merit)) {
		out = append([]Answer{*a}, out...)
	}
	for i := range out {
		if l, err := pattern.NewLayout(out[i].Draft, h.setting.question.shapes); err == nil {
			out[i].Evenness = evenness.Of(l, out[i].Narrowest)
		}
	}
	return out
}

// worthShowing is how much worse than the best, in parts, another answer may be.
const worthShowing = 1.25
