package scan

import "math"

// fitSurface returns the quadratic surface that, with the net on top where there is one, fits some of the spots best.
// In a second and third round spots are passed over that lie further off than most: smudges, folds, text.
func fitSurface(spots []sample, of []int32, net []float64) [6]float64 {
	var c [6]float64
	limit := math.Inf(1)
	step := 1 + len(of)/surfaceSamples
	for range 3 {
		var a [6][7]float64
		n := 0.0
		for at := 0; at < len(of); at += step {
			b, v := terms(&spots[of[at]], net)
			if !math.IsInf(limit, 1) && math.Abs(v-value(c, b)) > limit {
				continue
			}
			n++
			for i := range 6 {
				for j := i; j < 6; j++ {
					a[i][j] += b[i] * b[j]
				}
				a[i][6] += b[i] * v
			}
		}
		if n < minSamples {
			break
		}
		c = solve(a, n)
		sum, m := 0.0, 0.0
		for at := 0; at < len(of); at += step {
			b, v := terms(&spots[of[at]], net)
			if r := math.Abs(v - value(c, b)); r <= limit {
				sum += r * r
				m++
			}
		}
		limit = math.Max(outlier*math.Sqrt(sum/math.Max(m, 1)), outlier*minSpread)
	}
	return c
}

// terms returns the terms of the surface at a spot, and what is left for it to be there.
func terms(s *sample, net []float64) (b [6]float64, v float64) {
	v = s.v
	if net != nil {
		v -= netAt(net, s.x, s.y)
	}
	return [6]float64{1, s.x, s.y, s.x * s.x, s.x * s.y, s.y * s.y}, v
}

// value returns the surface from its terms.
func value(c, b [6]float64) float64 {
	return c[0] + c[1]*b[1] + c[2]*b[2] + c[3]*b[3] + c[4]*b[4] + c[5]*b[5]
}

// solve solves the normal equations, whose upper half is given, by Cholesky's way. A little is added to the diagonal of
// all but the constant, so that a direction of which nothing is known stays flat.
func solve(a [6][7]float64, n float64) [6]float64 {
	var l [6][6]float64
	for i := range 6 {
		if i > 0 {
			a[i][i] += stiffness * n
		}
		for j := 0; j <= i; j++ {
			sum := a[j][i]
			for k := range j {
				sum -= l[i][k] * l[j][k]
			}
			if i == j {
				l[i][i] = math.Sqrt(math.Max(sum, stiffness*n*1e-3))
			} else {
				l[i][j] = sum / l[j][j]
			}
		}
	}

	var x [6]float64
	for i := range 6 {
		x[i] = a[i][6]
		for k := range i {
			x[i] -= l[i][k] * x[k]
		}
		x[i] /= l[i][i]
	}
	for i := 5; i >= 0; i-- {
		for k := i + 1; k < 6; k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}

// knots measures what the surface leaves of the paper, as the mean around each knot of a net, and spreads it smoothly
// to knots that lie in ink.
func (l *light) knots(spots []sample) {
	l.net = nil
	const n = knots
	sum, weight := make([]float64, n*n), make([]float64, n*n)
	for k := range spots {
		s := &spots[k]
		ink, certain := l.sure(s)
		r := s.v - l.paper(s.x, s.y)
		if ink || !certain || math.Abs(r) > l.contrast/4 {
			continue
		}
		i, j := int(math.Round((s.x+1)/2*(n-1))), int(math.Round((s.y+1)/2*(n-1)))
		sum[j*n+i] += r
		weight[j*n+i]++
	}

	known := make([]bool, n*n)
	net := make([]float64, n*n)
	for k := range net {
		if weight[k] >= knotSamples {
			known[k] = true
			net[k] = sum[k] / weight[k]
		}
	}

	for range knotRounds {
		for j := range n {
			for i := range n {
				mean, c := 0.0, 0.0
				for _, d := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
					if x, y := i+d[0], j+d[1]; x >= 0 && y >= 0 && x < n && y < n {
						mean += net[y*n+x]
						c++
					}
				}
				k := j*n + i
				if !known[k] {
					net[k] = mean / c
				}
			}
		}
	}
	l.net = net
}

// netAt returns the net's value, straight between knots.
func netAt(net []float64, x, y float64) float64 {
	const n = knots
	u := max(0, min(n-1, (x+1)/2*(n-1)))
	v := max(0, min(n-1, (y+1)/2*(n-1)))
	i, j := min(int(u), n-2), min(int(v), n-2)
	u, v = u-float64(i), v-float64(j)
	k := j*n + i
	return (net[k]*(1-u)+net[k+1]*u)*(1-v) + (net[k+n]*(1-u)+net[k+n+1]*u)*v
}
