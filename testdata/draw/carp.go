package main

import "math"

// carpKnots is the carp laid straight, nose to the left at (0, 0), its back upward. Read clockwise from the nose:
// brow, back, dorsal fin, tail, anal, pelvic and pectoral fins, throat, barbel.
var carpKnots = []knot{
	along(-1.0, -3.0, 84), // upper lip
	through(1.9, 0.9),
	through(7.6, 5.6),
	through(15.4, 9.8), // nape
	through(22.5, 12.2),
	turned(28.2, 13.4, 10, 58, 2.6), // dorsal fin: first ray
	turned(36.8, 24.4, 46, -44, 1.1),
	through(43.4, 19.4),
	through(52, 16.4),
	turned(63.6, 14.6, 0, 220, 0.9), // last ray
	turned(57, 9.2, 214, -24, 1.5),
	through(63, 6.2),
	along(69, 4.9, -1),
	through(76, 7.4),
	through(84.4, 13.4),
	turned(96.4, 16.8, 0, 248, 1.1),    // upper lobe
	turned(83.6, 0.5, 216, -38, 1.3),   // fork
	turned(94.6, -15.6, 290, 178, 1.1), // lower lobe
	through(83.6, -12.8),
	through(76, -7.2),
	along(69, -4.6, 180),
	turned(63.6, -5.6, 188, 322, 1.5),
	turned(71.4, -14.6, 284, 166, 0.8), // anal fin
	through(62.8, -13.0),
	turned(56.0, -9.0, 142, 196, 3),
	turned(46.6, -13.0, 198, 320, 1.5),
	turned(54.8, -22.4, 284, 164, 0.8), // pelvic fin
	through(46.8, -20.2),
	turned(40.4, -14.9, 138, 182, 2.6),
	turned(27.2, -14.9, 176, 318, 1.5),
	turned(37.4, -26.6, 282, 162, 1.0), // pectoral fin
	through(26.4, -22.2),
	turned(18.8, -13.2, 126, 158, 3),
	through(13, -10.4),
	turned(7.8, -8.2, 156, 262, 1.4), // barbel
	through(6.2, -13.2),
	along(0.6, -17.8, 212),
	along(-0.5, -15.9, 32),
	through(3.6, -12.2),
	turned(4.9, -7.0, 84, 164, 0.9),
	through(0.8, -5.6), // lower lip
}

// carpSpine is the heading of the spine, in degrees, at even steps from nose to tail.
var carpSpine = []float64{15, 15, 11, 4, -2, -1, 7, 19, 30, 32}

// carpScale makes the bent carp about 84 mm long.
const carpScale = 0.87

// carpBend lays the straight carp along its swimming curve.
func carpBend(p point) point {
	const length = 92.0
	last := float64(len(carpSpine) - 1)
	heads := func(s float64) float64 {
		t := math.Max(0, math.Min(last, s/length*last))
		i := math.Min(math.Floor(t), last-1)
		f := t - i
		at := func(j float64) float64 { return carpSpine[int(math.Max(0, math.Min(last, j)))] }
		// a cubic B-spline through the table's steps keeps the bend smooth
		b0, b1, b2, b3 := (1-f)*(1-f)*(1-f), 3*f*f*f-6*f*f+4, -3*f*f*f+3*f*f+3*f+1, f*f*f
		return radians((b0*at(i-1) + b1*at(i) + b2*at(i+1) + b3*at(i+2)) / 6)
	}
	var q point
	const n = 200
	h := p.x / n
	for i := 0; i < n; i++ {
		q = q.plus(heading(heads((float64(i) + 0.5) * h)).times(h))
	}
	return q.plus(heading(heads(p.x) + math.Pi/2).times(p.y)).times(carpScale)
}

func bend(knots []knot, by func(point) point) []knot {
	out := make([]knot, len(knots))
	turn := func(at point, a float64) float64 {
		if math.IsNaN(a) {
			return a
		}
		const step = 1e-4
		return by(at.plus(heading(a).times(step))).minus(by(at)).angle()
	}
	for i, k := range knots {
		out[i] = k
		out[i].at = by(k.at)
		out[i].in, out[i].out = turn(k.at, k.in), turn(k.at, k.out)
	}
	return out
}

func carp() (drawing, error) {
	return finish("carp", "Carp", trace(bend(carpKnots, carpBend)), centroid, 160)
}
