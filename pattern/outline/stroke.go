package outline

import (
	"fmt"
	"math"

	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

// pen says how a stroke is drawn, in user units.
type pen struct {
	width     float64
	cap, join string
	miter     float64
}

// stroked returns what a shape's stroke covers: the union of a rectangle along each straight piece, a wedge at each
// join, and the caps (SVG 2, section 13.4.5 and 13.5), made in user units and mapped.
func (c *composer) stroked(s shape) (orb.MultiPolygon, error) {
	stretch := s.m.stretch()
	if !(stretch > 0) {
		return nil, nil
	}
	parts, err := s.c.flatten(unity, c.tolerance/stretch, c.budget)
	if err != nil {
		return nil, err
	}
	if err := tangled(rings(parts), maxCrossings); err != nil {
		return nil, notMadeOut(err)
	}
	k := &stroker{pen: s.pen, r: s.pen.width / 2, m: s.m, tolerance: c.tolerance / stretch}
	for _, l := range parts {
		k.line(l)
	}
	if *c.budget -= k.points; *c.budget < 0 {
		return nil, fmt.Errorf("has more than %d points", maxPoints)
	}
	mp, err := overlay.Positive(k.rings)
	if err != nil {
		return nil, notMadeOut(err)
	}
	return mp, nil
}

// stroker gathers the convex pieces of a stroke, each counter-clockwise in mm.
type stroker struct {
	pen       pen
	r         float64 // half the width
	m         matrix
	tolerance float64
	rings     []orb.Ring
	points    int
}

// piece adds a convex polygon given in user units.
func (k *stroker) piece(p ...[2]float64) {
	r := make(orb.Ring, 0, len(p)+1)
	for _, v := range p {
		r = append(r, k.m.apply(v))
	}
	r = append(r, r[0])
	if area(r) < 0 {
		r = backward(r)
	}
	k.points += len(p)
	k.rings = append(k.rings, r)
}

// line draws one part of a path.
func (k *stroker) line(l polyline) {
	var p [][2]float64
	for _, v := range l.p {
		if len(p) == 0 || p[len(p)-1] != v {
			p = append(p, v)
		}
	}
	closed := l.closed
	if closed && len(p) > 1 && p[0] == p[len(p)-1] {
		p = p[:len(p)-1]
	}
	if len(p) == 1 { // a point has caps only, and no butt ones
		if k.pen.cap == "round" {
			k.round(p[0])
		} else if k.pen.cap == "square" {
			k.square(p[0], [2]float64{k.r, 0})
			k.square(p[0], [2]float64{-k.r, 0})
		}
		return
	}
	n := len(p)
	edges := n - 1
	if closed {
		edges = n
	}
	dir := make([][2]float64, edges) // along each piece, as long as half the width
	for i := range edges {
		a, b := p[i], p[(i+1)%n]
		d := math.Hypot(b[0]-a[0], b[1]-a[1])
		dir[i] = [2]float64{(b[0] - a[0]) / d * k.r, (b[1] - a[1]) / d * k.r}
		x, y := -dir[i][1], dir[i][0]
		k.piece([2]float64{a[0] - x, a[1] - y}, [2]float64{b[0] - x, b[1] - y}, [2]float64{b[0] + x, b[1] + y}, [2]float64{a[0] + x, a[1] + y})
		if i > 0 {
			k.join(a, dir[i-1], dir[i])
		}
	}
	if closed {
		k.join(p[0], dir[edges-1], dir[0])
		return
	}
	for _, end := range []struct{ at, out [2]float64 }{
		{p[0], [2]float64{-dir[0][0], -dir[0][1]}}, {p[n-1], dir[edges-1]},
	} {
		switch k.pen.cap {
		case "round":
			k.round(end.at)
		case "square":
			k.square(end.at, end.out)
		}
	}
}

// join fills the gap on the outer side of a turn from d to e at p.
func (k *stroker) join(p, d, e [2]float64) {
	cross, dot := d[0]*e[1]-d[1]*e[0], d[0]*e[0]+d[1]*e[1]
	if cross == 0 && dot > 0 {
		return
	}
	if k.pen.join == "round" {
		k.round(p)
		return
	}
	side := -1.0 // the outer side lies to the right of a left turn
	if cross < 0 {
		side = 1
	}
	a := [2]float64{p[0] - side*d[1], p[1] + side*d[0]}
	b := [2]float64{p[0] - side*e[1], p[1] + side*e[0]}
	// The miter's length, in widths, is 1/sin of half the angle between the pieces: sin² = (1 + cos of the turn)/2.
	if half := math.Sqrt(math.Max(0, (1+dot/(k.r*k.r))/2)); k.pen.join != "bevel" && half*k.pen.miter >= 1 && half > 0 {
		mx, my := (a[0]+b[0])/2-p[0], (a[1]+b[1])/2-p[1]
		if l := mx*mx + my*my; l > 0 {
			t := k.r * k.r / l
			k.piece(p, a, [2]float64{p[0] + mx*t, p[1] + my*t}, b)
			return
		}
	}
	k.piece(p, a, b)
}

// round adds a full circle.
func (k *stroker) round(p [2]float64) {
	n := 8
	if k.tolerance < k.r {
		n = max(8, int(math.Ceil(math.Pi/math.Acos(1-k.tolerance/k.r))))
	}
	n = min(n, maxPieces)
	c := make([][2]float64, n)
	for i := range c {
		s, o := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		c[i] = [2]float64{p[0] + k.r*o, p[1] + k.r*s}
	}
	k.piece(c...)
}

// square adds half a square beyond the end of a line.
func (k *stroker) square(p, out [2]float64) {
	x, y := -out[1], out[0]
	k.piece([2]float64{p[0] - x, p[1] - y}, [2]float64{p[0] - x + out[0], p[1] - y + out[1]},
		[2]float64{p[0] + x + out[0], p[1] + y + out[1]}, [2]float64{p[0] + x, p[1] + y})
}
