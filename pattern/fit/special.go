package fit

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// site is a special position: a motif there is its own image under some operations, and stays so.
type site struct {
	at    orb.Point // of the middle of the body, in cell coordinates
	along orb.Point // the direction of the mirror it may move along; zero at a rotation point
	fixed bool      // a mirror goes through it, so that it cannot turn
	same  int       // operations that leave it alone, the identity among them
}

// findSpecial finds the motifs that lie in special positions, and the pairs of a motif and itself that are no two
// copies.
func (s *setting) findSpecial() error {
	d := s.question.Draft
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		return err
	}
	for i, o := range l.Orbits {
		if o.SameAs >= 0 {
			return fmt.Errorf("motifs[%d]: it lies where a copy of motifs[%d] lies already; take one of them away", i,
				o.SameAs)
		}
		if len(o.Images) == len(s.group.Ops) {
			continue
		}
		middle := o.Place.Apply(geometry.Centroid(o.Bare.Outline()))
		shape := o.Bare.Place(o.Place, nil)
		v := site{same: 1, along: orb.Point{math.Inf(1)}}
		back, _ := l.Cell.Basis().Inverse()
		v.at = back.Vector(middle)
		for k := range s.group.Ops {
			image := l.Op(k, 0, 0).After(o.Place)
			m, n := l.NearestCell(geometry.Sub(middle, image.Apply(geometry.Centroid(o.Bare.Outline()))))
			if k == 0 || !geometry.SameWithin(o.Bare.Place(l.Op(k, m, n).After(o.Place), nil), shape,
				2*pattern.SameSlack) {
				continue
			}
			v.same++
			s.space.apart[own{i, k, m, n}] = true
			v.meet(s.space.columns[k])
		}
		if v.same > 1 {
			if math.IsInf(v.along[0], 1) {
				v.along = orb.Point{}
			}
			s.special[i] = &v
		}
	}
	return nil
}

// meet takes an operation with the given linear part, that goes through the site, into account.
func (v *site) meet(columns [2]orb.Point) {
	if geometry.Cross(columns[0], columns[1]) > 0 {
		v.along = orb.Point{} // a rotation point
		return
	}
	v.fixed = true
	// A mirror's direction is the sum of a vector and its image, of whichever comes out longer.
	d := geometry.Add(columns[0], orb.Point{1, 0})
	if e := geometry.Add(columns[1], orb.Point{0, 1}); geometry.Dot(e, e) > geometry.Dot(d, d) {
		d = e
	}
	d = geometry.Unit(d)
	switch {
	case math.IsInf(v.along[0], 1):
		v.along = d
	case math.Abs(geometry.Cross(v.along, d)) > 1e-9:
		v.along = orb.Point{} // two mirrors cross
	}
}

// imagesOf returns how many different copies of a motif a cell holds.
func (s *setting) imagesOf(i int) int {
	if v := s.special[i]; v != nil {
		return len(s.group.Ops) / v.same
	}
	return len(s.group.Ops)
}

func (s *setting) turnFixed(i int) bool { return s.special[i] != nil && s.special[i].fixed }

// placeSpecial lets a motif in a special position go with the cell, and along its mirror; false in general position.
func (s *setting) placeSpecial(i int) bool {
	v, at := s.special[i], place(i)
	if v == nil {
		return false
	}
	for _, f := range s.space.free {
		p := inCell(f, v.at)
		f[at], f[at+1] = p[0], p[1]
	}
	if v.along != (orb.Point{}) {
		s.space.let(float64(at), v.along[0], float64(at+1), v.along[1])
	}
	return true
}

// inCell returns the point at cell coordinates p of a configuration's cell.
func inCell(y []float64, p orb.Point) orb.Point {
	return orb.Point{p[0]*y[sideA] + p[1]*y[acrossB], p[1] * y[upB]}
}

// throwSpecial puts a motif in a special position at a random place along its mirror; false in general position.
func (s *setting) throwSpecial(y []float64, i int, u float64) bool {
	v, at := s.special[i], place(i)
	if v == nil {
		return false
	}
	p := geometry.Add(inCell(y, v.at), geometry.Times(v.along, (u-0.5)*(y[sideA]+y[upB])))
	y[at], y[at+1] = p[0], p[1]
	return true
}
