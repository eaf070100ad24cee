package fit

import (
	"math"
	"math/rand/v2"

	"openwork/pattern/symmetry"
)

// throw returns a random configuration in which bodies cover the given part of the cell, and which motifs it mirrors.
func (s *setting) throw(rng *rand.Rand, cover float64) (y []float64, hands []int) {
	for i := range s.motifs {
		hand := rng.IntN(2)
		if s.motifs[i].heldHand {
			hand = 0
		}
		hands = append(hands, hand)
	}
	y = append(y, s.space.base...)
	// Long bodies come free of each other only where they cover less.
	size := math.Sqrt(s.images / cover * max(1, s.longest()/2))
	switch {
	case s.question.Find == Evenest:
	case s.shape != [3]float64{}:
		f := size / math.Sqrt(s.shape[0]*s.shape[2])
		for i, v := range s.shape {
			y[i] = v * f
		}
		if s.question.Find == Largest {
			y[clearance] = f * (s.question.Draft.Sheet.Bridge + slackForRounding)
		} else if !s.question.Hold.Proportion {
			s.stretch(y, rng)
		}
	default:
		s.throwCell(y, rng, size)
	}
	for i := range s.motifs {
		s.throwMotif(y, i, hands[i], rng)
	}
	return y, hands
}

// stretch changes the proportion of a cell whose area and angle stay.
func (s *setting) stretch(y []float64, rng *rand.Rand) {
	f := math.Sqrt(s.proportion(rng))
	y[sideA] *= f
	y[acrossB], y[upB] = y[acrossB]/f, y[upB]/f
	if s.question.Hold.Lay {
		y[acrossB] = y[sideA] * s.space.free[0][acrossB]
	}
}

// proportion returns a random proportion of a cell's sides; bodies that are long may lie along either.
func (s *setting) proportion(rng *rand.Rand) float64 {
	ratio := 1 + (1+min(s.longest(), 8))*rng.Float64()
	if rng.IntN(2) == 0 {
		return 1 / ratio
	}
	return ratio
}

// longest returns the elongation of the longest body.
func (s *setting) longest() float64 {
	longest := 1.0
	for _, p := range s.motifs {
		longest = max(longest, p.elongation)
	}
	return longest
}

// throwCell gives y a random cell of size × size mm².
func (s *setting) throwCell(y []float64, rng *rand.Rand, size float64) {
	y[sideA], y[acrossB], y[upB] = size, 0, size
	switch s.group.System {
	case symmetry.Oblique:
		s.stretch(y, rng)
		y[acrossB] = y[sideA] * (rng.Float64() - 0.5)
	case symmetry.Rectangular:
		s.stretch(y, rng)
	case symmetry.Hexagonal:
		side := size / math.Sqrt(math.Sqrt(3)/2)
		y[sideA], y[acrossB], y[upB] = side, -side/2, side*math.Sqrt(3)/2
	}
}

// throwMotif gives a motif a random place and turn, as far as they are free.
func (s *setting) throwMotif(y []float64, i, hand int, rng *rand.Rand) {
	p, at := &s.motifs[i], place(i)
	u, v, turn, pick, quarter := rng.Float64(), rng.Float64(), 2*math.Pi*rng.Float64(), rng.Float64(), rng.IntN(4)
	side := rng.Float64()
	base := p.motif.Turn*math.Pi/180 - p.fine[hand].angle
	h := s.question.Hold
	switch {
	case p.heldTurn || s.turnFixed(i):
		turn = base
	case h.Half:
		turn = base + math.Pi*math.Floor(2*side)
	case h.Step > 0:
		turn = base + h.Step*math.Pi/180*math.Floor(side*math.Max(1, math.Round(360/h.Step)))
	case pick < 0.3 && len(p.directions) > 0:
		// A straight side along a side of the cell.
		turn = float64(quarter)*math.Pi/2 - p.directions[int(side*float64(len(p.directions)))]
	}
	y[at+2] = turn
	switch {
	case p.heldPlace:
		if s.question.Find == Largest {
			f := y[sideA] / s.space.free[0][sideA]
			y[at], y[at+1] = f*s.space.free[0][at], f*s.space.free[0][at+1]
		}
	case s.throwSpecial(y, i, u):
	default:
		y[at], y[at+1] = u*y[sideA]+v*y[acrossB], v*y[upB]
	}
}

const (
	// spreadTries is how many random places are looked at for the roomiest.
	spreadTries = 24
	// spreadAir is how much farther apart than they need be copies then lie.
	spreadAir = 1.02
)

// throwApart returns a random configuration in which no two copies come near each other, whatever their shapes: the
// circles round them keep the clearance. From there a descent always ends with copies apart, which across mirrors it
// may never do from a start in which a long body lies over its own image. False where what is held leaves no such
// start.
func (s *setting) throwApart(rng *rand.Rand) (y []float64, hands []int, ok bool) {
	if s.question.Find == Evenest {
		return nil, nil, false
	}
	for _, p := range s.motifs {
		if p.heldPlace {
			return nil, nil, false
		}
	}
	least := math.Inf(1)
	for range spreadTries {
		z, h := s.throw(rng, mostCover)
		if f := s.spread(z); f*f*area(z) < least {
			least, y, hands = f*f*area(z), z, h
		}
	}
	if math.IsInf(least, 1) {
		return nil, nil, false
	}
	f := spreadAir * s.spread(y)
	for i := range y {
		turn := i >= perField && (i-perField)%perMotif == 2
		if !turn && (i != clearance || s.question.Find == Largest) {
			y[i] *= f
		}
	}
	return y, hands, true
}

// spread returns by how much a configuration's cell must grow, and places with it, for the circles round all copies
// to keep the clearance; infinite where two copies have one middle.
func (s *setting) spread(y []float64) float64 {
	most := 0.0
	for i := range s.motifs {
		for j := i; j < len(s.motifs); j++ {
			need, grows := s.motifs[i].coarse[0].reach+s.motifs[j].coarse[0].reach, 0.0
			if s.question.Find == Largest {
				grows = y[clearance]
			} else {
				need += y[clearance]
			}
			s.space.images(y, i, j, func(far float64) {
				if far <= grows {
					most = math.Inf(1)
				} else {
					most = max(most, need/(far-grows))
				}
			})
		}
	}
	return most
}
