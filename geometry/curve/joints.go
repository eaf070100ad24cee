package curve

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// joint is a place where pieces may meet, with the direction in which the curve passes it.
type joint struct {
	at      orb.Point // on the curve
	anchor  orb.Point // the polygon's point that it stands for
	edge    int       // the ring's edge that holds the anchor, counted on over the ring's end …
	part    float64   // … and the part of that edge before it
	side    bool      // on a long straight side
	cut     bool      // in the middle of such a side: chains end there
	firm    bool      // stays where joints are too near to each other
	in, out orb.Point // directions of the curve before and after; equal but at a corner
	second  bool      // at a vertex: taken when no piece reaches the middle of an edge
	corner  bool
	turned  float64 // radians that the polygon has turned up to here, either way
}

// ring is an open polygon ready for fitting.
type ring struct {
	given []orb.Point // as it was given
	knots []knot      // its points with short edges drawn together …
	pts   []orb.Point // … and where they lie
	vs    []vertex
	tol   float64
	least float64 // mm from joint to joint
	arcs  bool    // joints are for arcs
	bends []bend  // of each edge, for arcs
}

func newRing(r orb.Ring, o Options) (*ring, bool) {
	g := &ring{given: open(r), tol: o.Tolerance, least: o.Shortest, arcs: o.Kind == Arc}
	if len(g.given) < 3 {
		return nil, false
	}
	g.knots = knots(g.given)
	if g.least > 0 {
		g.knots = cutting.tidied(g.given, g.least, g.tol, false)
	}
	g.pts = make([]orb.Point, len(g.knots))
	for i, k := range g.knots {
		g.pts[i] = k.at
	}
	mending := g.tol
	if g.least > 0 || g.arcs {
		mending = 0
	}
	g.vs = vertices(g.pts, mending)
	if len(g.vs) < 3 {
		return nil, false
	}
	if g.arcs {
		cutting.bends(g)
	}
	return g, true
}

func (g *ring) point(i int) orb.Point {
	n := len(g.pts)
	return g.pts[((i%n)+n)%n]
}

// knot returns point i of the tidied ring.
func (g *ring) knot(i int) *knot {
	n := len(g.knots)
	return &g.knots[((i%n)+n)%n]
}

// passed appends the ring's own points that point i of the tidied ring stands for, and says how many of them come
// before the place nearest to it.
func (g *ring) passed(dst []orb.Point, i int) (out []orb.Point, before int) {
	k := g.knot(i)
	closest, n, at := math.Inf(1), len(g.given), len(dst)
	before = 1
	for v := k.lo; v <= k.hi; v++ {
		dst = append(dst, g.given[v%n])
		if v == k.hi {
			break
		}
		if d := offSegment(g.given[v%n], g.given[(v+1)%n], k.at); d < closest {
			closest, before = d, len(dst)-at
		}
	}
	return dst, before
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
		if g.arcs {
			from = g.longest()
		}
		var all []joint
		for k := range n {
			i := from + k
			if k > 0 {
				all = g.withVertex(all, i)
			}
			all = append(all, g.onEdge(i)...)
		}
		all = g.withVertex(all, from+n)
		all = g.fromCut(all)
		again := all[0]
		again.edge += len(g.pts)
		return [][]joint{count(g, g.spaced(append(all, again)))}
	}

	var out [][]joint
	chain := []joint{g.atVertex(first)}
	for k := range n {
		i := first + k
		chain = append(chain, g.onEdge(i)...)
		chain = g.withVertex(chain, i+1)
		if g.vertex(i + 1).corner {
			out = append(out, count(g, g.spaced(chain)))
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
	before, after, long := g.length(i+n-1), g.length(i+1), g.isLong(i)
	// on returns the joint that far along the edge, on the edge itself.
	on := func(d float64) joint {
		at := geometry.Add(a.at, geometry.Times(dir, d))
		part := max(0, min(1, geometry.Dot(geometry.Sub(at, p), dir)/distance(p, q)))
		return joint{at: at, anchor: at, edge: edge, part: part, in: dir, out: dir, side: long, firm: true}
	}
	fit := bend{-1, -1}
	if g.arcs {
		fit = g.bends[i%n]
	}
	if long && g.arcs {
		mid := on(l / 2)
		mid.cut = true
		return slices.Concat(g.places(on, fit.on, before, l, a.corner), []joint{mid},
			reversed(g.places(func(d float64) joint { return on(l - d) }, fit.off, after, l, b.corner)))
	}
	if long {
		var out []joint
		if !a.corner {
			out = append(out, on(min(before/2, l/3)))
		}
		if !b.corner {
			out = append(out, on(l-min(after/2, l/3)))
		}
		return out
	}

	mid := geometry.Lerp(p, q, 0.5)
	out := 0.0
	if !a.corner && !b.corner && a.turn*b.turn > 0 {
		out = math.Copysign(height(min(math.Abs(a.turn), math.Abs(b.turn)), l)/3, a.turn)
		out = max(-jointShare/2*g.tol, min(jointShare/2*g.tol, out))
	}

	// A left turn keeps the outline's inside to the left: outside is to the right.
	at := geometry.Add(mid, geometry.Times(orb.Point{dir[1], -dir[0]}, out))
	js := []joint{{at: at, anchor: mid, edge: edge, part: 0.5, in: dir, out: dir}}
	if !g.arcs {
		return js
	}
	if fit.off > l/2 || fit.on > l/2 || g.coarse(i) && g.coarse(i+1) {
		js = nil
	}
	return slices.Concat(g.places(on, fit.on, before, l, a.corner), js,
		reversed(g.places(func(d float64) joint { return on(l - d) }, fit.off, after, l, b.corner)))
}

// withVertex appends the joint at vertex i, but where arcs pass it by.
func (g *ring) withVertex(chain []joint, i int) []joint {
	if g.arcs {
		if g.coarse(i) {
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
		j.edge, j.part, j.anchor = lo, 0.5, geometry.Lerp(g.point(lo), g.point(hi), 0.5)
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
