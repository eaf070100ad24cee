// Package grow grows outlines by a distance, in millimetres with y upward: what the editor needs of it, for the room
// round a subject. Package geometry/offset shrinks too, and joins edges as cut files want them.
package grow

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
)

const (
	// widestStep in radians is the widest angle that one chord of an arc may span, however large the tolerance: a round
	// join stays recognisably round.
	widestStep = math.Pi / 4

	// narrowestStep in radians bounds the number of points: about 6,000 to the full circle, a chord that leaves an arc
	// of 100 mm by 0.00001 mm.
	narrowestStep = 1e-3

	// maxDistance in mm bounds the distance: ten times the largest panel.
	maxDistance = 1e5

	// sharpestCrossing in radians (about 170°): where an outline turns inward by more, the images of its edges cross so
	// far off or at so small an angle that the corner itself is the better place.
	sharpestCrossing = 2.97

	// longestChord is how many corners one chord may pass over.
	longestChord = 64
)

// Round returns the points within distance mm of a valid outline, at least 0: the outline grown, with round joins.
// Arcs are flattened to chords between points on the arc, and what of the outline shows in none of its growing is
// passed over first, so that the line of what comes out lies within tolerance mm of the true one. At distance 0 it is
// the outline, made valid.
func Round(mp orb.MultiPolygon, distance, tolerance float64) (orb.MultiPolygon, error) {
	if !(distance >= 0 && distance <= maxDistance) || !(tolerance > 0) {
		return nil, fmt.Errorf("an outline cannot grow by %g mm, true to %g mm", distance, tolerance)
	}
	if err := overlay.Check(mp); err != nil {
		return nil, err
	}
	step := Step(distance, tolerance/2)
	var parts []orb.MultiPolygon
	for _, p := range mp {
		var raw []orb.Ring
		for j, r := range p {
			ring := Distinct(r, j == 0)
			if len(ring) >= 3 {
				raw = append(raw, beside(smoother(ring, distance, tolerance/2), distance, step))
			} else if j == 0 {
				break
			}
		}
		part, err := overlay.Positive(raw)
		if err != nil {
			return nil, err
		}
		parts = append(parts, part)
	}
	return overlay.Union(parts...)
}

// smoother returns a ring without corners that make no difference of more than tolerance mm to its growing: those that
// lie so near a chord, and notches with a mouth so narrow that the circles about its two ends meet no further than that
// below the line beside the chord. It may run over itself where it is narrow, where all is grown over.
func smoother(ring []orb.Point, distance, tolerance float64) []orb.Point {
	n := len(ring)
	mouth := math.Min(math.Sqrt(8*distance*tolerance), distance)
	out := make([]orb.Point, 0, n)
	for from := 0; from < n; {
		out = append(out, ring[from])
		to := from + 1
		for to < n && to-from < longestChord && passes(ring, from, to+1, tolerance, mouth) {
			to++
		}
		from = to
	}
	if len(out) < 3 {
		return ring
	}
	return out
}

// passes reports whether the corners between two of a ring need not be there; to may be the ring's length, for its
// first.
func passes(ring []orb.Point, from, to int, tolerance, mouth float64) bool {
	a, b := ring[from], ring[to%len(ring)]
	chord := geometry.Sub(b, a)
	l := math.Hypot(chord[0], chord[1])
	if l == 0 {
		return false
	}
	for _, p := range ring[from+1 : to] {
		d := geometry.Sub(p, a)
		in := geometry.Cross(chord, d) / l // to the ring's inside
		along := geometry.Dot(chord, d) / l
		beside := along >= 0 && along <= l && math.Abs(in) <= tolerance
		notch := in >= 0 && l <= mouth && math.Hypot(d[0], d[1]) <= mouth
		if !beside && !notch {
			return false
		}
	}
	return true
}

// beside returns the curve to the right of a ring: every edge moved aside, joined by arcs about the corners on the
// outside of a turn, and through the corner itself on the inside, or through the crossing of both images where that
// lies beside the nearer half of both edges. The points of positive winding number are the ring and all strips and
// sectors along it; geometry/offset says why.
func beside(ring []orb.Point, distance, step float64) orb.Ring {
	if distance == 0 {
		return append(slices.Clone(ring), ring[0])
	}
	n := len(ring)
	raw := make(orb.Ring, 0, 2*n+1)
	for i, p := range ring {
		in, before := Aside(ring[(i+n-1)%n], p, distance)
		out, after := Aside(p, ring[(i+1)%n], distance)
		turn := TurnAt(in, out, distance)
		switch {
		case turn >= 0:
			raw = append(raw, orb.Point{p[0] + in[0], p[1] + in[1]})
			raw = Arc(raw, p, in, turn, step)
			raw = append(raw, orb.Point{p[0] + out[0], p[1] + out[1]})
		case Cross(turn, distance, before, after):
			f := 1 / (1 + math.Cos(turn))
			raw = append(raw, orb.Point{p[0] + f*(in[0]+out[0]), p[1] + f*(in[1]+out[1])})
		default:
			raw = append(raw, orb.Point{p[0] + in[0], p[1] + in[1]}, p, orb.Point{p[0] + out[0], p[1] + out[1]})
		}
	}
	return append(raw, raw[0])
}

// Cross reports whether the images of two edges, as long as before and after, cross beside the nearer half of both, at
// the inside of a turn between them.
func Cross(turn, distance, before, after float64) bool {
	return math.Abs(turn) < sharpestCrossing && math.Abs(distance)*math.Tan(math.Abs(turn)/2) <= min(before, after)/2
}

// Step returns the largest angle in radians whose chord leaves an arc of the given radius by no more than tolerance.
func Step(radius, tolerance float64) float64 {
	if tolerance >= radius {
		return widestStep
	}
	return max(narrowestStep, min(widestStep, 2*math.Acos(1-tolerance/radius)))
}

// TurnAt returns the angle in radians from one vector aside to the next. A spike without width has its tip on the
// outside.
func TurnAt(in, out orb.Point, distance float64) float64 {
	turn := math.Atan2(in[0]*out[1]-in[1]*out[0], in[0]*out[0]+in[1]*out[1])
	if math.Abs(turn) == math.Pi {
		return math.Copysign(math.Pi, distance)
	}
	return turn
}

// Aside returns the vector of length |distance| square to a→b, to the right when distance is positive, and the length
// of a→b.
func Aside(a, b orb.Point, distance float64) (orb.Point, float64) {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Hypot(dx, dy)
	return orb.Point{dy / l * distance, -dx / l * distance}, l
}

// Arc appends the points between the ends of the arc about p that begins at p+from and spans turn.
func Arc(raw orb.Ring, p, from orb.Point, turn, step float64) orb.Ring {
	n := int(math.Ceil(math.Abs(turn) / step))
	for k := 1; k < n; k++ {
		s, c := math.Sincos(turn * float64(k) / float64(n))
		raw = append(raw, orb.Point{p[0] + c*from[0] - s*from[1], p[1] + s*from[0] + c*from[1]})
	}
	return raw
}

// Distinct returns the points of a ring without the closing one and without repetitions, counter-clockwise when outer,
// else clockwise.
func Distinct(r orb.Ring, outer bool) []orb.Point {
	var out []orb.Point
	for _, p := range r {
		if len(out) == 0 || p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	area := 0.0
	for i := 1; i+1 < len(out); i++ {
		o, a, b := out[0], out[i], out[i+1]
		area += (a[0]-o[0])*(b[1]-o[1]) - (a[1]-o[1])*(b[0]-o[0])
	}
	if (area > 0) != outer {
		slices.Reverse(out)
	}
	return out
}
