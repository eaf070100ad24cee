package residue

import (
	"math"

	"github.com/paulmach/orb"
)

func (g gap) length() float64 {
	sum := 0.0
	for i := 0; i+1 < len(g); i++ {
		sum += far(g[i], g[i+1])
	}
	return sum
}

// cut returns the parts of a line before and after its corner p.
func (g gap) cut(p orb.Point) (one, two gap) {
	for i, q := range g {
		if q == p {
			return g[:i+1], g[i:]
		}
	}
	return g, nil
}

// halfway returns the point in the middle of a line's length.
func (g gap) halfway() orb.Point {
	left := g.length() / 2
	for i := 0; i+1 < len(g); i++ {
		l := far(g[i], g[i+1])
		if left <= l && l > 0 {
			return along(g[i], sub(g[i+1], g[i]), left/l)
		}
		left -= l
	}
	return g[len(g)-1]
}

// line is a gap with boxes round every few of its edges.
type line struct {
	pts   gap
	boxes []box // box k is round edges k·leafEdges …
}

func newLine(g gap) *line {
	l := &line{pts: g}
	for i := 0; i+1 < len(g); i++ {
		e := edge{a: g[i], b: g[i+1]}
		if i%leafEdges == 0 {
			l.boxes = append(l.boxes, e.box())
			continue
		}
		l.boxes[len(l.boxes)-1] = l.boxes[len(l.boxes)-1].with(e.box())
	}
	return l
}

// nearest returns the shortest way from l to o that counts, if it is shorter than best. Both lines bound the same narrow piece, so
// that a way found early leaves few boxes to look into.
func (l *line) nearest(o *line, best float64, counts func(p, q orb.Point) bool) (d float64, p, q orb.Point) {
	d = best
	for i := range l.boxes {
		for j := range o.boxes {
			if l.boxes[i].gap2(o.boxes[j]) >= d*d {
				continue
			}
			for x := i * leafEdges; x < min((i+1)*leafEdges, len(l.pts)-1); x++ {
				for y := j * leafEdges; y < min((j+1)*leafEdges, len(o.pts)-1); y++ {
					if v, w, e := segments(l.pts[x], l.pts[x+1], o.pts[y], o.pts[y+1]); e < d*(1-tie) && counts(v, w) {
						d, p, q = e, v, w
					}
				}
			}
		}
	}
	return d, p, q
}

// segments returns the nearest points of two segments that do not cross, and their distance. Of parallel ones it is the
// middle of the stretch where they face each other.
func segments(a, b, c, d orb.Point) (p, q orb.Point, dist float64) {
	best := math.Inf(1)
	for _, w := range [4][2]orb.Point{{a, nearestOn(c, d, a)}, {b, nearestOn(c, d, b)}, {nearestOn(a, b, c), c}, {nearestOn(a, b, d), d}} {
		if e := dist2(w[0], w[1]); e < best {
			best, p, q = e, w[0], w[1]
		}
	}
	u, v := sub(b, a), sub(d, c)
	if l2 := dot(u, u); math.Abs(cross(u, v)) <= 1e-9*math.Sqrt(l2*dot(v, v)) && l2 > 0 {
		s, t := dot(sub(c, a), u)/l2, dot(sub(d, a), u)/l2
		if lo, hi := max(0, min(s, t)), min(1, max(s, t)); lo < hi {
			p = along(a, u, (lo+hi)/2)
			q = nearestOn(c, d, p)
		}
	}
	return p, q, math.Sqrt(best)
}

// nearestOn returns the point of the segment a–b nearest to p.
func nearestOn(a, b, p orb.Point) orb.Point {
	d := sub(b, a)
	l2 := dot(d, d)
	if l2 == 0 {
		return a
	}
	switch t := dot(sub(p, a), d) / l2; {
	case t <= 0:
		return a
	case t >= 1:
		return b
	default:
		return along(a, d, t)
	}
}
