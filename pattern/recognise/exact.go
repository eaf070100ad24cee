package recognise

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// op is an operation found: in cell coordinates x' = w·x + t.
type op struct {
	motion
	t orb.Point
}

// group is an exact plane group: in cell coordinates from its origin, operation i is x' = wᵢ·x + kᵢ/n, n being the
// number of operations.
type group struct {
	basis  basis
	origin orb.Point // in cell coordinates
	ops    []matrix
	k      [][2]int
}

// group finds the operations that carry the set to itself, one for each motion of the lattice that has one, and settles
// them. Within the tolerances what was found need not be closed: then the largest part that is counts.
func (f *field) group() group {
	var found []op
	a, like := f.anchor()
	for _, m := range f.basis.holohedry() {
		if m.w == unit {
			found = append(found, op{m, orb.Point{}})
			continue
		}
		for _, q := range like {
			g, ok := f.placed(moved(m.r, geometry.Sub(f.pieces[q].at, m.r.Apply(f.pieces[a].at))))
			if !ok {
				continue
			}
			if _, ok := f.carries(g); ok {
				found = append(found, op{m, f.basis.fraction(orb.Point{g.X, g.Y})})
				break
			}
		}
	}

	return settled(f.basis, found, f.refuted)
}

// settled returns the largest exact group of operations found, the unit among them, that is not refuted.
func settled(b basis, found []op, refuted func(group, []op) int) group {
	for { // each round but the last takes an operation out; the unit alone always is one
		part := largest(found)
		g, bad := exactGroup(b, part)
		if bad < 0 {
			bad = refuted(g, part)
		}
		if bad < 0 {
			return g
		}
		found = slices.DeleteFunc(found, func(o op) bool { return o.w == part[bad].w })
	}
}

// largest returns the largest part of the operations whose matrices form a group. Two of them generate every point
// group of the plane.
func largest(ops []op) []op {
	have := map[matrix]int{}
	for i, o := range ops {
		have[o.w] = i
	}
	best := []matrix{unit}
	for _, x := range ops {
		for _, y := range ops {
			if part, ok := closure(x.w, y.w, have); ok && len(part) > len(best) {
				best = part
			}
		}
	}
	out := make([]op, 0, len(best))
	for _, w := range best {
		out = append(out, ops[have[w]])
	}
	return out
}

// closure returns the group that x and y generate, false when it has more than twelve elements or leaves have.
func closure(x, y matrix, have map[matrix]int) ([]matrix, bool) {
	out := []matrix{unit}
	for i := 0; i < len(out); i++ {
		for _, by := range [2]matrix{x, y} {
			w := out[i].times(by)
			if slices.Contains(out, w) {
				continue
			}
			if _, ok := have[w]; !ok || len(out) == 12 {
				return nil, false
			}
			out = append(out, w)
		}
	}
	return out, true
}

// exactGroup makes the operations an exact group. With o the mean of all n translations t, in any choice of lattice
// vectors, t_u = (1−u)·o + k_u/n with k_u whole: summing t_uv = t_u + u·t_v + (a lattice vector) over all v gives n·t_u
// = (1−u)·n·o + (a lattice vector). So o is an origin from which the translations are n-th parts, and these are rounded
// to what they must be. When the rounded ones do not multiply as their matrices do, bad is the operation that was
// rounded most; else −1.
func exactGroup(b basis, ops []op) (g group, bad int) {
	n := len(ops)
	g = group{basis: b}
	place := map[matrix]int{}
	for i, o := range ops {
		g.origin = geometry.Add(g.origin, times(1/float64(n), o.t))
		place[o.w] = i
	}
	worst, off := 0, -1.0
	for i, o := range ops {
		t := times(float64(n), geometry.Sub(o.t, geometry.Sub(g.origin, o.w.applyTo(g.origin))))
		k := orb.Point{math.Round(t[0]), math.Round(t[1])}
		if d := geometry.PointDistance(t, k); d > off && o.w != unit {
			worst, off = i, d
		}
		g.ops = append(g.ops, o.w)
		g.k = append(g.k, [2]int{int(k[0]), int(k[1])})
	}

	for i, u := range g.ops {
		for j, v := range g.ops {
			k, uk := g.k[place[u.times(v)]], u.apply(g.k[j])
			if (k[0]-g.k[i][0]-uk[0])%n != 0 || (k[1]-g.k[i][1]-uk[1])%n != 0 {
				return g, worst
			}
		}
	}
	return g, -1
}

// refuted returns the first operation of an exact group that does not carry the set to itself, −1 when all do.
func (f *field) refuted(g group, ops []op) int {
	for i, o := range ops {
		if o.w == unit {
			continue
		}
		if _, ok := f.carries(moved(o.r, f.basis.at(g.translation(i)))); !ok {
			return i
		}
	}
	return -1
}

// translation returns the translation of operation i in cell coordinates: x' = wᵢ·x + translation.
func (g group) translation(i int) orb.Point {
	return geometry.Add(g.fraction(i), geometry.Sub(g.origin, g.ops[i].applyTo(g.origin)))
}

// fraction returns the translation of operation i from the group's origin, in cell coordinates.
func (g group) fraction(i int) orb.Point {
	n := float64(len(g.ops))
	return orb.Point{float64(g.k[i][0]) / n, float64(g.k[i][1]) / n}
}
