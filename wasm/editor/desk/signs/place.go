package signs

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/wasm/editor/desk/view"
)

// cells calls do for the cells whose signs are drawn.
func (all *Signs) cells(small bool, do func(m, n int) bool) {
	if small {
		for m := -1; m <= 1; m++ { // lines of the neighbours may cross the cell
			for n := -1; n <= 1; n++ {
				if !do(m, n) {
					return
				}
			}
		}
		return
	}

	l := all.desk.Layout()
	back := l.Draft.FieldMap().Rigid()
	w, f := all.view.Window(), l.Draft.FieldBound()
	b := orb.Bound{Min: orb.Point{math.Max(w.Min[0], f.Min[0]), math.Max(w.Min[1], f.Min[1])},
		Max: orb.Point{math.Min(w.Max[0], f.Max[0]), math.Min(w.Max[1], f.Max[1])}}
	if b.Min[0] >= b.Max[0] || b.Min[1] >= b.Max[1] {
		return
	}

	field := orb.Bound{Min: back.Apply(b.Min), Max: back.Apply(b.Min)}
	for _, p := range []orb.Point{b.Max, {b.Min[0], b.Max[1]}, {b.Max[0], b.Min[1]}} {
		field = field.Extend(back.Apply(p))
	}
	cell := orb.Bound{}.Extend(l.A).Extend(l.B).Extend(l.Lattice(1, 1))
	l.Cells(field, cell, do)
}

// corners returns the corners of the cell on the canvas, one after the other, CSS px.
func (all *Signs) corners() []orb.Point {
	l := all.desk.Layout()
	m := all.view.Map().After(l.Draft.FieldMap())
	return []orb.Point{m.Apply(orb.Point{}), m.Apply(l.A), m.Apply(l.Lattice(1, 1)), m.Apply(l.B)}
}

// Bound is where signs are drawn, in CSS px: the field as far as it is seen.
func (all *Signs) Bound() orb.Bound {
	m := all.view.Map()
	f := all.desk.Draft().FieldBound()
	b := orb.Bound{Min: m.Apply(f.Min), Max: m.Apply(f.Min)}.Extend(m.Apply(f.Max))
	b.Min = orb.Point{math.Max(b.Min[0], view.RulerLeft), math.Max(b.Min[1], view.RulerTop)}
	b.Max = orb.Point{math.Min(b.Max[0], all.view.Width), math.Min(b.Max[1], all.view.Height)}
	return b
}

// clip cuts the line through p and q to where signs are drawn: the cell's parallelogram, or the field.
func (all *Signs) clip(p, q orb.Point, small bool) (a, b orb.Point, ok bool) {
	var corners []orb.Point
	if small {
		corners = all.corners()
	} else {
		r := all.Bound()
		if r.Min[0] >= r.Max[0] || r.Min[1] >= r.Max[1] {
			return p, q, false
		}
		corners = []orb.Point{r.Min, {r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}}
	}

	d := orb.Point{q[0] - p[0], q[1] - p[1]}
	lo, hi := math.Inf(-1), math.Inf(1)
	turn := 0.0
	for i := range corners {
		u, v := corners[i], corners[(i+1)%4]
		turn += u[0]*v[1] - u[1]*v[0]
	}

	for i := range corners {
		u, v := corners[i], corners[(i+1)%4]
		nx, ny := -(v[1] - u[1]), v[0]-u[0] // points inward when the corners run with turn > 0
		if turn < 0 {
			nx, ny = -nx, -ny
		}
		side, rate := (p[0]-u[0])*nx+(p[1]-u[1])*ny, d[0]*nx+d[1]*ny
		slack := 1e-6 * math.Hypot(nx, ny) // a line along the edge belongs to it
		switch {
		case math.Abs(rate) < 1e-9*math.Hypot(nx, ny):
			if side < -slack {
				return p, q, false
			}
		case rate > 0:
			lo = math.Max(lo, -side/rate)
		default:
			hi = math.Min(hi, -side/rate)
		}
	}
	if !(hi-lo > 1e-6) || math.IsInf(hi-lo, 0) {
		return p, q, false
	}
	return orb.Point{p[0] + lo*d[0], p[1] + lo*d[1]}, orb.Point{p[0] + hi*d[0], p[1] + hi*d[1]}, true
}
