package panel

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// lessTies takes the field's ties off the pieces they meet. What a piece falls into becomes pieces of the same copy;
// one that a tie covers is gone. Ties repeat as the copies do, so that pieces that are translates of each other are cut
// once.
func lessTies(l *pattern.Layout, all []piece) ([]piece, error) {
	if !hasFieldTies(l) || len(all) == 0 {
		return all, nil
	}
	window := all[0].bound
	for _, p := range all {
		window = window.Union(p.bound)
	}
	rects, err := l.TiesIn(window)
	if err != nil {
		return nil, err
	}
	ties := newStrips(rects)
	known := map[pieceKey][]*geometry.Shape{}
	out := make([]piece, 0, len(all))
	for _, p := range all {
		parts, ok := known[p.key]
		if !ok || !p.whole {
			if parts, err = ties.takenOff(&p); err != nil {
				return nil, fmt.Errorf("the ties on copy %d could not be taken off its opening: %w", p.copy, err)
			}
			if p.whole {
				known[p.key] = parts
			}
		}
		if len(parts) == 1 && parts[0] == p.shape {
			out = append(out, p)
			continue
		}
		for k, s := range parts {
			b := s.Bound()
			b.Min = orb.Point{b.Min[0] + p.shift[0], b.Min[1] + p.shift[1]}
			b.Max = orb.Point{b.Max[0] + p.shift[0], b.Max[1] + p.shift[1]}
			key := p.key
			key.part = k + 1
			out = append(out, piece{copy: p.copy, shape: s, shift: p.shift, whole: p.whole, cut: true, key: key,
				bound: b})
		}
	}
	return out, nil
}

func hasFieldTies(l *pattern.Layout) bool {
	return slices.ContainsFunc(l.Draft.Ties, func(t draft.Tie) bool { return t.Silhouette == "" })
}

// takenOff returns what ties leave of a piece, in the piece's own frame: its own shape where none meets it.
func (s *strips) takenOff(p *piece) ([]*geometry.Shape, error) {
	cut := s.meeting(p)
	if len(cut) == 0 {
		return []*geometry.Shape{p.shape}, nil
	}
	back := geometry.Translate(-p.shift[0], -p.shift[1])
	rest, err := overlay.Difference(p.shape.Outline(), geometry.Transform(cut, back))
	if err != nil {
		return nil, err
	}
	var out []*geometry.Shape
	for _, q := range rest {
		out = append(out, geometry.NewShape(orb.MultiPolygon{q}))
	}
	return out, nil
}

// strips are the rectangles of ties by their left sides.
type strips struct {
	rects  []orb.Polygon
	bounds []orb.Bound
	widest float64
}

func newStrips(rects []orb.Polygon) *strips {
	sort.SliceStable(rects, func(i, j int) bool { return rects[i].Bound().Min[0] < rects[j].Bound().Min[0] })
	s := &strips{rects: rects}
	for _, r := range rects {
		b := r.Bound()
		s.bounds = append(s.bounds, b)
		s.widest = math.Max(s.widest, b.Max[0]-b.Min[0])
	}
	return s
}

// meeting returns the rectangles that have a point in common with a piece.
func (s *strips) meeting(p *piece) (out orb.MultiPolygon) {
	from := sort.Search(len(s.bounds), func(i int) bool { return s.bounds[i].Min[0] >= p.bound.Min[0]-s.widest })
	for i := from; i < len(s.bounds) && s.bounds[i].Min[0] <= p.bound.Max[0]; i++ {
		if s.bounds[i].Intersects(p.bound) && meets(p.shape, p.shift, s.rects[i]) {
			out = append(out, s.rects[i])
		}
	}
	return out
}

// meets reports whether a polygon without holes meets a shape moved by shift; touching counts.
func meets(s *geometry.Shape, shift orb.Point, p orb.Polygon) bool {
	q := geometry.NewShape(orb.MultiPolygon{p})
	return geometry.Distance(q, s, shift, touchSlack).Found || geometry.Inside(q, s, shift)
}
