package joined

import (
	"math"

	"github.com/paulmach/orb"
)

// line is a polyline, mm.
type line []orb.Point

// crossings returns where the level line at y meets a line, the least and the greatest x.
func (l line) crossings(y float64) (left, right float64, ok bool) {
	left, right = math.Inf(1), math.Inf(-1)
	for i := 0; i+1 < len(l); i++ {
		a, b := l[i], l[i+1]
		if math.Min(a[1], b[1]) > y || math.Max(a[1], b[1]) < y {
			continue
		}
		xs := []float64{a[0], b[0]}
		if a[1] != b[1] {
			xs = []float64{a[0] + (y-a[1])/(b[1]-a[1])*(b[0]-a[0])}
		}
		for _, x := range xs {
			left, right, ok = math.Min(left, x), math.Max(right, x), true
		}
	}
	return left, right, ok
}

// nearest returns the point of a line nearest to p, how far along the line it is, and how far from p.
func (l line) nearest(p orb.Point) (at orb.Point, along, d float64) {
	d = math.Inf(1)
	run := 0.0
	for i := 0; i+1 < len(l); i++ {
		a, b := l[i], l[i+1]
		ux, uy := b[0]-a[0], b[1]-a[1]
		n := math.Hypot(ux, uy)
		if n == 0 {
			continue
		}
		t := math.Max(0, math.Min(1, ((p[0]-a[0])*ux+(p[1]-a[1])*uy)/(n*n)))
		q := orb.Point{a[0] + t*ux, a[1] + t*uy}
		if e := math.Hypot(p[0]-q[0], p[1]-q[1]); e < d {
			at, along, d = q, run+t*n, e
		}
		run += n
	}
	return at, along, d
}

func (l line) length() float64 {
	sum := 0.0
	for i := 0; i+1 < len(l); i++ {
		sum += math.Hypot(l[i+1][0]-l[i][0], l[i+1][1]-l[i][1])
	}
	return sum
}

// between returns the stretch from one length along the line to a greater one.
func (l line) between(from, to float64) line {
	var out line
	put := func(p orb.Point) {
		if n := len(out); n == 0 || math.Hypot(out[n-1][0]-p[0], out[n-1][1]-p[1]) > same {
			out = append(out, p)
		}
	}
	put(l.at(from))
	run := 0.0
	for i := 0; i+1 < len(l); i++ {
		run += math.Hypot(l[i+1][0]-l[i][0], l[i+1][1]-l[i][1])
		if run > from+same && run < to-same {
			put(l[i+1])
		}
	}
	put(l.at(to))
	return out
}

// at returns the point so many mm along the line.
func (l line) at(along float64) orb.Point {
	for i := 0; i+1 < len(l); i++ {
		a, b := l[i], l[i+1]
		n := math.Hypot(b[0]-a[0], b[1]-a[1])
		if along <= n && n > 0 {
			t := math.Max(0, along/n)
			return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
		}
		along -= n
	}
	return l[len(l)-1]
}

func (l line) swapped() line {
	var out line
	for _, p := range l {
		out = append(out, orb.Point{p[1], p[0]})
	}
	return out
}

func (l line) reversed() line {
	out := make(line, len(l))
	for i, p := range l {
		out[len(l)-1-i] = p
	}
	return out
}
