package geostest

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Fault says in a sentence why an outline is not valid, or nothing. It is brute force, apart from the code it judges:
// it holds every edge against every other. Rings must be closed, simple and rightly turned, must not cross or share a
// stretch, may touch at points only, and the inside of each polygon must be in one piece.
func Fault(mp orb.MultiPolygon) string {
	type edge struct {
		a, b       orb.Point
		poly, ring int
	}
	var edges []edge
	for i, p := range mp {
		if len(p) == 0 {
			return fmt.Sprintf("polygon %d is empty", i)
		}
		for j, r := range p {
			if len(r) < 4 || r[0] != r[len(r)-1] {
				return fmt.Sprintf("ring %d of polygon %d is too short or not closed", j, i)
			}
			if a := area(r); (a > 0) != (j == 0) || math.IsNaN(a) {
				return fmt.Sprintf("ring %d of polygon %d has an area of %g", j, i, a)
			}
			seen := map[orb.Point]bool{}
			for k := range len(r) - 1 {
				if seen[r[k]] {
					return fmt.Sprintf("ring %d of polygon %d is at %v twice", j, i, r[k])
				}
				seen[r[k]] = true
				edges = append(edges, edge{r[k], r[k+1], i, j})
			}
		}
	}

	for i, e := range edges {
		for _, f := range edges[:i] {
			if math.Max(e.a[0], e.b[0]) < math.Min(f.a[0], f.b[0]) ||
				math.Max(f.a[0], f.b[0]) < math.Min(e.a[0], e.b[0]) ||
				math.Max(e.a[1], e.b[1]) < math.Min(f.a[1], f.b[1]) ||
				math.Max(f.a[1], f.b[1]) < math.Min(e.a[1], e.b[1]) {
				continue
			}
			if (e.a == f.a && e.b == f.b) || (e.a == f.b && e.b == f.a) {
				return fmt.Sprintf("the edge from %v to %v is there twice", e.a, e.b)
			}
			s, t := side(f.a, f.b, e.a)*side(f.a, f.b, e.b), side(e.a, e.b, f.a)*side(e.a, e.b, f.b)
			if s < 0 && t < 0 {
				return fmt.Sprintf("the edges %v-%v and %v-%v cross", e.a, e.b, f.a, f.b)
			}
		}
	}

	for i, p := range mp {
		if f := faultInside(i, p); f != "" {
			return f
		}
		for j, q := range mp {
			if i != j && inPolygon(p, probe(q[0], p)) {
				return fmt.Sprintf("polygon %d lies in polygon %d", j, i)
			}
		}
	}
	return ""
}

// faultInside looks at the holes of one polygon.
func faultInside(i int, p orb.Polygon) string {
	for j, h := range p[1:] {
		if !InRing(p[0], probe(h, orb.Polygon{p[0]})) {
			return fmt.Sprintf("hole %d of polygon %d lies outside it", j+1, i)
		}
		for k, g := range p[1:] {
			if j != k && InRing(g, probe(h, orb.Polygon{g})) {
				return fmt.Sprintf("hole %d of polygon %d lies in hole %d", j+1, i, k+1)
			}
		}
	}

	// The inside falls into pieces where rings that touch close a circle: rings and points joined as a graph.
	parent := map[any]any{}
	var root func(x any) any
	root = func(x any) any {
		if up, ok := parent[x]; ok && up != x {
			return root(up)
		}
		return x
	}
	users := map[orb.Point]int{}
	for _, r := range p {
		for _, v := range r[:len(r)-1] {
			users[v]++
		}
	}

	for j, r := range p {
		for _, v := range r[:len(r)-1] {
			if users[v] < 2 {
				continue
			}
			a, b := root(j), root(v)
			if a == b {
				return fmt.Sprintf("the inside of polygon %d is in pieces at %v", i, v)
			}
			parent[a] = b
		}
	}
	return ""
}

func area(r orb.Ring) float64 {
	o, sum := r[0], 0.0
	for i := 1; i+1 < len(r); i++ {
		sum += (r[i][0]-o[0])*(r[i+1][1]-o[1]) - (r[i][1]-o[1])*(r[i+1][0]-o[0])
	}
	return sum / 2
}

// side is -1, 0 or 1 as p lies right of the line from a to b, near it or left of it.
func side(a, b, p orb.Point) float64 {
	const near = 1e-10 // mm
	dx, dy := b[0]-a[0], b[1]-a[1]
	d := (dx*(p[1]-a[1]) - dy*(p[0]-a[0])) / math.Hypot(dx, dy)
	if math.Abs(d) < near {
		return 0
	}
	return math.Copysign(1, d)
}

// probe returns the point of a ring, or middle of one of its edges, that is furthest from the boundary of p.
func probe(r orb.Ring, p orb.Polygon) orb.Point {
	best, at := -1.0, r[0]
	for i := range min(len(r)-1, 60) {
		for _, q := range [2]orb.Point{r[i], {(r[i][0] + r[i+1][0]) / 2, (r[i][1] + r[i+1][1]) / 2}} {
			if d := DistanceTo(orb.MultiPolygon{p}, q); d > best {
				best, at = d, q
			}
		}
	}
	return at
}

// DistanceTo returns the distance in mm from q to the boundary of an outline.
func DistanceTo(mp orb.MultiPolygon, q orb.Point) float64 {
	best := math.Inf(1)
	for _, p := range mp {
		for _, r := range p {
			for i := 0; i+1 < len(r); i++ {
				dx, dy, t := r[i+1][0]-r[i][0], r[i+1][1]-r[i][1], 0.0
				if l := dx*dx + dy*dy; l > 0 {
					t = max(0, min(1, ((q[0]-r[i][0])*dx+(q[1]-r[i][1])*dy)/l))
				}
				best = min(best, math.Hypot(q[0]-r[i][0]-t*dx, q[1]-r[i][1]-t*dy))
			}
		}
	}
	return best
}

// InRing reports whether q lies in a ring, by the parity of the edges right of it.
func InRing(r orb.Ring, q orb.Point) bool { return Winding(r, q)&1 == 1 }

// Winding returns how often a ring winds about q counter-clockwise.
func Winding(r orb.Ring, q orb.Point) int {
	w := 0
	for i := 0; i+1 < len(r); i++ {
		a, b := r[i], r[i+1]
		if (a[1] > q[1]) != (b[1] > q[1]) && q[0] < a[0]+(q[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			if b[1] > a[1] {
				w++
			} else {
				w--
			}
		}
	}
	return w
}

func inPolygon(p orb.Polygon, q orb.Point) bool {
	in := false
	for _, r := range p {
		in = in != InRing(r, q)
	}
	return in
}

// In reports whether q lies in an outline.
func In(mp orb.MultiPolygon, q orb.Point) bool {
	for _, p := range mp {
		if inPolygon(p, q) {
			return true
		}
	}
	return false
}
