package outlinetest

import (
	"math"

	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// Whole puts the pieces together.
func Whole(r outline.Result) orb.MultiPolygon {
	var mp orb.MultiPolygon
	for _, p := range r.Pieces {
		mp = append(mp, p.Outline...)
	}
	return mp
}

// Farthest returns the greatest distance in mm from any point along the rings of a to the rings of b, sampled every
// step mm; distances beyond half a millimetre count as that.
func Farthest(a, b orb.MultiPolygon, step float64) float64 {
	const cell, side = 0.5, 2*TruthSize/0.5 + 4
	index := make([][][2]orb.Point, int(side*side))
	at := func(v orb.Point) int {
		x := math.Max(1, math.Min(side-2, math.Floor(v[0]/cell)+2))
		y := math.Max(1, math.Min(side-2, math.Floor(v[1]/cell)+2))
		return int(y*side + x)
	}
	walk := func(mp orb.MultiPolygon, step float64, f func(p, q, at orb.Point)) {
		for _, p := range mp {
			for _, r := range p {
				for k := 0; k+1 < len(r); k++ {
					n := int(math.Hypot(r[k+1][0]-r[k][0], r[k+1][1]-r[k][1])/step) + 1
					for i := 0; i <= n; i++ {
						t := float64(i) / float64(n)
						f(r[k], r[k+1], orb.Point{r[k][0] + t*(r[k+1][0]-r[k][0]), r[k][1] + t*(r[k+1][1]-r[k][1])})
					}
				}
			}
		}
	}

	walk(b, cell/2, func(p, q, v orb.Point) {
		k := at(v)
		if n := len(index[k]); n == 0 || index[k][n-1] != [2]orb.Point{p, q} {
			index[k] = append(index[k], [2]orb.Point{p, q})
		}
	})
	worst := 0.0
	walk(a, step, func(_, _, v orb.Point) {
		best := cell
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				for _, e := range index[at(v)+dy*int(side)+dx] {
					best = math.Min(best, segmentDistance(v, e[0], e[1]))
				}
			}
		}
		worst = math.Max(worst, best)
	})
	return worst
}

func segmentDistance(x, a, b orb.Point) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t, l := 0.0, dx*dx+dy*dy
	if l > 0 {
		t = math.Min(1, math.Max(0, ((x[0]-a[0])*dx+(x[1]-a[1])*dy)/l))
	}
	return math.Hypot(a[0]+t*dx-x[0], a[1]+t*dy-x[1])
}

// CornerMiss returns the greatest distance in mm from a sharp corner to the nearest corner of the outline.
func CornerMiss(corners []orb.Point, mp orb.MultiPolygon) float64 {
	worst := 0.0
	for _, c := range corners {
		best := math.Inf(1)
		for _, p := range mp {
			for _, r := range p {
				for _, v := range r {
					best = math.Min(best, math.Hypot(v[0]-c[0], v[1]-c[1]))
				}
			}
		}
		worst = math.Max(worst, best)
	}
	return worst
}

// ChordPoints returns how many points the rule of Douglas and Peucker keeps of the true curve.
func ChordPoints(mp orb.MultiPolygon, tolerance float64) int {
	n := 0
	var part func(r orb.Ring, i, j int)
	part = func(r orb.Ring, i, j int) {
		at, worst := -1, tolerance
		for k := i + 1; k < j; k++ {
			if d := segmentDistance(r[k], r[i], r[j]); d > worst {
				at, worst = k, d
			}
		}
		if at < 0 {
			n++
			return
		}
		part(r, i, at)
		part(r, at, j)
	}

	for _, p := range mp {
		for _, r := range p {
			far, best := 0, 0.0
			for k, v := range r {
				if d := math.Hypot(v[0]-r[0][0], v[1]-r[0][1]); d > best {
					far, best = k, d
				}
			}
			part(r, 0, far)
			part(r, far, len(r)-1)
		}
	}
	return n
}
