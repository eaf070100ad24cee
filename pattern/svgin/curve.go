package svgin

import (
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"
)

// segment is a part of a path in user units. Its kind is 'M', 'L', 'C' or 'Z'; p are the points after the current one:
// one, or for a cubic curve two control points and the end.
type segment struct {
	kind byte
	p    [3][2]float64
}

// curve is a path of straight and cubic pieces.
type curve []segment

func (c *curve) move(p [2]float64) { *c = append(*c, segment{kind: 'M', p: [3][2]float64{p}}) }
func (c *curve) line(p [2]float64) { *c = append(*c, segment{kind: 'L', p: [3][2]float64{p}}) }
func (c *curve) close()            { *c = append(*c, segment{kind: 'Z'}) }
func (c *curve) cubic(p, q, r [2]float64) {
	*c = append(*c, segment{kind: 'C', p: [3][2]float64{p, q, r}})
}

// quad appends a quadratic curve from p with control q to r, as the cubic it is.
func (c *curve) quad(p, q, r [2]float64) {
	c.cubic([2]float64{p[0] + 2./3*(q[0]-p[0]), p[1] + 2./3*(q[1]-p[1])},
		[2]float64{r[0] + 2./3*(q[0]-r[0]), r[1] + 2./3*(q[1]-r[1])}, r)
}

// arc appends an elliptical arc from p to q, by SVG 2, appendix B.2.4 and B.2.5: radii rx, ry, the ellipse turned by
// degrees. Each piece of at most 45° is replaced by a cubic that misses it by less than 5e-6 of its radius.
func (c *curve) arc(p [2]float64, rx, ry, degrees float64, large, sweep bool, q [2]float64) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if p == q {
		return
	}
	if rx == 0 || ry == 0 {
		c.line(q)
		return
	}
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	dx, dy := (p[0]-q[0])/2, (p[1]-q[1])/2
	x, y := cos*dx+sin*dy, -sin*dx+cos*dy
	if over := x*x/(rx*rx) + y*y/(ry*ry); over > 1 { // too small to reach: grown until they do
		rx, ry = rx*math.Sqrt(over), ry*math.Sqrt(over)
	}
	under := rx*rx*y*y + ry*ry*x*x
	k := math.Sqrt(math.Max(0, (rx*rx*ry*ry-under)/under))
	if large == sweep {
		k = -k
	}
	cx, cy := k*rx*y/ry, -k*ry*x/rx
	mx, my := cos*cx-sin*cy+(p[0]+q[0])/2, sin*cx+cos*cy+(p[1]+q[1])/2
	from := math.Atan2((y-cy)/ry, (x-cx)/rx)
	by := math.Atan2((-y-cy)/ry, (-x-cx)/rx) - from
	if sweep && by < 0 {
		by += 2 * math.Pi
	} else if !sweep && by > 0 {
		by -= 2 * math.Pi
	}
	if math.IsNaN(by) || math.IsInf(by, 0) {
		c.line(q)
		return
	}
	n := max(1, int(math.Ceil(math.Abs(by)/(math.Pi/4)-1e-9)))
	h := 4. / 3 * math.Tan(by/float64(n)/4)
	at := func(t, along float64) [2]float64 { // the ellipse at t, and on along its tangent
		s, o := math.Sincos(t)
		u, v := rx*(o-along*s), ry*(s+along*o)
		return [2]float64{mx + cos*u - sin*v, my + sin*u + cos*v}
	}
	for i := range n {
		t, u := from+by*float64(i)/float64(n), from+by*float64(i+1)/float64(n)
		end := at(u, 0)
		if i == n-1 {
			end = q
		}
		c.cubic(at(t, h), at(u, -h), end)
	}
}

// polyline is a flattened part of a path, in mm.
type polyline struct {
	p      []orb.Point
	bend   []bool    // the point stands within a curve, where the outline has no corner
	closed bool      // by a close command
	along  orb.Point // of a dash without length: the way it lies
}

// nearEnd of the first piece and of the last is what is cut off them to lie along a curve's end.
const nearEnd = 0.01

// flatten returns the path's parts under the map, each curve cut into so many straight pieces that none is further from
// it than tolerance: the second derivative of a cubic is at most six times its larger second difference d, so that n
// pieces miss it by at most 6·d/(8·n²). No coordinate may exceed reach, which stands for maxReachMM. With ends, a
// curve's first and last pieces are short, so that they lie along it there. budget counts points down.
func (c curve) flatten(m matrix, tolerance, reach float64, ends bool, budget *int) ([]polyline, error) {
	var out []polyline
	var start, at [2]float64
	open, moved := false, false // moved: nothing yet follows a move
	begin := func() {
		moved = false
		if !open {
			out = append(out, polyline{p: []orb.Point{at}, bend: []bool{false}})
			open = true
		}
	}
	add := func(p [2]float64, bend bool) error {
		if !(math.Abs(p[0]) <= reach && math.Abs(p[1]) <= reach) {
			return fmt.Errorf("reaches further than %g m from its corner", maxReachMM/1000)
		}
		if *budget--; *budget < 0 {
			return fmt.Errorf("has more than %d points", maxPoints)
		}
		last := &out[len(out)-1]
		last.p, last.bend = append(last.p, p), append(last.bend, bend)
		at = p
		return nil
	}

	for _, s := range c {
		switch s.kind {
		case 'M':
			at = m.apply(s.p[0])
			start, open, moved = at, false, true
			if !(math.Abs(at[0]) <= reach && math.Abs(at[1]) <= reach) {
				return nil, fmt.Errorf("reaches further than %g m from its corner", maxReachMM/1000)
			}
		case 'L':
			begin()
			if err := add(m.apply(s.p[0]), false); err != nil {
				return nil, err
			}
		case 'C':
			begin()
			a, p, q, r := at, m.apply(s.p[0]), m.apply(s.p[1]), m.apply(s.p[2])
			d := math.Max(math.Hypot(a[0]-2*p[0]+q[0], a[1]-2*p[1]+q[1]),
				math.Hypot(p[0]-2*q[0]+r[0], p[1]-2*q[1]+r[1]))
			n := 1
			if d > 0 {
				n = int(math.Min(maxPieces, math.Ceil(math.Sqrt(6*d/(8*tolerance)))))
			}
			bezier := func(t float64) (v [2]float64) {
				u := 1 - t
				for k := range v {
					v[k] = u*u*u*a[k] + 3*u*u*t*p[k] + 3*u*t*t*q[k] + t*t*t*r[k]
				}
				return v
			}
			cuts := make([]float64, 0, n+2)
			for i := 1; i < n; i++ {
				cuts = append(cuts, float64(i)/float64(n))
			}
			if ends && n > 1 {
				cuts = append(append([]float64{nearEnd / float64(n)}, cuts...), 1-nearEnd/float64(n))
			}
			for _, t := range cuts {
				if err := add(bezier(t), true); err != nil {
					return nil, err
				}
			}
			if err := add(r, false); err != nil {
				return nil, err
			}
		case 'Z':
			if moved { // a point, which has caps
				begin()
			}
			if open {
				out[len(out)-1].closed = true
			}
			at, open = start, false
		}
	}
	return out, nil
}

// rings returns the flattened parts closed, as they are for filling.
func rings(parts []polyline) []orb.Ring {
	var out []orb.Ring
	for _, l := range parts {
		if len(l.p) < 3 {
			continue
		}
		r := orb.Ring(l.p)
		if r[0] != r[len(r)-1] {
			r = append(r, r[0])
		}
		out = append(out, r)
	}
	return out
}

// mapped returns the path under the map.
func (c curve) mapped(m matrix) curve {
	out := make(curve, len(c))
	for i, s := range c {
		for k, p := range s.p {
			s.p[k] = m.apply(p)
		}
		out[i] = s
	}
	return out
}

// parseFloat reads a finite number.
func parseFloat(s string) (float64, bool) {
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0) && !math.IsNaN(v)
}
