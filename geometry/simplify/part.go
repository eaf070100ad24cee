package simplify

import "math"

// part parts the ring into the fewest runs that lie near a straight line each, and among those partings takes the one
// with the least sum of squared distances. It reports now and then how many points it has gone through.
func (f *fit) part(report func(points int)) {
	n := len(f.p)
	if n < 4 {
		for k := range n {
			j := f.step(k, 1)
			f.spans = append(f.spans, span{i: k, j: j, a: k, b: j, level: finest})
		}
		return
	}
	runs := make([]int32, n+1)
	cost := make([]float64, n+1)
	from := make([]int32, n+1)
	for k := 1; k <= n; k++ {
		runs[k], cost[k] = math.MaxInt32, math.Inf(1)
	}
	limit := fitShare * f.o.Tolerance
	for i := range n {
		if i%reportEach == 0 {
			report(i)
		}
		c := newCone(f.p[i], coneShare*f.o.Tolerance)
		for j := i + 1; j <= min(n, i+maxReach); j++ {
			ends, open := c.extend(f.p[j%n])
			if ends && runs[i] < runs[j] { // more runs than are known to do are not looked at
				m := f.sums[j].minus(f.sums[i])
				res := m.residual()
				if res <= limit*limit*m.l || j == i+1 {
					r, s := runs[i]+1, cost[i]+res
					if r < runs[j] || r == runs[j] && s < cost[j] {
						runs[j], cost[j], from[j] = r, s, int32(i)
					}
				}
			}
			if !open || f.stays(j) {
				break
			}
		}
	}

	for k := n; k > 0; k = int(from[k]) { // ends: from[k] < k
		i := int(from[k])
		f.spans = append(f.spans, span{i: i, j: k, a: i, b: k})
	}
	for a, b := 0, len(f.spans)-1; a < b; a, b = a+1, b-1 {
		f.spans[a], f.spans[b] = f.spans[b], f.spans[a]
	}
	f.joinStraight()
	last := &f.spans[len(f.spans)-1]
	last.j, last.b = 0, 0
	for k := range f.spans {
		s := &f.spans[k]
		s.line = f.lineThrough(s.a, s.b)
	}
}

// joinStraight joins neighbouring runs that maxReach has cut apart and whose points lie near one line. Here the last
// run still ends at len(p).
func (f *fit) joinStraight() {
	if len(f.spans) <= 4 {
		return
	}
	limit := fitShare * f.o.Tolerance
	out := f.spans[:0]
	for _, s := range f.spans {
		if len(out) > 0 {
			last := &out[len(out)-1]
			if s.j-last.i > maxReach && !f.stays(s.i) {
				m := f.sums[s.j].minus(f.sums[last.i])
				if m.residual() <= limit*limit*m.l && f.nearChord(last.i, s.j) {
					last.j, last.b = s.j, s.j
					continue
				}
			}
		}
		out = append(out, s)
	}
	f.spans = out
}

// nearChord says whether the points i … j lie within the tolerance of the chord from the first to the last; j may be
// len(p).
func (f *fit) nearChord(i, j int) bool {
	a, b := f.p[i], f.p[j%len(f.p)]
	for k := i + 1; k < j; k++ {
		if toSegment(f.p[k], a, b) > f.o.Tolerance {
			return false
		}
	}
	return true
}

// cone is the set of directions in which a ray from one point passes all later points within a distance.
type cone struct {
	x, y, width float64
	far         float64 // the greatest distance so far
	set         bool
	// The bounding directions, clockwise and counter-clockwise of the cone, which is narrower than half a turn.
	rx, ry, lx, ly float64
}

func newCone(o [2]float64, width float64) cone { return cone{x: o[0], y: o[1], width: width} }

// extend takes one more point. ends: a run may end here, since the ray towards the point passes all others, and it is
// not a way back. open: there is a ray at all, so that later points may be tried.
func (c *cone) extend(v [2]float64) (ends, open bool) {
	x, y := v[0]-c.x, v[1]-c.y
	d := math.Sqrt(x*x + y*y) // coordinates are bounded; Hypot takes three times as long
	if d <= c.width {
		c.far = farther(c.far, d)
		return d >= c.far-c.width, d >= c.far-c.width
	}

	// The ray towards v turned to either side until v is width away from it.
	s := c.width / d
	t := math.Sqrt(1 - s*s)
	rx, ry := x*t+y*s, y*t-x*s
	lx, ly := x*t-y*s, y*t+x*s
	if !c.set {
		c.set, c.far = true, farther(c.far, d)
		c.rx, c.ry, c.lx, c.ly = rx, ry, lx, ly
		return d >= c.far-c.width, true
	}
	ends = c.rx*y-c.ry*x >= 0 && x*c.ly-y*c.lx >= 0 && (c.rx+c.lx)*x+(c.ry+c.ly)*y > 0
	if c.rx*ry-c.ry*rx > 0 {
		c.rx, c.ry = rx, ry
	}
	if lx*c.ly-ly*c.lx > 0 {
		c.lx, c.ly = lx, ly
	}
	c.far = farther(c.far, d)
	open = c.rx*c.ly-c.ry*c.lx >= 0 && d >= c.far-c.width
	return ends && open && d >= c.far-c.width, open
}

// farther is max for numbers that are none of those for which that one has to take care, and is asked in every step.
func farther(a, b float64) float64 {
	if a > b {
		return a
	}
	return b
}
