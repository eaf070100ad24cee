package simplify

import (
	"math"

	"github.com/paulmach/orb"
)

// place puts the joins between spans where the whole ring of edges fits the runs best: least squares of the distance
// from each point of a run to the edge that draws it. A join moves from its point of the ring across the ring, by no
// more than the tolerance; sharp corners and the ends of refined spans stay where they are.
//
// The sum of the distances, each with its sign, is zero at the best place, and with it, all but for the turns between
// edges, the difference of the areas. What is left of that, all joins that may move share by moving alike.
func (f *fit) place() {
	n := len(f.spans)
	f.joins, f.missing = f.joins[:0], 0
	for k, s := range f.spans {
		v := f.p[s.i]
		if s.sharp && s.level == 0 && f.spans[(k+n-1)%n].level == 0 {
			v = s.at
		}
		f.joins = append(f.joins, v)
	}
	if n < 3 {
		return
	}
	across := make([]orb.Point, n) // unit vectors; 0, 0 for a join that stays
	for k, s := range f.spans {
		before := f.spans[(k+n-1)%n]
		if s.level > 0 || before.level > 0 || s.sharp || f.stays(s.i) {
			continue
		}
		u, v := f.leftOf(k), f.leftOf((k+n-1)%n)
		x, y := u[0]+v[0], u[1]+v[1]
		if d := math.Hypot(x, y); d > parallel {
			across[k] = orb.Point{x / d, y / d}
		}
	}

	// The equations: by[k]·t[k] = rhs[k] − next[k−1]·t[k−1] − next[k]·t[k+1], t how far join k moves.
	by, next, rhs := make([]float64, n), make([]float64, n), make([]float64, n)
	for k, s := range f.spans {
		if s.level > 0 {
			continue
		}
		e, to := f.pull(k), (k+1)%n
		normal := f.leftOf(k)
		alpha := across[k][0]*normal[0] + across[k][1]*normal[1]
		beta := across[to][0]*normal[0] + across[to][1]*normal[1]
		by[k] += alpha * alpha * e.aa
		by[to] += beta * beta * e.bb
		next[k] = alpha * beta * e.ab
		rhs[k] += alpha * e.a
		rhs[to] += beta * e.b
	}

	t := make([]float64, n)
	for range sweeps {
		for k := range t {
			if by[k] > 0 {
				before := (k + n - 1) % n
				v := (rhs[k] - next[before]*t[before] - next[k]*t[(k+1)%n]) / by[k]
				t[k] = math.Max(-f.o.Tolerance, math.Min(f.o.Tolerance, v))
			}
		}
	}

	from := append([]orb.Point(nil), f.joins...)
	move := func() {
		for k := range f.joins {
			f.joins[k] = orb.Point{from[k][0] + t[k]*across[k][0], from[k][1] + t[k]*across[k][1]}
		}
	}
	move()

	for range areaRounds {
		// The area changes by this much for each mm that join k moves.
		sum := 0.0
		for k := range t {
			p, q := f.joins[(k+n-1)%n], f.joins[(k+1)%n]
			sum += (across[k][1]*(p[0]-q[0]) - across[k][0]*(p[1]-q[1])) / 2
		}
		if math.Abs(sum) < parallel {
			return
		}
		f.missing = f.areaMissing()
		by := math.Max(-f.o.Tolerance/4, math.Min(f.o.Tolerance/4, f.missing/sum))
		for k := range t {
			t[k] = math.Max(-f.o.Tolerance, math.Min(f.o.Tolerance, t[k]+by))
		}
		move()
	}
	f.missing = f.areaMissing()
}

// areaMissing returns the area that the answer must still gain to have the ring's, with the tips of the corners that
// have been put back.
func (f *fit) areaMissing() float64 {
	n := len(f.spans)
	missing := f.area - ringArea(f.drawnPoints())
	for k, s := range f.spans {
		before := f.spans[(k+n-1)%n]
		if f.joins[k] != s.at || !s.sharp || before.level > 0 || s.level > 0 {
			continue
		}
		tip := []orb.Point{s.at, f.p[s.a]}
		for m, i := f.steps(before.b, s.a), s.a; m > 0; m-- {
			i = f.step(i, -1)
			tip = append(tip, f.p[i])
		}
		missing += ringArea(tip)
	}
	return missing
}

// drawnPoints returns the corners of the answer before they are snapped.
func (f *fit) drawnPoints() []orb.Point {
	var out []orb.Point
	for k, s := range f.spans {
		out = append(out, f.joins[k])
		if s.level > 0 {
			f.chords(s, func(i int) { out = append(out, f.p[i]) })
		}
	}
	return out
}

// leftOf returns the unit normal to the left of the chord of span k, from where it begins to where the next begins.
func (f *fit) leftOf(k int) orb.Point {
	p, q := f.joins[k], f.joins[(k+1)%len(f.joins)]
	d := math.Hypot(q[0]-p[0], q[1]-p[1])
	if d == 0 {
		return orb.Point{}
	}
	return orb.Point{-(q[1] - p[1]) / d, (q[0] - p[0]) / d}
}

// pulls holds integrals along a run: with u from 0 to 1 along its chord and c the distance to the left of it, of
// (1−u)², u(1−u), u², c(1−u) and cu.
type pulls struct{ aa, ab, bb, a, b float64 }

// pull returns the integrals for span k.
func (f *fit) pull(k int) pulls {
	s := f.spans[k]
	p, q := f.joins[k], f.joins[(k+1)%len(f.joins)]
	l := math.Hypot(q[0]-p[0], q[1]-p[1])
	if l == 0 {
		return pulls{}
	}
	dx, dy := (q[0]-p[0])/l, (q[1]-p[1])/l
	m := f.between(s.a, s.b).about(p[0]-f.p[0][0], p[1]-f.p[0][1])
	u := (dx*m.x + dy*m.y) / l
	uu := (dx*dx*m.xx + 2*dx*dy*m.xy + dy*dy*m.yy) / (l * l)
	c := dx*m.y - dy*m.x
	cu := (dx*dx*m.xy + dx*dy*m.yy - dx*dy*m.xx - dy*dy*m.xy) / l
	return pulls{m.l - 2*u + uu, u - uu, uu, c - cu, cu}
}

// about returns the moments about another point.
func (m moments) about(x, y float64) moments {
	return moments{m.l, m.x - x*m.l, m.y - y*m.l,
		m.xx - 2*x*m.x + x*x*m.l, m.xy - x*m.y - y*m.x + x*y*m.l, m.yy - 2*y*m.y + y*y*m.l}
}
