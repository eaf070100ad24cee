package scan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// steady smooths a closed ring in place, so that what jitters by up to size mm is rounded, and moves no point further
// than that. Between sharp corners, which stay, points are carried along the ring by a mean over its length: twice a
// normal distribution's less the same applied twice, which leaves arcs that are long against it where they are.
func steady(ring orb.Ring, size float64) {
	n := len(ring) - 1
	if size <= 0 || n < 8 {
		return
	}
	at := make([]float64, n+1) // length up to each point
	for k := range n {
		at[k+1] = at[k] + math.Hypot(ring[k+1][0]-ring[k][0], ring[k+1][1]-ring[k][1])
	}
	if at[n] < steadyLeast*size {
		return
	}
	corners := sharpCorners(ring, at, size)
	var out []orb.Point
	if len(corners) == 0 {
		out = steadyRun(ring[:n:n], at, size, true)
	} else {
		out = make([]orb.Point, n)
		for i, from := range corners {
			to := corners[(i+1)%len(corners)]
			if to <= from {
				to += n
			}
			var run []orb.Point
			length := []float64{}
			for k := from; k <= to; k++ {
				run = append(run, ring[k%n])
				length = append(length, at[k%n]+at[n]*float64(k/n)-at[from])
			}
			for k, v := range steadyRun(run, length, size, false) {
				out[(from+k)%n] = v
			}
		}
	}

	copy(ring, out)
	ring[n] = ring[0]
}

// steadyRun returns the points of a run smoothed; at are lengths up to each, of a closed run one more for the way back.
// The ends of an open run stay.
func steadyRun(run []orb.Point, at []float64, size float64, closed bool) []orb.Point {
	total := at[len(at)-1]
	step := size / steadySteps
	m := int(total / step)
	if m < 4 || m > maxSteady {
		return slices.Clone(run)
	}
	step = total / float64(m)
	even := make([]orb.Point, m+1) // the run at even lengths
	k := 0
	for i := range even {
		s := float64(i) * step
		for k+2 < len(at) && at[k+1] < s {
			k++
		}
		p, q := run[k], run[(k+1)%len(run)]
		t := 0.0
		if d := at[k+1] - at[k]; d > 0 {
			t = math.Min(1, math.Max(0, (s-at[k])/d))
		}
		even[i] = orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
	}

	once := blurred(even, closed)
	twice := blurred(once, closed)
	moved := make([]orb.Point, m+1) // by how much the run is moved at even lengths
	for i := range moved {
		for c := range 2 {
			moved[i][c] = 2*once[i][c] - twice[i][c] - even[i][c]
		}
		if d := math.Hypot(moved[i][0], moved[i][1]); d > size {
			moved[i][0], moved[i][1] = moved[i][0]*size/d, moved[i][1]*size/d
		}
	}

	out := make([]orb.Point, len(run))
	for k, p := range run {
		i := min(int(at[k]/step), m-1)
		t := math.Min(1, math.Max(0, at[k]/step-float64(i)))
		for c := range 2 {
			out[k][c] = p[c] + moved[i][c]*(1-t) + moved[i+1][c]*t
		}
	}
	if !closed {
		out[0], out[len(out)-1] = run[0], run[len(run)-1]
	}
	return out
}

// blurred returns points blurred along the run by a normal distribution of steadySpread sizes. A closed run goes on
// with its other end, an open one with its image turned half round about its end, which so stays.
func blurred(p []orb.Point, closed bool) []orb.Point {
	m := len(p) - 1
	const reach = 3 * steadySpread * steadySteps
	var w [reach + 1]float64
	sum := 0.0
	for i := range w {
		w[i] = math.Exp(-float64(i*i) / (2 * steadySpread * steadySpread * steadySteps * steadySteps))
		sum += w[i]
		if i > 0 {
			sum += w[i]
		}
	}
	at := func(i int) orb.Point {
		switch {
		case closed:
			return p[((i%m)+m)%m]
		case i < 0:
			q := p[min(-i, m)]
			return orb.Point{2*p[0][0] - q[0], 2*p[0][1] - q[1]}
		case i > m:
			q := p[max(2*m-i, 0)]
			return orb.Point{2*p[m][0] - q[0], 2*p[m][1] - q[1]}
		}
		return p[i]
	}

	out := make([]orb.Point, len(p))
	for i := range p {
		x, y := w[0]*p[i][0], w[0]*p[i][1]
		for j := 1; j <= reach; j++ {
			a, b := at(i-j), at(i+j)
			x += w[j] * (a[0] + b[0])
			y += w[j] * (a[1] + b[1])
		}
		out[i] = orb.Point{x / sum, y / sum}
	}
	return out
}

// sharpCorners returns the indexes of the points where a ring turns sharply within size mm, with sides that are
// straight to about the jitter beside it: where the directions over flankSizes before and behind differ by sharpTurn or
// more, the point farthest from the chord between them.
func sharpCorners(ring orb.Ring, at []float64, size float64) []int {
	n := len(ring) - 1
	total := at[n]
	flank, gap := flankSizes*size, size
	if total < 4*(flank+gap) {
		return nil
	}
	turn := make([]float64, n)
	for k := range n {
		a, b := along(ring, at, at[k]-gap-flank), along(ring, at, at[k]-gap/2)
		c, d := along(ring, at, at[k]+gap/2), along(ring, at, at[k]+gap+flank)
		ux, uy, vx, vy := b[0]-a[0], b[1]-a[1], d[0]-c[0], d[1]-c[1]
		turn[k] = math.Abs(math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy))
	}

	// Of all points that turn enough and lie within a flank of each other the one that turns most; of those that turn
	// alike, the one in the middle.
	var out []int
	for k := 0; k < n; k++ {
		if turn[k] < sharpTurn {
			continue
		}
		best := true
		for _, way := range []int{-1, 1} {
			for i := 1; i < n; i++ {
				j := ((k+way*i)%n + n) % n
				d := math.Abs(at[j] - at[k])
				if d = math.Min(d, total-d); d > flank {
					break
				}
				best = best && (turn[j] < turn[k] || turn[j] == turn[k] && way > 0)
			}
		}
		if best {
			out = append(out, tipNear(ring, at, k, gap))
		}
	}

	slices.Sort(out)
	return slices.Compact(out)
}

// tipNear returns the point within reach mm of point k, along the ring, that lies farthest from the chord between the
// two points at twice the reach.
func tipNear(ring orb.Ring, at []float64, k int, reach float64) int {
	n := len(ring) - 1
	a, b := along(ring, at, at[k]-2*reach), along(ring, at, at[k]+2*reach)
	tip, farthest := k, -1.0
	for _, way := range []int{-1, 1} {
		for i := range n {
			j := ((k+way*i)%n + n) % n
			d := math.Abs(at[j] - at[k])
			if math.Min(d, at[n]-d) > reach {
				break
			}
			if h := math.Abs((b[0]-a[0])*(ring[j][1]-a[1]) - (b[1]-a[1])*(ring[j][0]-a[0])); h > farthest {
				tip, farthest = j, h
			}
		}
	}
	return tip
}

// along returns the point of a ring at a length, which may lie a round before or behind.
func along(ring orb.Ring, at []float64, s float64) orb.Point {
	n := len(ring) - 1
	s = math.Mod(s, at[n])
	if s < 0 {
		s += at[n]
	}
	k, ok := slices.BinarySearch(at, s)
	if !ok {
		k--
	}
	k = min(max(k, 0), n-1)
	t := 0.0
	if d := at[k+1] - at[k]; d > 0 {
		t = (s - at[k]) / d
	}
	p, q := ring[k], ring[k+1]
	return orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
}
