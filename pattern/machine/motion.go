// Package machine estimates how long a machine takes: the speed at which a stock is cut, and the motion along curves
// and between them. Lengths are millimetres, times seconds.
package machine

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// Motion is how a machine's head moves: it speeds up and slows down evenly, along its way and across it.
type Motion struct {
	Acceleration float64 // mm/s²
	// Corner is how far the head might round a corner off, in mm: it takes a corner as fast as it could take the arc
	// that touches both sides and comes so near the corner.
	Corner float64
}

// Hop returns the time of a straight way between two stops.
func (m Motion) Hop(way, speed float64) float64 { return m.time(way, 0, 0, speed) }

// Along returns the time along a run of pieces from a stop to a stop, never faster than speed: on curves as fast as the
// acceleration across holds the head, through corners as fast as Corner lets it, and braking in time for each.
func (m Motion) Along(start orb.Point, pieces []curve.Piece, speed float64) float64 {
	ways := walk(start, pieces)
	n := len(ways)
	if n == 0 {
		return 0
	}

	// The fastest on each way and, between ways, what both and the corner allow; then what can be reached from before.
	v := make([]float64, n+1)
	for i := range ways {
		w := &ways[i]
		w.fastest = min(speed, math.Sqrt(m.Acceleration*w.radius))
		if i > 0 {
			corner := math.Sqrt(m.Acceleration * m.cornerRadius(w.turn))
			v[i] = min(w.fastest, ways[i-1].fastest, corner, math.Sqrt(v[i-1]*v[i-1]+2*m.Acceleration*ways[i-1].long))
		}
	}
	total := 0.0
	for i := n - 1; i >= 0; i-- {
		w := ways[i]
		v[i] = min(v[i], math.Sqrt(v[i+1]*v[i+1]+2*m.Acceleration*w.long))
		total += m.time(w.long, v[i], v[i+1], w.fastest)
	}
	return total
}

// way is a stretch of a run of pieces that is taken at one speed at most.
type way struct {
	long    float64
	radius  float64 // the least on it
	turn    float64 // by how much the head turns before it, in radians
	fastest float64
}

// time returns the time of a way that begins and ends at given speeds, with the fastest in between.
func (m Motion) time(way, from, to, fastest float64) float64 {
	if way <= 0 {
		return 0
	}
	a := m.Acceleration
	if peak := math.Sqrt((from*from+to*to)/2 + a*way); peak <= fastest {
		return (2*peak - from - to) / a
	}
	even := way - (2*fastest*fastest-from*from-to*to)/(2*a)
	return (2*fastest-from-to)/a + even/fastest
}

// cornerRadius returns the radius of the arc that touches both sides of a corner, which turns by an angle, and comes as
// near it as Corner says.
func (m Motion) cornerRadius(turn float64) float64 {
	half := math.Cos(turn / 2)
	if half >= 1 {
		return math.Inf(1)
	}
	return m.Corner * half / (1 - half)
}

// parts of a Bézier: within each the least radius is that at its ends or its middle.
const parts = 32

// walk returns the ways along the pieces: one for a line or an arc, several for a Bézier.
func walk(at orb.Point, pieces []curve.Piece) []way {
	var out []way
	before := orb.Point{} // the direction in which the piece before arrives
	for _, q := range pieces {
		first := len(out)
		var leaves, arrives orb.Point
		switch {
		case q.Kind == curve.Cubic:
			out = append(out, bezier(at, q)...)
			leaves, arrives = ends(at, q)
		case q.Kind == curve.Arc && q.Bulge != 0:
			chord, half := geometry.Sub(q.To, at), 2*math.Atan(q.Bulge)
			radius := math.Hypot(chord[0], chord[1]) / (2 * math.Sin(math.Abs(half)))
			out = append(out, way{long: 2 * radius * math.Abs(half), radius: radius})
			leaves, arrives = geometry.Turn(-half).Vector(chord), geometry.Turn(half).Vector(chord)
		default:
			leaves = geometry.Sub(q.To, at)
			arrives = leaves
			out = append(out, way{long: math.Hypot(leaves[0], leaves[1]), radius: math.Inf(1)})
		}
		if before != (orb.Point{}) && len(out) > first {
			out[first].turn = math.Abs(math.Atan2(geometry.Cross(before, leaves), geometry.Dot(before, leaves)))
		}
		at, before = q.To, arrives
	}
	return out
}

// ends returns in which direction a Bézier leaves and arrives, handles of no length left out.
func ends(at orb.Point, q curve.Piece) (leaves, arrives orb.Point) {
	for _, leg := range []orb.Point{geometry.Sub(q.C1, at), geometry.Sub(q.C2, q.C1), geometry.Sub(q.To, q.C2)} {
		if leg == (orb.Point{}) {
			continue
		}
		if leaves == (orb.Point{}) {
			leaves = leg
		}
		arrives = leg
	}
	return leaves, arrives
}

// bezier returns a Bézier's ways, at even steps of its parameter; lengths by Simpson's rule.
func bezier(at orb.Point, q curve.Piece) []way {
	a, b, c := geometry.Sub(q.C1, at), geometry.Sub(q.C2, q.C1), geometry.Sub(q.To, q.C2)
	look := func(t float64) (speed, radius float64) {
		s := 1 - t
		d := geometry.Add(geometry.Add(geometry.Times(a, 3*s*s), geometry.Times(b, 6*s*t)), geometry.Times(c, 3*t*t))
		dd := geometry.Add(geometry.Times(geometry.Sub(b, a), 6*s), geometry.Times(geometry.Sub(c, b), 6*t))
		speed = math.Hypot(d[0], d[1])
		if cross := math.Abs(geometry.Cross(d, dd)); cross > 0 {
			return speed, speed * speed * speed / cross
		}
		return speed, math.Inf(1)
	}

	out := make([]way, parts)
	v0, r0 := look(0)
	for k := range out {
		v1, r1 := look((float64(k) + 0.5) / parts)
		v2, r2 := look(float64(k+1) / parts)
		out[k] = way{long: (v0 + 4*v1 + v2) / (6 * parts), radius: min(r0, r1, r2)}
		v0, r0 = v2, r2
	}
	return out
}

func distance(p, q orb.Point) float64 { return math.Hypot(q[0]-p[0], q[1]-p[1]) }
