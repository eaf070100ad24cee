package residue

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

func ring(xy ...float64) orb.Ring {
	var r orb.Ring
	for i := 0; i+1 < len(xy); i += 2 {
		r = append(r, orb.Point{xy[i], xy[i+1]})
	}
	return append(r, r[0])
}

func polygon(rings ...orb.Ring) orb.MultiPolygon {
	return geometry.Orient(orb.MultiPolygon{orb.Polygon(rings)})
}

func circle(x, y, r float64, n int) orb.Ring {
	var out orb.Ring
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out = append(out, orb.Point{x + r*c, y + r*s})
	}
	return append(out, out[0])
}

// comb returns a back with teeth upward, each tooth and each gap as wide as given.
func comb(teeth int, tooth, gap, length float64) orb.MultiPolygon {
	r := orb.Ring{{0, 0}, {float64(teeth)*(tooth+gap) - gap, 0}}
	for k := teeth - 1; k >= 0; k-- {
		x := float64(k) * (tooth + gap)
		r = append(r, orb.Point{x + tooth, 10}, orb.Point{x + tooth, 10 + length}, orb.Point{x, 10 + length},
			orb.Point{x, 10})
	}
	// The first and last corners at the back are not corners.
	out := r[:2:2]
	for _, p := range r[2:] {
		if (p[0] == 0 || p[0] == r[1][0]) && p[1] == 10 {
			continue
		}
		out = append(out, p)
	}
	return polygon(append(out, r[0]))
}

// twoCombs returns two combs whose teeth lie in each other's gaps, joined by a bar at the right; gap is the sheet left
// between teeth, all round them.
func twoCombs(gap float64) orb.MultiPolygon {
	const tooth, length, teeth = 4.0, 20.0, 3
	pitch := 2 * (tooth + gap)
	right := pitch*teeth + 10
	r := orb.Ring{{0, -10}, {right, -10}, {right, length + gap + 10}, {0, length + gap + 10}, {0, length + gap}}
	for k := range teeth { // the upper comb's teeth hang down
		x := float64(k)*pitch + tooth + gap
		r = append(r, orb.Point{x, length + gap}, orb.Point{x, gap}, orb.Point{x + tooth, gap},
			orb.Point{x + tooth, length + gap})
	}
	end := float64(teeth-1)*pitch + 2*(tooth+gap)
	r = append(r, orb.Point{end, length + gap}, orb.Point{end, 0})
	for k := teeth - 1; k >= 0; k-- {
		x := float64(k) * pitch
		r = append(r, orb.Point{x + tooth, 0}, orb.Point{x + tooth, length}, orb.Point{x, length}, orb.Point{x, 0})
	}
	out := r[:1:1]
	for _, p := range r[1:] {
		if p != (orb.Point{0, 0}) || len(out) == 1 {
			out = append(out, p)
		}
	}
	return polygon(append(out, r[0]))
}

// fin returns a block with a deep bay, out of whose floor a fin of plane... of the given width and length juts.
func fin(width, length float64) orb.MultiPolygon {
	// The plane comes in from above through a wide bay; the fin is a slot of plane below the bay's floor.
	return polygon(ring(0, 0, 60, 0, 60, 60, 50, 60, 50, 40, 30+width/2, 40, 30+width/2, 40-length, 30-width/2,
		40-length, 30-width/2, 40, 10, 40, 10, 60, 0, 60))
}

// spiral returns a strip of the given width that winds inward squarely from a side of 80, with the plane slot wide
// between its turns. The last side is at least 20 from the one across.
func spiral(sides int, strip, slot float64) orb.MultiPolygon {
	path := []orb.Point{{0, 0}}
	length, dir := 80.0, orb.Point{1, 0}
	for i := range sides {
		p := path[len(path)-1]
		path = append(path, orb.Point{p[0] + length*dir[0], p[1] + length*dir[1]})
		dir = orb.Point{-dir[1], dir[0]}
		if i >= 2 && i%2 == 0 {
			length -= strip + slot
		}
	}
	var left, right orb.Ring
	for i, p := range path {
		before, after := max(0, i-1), min(len(path)-2, i)
		n := func(k int) orb.Point {
			d := geometry.Sub(path[k+1], path[k])
			l := math.Hypot(d[0], d[1])
			return orb.Point{-d[1] / l, d[0] / l}
		}
		m := n(before)
		if before != after {
			m = orb.Point{m[0] + n(after)[0], m[1] + n(after)[1]}
		}
		left, right = append(left, along(p, m, strip/2)), append(right, along(p, m, -strip/2))
	}
	slices.Reverse(left)
	return polygon(append(append(right, left...), right[0]))
}

// letterC returns a ring 10 wide with a mouth of the given width at the right.
func letterC(mouth float64) orb.MultiPolygon {
	h := mouth / 2
	return polygon(ring(0, 0, 40, 0, 40, 20-h, 30, 20-h, 30, 10, 10, 10, 10, 30, 30, 30, 30, 20+h, 40, 20+h, 40, 40, 0,
		40))
}

func koch(steps int, side float64) orb.MultiPolygon {
	pts := orb.Ring{{0, 0}, {side / 2, side * math.Sqrt(3) / 2}, {side, 0}, {0, 0}}
	for range steps {
		var next orb.Ring
		for i := 0; i+1 < len(pts); i++ {
			p, q := pts[i], pts[i+1]
			d := orb.Point{(q[0] - p[0]) / 3, (q[1] - p[1]) / 3}
			a, b := orb.Point{p[0] + d[0], p[1] + d[1]}, orb.Point{p[0] + 2*d[0], p[1] + 2*d[1]}
			m := orb.Point{(a[0]+b[0])/2 - d[1]*math.Sqrt(3)/2, (a[1]+b[1])/2 + d[0]*math.Sqrt(3)/2}
			next = append(next, p, a, m, b)
		}
		pts = append(next, pts[len(pts)-1])
	}
	return polygon(pts)
}

func star(points int, outer, inner float64) orb.MultiPolygon {
	var r orb.Ring
	for i := range 2 * points {
		d := outer
		if i%2 == 1 {
			d = inner
		}
		s, c := math.Sincos(math.Pi * float64(i) / float64(points))
		r = append(r, orb.Point{d * c, d * s})
	}
	return polygon(append(r, r[0]))
}

// wedge returns a house with upright walls, whose roof meets in the given angle in degrees.
func wedge(angle float64) orb.MultiPolygon {
	h := 60 * math.Tan(angle/2*math.Pi/180)
	return polygon(ring(-h, -50, h, -50, h, 0, 0, 60, -h, 0))
}
