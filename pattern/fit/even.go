package fit

import (
	"math"
	"math/rand/v2"
	"slices"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/evenness"
)

const (
	// evenTries is how many steps are tried to make the largest disc between openings smaller.
	evenTries = 120
	// evenStep is the first step, evenEnd the last, in parts of the reach.
	evenStep, evenEnd = 0.2, 1e-3
	// keptGap is the part of the narrowest gap that these steps keep.
	keptGap = 1 - 1e-6
)

// evened moves what the narrowest gap leaves free so that the largest disc between openings becomes smaller: random
// steps, each let down again onto the same narrowest gap and taken if the disc shrinks. Often nothing is free.
func (h *search) evened(f found) found {
	s := h.setting
	rng := rand.New(rand.NewPCG(h.seed, evenTries))
	now, hole := f, s.hole(f)
	step := evenStep
	for range evenTries {
		if step < evenEnd || s.question.stopped() {
			break
		}
		y := slices.Clone(now.y)
		s.space.stray(y, step*h.descent.reach(), rng, clearance)
		y[clearance] = f.y[clearance] * keptGap
		next, ok := h.regained(found{y: y, hands: f.hands})
		if ok {
			if w := s.hole(next); w < hole-evenness.WidestTo {
				now, hole = next, w
				step = math.Min(step*grow, evenStep)
				continue
			}
		}
		step *= 0.9
	}
	return now
}

// regained lets a configuration down with its clearance held, until no copies are nearer than that; false where that
// fails.
func (h *search) regained(f found) (found, bool) {
	h.bodies(f.hands, true)
	reach := h.descent.reach()
	h.descent.look.look(f.y, 0)
	if h.descent.look.worst >= -fineBreach*reach {
		return f, true
	}
	next, ok := h.fine(f, fineBox, roughSteps)
	return next, ok && next.y[clearance] >= f.y[clearance]
}

// hole returns the width of the largest disc between the openings of a configuration, as far as the bodies' points
// tell.
func (s *setting) hole(f found) float64 {
	d, _, err := s.draftOf(f)
	if err != nil {
		return math.Inf(1)
	}
	l, err := pattern.NewLayout(d, s.question.shapes)
	if err != nil {
		return math.Inf(1)
	}
	_, w := evenness.Widest(l)
	return geometry.Snap(w)
}
