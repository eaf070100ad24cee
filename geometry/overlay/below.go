package overlay

import "math"

// edgeBelow returns, of the edges straight below p and just left of it for which want is true, the highest, as the
// half-edge with its upper side on its left; -1 where there is none. No edge may run from p to the left.
func (g *faces) edgeBelow(p point, want func(i int32) bool) int32 {
	best, floor := int32(-1), math.Inf(-1)
	g.tree.below(p, func(i int32) float64 {
		e := &g.edges[i]
		a, b := g.pts[e.a], g.pts[e.b]
		if a.x < p.x && p.x <= b.x && want(i) && orient(a, b, p) > 0 && (best < 0 || g.above(i, best/2)) {
			best, floor = 2*i, a.y+(p.x-a.x)/(b.x-a.x)*(b.y-a.y)-floorSlack
		}
		return floor
	})
	return best
}

// above reports whether edge i lies above edge j, where both cross the same upright line and do not cross one another.
func (g *faces) above(i, j int32) bool {
	a, b := g.pts[g.edges[i].a], g.pts[g.edges[i].b]
	c, d := g.pts[g.edges[j].a], g.pts[g.edges[j].b]
	if a.x < c.x {
		if s := orient(a, b, c); s != 0 {
			return s < 0
		}
		return orient(a, b, d) < 0
	}
	if s := orient(c, d, a); s != 0 {
		return s > 0
	}
	return orient(c, d, b) > 0
}
