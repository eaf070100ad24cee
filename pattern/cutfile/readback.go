package cutfile

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern/cutplan"
)

// tally is what a file holds on one layer.
type tally struct {
	contours, closed, pieces int
	area, length             float64 // signed, counter-clockwise positive with y upward; mm², mm
	box                      orb.Bound
}

// contents is a file as it was read: its layers by the names that they have in it, and the page's size in mm.
type contents struct {
	layers        map[string]*tally
	width, height float64
}

// newTally returns an empty tally, its box turned inside out.
func newTally() *tally {
	return &tally{box: orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}}
}

func (c *contents) layer(l string) *tally {
	if c.layers == nil {
		c.layers = map[string]*tally{}
	}
	t := c.layers[l]
	if t == nil {
		t = newTally()
		c.layers[l] = t
	}
	return t
}

// meant returns what the plan's file must hold, in mm from the page's lower left corner; name says what a layer is
// called in it.
func meant(p *cutplan.Plan, name func(*cutplan.Plan, cutplan.Layer) string) *contents {
	c := &contents{width: p.Page.Max[0] - p.Page.Min[0], height: p.Page.Max[1] - p.Page.Min[1]}
	type figures struct {
		area, length float64
		box          orb.Bound
	}
	known := map[*curve.Path]figures{}
	for i := range p.Contours {
		k := &p.Contours[i]
		f, ok := known[k.Path]
		if !ok {
			f = figures{k.Path.Area(), k.Path.Length(), k.Path.Bound()}
			known[k.Path] = f
		}
		t := c.layer(name(p, k.Layer))
		t.contours++
		t.pieces += len(k.Path.Pieces)
		if k.Path.Closed() {
			t.closed++
			t.area += f.area
		}
		t.length += f.length
		// Contours are moved, never turned.
		t.box = t.box.Extend(k.Map.Apply(f.box.Min)).Extend(k.Map.Apply(f.box.Max))
	}

	for _, t := range c.layers {
		for axis := range 2 {
			t.box.Min[axis] -= p.Page.Min[axis]
			t.box.Max[axis] -= p.Page.Min[axis]
		}
	}
	return c
}

// compare holds what was read against what was meant. A point in a file lies on the grid of whole steps, up to half a
// step off each way; areas and lengths may differ by what that makes of them.
func compare(want, got *contents) error {
	if math.Abs(want.width-got.width) > slackExtent || math.Abs(want.height-got.height) > slackExtent {
		return fmt.Errorf("the page is %.4f × %.4f mm and should be %.4f × %.4f", got.width, got.height, want.width,
			want.height)
	}

	both := maps.Clone(want.layers)
	maps.Copy(both, got.layers)
	for _, l := range slices.Sorted(maps.Keys(both)) {
		w, g := want.layers[l], got.layers[l]
		if w == nil || g == nil {
			return fmt.Errorf("the layer %s is there when it should not, or is missing", l)
		}
		if w.contours != g.contours || w.closed != g.closed {
			return fmt.Errorf("the layer %s has %d contours, %d of them closed, and should have %d, %d closed", l,
				g.contours, g.closed, w.contours, w.closed)
		}
		if slack := slackTotal*math.Abs(w.area) + step*w.length; !(math.Abs(w.area-g.area) <= slack) {
			return fmt.Errorf("the contours on the layer %s enclose %.4f mm² and should enclose %.4f", l, g.area,
				w.area)
		}
		if slack := 10*slackTotal*w.length + step*float64(w.pieces); !(math.Abs(w.length-g.length) <= slack) {
			return fmt.Errorf("the contours on the layer %s are %.4f mm long and should be %.4f", l, g.length, w.length)
		}
		for axis := range 2 {
			if !(math.Abs(w.box.Min[axis]-g.box.Min[axis]) <= slackExtent) ||
				!(math.Abs(w.box.Max[axis]-g.box.Max[axis]) <= slackExtent) {
				return fmt.Errorf("the layer %s reaches from (%.4f, %.4f) to (%.4f, %.4f) mm and should reach from "+
					"(%.4f, %.4f) to (%.4f, %.4f)", l,
					g.box.Min[0], g.box.Min[1], g.box.Max[0], g.box.Max[1], w.box.Min[0], w.box.Min[1], w.box.Max[0],
					w.box.Max[1])
			}
		}
	}
	return nil
}

// pen adds what a file draws to a tally. It shares no code with the writers or with what they are made from.
type pen struct {
	t         *tally
	first, at orb.Point
	area      float64 // of the contour so far
	down      bool
}

func (p *pen) move(to orb.Point) {
	p.lift()
	p.first, p.at, p.area, p.down = to, to, 0, true
	p.t.contours++
	p.t.box = p.t.box.Extend(to)
}

func (p *pen) line(to orb.Point) {
	p.area += (p.at[0]*to[1] - p.at[1]*to[0]) / 2
	p.t.length += math.Hypot(to[0]-p.at[0], to[1]-p.at[1])
	p.at = to
	p.t.box = p.t.box.Extend(to)
	p.t.pieces++
}

// close ends the contour with a straight line to where it began.
func (p *pen) close() {
	if p.at != p.first {
		p.line(p.first)
	}
	p.t.closed++
	p.t.area += p.area
	p.down = false
}

// lift ends an open contour.
func (p *pen) lift() { p.down = false }

// curve adds a cubic Bézier, cut into four parts by halving twice (de Casteljau), each taken by Simpson's rule.
func (p *pen) curve(b, c, d orb.Point) {
	a := p.at
	p.t.pieces++
	x := [4]float64{a[0], b[0], c[0], d[0]}
	y := [4]float64{a[1], b[1], c[1], d[1]}
	speed := func(k int) (px, py, dx, dy float64) {
		t := float64(k) / 8
		s := 1 - t
		at := func(v [4]float64) (q, dq float64) {
			ab, bc, cd := s*v[0]+t*v[1], s*v[1]+t*v[2], s*v[2]+t*v[3]
			l, r := s*ab+t*bc, s*bc+t*cd
			return s*l + t*r, 3 * (r - l)
		}
		px, dx = at(x)
		py, dy = at(y)
		return
	}

	for k := range 9 {
		w := [9]float64{1, 4, 2, 4, 2, 4, 2, 4, 1}[k] / 24
		px, py, dx, dy := speed(k)
		p.area += w * ((px-a[0])*dy - (py-a[1])*dx) / 2
		p.t.length += w * math.Hypot(dx, dy)
	}

	// Simpson took the area about the start; the triangle to the origin makes up for it.
	p.area += (a[0]*d[1] - a[1]*d[0]) / 2
	p.t.box = p.t.box.Extend(d)
	for axis, v := range [2][4]float64{x, y} {
		if lo, hi := p.t.box.Min[axis], p.t.box.Max[axis]; min(v[1], v[2]) >= lo && max(v[1], v[2]) <= hi {
			continue
		}
		lo, hi := span(v, 0, 1, 0)
		p.t.box.Min[axis] = min(p.t.box.Min[axis], lo)
		p.t.box.Max[axis] = max(p.t.box.Max[axis], hi)
	}
	p.at = d
}

// span returns the least and the greatest value of a Bézier's coordinate, by halving it until its control points say so
// to a hundredth of a step.
func span(v [4]float64, lo, hi float64, depth int) (low, high float64) {
	low, high = min(v[0], v[3]), max(v[0], v[3])
	if depth > 30 || min(v[1], v[2]) >= low-step/100 && max(v[1], v[2]) <= high+step/100 {
		return low, high
	}
	ab, bc, cd := (v[0]+v[1])/2, (v[1]+v[2])/2, (v[2]+v[3])/2
	l, r := (ab+bc)/2, (bc+cd)/2
	m := (l + r) / 2
	a, b := span([4]float64{v[0], ab, l, m}, lo, (lo+hi)/2, depth+1)
	c, d := span([4]float64{m, r, cd, v[3]}, (lo+hi)/2, hi, depth+1)
	return min(a, c), max(b, d)
}

// arc adds an arc whose bulge is the tangent of a quarter of its angle, by its centre, radius and angles.
func (p *pen) arc(bulge float64, to orb.Point) {
	if bulge == 0 {
		p.line(to)
		return
	}
	p.t.pieces++
	from := p.at
	angle := 4 * math.Atan(bulge)
	chord := math.Hypot(to[0]-from[0], to[1]-from[1])
	radius := chord / (2 * math.Sin(math.Abs(angle)/2))
	p.t.length += radius * math.Abs(angle)
	p.area += (from[0]*to[1]-from[1]*to[0])/2 +
		math.Copysign(radius*radius*(math.Abs(angle)-math.Sin(math.Abs(angle)))/2, angle)

	// The centre lies on the chord's bisector; seen from the middle of the arc it is one radius further in.
	way := math.Atan2(to[1]-from[1], to[0]-from[0])
	start := way - angle/2 // direction in which the arc leaves
	side := math.Copysign(math.Pi/2, angle)
	c := orb.Point{from[0] + radius*math.Cos(start+side), from[1] + radius*math.Sin(start+side)}
	p.t.box = p.t.box.Extend(to)
	for k := range 4 {
		t := float64(k) * math.Pi / 2
		// The direction of travel there, against that at the start.
		d := math.Remainder(t+side-start, 2*math.Pi)
		if angle > 0 && d < 0 {
			d += 2 * math.Pi
		} else if angle < 0 && d > 0 {
			d -= 2 * math.Pi
		}
		if math.Abs(d) < math.Abs(angle) {
			p.t.box = p.t.box.Extend(orb.Point{c[0] + radius*math.Cos(t), c[1] + radius*math.Sin(t)})
		}
	}
	p.at = to
}
