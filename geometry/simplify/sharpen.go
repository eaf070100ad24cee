package simplify

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// sharpen puts back corners that the blur has rounded: where two long runs are joined by nothing, or by a few short
// ones, and the ring in between is no further from where their lines meet than a blurred sharp corner would be, the
// short ones are dropped and the two lines carried on.
//
// The tip of an angle φ that was blurred with standard deviation b retreats, along the line that halves the angle, by
// quartile·b/tan(φ/2): where the angle is 2·quartile·b wide. (For a strip of that width it is exact; integrating the
// blurred angle itself gives 2 % more at 20° and 14 % more at 90°.)
func (f *fit) sharpen() {
	if f.o.Blur == 0 || len(f.spans) < 3 || len(f.p) < 4 {
		return
	}
	for between := range maxRound + 1 {
		for k := 0; k < len(f.spans) && len(f.spans)-between >= 3; k++ {
			f.sharpenAt(k, between)
		}
	}
	f.rejoin()
}

// rejoin joins neighbouring runs again that now, without the corners that parted them, lie along one line.
func (f *fit) rejoin() {
	limit := fitShare * f.o.Tolerance
	for k := 0; k < len(f.spans) && len(f.spans) > 3; k++ {
		next := (k + 1) % len(f.spans)
		a, b := f.spans[k], f.spans[next]
		if b.sharp || f.stays(b.i) || f.steps(a.i, a.j)+f.steps(b.i, b.j) >= len(f.p) {
			continue
		}
		m := f.between(a.a, b.b)
		l := f.lineThrough(a.a, b.b)
		ok := m.residual() <= limit*limit*m.l
		for i := a.a; ok && i != b.b; i = f.step(i, 1) {
			ok = math.Abs(l.off(f.p[i])) <= rejoinShare*f.o.Tolerance
		}
		if !ok {
			continue
		}
		a.j, a.b, a.line = b.j, b.b, l
		f.spans[k] = a
		f.spans = slices.Delete(f.spans, next, next+1)
		k = max(-1, k-2)
	}
}

// sharpenAt tries the corner between span k and the one after `between` short ones.
func (f *fit) sharpenAt(k, between int) {
	next := (k + between + 1) % len(f.spans)
	a, b := f.spans[k], f.spans[next]
	blur := f.o.Blur
	if f.length(a.i, a.j) < shortestFlank*blur || f.length(b.i, b.j) < shortestFlank*blur ||
		between > 0 && f.length(a.j, b.i) > longestRound*(blur+f.o.Tolerance) {
		return
	}
	for m := 1; m <= between+1; m++ {
		if f.stays(f.spans[(k+m)%len(f.spans)].i) {
			return
		}
	}
	var x orb.Point
	for range sharpenRounds { // the trimming wants the lines and the place, these want the trimming
		turn := math.Abs(a.line.turn(b.line))
		meet, ok := a.line.meet(b.line)
		if !ok || turn < bluntest || turn > sharpest {
			return
		}
		x = meet
		a.b, b.a = f.trim(a.j, a.a, -1, b.line), f.trim(b.i, b.b, 1, a.line)
		a.line, b.line = f.side(a.b, a.a, -1, x), f.side(b.a, b.b, 1, x)
	}

	if !ahead(f.p[a.b], x, a.line) || !ahead(x, f.p[b.a], b.line) {
		return
	}
	tip, reach := f.nearest(x, a.b, b.a)
	angle := math.Pi - math.Abs(a.line.turn(b.line))
	if tip == a.b || tip == b.a || reach > retreatFactor*quartile*blur/math.Tan(angle/2)+retreatSlack*blur {
		return
	}
	a.j, b.i = tip, tip
	b.sharp, b.at, b.reach = true, x, reach
	f.spans[k], f.spans[next] = a, b
	if next > k {
		f.spans = slices.Delete(f.spans, k+1, next)
	} else {
		f.spans = slices.Delete(f.spans[:k+1], 0, next)
	}
}

// trim goes from the point at one end of a side towards the other, in steps of dir, past what lies so near to the other
// side's line that the blur has bent it; but it leaves shortestFlank/2 of the blur, and at least two edges.
func (f *fit) trim(from, to, dir int, other line) int {
	for k := from; ; k = f.step(k, dir) { // ends: the steps left grow fewer
		a, b := inOrder(k, to, dir)
		if math.Abs(other.off(f.p[k])) >= flankClear*f.o.Blur || f.length(a, b) < shortestFlank/2*f.o.Blur ||
			f.steps(a, b) <= 2 {
			return k
		}
	}
}

// side returns the line of a side near x, where the side is to be carried on to. The side runs from the point at the
// corner's end to another, which lies in direction dir along the ring. It is the line that fits it all; or, where the
// side is bent, so that a part near the corner is markedly straighter, the tangent nearest to x of the parabola that
// fits that part best.
func (f *fit) side(from, to, dir int, x orb.Point) line {
	near := from
	for near != to { // ends: it comes nearer to the other end
		if a, b := inOrder(from, near, dir); near != from && f.length(a, b) >= nearFlank*f.o.Blur {
			break
		}
		near = f.step(near, dir)
	}
	a, b := inOrder(from, to, dir)
	half := f.step(from, dir*(f.steps(a, b)/2))
	if half == from {
		return f.lineThrough(a, b)
	}
	c, d := inOrder(from, half, dir)
	all, part := f.between(a, b), f.between(c, d)
	if all.residual()*part.l <= bent*bent*part.residual()*all.l ||
		all.residual() <= minBend*minBend*f.o.Blur*f.o.Blur*all.l {
		return f.lineThrough(a, b)
	}
	c, d = inOrder(from, near, dir)
	return f.tangent(c, d, x)
}

// tangent returns the tangent, nearest to x, of the parabola that fits the points a … b best, measured across the line
// that fits them best.
func (f *fit) tangent(a, b int, x orb.Point) line {
	l := f.lineThrough(a, b)
	n := f.steps(a, b)
	if n < 4 {
		return l
	}
	along := func(v orb.Point) float64 { return (v[0]-l.on[0])*l.dir[0] + (v[1]-l.on[1])*l.dir[1] }

	// Least squares of c0 + c1·u + c2·u², by orthogonal polynomials 1, u − m, and (u − m)² less its own best line.
	var m, s2, s3 float64
	for k := range n + 1 {
		m += along(f.p[f.step(a, k)]) / float64(n+1)
	}
	for k := range n + 1 {
		u := along(f.p[f.step(a, k)]) - m
		s2 += u * u
		s3 += u * u * u
	}
	q := func(u float64) float64 { return u*u - s3/s2*u - s2/float64(n+1) }
	var c0, c1, c2, qq float64
	for k := range n + 1 {
		v := f.p[f.step(a, k)]
		u, w := along(v)-m, l.off(v)
		c0 += w / float64(n+1)
		c1 += w * u / s2
		c2 += w * q(u)
		qq += q(u) * q(u)
	}

	if !(s2 > 0) || !(qq > 0) {
		return l
	}
	c2 /= qq
	u := along(x) - m
	height, slope := c0+c1*u+c2*q(u), c1+c2*(2*u-s3/s2)
	norm := math.Hypot(1, slope)
	dx, dy := l.dir[0], l.dir[1]
	return line{
		on:  orb.Point{l.on[0] + (u+m)*dx - height*dy, l.on[1] + (u+m)*dy + height*dx},
		dir: orb.Point{(dx - slope*dy) / norm, (dy + slope*dx) / norm},
	}
}

// inOrder returns two points of the ring in its direction: the second lies in direction dir of the first.
func inOrder(from, to, dir int) (a, b int) {
	if dir > 0 {
		return from, to
	}
	return to, from
}

// ahead says whether q lies ahead of p along the line.
func ahead(p, q orb.Point, l line) bool {
	return (q[0]-p[0])*l.dir[0]+(q[1]-p[1])*l.dir[1] > 0
}

// nearest returns the point of the run from i on to j that is nearest to x, and the distance of x from the run.
func (f *fit) nearest(x orb.Point, i, j int) (tip int, d float64) {
	best, d := math.Inf(1), math.Inf(1)
	for m, k := 0, i; m <= f.steps(i, j); m, k = m+1, f.step(k, 1) {
		v := f.p[k]
		if e := math.Hypot(v[0]-x[0], v[1]-x[1]); e < best {
			tip, best = k, e
		}
		if m < f.steps(i, j) {
			d = math.Min(d, toSegment(x, v, f.p[f.step(k, 1)]))
		}
	}
	return tip, math.Min(d, best)
}

// toSegment returns the distance of x from the segment a–b.
func toSegment(x, a, b orb.Point) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t, l := 0.0, dx*dx+dy*dy
	if l > 0 {
		t = ((x[0]-a[0])*dx + (x[1]-a[1])*dy) / l
		switch {
		case t < 0:
			t = 0
		case t > 1:
			t = 1
		}
	}
	ex, ey := a[0]+t*dx-x[0], a[1]+t*dy-x[1]
	return math.Sqrt(ex*ex + ey*ey)
}
