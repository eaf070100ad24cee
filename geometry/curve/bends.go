package curve

import (
	"math"
	"slices"
)

// bend says where on an edge the arc that leads onto it ends, and where the one that leads off it begins: mm from its
// ends, negative where there is none.
type bend struct{ on, off float64 }

// fromCut returns the joints of a whole ring beginning in the middle of a long side, if there is one.
func (g *ring) fromCut(all []joint) []joint {
	k := slices.IndexFunc(all, func(j joint) bool { return j.cut })
	if k < 0 {
		return all
	}
	out := slices.Clone(all[k:])
	for _, j := range all[:k] {
		j.edge += len(g.pts)
		out = append(out, j)
	}
	return out
}

// longest returns the vertex that the longest edge begins at: there the direction is sure.
func (g *ring) longest() int {
	best := 0
	for i := range g.vs {
		if g.length(i) > g.length(best) {
			best = i
		}
	}
	return best
}

// places returns joints along an edge of length l from one of its ends on: where an arc ends there, if it is known, and
// further ones where the edge beyond that end is much shorter, so that an arc can end where the direction fits.
func (g *ring) places(on func(float64) joint, fit, beyond, l float64, corner bool) []joint {
	var out []joint
	if fit >= 0 {
		out = append(out, on(fit))
	}
	if corner || l <= longEdge*beyond && fit < 0 {
		return out
	}
	d := min(beyond/2, l/3)
	if fit >= 0 {
		d = fit + max(fit, g.least)/2
	}
	for k := range sidePlaces {
		if d > l/3 {
			break
		}
		j := on(d)
		j.firm = k == 0 && fit < 0 && j.side
		out = append(out, j)
		d += max(d/2, g.least)
	}
	return out
}

func reversed(js []joint) []joint {
	slices.Reverse(js)
	return js
}

// isLong says whether the edge from vertex i on is a straight side: at either end there is a corner, or a much shorter
// edge, or, for arcs, a vertex that no curve explains.
func (g *ring) isLong(i int) bool {
	n := len(g.vs)
	l := g.length(i)
	end := func(v int, beyond float64) bool {
		t := math.Abs(g.vertex(v).turn)
		return g.vertex(v).corner || l > longEdge*beyond || g.arcs && height(t, min(l, beyond)) > farApart*g.tol
	}
	return end(i, g.length(i+n-1)) && end(i+1, g.length(i+1))
}

// coarse says whether vertex i is one that arcs pass by.
func (g *ring) coarse(i int) bool {
	_, ok := g.rounding(i, coarse)
	return ok
}

// findBends finds for each edge where arcs lead onto it and off it: round a vertex that is drawn coarsely, and round a
// run of short edges between two long ones. An arc between places as far from where two straight lines meet has the
// directions of both.
func (g *ring) findBends() {
	n := len(g.vs)
	g.bends = make([]bend, n)
	for i := range g.bends {
		g.bends[i] = bend{-1, -1}
	}
	for i := range g.vs {
		if g.vertex(i + 1).corner {
			continue
		}
		if d, ok := g.rounding(i+1, mild); ok {
			g.bends[i].off, g.bends[(i+1)%n].on = d, d
			continue
		}
		l, sum, widest := g.length(i), g.vertex(i+1).turn, 0.0
		k := i + 1
		for ; k < i+n && longEdge*g.length(k) <= l && (k == i+1 || g.length(k) < longEdge*widest); k++ {
			v := g.vertex(k + 1)
			if v.corner || v.turn*sum <= 0 || math.Abs(sum+v.turn) > maxTurn {
				break
			}
			sum += v.turn
			widest = max(widest, g.length(k))
		}
		if k == i+1 || g.length(k) < longEdge*widest {
			continue
		}
		a, b := g.vertex(i+1).at, g.vertex(k).at
		v, ok := meeting(g.vertex(i).at, a, b, g.vertex(k+1).at)
		if !ok {
			continue
		}
		off, on := distance(v, a), distance(v, b)
		// The run lies between the polygon in the arc and that round it: the arc ends between the run's end and the
		// middle of its last edge.
		off += g.length(i+1) / 2
		on += g.length(k-1) / 2
		far := max((off+on)/2, g.least/(2*math.Cos(sum/2)))
		off, on = far-distance(v, a), far-distance(v, b)
		if off >= 0 && on >= 0 && off < l/2 && on < g.length(k)/2 {
			g.bends[i].off, g.bends[k%n].on = off, on
		}
	}
}

// rounding says whether vertex i is drawn so coarsely that a joint there would lie so many times further from it than a
// joint may, and if so
// how far from it the arc begins that passes it as far off as a joint may lie.
func (g *ring) rounding(i int, times float64) (float64, bool) {
	v := g.vertex(i)
	l := min(g.length(i+len(g.vs)-1), g.length(i))
	if v.corner || v.lo != v.hi || 2.0/3*height(math.Abs(v.turn), l) <= times*jointShare*g.tol {
		return 0, false
	}
	return min(jointShare*g.tol/math.Tan(math.Abs(v.turn)/4), l/3), true
}

// rounded returns by how much a curve that rounds every vertex but the corners is shorter than the polygon: where it
// passes a vertex that turns by t at a distance d, by about d·t/2.
func (g *ring) rounded() float64 {
	n, sum := len(g.vs), 0.0
	for i := range g.vs {
		if v := &g.vs[i]; !v.corner {
			t := math.Abs(v.turn)
			sum += min(jointShare*g.tol, 2.0/3*height(t, min(g.length(i+n-1), g.length(i)))) * t / 2
		}
	}
	return sum
}
