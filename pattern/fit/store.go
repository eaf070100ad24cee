package fit

import (
	"math"
	"sync"

	"github.com/paulmach/orb"

	"openwork/geometry/simplify"
)

// bodyStore keeps the bodies of a question, so that its groups share them.
type bodyStore struct {
	mutex sync.Mutex
	made  map[bodyKey][2]*body
}

// bodyKey names a body: a silhouette, its scale and hand, whether its frame is the silhouette's own, and how far it
// will be asked.
type bodyKey struct {
	silhouette string
	scale      float64
	mirrored   bool
	still      bool
	clearance  float64
}

const (
	// coarseBy is how far the simplified outlines that a search begins with may stray, in parts of the reach.
	coarseBy = 0.015
	// fineBy is the same for the outlines that it ends with, where the silhouette has more points than a search can
	// carry; what that takes away or adds is made good by the exact check.
	fineBy = 0.0004
	// maxFinePoints is how many points an outline may have before it is simplified at the end too.
	maxFinePoints = 600
)

// of returns the body of an outline as it is, and one of few points.
func (s *bodyStore) of(key bodyKey, mp orb.MultiPolygon) (fine, coarse *body) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if b, ok := s.made[key]; ok {
		return b[0], b[1]
	}
	var filled orb.MultiPolygon
	points := 0
	for _, p := range mp {
		filled = append(filled, p[:1])
		points += len(p[0])
	}
	centre, angle := frameOf(filled, key.still)
	bound := filled.Bound()
	reach := math.Max(bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1]) / 2
	full := filled
	if points > maxFinePoints {
		full = simplified(filled, fineBy*reach)
	}
	fine = newBody(full, centre, angle, key.clearance)
	coarse = newBody(simplified(filled, coarseBy*reach), centre, angle, key.clearance)
	if s.made == nil {
		s.made = map[bodyKey][2]*body{}
	}
	s.made[key] = [2]*body{fine, coarse}
	return fine, coarse
}

// simplified returns an outline drawn with few points, or the outline itself where that fails.
func simplified(mp orb.MultiPolygon, tolerance float64) orb.MultiPolygon {
	few, err := simplify.Outline(mp, simplify.Options{Tolerance: tolerance})
	if err != nil || len(few) != len(mp) {
		return mp
	}
	return few
}

// sidesOf returns the directions of a body's longer sides, and how much longer than a disc it is, 1 for a disc.
func sidesOf(b *body) (directions []float64, elongation float64) {
	for _, e := range b.edges {
		if e.dx*e.dx+e.dy*e.dy > 0.04*b.reach*b.reach {
			directions = append(directions, math.Atan2(e.dy, e.dx))
		}
	}
	return directions, max(1, math.Pi*b.reach*b.reach/bodyArea(b))
}
