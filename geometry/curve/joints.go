package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// joint is a place where pieces may meet, with the direction in which the curve passes it.
type joint struct {
	at      orb.Point // on the curve
	anchor  orb.Point // the polygon's point that it stands for
	edge    int       // the ring's edge that holds the anchor, counted on over the ring's end
	in, out orb.Point // directions of the curve before and after; equal but at a corner
	second  bool      // at a vertex: taken when no piece reaches the middle of an edge
	corner  bool
	turned  float64 // radians that the polygon has turned up to here, either way
}

// ring is an open polygon ready for fitting.
type ring struct {
	pts  []orb.Point
	vs   []vertex
	tol  float64
	arcs bool // joints are for arcs
}

func newRing(r orb.Ring, o Options) (*ring, bool) {
	g := &ring{pts: open(r), tol: o.Tolerance, arcs: o.Kind == Arc}
	if len(g.pts) < 3 {
		return nil, false
	}
	g.vs = vertices(g.pts, g.tol)
	return g, len(g.vs) >= 3
}

func (g *ring) point(i int) orb.Point {
	n := len(g.pts)
	return g.pts[((i%n)+n)%n]
}

// chains returns the joints from corner to corner, or of the whole ring when it has none: then the first joint comes
// again as the last, counted on by one round.
func (g *ring) chains() [][]joint {
	n := len(g.vs)
	first := -1
	for i, v := range g.vs {
		if v.corner {
			first = i
			break
		}
	}
	if first < 0 {
		from := g.tightest()
		var all []joint
		for k := range n {
			i := from + k
			if k > 0 {
				all = g.withVertex(all, i)
			}
			all = append(all, g.onEdge(i)...)
		}
		all = g.withVertex(all, from+n)
		again := all[0]
		again.edge += len(g.pts)
		return [][]joint{count(g, append(all, again))}
	}

	var out [][]joint
	chain := []joint{g.atVertex(first)}
	for k := range n {
		i := first + k
		chain = append(chain, g.onEdge(i)...)
		chain = g.withVertex(chain, i+1)
		if g.vertex(i + 1).corner {
			out = append(out, count(g, chain))
			chain = []joint{g.atVertex(i + 1)}
		}
	}
	return out
}

func (g *ring) vertex(i int) *vertex { return &g.vs[i%len(g.vs)] }

// point index of vertex i, counted on over the ring's end.
func (g *ring) span(i int) (lo, hi int) {
	v, round := g.vertex(i), i/len(g.vs)*len(g.pts)
	return v.lo + round, v.hi + round
}

// length of the edge from vertex i on.
func (g *ring) length(i int) float64 { return distance(g.vertex(i).at, g.vertex(i+1).at) }

func (g *ring) direction(i int) orb.Point {
	return geometry.Unit(geometry.Sub(g.vertex(i+1).at, g.vertex(i).at))
}

// tightest returns the vertex whose turn to its length is greatest: a start there shows least.
func (g *ring) tightest() int {
	n, best, sharpest := len(g.vs), 0, -1.0
	for i := range g.vs {
		bend := math.Abs(g.vs[i].turn) / (g.length(i+n-1) + g.length(i))
		if bend > sharpest {
			best, sharpest = i, bend
		}
	}
	return best
}

// height returns how far the arc that turns as vertex i does lies from the chord of that length: L·turn/8.
func height(turn, length float64) float64 { return length * turn / 8 }

// onEdge returns the joints on the edge from vertex i on: one at its middle, moved out to where the curve that encloses
// as much as the polygon would be (a third of an arc's height outside the chord whose ends lie two thirds outside the
// arc); on a long straight side two near its ends; between two corners none.
func (g *ring) onEdge(i int) []joint {
	n := len(g.vs)
	a, b := g.vertex(i), g.vertex(i+1)
	if a.corner && b.corner {
		return nil
	}
	l, dir := g.length(i), g.direction(i)
	_, edge := g.span(i)
	p, q := g.point(edge), g.point(edge+1)
	if distance(p, q) <= minLength {
		return nil
	}
	before, after := g.length(i+n-1), g.length(i+1)
	long := l > longEdge*max(before, after)
	if a.corner {
		long = l > longEdge*after
	} else if b.corner {
		long = l > longEdge*before
	}
	if long {
		var out []joint
		if !a.corner {
			at := geometry.Lerp(p, q, min(before/2, l/3)/l)
			out = append(out, joint{at: at, anchor: at, edge: edge, in: dir, out: dir})
		}
		if !b.corner {
			at := geometry.Lerp(q, p, min(after/2, l/3)/l)
			out = append(out, joint{at: at, anchor: at, edge: edge, in: dir, out: dir})
		}
		return out
	}

	if g.arcs {
		// An arc between places as far from the vertex on both its edges has their directions.
		var out []joint
		if d, ok := g.rounding(i); ok {
			at := geometry.Lerp(p, q, d/l)
			out = append(out, joint{at: at, anchor: at, edge: edge, in: dir, out: dir})
		}
		if d, ok := g.rounding(i + 1); ok {
			at := geometry.Lerp(q, p, d/l)
			out = append(out, joint{at: at, anchor: at, edge: edge, in: dir, out: dir})
		}
		if len(out) > 0 {
			return out
		}
	}

	mid := geometry.Lerp(p, q, 0.5)
	out := 0.0
	if !a.corner && !b.corner && a.turn*b.turn > 0 {
		out = math.Copysign(height(min(math.Abs(a.turn), math.Abs(b.turn)), l)/3, a.turn)
		out = max(-jointShare/2*g.tol, min(jointShare/2*g.tol, out))
	}

	// A left turn keeps the outline's inside to the left: outside is to the right.
	at := geometry.Add(mid, geometry.Times(orb.Point{dir[1], -dir[0]}, out))
	return []joint{{at: at, anchor: mid, edge: edge, in: dir, out: dir}}
}

// rounding says whether vertex i is drawn so coarsely that no joint beside it could do for both its edges, and if so
// how far from it the arc begins that passes it as far off as a joint may lie.
func (g *ring) rounding(i int) (float64, bool) {
	v := g.vertex(i)
	l := min(g.length(i+len(g.vs)-1), g.length(i))
	if v.corner || v.lo != v.hi || 2.0/3*height(math.Abs(v.turn), l) <= coarse*jointShare*g.tol {
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

// withVertex appends the joint at vertex i, but where arcs pass it by.
func (g *ring) withVertex(chain []joint, i int) []joint {
	if g.arcs {
		if _, ok := g.rounding(i); ok {
			return chain
		}
	}
	return append(chain, g.atVertex(i))
}

// atVertex returns the joint at vertex i: a corner itself, with the directions that the curve beside it would have
// there; else a place inside the turn by up to two thirds of an arc's height, with the direction that divides the turn
// as the chords of one circle would.
func (g *ring) atVertex(i int) joint {
	n := len(g.vs)
	i += n
	v := g.vertex(i)
	lo, hi := g.span(i - n)
	a, b := g.length(i-1), g.length(i)
	j := joint{at: v.at, anchor: v.at, edge: hi, corner: v.corner, second: !v.corner}
	if v.corner {
		j.in = turned(g.direction(i-1), g.bend(i-1, a, g.length(i-2)))
		j.out = turned(g.direction(i), -g.bend(i+1, b, g.length(i+1)))
		return j
	}
	if lo != hi {
		j.edge, j.anchor = lo, geometry.Lerp(g.point(lo), g.point(hi), 0.5)
	}
	dir := turned(g.direction(i-1), v.turn*a/(a+b))
	h := min(jointShare*g.tol, 2.0/3*height(math.Abs(v.turn), min(a, b)))
	j.at = geometry.Add(j.anchor, geometry.Times(orb.Point{-dir[1], dir[0]}, math.Copysign(h, v.turn)))
	j.in, j.out = dir, dir
	return j
}

// bend returns the angle that the curve turns between the middle of an edge and its end at a corner, going by the turn
// at the edge's other vertex i and the lengths of the edge and the one beyond.
func (g *ring) bend(i int, length, beyond float64) float64 {
	if v := g.vertex(i); !v.corner && length <= longEdge*beyond {
		return v.turn * length / (length + beyond)
	}
	return 0
}

// count sums up how far the polygon has turned at each joint of a chain.
func count(g *ring, chain []joint) []joint {
	sum := 0.0
	for k := range chain {
		if k > 0 {
			sum += math.Abs(math.Atan2(geometry.Cross(chain[k-1].out, chain[k].in),
				geometry.Dot(chain[k-1].out, chain[k].in)))
		}
		chain[k].turned = sum
	}
	return chain
}

// between returns the polygon's way from the anchor of one joint to that of another further on.
func (g *ring) between(dst []orb.Point, a, b *joint) []orb.Point {
	dst = append(dst[:0], a.anchor)
	for k := a.edge + 1; k <= b.edge; k++ {
		dst = append(dst, g.point(k))
	}
	return append(dst, b.anchor)
}
