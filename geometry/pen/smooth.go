package pen

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

var errShort = errors.New("the line is too short to enclose anything; draw round the shape")

// Smooth returns a stroke of the hand evened out: a dense line from which the jitter, what the hand and the screen are
// off by at most, mm, is gone, while corners that are meant stay. A closed stroke's last sample is joined to its first,
// and what was drawn beyond their crossing is left out. Each sample is replaced by its place on the parabola of least
// squares over the widest stretch that such a parabola explains within the jitter, so that arcs keep their radius.
func Smooth(stroke []orb.Point, jitter float64, closed bool) ([]orb.Point, error) {
	parts, err := even(stroke, jitter, closed, true)
	if err != nil {
		return nil, err
	}
	var out []orb.Point
	for _, p := range parts {
		out = append(out, p[:len(p)-1]...)
	}
	last := parts[len(parts)-1]
	return append(out, last[len(last)-1]), nil
}

// Stroke returns the closed line that a stroke of the hand means, as few points with curves between them.
func Stroke(stroke []orb.Point, jitter float64) (Ring, error) {
	parts, err := even(stroke, jitter, true, false)
	if err != nil {
		return Ring{}, err
	}
	return Ring{Nodes: chain(parts, jitter, true)}, nil
}

// Freed returns the line that a stroke means which does not close itself. Its ends are evened out too, unless they are
// held.
func Freed(stroke []orb.Point, jitter float64, held bool) ([]Node, error) {
	parts, err := even(stroke, jitter, false, held)
	if err != nil {
		return nil, err
	}
	return chain(parts, jitter, false), nil
}

// chain fits the evened parts of a stroke, which meet in corners. A closed one of a single part has none.
func chain(parts [][]orb.Point, jitter float64, closed bool) []Node {
	tolerance := math.Max(minFit, fitShare*jitter)
	whole := closed && len(parts) == 1 && parts[0][0] == parts[0][len(parts[0])-1]
	nodes := []Node{Corner(parts[0][0])}
	for _, p := range parts {
		n := len(p)
		if !whole && flat(p, straightShare*jitter) { // what shook about a straight line between two corners is one
			nodes = append(nodes, Corner(p[n-1]))
			continue
		}
		t0, t1 := outset(p, setOut), outset(reversed(p), setOut)
		if whole {
			t0 = geometry.Unit(geometry.Sub(p[2], p[n-3]))
			t1 = geometry.Times(t0, -1)
		}
		nodes, _ = fit(nodes, p, t0, t1, tolerance) // a hand is not held to it where it turns sharply
	}

	if !closed {
		return nodes
	}
	end := nodes[len(nodes)-1]
	nodes = nodes[:len(nodes)-1]
	nodes[0].In, nodes[0].Round = end.In, whole
	return nodes
}

// even samples a stroke at even steps, parts it at its corners and evens out each part. The first point of a part is
// the last one of the part before. The ends of a line that is held stay.
func even(stroke []orb.Point, jitter float64, closed, held bool) ([][]orb.Point, error) {
	if !(jitter > 0) || math.IsInf(jitter, 0) {
		return nil, errors.New("the jitter of a stroke must be a number of mm above nothing")
	}
	for _, p := range stroke {
		if !(math.Abs(p[0]) <= geometry.MaxCoordinate && math.Abs(p[1]) <= geometry.MaxCoordinate) {
			return nil, fmt.Errorf("a place of the stroke is not a number, or further off than %g mm",
				float64(geometry.MaxCoordinate))
		}
	}
	if len(stroke) > maxSamples {
		stroke = resampled(stroke, maxSamples)
	}
	if closed {
		stroke = trimmed(stroke)
		if len(stroke) > 2 {
			stroke = append(stroke[:len(stroke):len(stroke)], stroke[0])
		}
	}
	all := 0.0
	for i := 1; i < len(stroke); i++ {
		all += geometry.PointDistance(stroke[i-1], stroke[i])
	}
	if len(stroke) < 3 || all < 6*jitter {
		return nil, errShort
	}
	step := math.Max(stepShare*jitter, all/maxSamples)
	pts := resampled(stroke, max(8, int(all/step)))
	step = all / float64(len(pts)-1) // along the line: its ends may lie on one place where the hand turned back
	side := int(math.Min(sideShare*jitter/all, sideOf) * float64(len(pts)-1))
	side = max(2, side)
	at := corners(pts, side, closed)
	if closed && len(at) > 0 { // begin at a corner
		n := len(pts) - 1
		var turned []orb.Point
		for k := 0; k <= n; k++ {
			turned = append(turned, pts[(at[0]+k)%n])
		}
		pts = turned
		for k := range at[1:] {
			at[k+1] -= at[0]
		}
		at[0] = 0
		return parted(pts, append(at, n), step, jitter, true, false), nil
	}

	if closed {
		return [][]orb.Point{loop(pts, step, jitter)}, nil
	}
	return parted(pts, append(append([]int{0}, at...), len(pts)-1), step, jitter, false, held), nil
}

// parted evens out a line part by part between the samples at, a step apart along it, and lets neighbouring parts meet
// in one corner.
func parted(pts []orb.Point, at []int, step, jitter float64, closed, held bool) [][]orb.Point {
	var parts [][]orb.Point
	for k := 0; k+1 < len(at); k++ {
		parts = append(parts, evened(pts[at[k]:at[k+1]+1], step, jitter))
	}
	join := func(a, b []orb.Point, drawn orb.Point) {
		c := meet(a, b, drawn, cornerReach*jitter)
		a[len(a)-1], b[0] = c, c
	}
	for k := 0; k+1 < len(parts); k++ {
		join(parts[k], parts[k+1], pts[at[k+1]])
	}
	if closed {
		join(parts[len(parts)-1], parts[0], pts[0])
	} else if held { // the ends are where they were drawn
		last := parts[len(parts)-1]
		parts[0][0], last[len(last)-1] = pts[0], pts[len(pts)-1]
	}
	return parts
}

// trimmed leaves out what lies before and after the crossing at which a stroke closes itself.
func trimmed(stroke []orb.Point) []orb.Point {
	n := len(stroke)
	k := int(tailShare * float64(n))
	for i := 0; i < k; i++ {
		for j := n - 2; j >= n-1-k && j > i+2; j-- {
			if c, ok := crossing(stroke[i], stroke[i+1], stroke[j], stroke[j+1]); ok {
				return append([]orb.Point{c}, stroke[i+1:j+1]...)
			}
		}
	}
	return stroke
}

// crossing returns where two segments cross.
func crossing(a, b, c, d orb.Point) (orb.Point, bool) {
	u, v := geometry.Sub(b, a), geometry.Sub(d, c)
	den := geometry.Cross(u, v)
	if den == 0 {
		return orb.Point{}, false
	}
	s, t := geometry.Cross(geometry.Sub(c, a), v)/den, geometry.Cross(geometry.Sub(c, a), u)/den
	return geometry.Lerp(a, b, s), s >= 0 && s <= 1 && t >= 0 && t <= 1
}

// resampled returns n+1 points at even steps along a line.
func resampled(line []orb.Point, n int) []orb.Point {
	all := 0.0
	for i := 1; i < len(line); i++ {
		all += geometry.PointDistance(line[i-1], line[i])
	}
	out := []orb.Point{line[0]}
	gone := 0.0
	for i := 1; i < len(line); i++ {
		l := geometry.PointDistance(line[i-1], line[i])
		for len(out) < n && l > 0 {
			want := all * float64(len(out)) / float64(n)
			if want > gone+l {
				break
			}
			out = append(out, geometry.Lerp(line[i-1], line[i], (want-gone)/l))
		}
		gone += l
	}
	return append(out, line[len(line)-1])
}

// loop evens out a closed line without corners.
func loop(pts []orb.Point, step, jitter float64) []orb.Point {
	n := len(pts) - 1
	out := smoothed(func(i int) orb.Point { return pts[((i%n)+n)%n] }, n, -n, 2*n, step, jitter, true)
	return append(out, out[0])
}

// evened evens out a line between two corners.
func evened(pts []orb.Point, step, jitter float64) []orb.Point {
	n := len(pts)
	if n < 4 {
		return append([]orb.Point(nil), resampled(pts, 4)...)
	}
	return smoothed(func(i int) orb.Point { return pts[i] }, n, 0, n-1, step, jitter, false)
}

// smoothed answers samples 0 to n−1, a step apart along the line, of which those from lo to hi may be looked at.
func smoothed(at func(int) orb.Point, n, lo, hi int, step, jitter float64, closed bool) []orb.Point {
	narrow := max(2, min(int(narrowest*jitter/step), n))
	wide := max(narrow, min(int(widest*jitter/step), n/4))
	half := make([]float64, n)
	for i := range n {
		h := wide
		for h > narrow {
			if _, off := parabola(at, i, max(lo, i-h), min(hi, i+h)); off <= noiseShare*jitter {
				break
			}
			h = max(narrow, int(float64(h)/widerBy))
		}
		half[i] = float64(h)
	}

	// Neighbours look equally far, nearly, so that the answer has no steps; and none further than half again as its
	// neighbours may.
	calm := make([]float64, n)
	for i := range n {
		k := max(1, int(half[i])/2)
		sum := 0.0
		for j := i - k; j <= i+k; j++ {
			m := min(n-1, max(0, j))
			if closed {
				m = ((j % n) + n) % n
			}
			sum += math.Min(half[m], half[i]*widerBy)
		}
		calm[i] = sum / float64(2*k+1)
	}

	out := make([]orb.Point, n)
	for i := range n {
		h := max(narrow, int(math.Round(calm[i])))
		out[i], _ = parabola(at, i, max(lo, i-h), min(hi, i+h))
	}
	return out
}

// parabola returns the point at i of the parabola of least squares through the samples from lo to hi, weighted by
// nearness, and how far it is off them on the root of the mean square.
func parabola(at func(int) orb.Point, i, lo, hi int) (orb.Point, float64) {
	reach := float64(max(i-lo, hi-i) + 1)
	var s [5]float64
	var b [3]orb.Point
	var square float64
	for j := lo; j <= hi; j++ {
		x := float64(j-i) / reach
		w := 1 - x*x
		p := geometry.Sub(at(j), at(i))
		square += w * geometry.Dot(p, p)
		for k, f := 0, w; k < 5; k, f = k+1, f*x {
			s[k] += f
			if k < 3 {
				b[k] = geometry.Add(b[k], geometry.Times(p, f))
			}
		}
	}

	// The 3 × 3 system by Cramer's rule.
	c0, c1, c2 := s[2]*s[4]-s[3]*s[3], s[2]*s[3]-s[1]*s[4], s[1]*s[3]-s[2]*s[2]
	det := s[0]*c0 + s[1]*c1 + s[2]*c2
	if math.Abs(det) < 1e-12*s[0]*s[0]*s[0] {
		return at(i), math.Inf(1)
	}
	var a [3]orb.Point
	for k, row := range [3][3]float64{{c0, c1, c2}, {c1, s[0]*s[4] - s[2]*s[2], s[1]*s[2] - s[0]*s[3]},
		{c2, s[1]*s[2] - s[0]*s[3], s[0]*s[2] - s[1]*s[1]}} {
		for m := range 3 {
			a[k] = geometry.Add(a[k], geometry.Times(b[m], row[m]/det))
		}
	}
	left := square - geometry.Dot(a[0], b[0]) - geometry.Dot(a[1], b[1]) - geometry.Dot(a[2], b[2])
	return geometry.Add(at(i), a[0]), math.Sqrt(math.Max(0, left) / (2 * s[0])) // of either coordinate
}
