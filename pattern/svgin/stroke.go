package svgin

import (
	"errors"
	"math"
	"slices"

	"openwork/geometry"
	"openwork/geometry/fill"
	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

// pen says how a stroke is drawn, in user units.
type pen struct {
	width     float64
	cap, join string
	miter     float64
	dash      []float64 // lengths drawn and left out in turn; nil: drawn through
	from      float64   // where in them a line begins
	natural   float64   // what the path's length counts as for them; 0: what it is
	host      *matrix   // not nil: the width is in CSS pixels of the page, and this is their map to mm
}

// stroked returns what a shape's stroke covers: the union of strips along straight pieces, a wedge at each
// join, and the caps (SVG 2, section 13.4.5 and 13.5), made in user units and mapped.
func (c *composer) stroked(s shape) (orb.MultiPolygon, error) {
	if h := s.pen.host; h != nil {
		s.c, s.m = s.c.mapped(h.inverse().after(s.m)), *h
	}
	stretch := s.m.stretch()
	if !(stretch > 0) {
		return nil, nil
	}
	tolerance := strokeShare * c.tolerance / stretch
	parts, err := s.c.flatten(unity, tolerance, maxReachMM/stretch, true, c.budget)
	if err != nil {
		return nil, err
	}
	if err := fill.CheckCrossings(rings(parts), fill.MaxCrossings); err != nil {
		return nil, notMadeOut(err)
	}
	if parts, err = s.pen.dashed(parts, &c.dashes); err != nil {
		return nil, err
	}
	k := &stroker{pen: s.pen, r: s.pen.width / 2, m: s.m, tolerance: tolerance}
	for _, l := range parts {
		k.line(l)
	}
	if c.pieces += k.points; c.pieces > maxStroked {
		return nil, errors.New("has more strokes, or more finely bent ones, than can be made out; simplify them first")
	}
	mp, err := k.united()
	if err != nil {
		return nil, notMadeOut(err)
	}
	return mp, nil
}

// stroker gathers the pieces of a stroke, none of which meets itself, each counter-clockwise in mm.
type stroker struct {
	pen       pen
	r         float64 // half the width
	m         matrix
	tolerance float64
	rings     []orb.Ring
	points    int
	tight     bool // the pen is wider than a bend
}

// united returns what the pieces cover. Where the pen is wider than a bend, all pieces of it cross each other, and
// there they are united a few at a time, neighbours first, so that what crosses within is gone before the next do.
func (k *stroker) united() (orb.MultiPolygon, error) {
	rings := k.rings
	for k.tight && len(rings) > fewPieces {
		var next []orb.Ring
		for few := range slices.Chunk(rings, fewPieces) {
			mp, err := overlay.Positive(few)
			if err != nil {
				return nil, err
			}
			next = append(next, geometry.Rings(mp)...)
		}
		if len(next) > len(rings)/2 {
			break
		}
		rings = next
	}
	return overlay.Positive(rings)
}

// fewPieces of a stroke cross so seldom that they are united at once.
const fewPieces = 8

// piece adds a polygon given in user units.
func (k *stroker) piece(p ...[2]float64) {
	r := make(orb.Ring, 0, len(p)+1)
	for _, v := range p {
		r = append(r, k.m.apply(v))
	}
	r = append(r, r[0])
	if geometry.RingArea(r) < 0 {
		r = geometry.Reversed(r)
	}
	k.points += len(p)
	k.rings = append(k.rings, r)
}

// line draws one part of a path.
func (k *stroker) line(l polyline) {
	var p [][2]float64
	var bend []bool
	for i, v := range l.p {
		if len(p) == 0 || p[len(p)-1] != v {
			p, bend = append(p, v), append(bend, l.bend[i])
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
			x, y := k.r, 0.0
			if l.along != (orb.Point{}) {
				x, y = k.r*l.along[0], k.r*l.along[1]
			}
			k.square(p[0], [2]float64{x, y})
			k.square(p[0], [2]float64{-x, -y})
		}
		return
	}

	n := len(p)
	edges := n - 1
	if closed {
		edges = n
	}
	dir := make([][2]float64, edges) // along each piece, as long as half the width
	long := make([]float64, edges)
	for i := range edges {
		a, b := p[i], p[(i+1)%n]
		long[i] = math.Hypot(b[0]-a[0], b[1]-a[1])
		dir[i] = [2]float64{(b[0] - a[0]) / long[i] * k.r, (b[1] - a[1]) / long[i] * k.r}
	}

	for i := 0; i < edges; {
		from, turned := i, 0.0
		left, right := [][2]float64{offset(p[i], dir[i], 1)}, [][2]float64{offset(p[i], dir[i], -1)}
		for i++; i < edges; i++ {
			half := math.Tan(turn(dir[i-1], dir[i]) / 2)
			bend[i] = bend[i] || math.Abs(turn(dir[i-1], dir[i])) < smoothTurn
			tight := k.r*math.Abs(half) > math.Min(long[i-1], long[i])/2
			k.tight = k.tight || bend[i] && k.r*math.Abs(half) > math.Max(long[i-1], long[i])/2
			if turned += math.Abs(turn(dir[i-1], dir[i])); !bend[i] || turned > stripTurn || tight {
				break
			}

			// The sides of two pieces meet at as much before or behind the joint as half the turn's tangent.
			q := offset(p[i], dir[i-1], 1)
			left = append(left, [2]float64{q[0] - half*dir[i-1][0], q[1] - half*dir[i-1][1]})
			q = offset(p[i], dir[i-1], -1)
			right = append(right, [2]float64{q[0] + half*dir[i-1][0], q[1] + half*dir[i-1][1]})
		}
		end := p[i%n]
		left, right = append(left, offset(end, dir[i-1], 1)), append(right, offset(end, dir[i-1], -1))
		slices.Reverse(left)
		k.piece(append(right, left...)...)
		if from > 0 {
			k.join(p[from], dir[from-1], dir[from], bend[from])
		}
	}

	if closed {
		k.join(p[0], dir[edges-1], dir[0], math.Abs(turn(dir[edges-1], dir[0])) < smoothTurn)
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

// stripTurn in radians is how far a strip of pieces may bend: no part of it meets another then.
const stripTurn = 0.5

// smoothTurn in radians is what a curve may turn by where it passes into the next one without a corner.
const smoothTurn = 0.02

// offset returns the point beside p, to the left of a direction or with side −1 to its right.
func offset(p, d [2]float64, side float64) [2]float64 {
	return [2]float64{p[0] - side*d[1], p[1] + side*d[0]}
}

// turn returns the angle from d to e in radians, to the left positive.
func turn(d, e [2]float64) float64 {
	return math.Atan2(d[0]*e[1]-d[1]*e[0], d[0]*e[0]+d[1]*e[1])
}

// join fills the gap on the outer side of a turn from d to e at p. Where a curve only bends, it is round whatever the
// pen says, and so is what passes through the other side when the pen is wider than the bend.
func (k *stroker) join(p, d, e [2]float64, bend bool) {
	cross, dot := d[0]*e[1]-d[1]*e[0], d[0]*e[0]+d[1]*e[1]
	if cross == 0 && dot > 0 {
		return
	}
	side := -1.0 // the outer side lies to the right of a left turn
	if cross < 0 {
		side = 1
	}
	a := [2]float64{p[0] - side*d[1], p[1] + side*d[0]}
	b := [2]float64{p[0] - side*e[1], p[1] + side*e[0]}
	if bend || k.pen.join == "round" {
		k.sector(p, [2]float64{a[0] - p[0], a[1] - p[1]}, math.Atan2(cross, dot))
		if bend && dot > 0 {
			k.piece(p, [2]float64{2*p[0] - a[0], 2*p[1] - a[1]}, [2]float64{2*p[0] - b[0], 2*p[1] - b[1]})
		}
		return
	}

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

// steps returns into how many straight pieces a turn by an angle is cut.
func (k *stroker) steps(angle float64) int {
	n := 1
	if k.tolerance < k.r {
		n = int(math.Ceil(math.Abs(angle) / 2 / math.Acos(1-k.tolerance/k.r)))
	}
	return max(1, min(n, maxPieces))
}

// sector adds what a radius sweeps that turns about p by an angle.
func (k *stroker) sector(p, radius [2]float64, angle float64) {
	n := k.steps(angle)
	c := [][2]float64{p}
	for i := range n + 1 {
		s, o := math.Sincos(angle * float64(i) / float64(n))
		c = append(c, [2]float64{p[0] + o*radius[0] - s*radius[1], p[1] + s*radius[0] + o*radius[1]})
	}
	k.piece(c...)
}

// round adds a full circle.
func (k *stroker) round(p [2]float64) {
	n := max(8, k.steps(2*math.Pi))
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
