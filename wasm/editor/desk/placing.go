package desk

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// PlaceNew gives a new silhouette its first motif. In an empty draft the cell is set round it, wide enough for the
// group; otherwise the motif stands where the cell has most room.
func (s *Session) PlaceNew(c *pattern.Command, outline orb.MultiPolygon) {
	c.ID = "place"
	at := s.roomiest()
	c.Values = map[string]float64{"x": at[0], "y": at[1]}
	if len(s.Draft().Motifs) > 0 || s.layout == nil {
		return
	}

	b := outline.Bound()
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	air := 4 * s.Draft().Sheet.Bridge
	per := math.Sqrt(float64(len(s.layout.Group.Ops)))
	cell := pattern.Command{Name: "cell", Values: map[string]float64{
		"a": math.Ceil((w + air) * per), "b": math.Ceil((h + air) * per)}}
	if s.layout.Cell.A == s.layout.Cell.B {
		cell.Values = map[string]float64{"a": math.Ceil((math.Max(w, h) + air) * per)}
	}
	if s.Step(cell) == nil {
		s.LayOutAgain(false)
		at = s.roomiest()
		c.Values = map[string]float64{"x": at[0], "y": at[1]}
	}
}

// placeRoomy lets a command's motif stand where the cell has most room.
func (s *Session) placeRoomy(c *pattern.Command) {
	at := s.roomiest()
	c.Values = map[string]float64{"x": at[0], "y": at[1]}
}

// roomiest returns the place in the cell, in field mm, farthest from all copies and from the places where a copy would
// meet its own images. It looks at a grid of places, which is as fine as a first place needs to be.
func (s *Session) roomiest() orb.Point {
	l := s.layout
	if l == nil {
		return orb.Point{}
	}

	const steps = 16
	best, at := -1.0, orb.Point{}
	basis := l.Cell.Basis()
	for i := range steps {
		for j := range steps {
			p := basis.Apply(orb.Point{(float64(i) + 0.5) / steps, (float64(j) + 0.5) / steps})
			if d := s.roomAt(p); d > best {
				best, at = d, p
			}
		}
	}
	return orb.Point{geometry.Snap(at[0]), geometry.Snap(at[1])}
}

// roomAt returns how far a field point is from every copy, and half as far as it is from its own nearest image.
func (s *Session) roomAt(p orb.Point) float64 {
	l := s.layout
	room := math.Inf(1)
	for op := range l.Group.Ops {
		r := l.Op(op, 0, 0).Apply(p)
		m, n := l.NearestCell(orb.Point{p[0] - r[0], p[1] - r[1]})
		for _, o := range [][2]int{{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			v := l.Lattice(m+o[0], n+o[1])
			if d := math.Hypot(p[0]-r[0]-v[0], p[1]-r[1]-v[1]); op != 0 || m+o[0] != 0 || n+o[1] != 0 {
				room = math.Min(room, d/2)
			}
		}
	}

	for _, o := range l.Orbits {
		for _, image := range o.Images {
			l.Cells(orb.Bound{Min: p, Max: p}.Pad(room), image.Bound(), func(m, n int) bool {
				v := l.Lattice(m, n)
				q := orb.Point{p[0] - v[0], p[1] - v[1]}
				if image.Contains(q) {
					room = 0
					return false
				}
				if d, found := image.Distance(q, room+1e-9); found {
					room = math.Min(room, d)
				}
				return true
			})
		}
	}
	return room
}

// centred moves an outline so that its centre of area is the origin.
func centred(mp orb.MultiPolygon) orb.MultiPolygon {
	c := geometry.Centroid(mp)
	return geometry.Transform(mp, geometry.Translate(-geometry.Snap(c[0]), -geometry.Snap(c[1])))
}
