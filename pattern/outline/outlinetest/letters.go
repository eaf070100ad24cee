package outlinetest

import (
	"math"
	"slices"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// RingOf closes points and turns them counter-clockwise.
func RingOf(points []orb.Point) orb.Ring {
	r := append(slices.Clone(orb.Ring(points)), points[0])
	if geometry.RingArea(r) < 0 {
		slices.Reverse(r)
	}
	return r
}

// fineArc is part of a circle as a thousand chords; from and to in degrees.
func fineArc(x, y, radius, from, to float64) []orb.Point {
	var out []orb.Point
	for k := range 1001 {
		a := (from + (to-from)*float64(k)/1000) * math.Pi / 180
		out = append(out, orb.Point{x + radius*math.Cos(a), y + radius*math.Sin(a)})
	}
	return out
}

// letters are drawn for this test, of arcs and straight lines, on the truths' sheet.
func letters() []truth {
	// S: two arcs of one band, its ends cut straight.
	const w = 2.6
	side := func(r float64) []orb.Point { // on the left of the middle line where r is positive
		upper := fineArc(22.01, 28.52, 6.5-r, 20, 270)
		return append(upper, fineArc(22.01, 15.52, 6.5+r, 90, -160)...)
	}
	out, in := side(-w), side(w)
	s := slices.Clone(out)
	slices.Reverse(in)
	s = append(s, in...)
	sEnds := []orb.Point{out[0], in[len(in)-1], out[len(out)-1], in[0]}

	a := []orb.Point{{6.3, 5.1}, {11.4, 5.1}, {14.42, 13.3}, {28.9, 13.3}, {31.9, 5.1}, {37.2, 5.1}, {24.6, 39.2},
		{18.9, 39.2}}
	aHole := []orb.Point{{16.1, 17.9}, {27.2, 17.9}, {21.68, 33.1}}

	// R: stem, bowl and leg.
	r := []orb.Point{{10.2, 5.3}, {15.1, 5.3}, {15.1, 18.1}, {19.3, 18.1}, {27.5, 5.3}, {33.4, 5.3}, {24.9, 18.86}}
	rCorners := slices.Clone(r[:6])
	r = append(r, fineArc(23.3, 28.45, 9.72, -80.5, 90)...)
	r = append(r, orb.Point{10.2, 38.17})
	rCorners = append(rCorners, orb.Point{10.2, 38.17})
	rHole := append(fineArc(23.3, 28.45, 5.2, -90, 90), orb.Point{15.1, 33.65}, orb.Point{15.1, 23.25})
	rCorners = append(rCorners, orb.Point{15.1, 33.65}, orb.Point{15.1, 23.25})

	// g: a bowl, a stem, and a tail that comes round.
	meet := math.Sqrt(9.5*9.5 - 7*7)
	angle := math.Atan2(meet, 7) * 180 / math.Pi
	g := []orb.Point{{30.2, 39.1}}
	g = append(g, fineArc(22.2, 12.3, 8, 0, -180)...)
	g = append(g, fineArc(22.2, 12.3, 4.8, -180, 0)...)
	g = append(g, fineArc(20, 27.7, 9.5, -angle, -360+angle)...)
	g = append(g, orb.Point{27, 39.1})
	gCorners := []orb.Point{{30.2, 39.1}, {27, 39.1}, {14.2, 12.3}, {17.4, 12.3}, {27, 27.7 + meet}, {27, 27.7 - meet}}

	return []truth{
		{"S", orb.MultiPolygon{{RingOf(s)}}, sEnds},
		{"A", orb.MultiPolygon{{RingOf(a), geometry.Reversed(RingOf(aHole))}}, append(slices.Clone(a), aHole...)},
		{"R", orb.MultiPolygon{{RingOf(r), geometry.Reversed(RingOf(rHole))}}, rCorners},
		{"g", orb.MultiPolygon{{RingOf(g), geometry.Reversed(Circle(20, 27.7, 5.9))}}, gCorners},
	}
}

// CommonCells is how many squares to the mm overlapOverUnion looks at.
const CommonCells = 12

// OverlapOverUnion compares an outline with one whose coverage of fine squares of the truths' sheet is known.
func OverlapOverUnion(a orb.MultiPolygon, known []float64) float64 {
	both, either := 0.0, 0.0
	for k, c := range Coverage(a, int(TruthSize*CommonCells), int(TruthSize*CommonCells), CommonCells) {
		both += math.Min(c, known[k])
		either += math.Max(c, known[k])
	}
	return both / either
}
