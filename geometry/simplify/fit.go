package simplify

import (
	"math"

	"github.com/paulmach/orb"
)

// fit is one ring on its way to few points.
type fit struct {
	o       Options
	polygon int
	hole    bool

	p       []orb.Point // the ring's points, the last not repeated
	fixed   []bool      // of p: shared with another place, so that it must stay; nil where none is
	area    float64     // of the ring, with its sign
	sums    []moments   // sums[k]: of the stretch from point 0 to point k, k ≤ len(p)
	spans   []span      // in ring order; the last ends where the first begins
	joins   []orb.Point // where each span begins, in the answer
	missing float64     // area that the answer still lacks
	drawn   []corner    // the answer
}

// span is a run of the ring from point i on to point j; where both are the same point it is the whole ring.
type span struct {
	i, j int
	a, b int  // it is fitted to the run from a to b, which lie in this order between i and j: without blurred ends
	line line // that fits the run best, by itself
	// level of refinement: 0 is drawn as one edge along the line; above, as chords between points of the ring, with
	// half the tolerance for each level, and at finest with all its points.
	level int
	sharp bool      // the span begins at a sharp corner that has been put back …
	at    orb.Point // … here
	reach float64   // … which lies this far from the ring
}

// line is a straight line: a point on it and a direction of length 1.
type line struct{ on, dir orb.Point }

// moments are integrals along a polyline of 1, x, y, xx, xy, yy, about the ring's first point.
type moments struct{ l, x, y, xx, xy, yy float64 }

func newFit(r orb.Ring, o Options, shared map[orb.Point]bool) *fit {
	f := &fit{o: o}
	for _, v := range r {
		if len(f.p) == 0 || f.p[len(f.p)-1] != v {
			f.p = append(f.p, v)
		}
	}
	for len(f.p) > 1 && f.p[0] == f.p[len(f.p)-1] {
		f.p = f.p[:len(f.p)-1]
	}
	f.turnToFarthest()
	f.area = ringArea(f.p)
	if len(shared) > 0 {
		f.fixed = make([]bool, len(f.p))
		for k, v := range f.p {
			f.fixed[k] = shared[v]
		}
	}
	f.sums = make([]moments, len(f.p)+1)
	for k := range f.p {
		f.sums[k+1] = f.sums[k].plus(f.edge(k))
	}
	return f
}

// ringArea returns the signed area of a ring whose last point is not repeated.
func ringArea(p []orb.Point) float64 {
	sum := 0.0
	for k := 1; k+1 < len(p); k++ {
		sum += (p[k][0]-p[0][0])*(p[k+1][1]-p[0][1]) - (p[k][1]-p[0][1])*(p[k+1][0]-p[0][0])
	}
	return sum / 2
}

// turnToFarthest makes the point farthest from the middle of all points the first: on most rings a corner or the end of
// a bulge, where a run may well begin.
func (f *fit) turnToFarthest() {
	if len(f.p) == 0 {
		return
	}
	var mx, my float64
	for _, v := range f.p {
		mx += v[0] / float64(len(f.p))
		my += v[1] / float64(len(f.p))
	}
	best, far := 0, -1.0
	for k, v := range f.p {
		if d := math.Hypot(v[0]-mx, v[1]-my); d > far {
			best, far = k, d
		}
	}
	f.p = append(append(make([]orb.Point, 0, len(f.p)), f.p[best:]...), f.p[:best]...)
}

// step returns the index of the point n steps after point k, or before it where n is negative (not past the whole
// ring).
func (f *fit) step(k, n int) int { return (k + n + len(f.p)) % len(f.p) }

// steps returns how many steps it is from point i on to point j, at least 1.
func (f *fit) steps(i, j int) int {
	if j > i {
		return j - i
	}
	return j - i + len(f.p)
}

// stays says whether point k is shared.
func (f *fit) stays(k int) bool { return f.fixed != nil && f.fixed[k%len(f.p)] }

// edge returns the moments of the edge from point k to the next.
func (f *fit) edge(k int) moments {
	o, p, q := f.p[0], f.p[k], f.p[f.step(k, 1)]
	px, py, qx, qy := p[0]-o[0], p[1]-o[1], q[0]-o[0], q[1]-o[1]
	// not Hypot: coordinates are bounded, and this is the sum's inner loop
	l := math.Sqrt((qx-px)*(qx-px) + (qy-py)*(qy-py))
	return moments{l, l * (px + qx) / 2, l * (py + qy) / 2,
		l * (px*px + px*qx + qx*qx) / 3,
		l * (2*px*py + px*qy + qx*py + 2*qx*qy) / 6,
		l * (py*py + py*qy + qy*qy) / 3}
}

func (m moments) plus(n moments) moments {
	return moments{m.l + n.l, m.x + n.x, m.y + n.y, m.xx + n.xx, m.xy + n.xy, m.yy + n.yy}
}

func (m moments) minus(n moments) moments {
	return moments{m.l - n.l, m.x - n.x, m.y - n.y, m.xx - n.xx, m.xy - n.xy, m.yy - n.yy}
}

// between returns the moments of the run from point i on to point j.
func (f *fit) between(i, j int) moments {
	if j > i {
		return f.sums[j].minus(f.sums[i])
	}
	return f.sums[len(f.p)].minus(f.sums[i]).plus(f.sums[j])
}

// length returns the length of the run from point i on to point j.
func (f *fit) length(i, j int) float64 {
	if j > i {
		return f.sums[j].l - f.sums[i].l
	}
	return f.sums[len(f.p)].l - f.sums[i].l + f.sums[j].l
}

// central returns the second moments about the middle of the stretch.
func (m moments) central() (xx, xy, yy float64) {
	if m.l <= 0 {
		return 0, 0, 0
	}
	return m.xx - m.x*m.x/m.l, m.xy - m.x*m.y/m.l, m.yy - m.y*m.y/m.l
}

// residual returns the integral of the squared distance from the line that fits best.
func (m moments) residual() float64 {
	xx, xy, yy := m.central()
	return farther(0, (xx+yy)/2-math.Sqrt((xx-yy)*(xx-yy)/4+xy*xy))
}

// lineThrough returns the line that fits the run from point a on to point b best, in the direction of the run.
func (f *fit) lineThrough(a, b int) line {
	m := f.between(a, b)
	p, q := f.p[a], f.p[b]
	xx, xy, yy := m.central()
	theta := math.Atan2(2*xy, xx-yy) / 2
	l := line{dir: orb.Point{math.Cos(theta), math.Sin(theta)}}
	l.on = orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}
	if m.l > 0 {
		l.on = orb.Point{f.p[0][0] + m.x/m.l, f.p[0][1] + m.y/m.l}
	}
	if f.steps(a, b) == 1 { // a single edge is its own line, to the last digit
		if d := math.Hypot(q[0]-p[0], q[1]-p[1]); d > 0 {
			l.dir = orb.Point{(q[0] - p[0]) / d, (q[1] - p[1]) / d}
		}
	}
	if l.dir[0]*(q[0]-p[0])+l.dir[1]*(q[1]-p[1]) < 0 {
		l.dir = orb.Point{-l.dir[0], -l.dir[1]}
	}
	return l
}

// off returns the distance of v from the line, positive to its left.
func (l line) off(v orb.Point) float64 {
	return l.dir[0]*(v[1]-l.on[1]) - l.dir[1]*(v[0]-l.on[0])
}

// turn returns the angle from l's direction to m's, −π … π, counter-clockwise.
func (l line) turn(m line) float64 {
	return math.Atan2(l.dir[0]*m.dir[1]-l.dir[1]*m.dir[0], l.dir[0]*m.dir[0]+l.dir[1]*m.dir[1])
}

// meet returns where two lines meet; ok is false where they are all but parallel.
func (l line) meet(m line) (x orb.Point, ok bool) {
	s := l.dir[0]*m.dir[1] - l.dir[1]*m.dir[0]
	if math.Abs(s) < parallel {
		return x, false
	}
	t := -m.off(l.on) / (m.dir[0]*l.dir[1] - m.dir[1]*l.dir[0])
	return orb.Point{l.on[0] + t*l.dir[0], l.on[1] + t*l.dir[1]}, true
}
