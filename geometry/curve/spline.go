package curve

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Arcs and lines from joint to joint, each going on in the direction in which the one before it arrives, as few of them
// as lead from one end of a chain to the other.
//
// Arcs between two places are a pencil with one parameter, the direction they leave in; those that keep to the
// polygon within the limit leave in an interval of directions, and arrive in its mirror image about the chord. So the
// directions in which a joint can be reached by n arcs are intervals, and the least n for every joint follows from
// those before it.

// reached is an interval of directions, in radians against the joint's own, in which a place can be arrived at.
type reached struct {
	lo, hi     float64
	count      int     // of pieces
	node, from int     // the place before and its interval
	chord      float64 // direction of the chord against that of the joint before
	end        float64 // and of this joint against the chord
}

// node is a place that arcs may meet at: a joint's own, or one beside it.
type node struct {
	at     orb.Point
	joint  int
	fewest int // pieces that lead to it
	states []reached
}

// arcChain is the search through one chain.
type arcChain struct {
	search
	js      []joint
	nodes   []node
	samples []sample
	first   []int   // of each joint: its first sample behind it
	kink    float64 // radians by which arcs may miss a common direction
	least   float64 // mm
	ahead   []int   // the furthest joint that so many pieces have reached
}

// newArcChain prepares a chain, with a place to either side of each joint: of those at vertices, or of all but corners
// and ends.
func (b *builder) newArcChain(js []joint, limit float64, s search) *arcChain {
	c := &arcChain{search: s, js: js, first: make([]int, len(js)), kink: b.kink, least: b.least}
	c.thorough = c.thorough || len(js) < shortChain
	for i := range js {
		j := &js[i]
		c.nodes = append(c.nodes, node{at: j.at, joint: i, fewest: math.MaxInt})
		if j.corner || j.cut || i == 0 || i == len(js)-1 || !s.all && !j.second {
			continue
		}
		right := orb.Point{j.in[1], -j.in[0]}
		off := geometry.Dot(geometry.Sub(j.at, j.anchor), right)
		for _, o := range [...]float64{off - besideShare*limit, off + besideShare*limit} {
			if o = max(-jointShare*limit, min(jointShare*limit, o)); o != off {
				c.nodes = append(c.nodes, node{at: geometry.Add(j.anchor, geometry.Times(right, o)), joint: i,
					fewest: math.MaxInt})
			}
		}
	}

	at := 0
	behind := func(edge int, part float64) {
		for at < len(js) && (js[at].edge < edge || js[at].edge == edge && js[at].part <= part) {
			c.first[at] = len(c.samples)
			at++
		}
	}
	for e := js[0].edge; e <= js[len(js)-1].edge; e++ {
		o, p, q := b.point(e-1), b.point(e), b.point(e+1)
		in, out := rightOf(o, p), rightOf(p, q)
		behind(e, -1)
		strayed, beyond := b.knot(e).stray, b.knot(e+1).stray
		c.samples = append(c.samples, newSample(p, geometry.Unit(geometry.Add(in, out)), limit-strayed,
			math.Copysign(outsideShare, geometry.Cross(in, out))))
		behind(e, 0)
		// Some on each stretch from joint to joint along the edge.
		for part := 0.0; part < 1; {
			next := 1.0
			if at < len(js) && js[at].edge == e {
				next = js[at].part
			}
			for _, k := range [...]float64{0.25, 0.5, 0.75} {
				c.samples = append(c.samples, newSample(geometry.Lerp(p, q, part+k*(next-part)), out,
					limit-max(strayed, beyond), 0))
			}
			behind(e, next)
			part = next
		}
	}
	for ; at < len(js); at++ {
		c.first[at] = len(c.samples)
	}
	return c
}

func rightOf(p, q orb.Point) orb.Point {
	d := geometry.Unit(geometry.Sub(q, p))
	return orb.Point{d[1], -d[0]}
}

// solve finds the intervals of all places and reports whether the last can be reached.
func (c *arcChain) solve() bool {
	last := len(c.nodes) - 1
	start := reached{lo: c.lean, hi: c.lean, node: -1}
	if c.js[0].corner {
		start.lo, start.hi = -widestLean, widestLean
	}
	c.nodes[0].states, c.nodes[0].fewest = []reached{start}, 0
	for i := range last {
		if len(c.nodes[i].states) > 0 && (c.thorough || !c.overtaken(i)) {
			c.from(i)
		}
	}
	return len(c.nodes[last].states) > 0
}

// overtaken says whether place i lies in the first half of the joints that as many pieces as lead to it reach, but
// fewer do not: going on from there is work for little.
func (c *arcChain) overtaken(i int) bool {
	n := &c.nodes[i]
	return n.fewest > 0 && 2*n.joint < c.ahead[n.fewest-1]+c.ahead[n.fewest]
}

// from goes from place i to all that arcs reach.
func (c *arcChain) from(i int) {
	n := &c.nodes[i]
	a := &c.js[n.joint]
	misses, met := 0, true
	at := n.joint
	for k := i + 1; k < len(c.nodes); k++ {
		z := &c.nodes[k]
		if z.joint == n.joint {
			continue
		}
		j := &c.js[z.joint]
		if z.joint != at { // a new joint
			if misses++; met {
				misses = 0
			}
			if misses >= missesAllowed || j.turned-a.turned > maxTurn {
				return
			}
			at, met = z.joint, false
		}
		if n.fewest+1-spareCounts > z.fewest || distance(n.at, z.at) < c.least {
			met = true
			continue
		}
		lo, hi, ok := c.bend(n, z)
		if ok {
			met = true
			c.relax(i, k, lo, hi)
		}
	}
}

// relax goes from every interval of one place to another by arcs that turn by twice lo to hi.
func (c *arcChain) relax(i, k int, lo, hi float64) {
	a, z := &c.js[c.nodes[i].joint], &c.js[c.nodes[k].joint]
	chord := geometry.Unit(geometry.Sub(c.nodes[k].at, c.nodes[i].at))
	alpha, beta := angleFrom(a.out, chord), angleFrom(chord, z.in)
	for n := range c.nodes[i].states {
		s := &c.nodes[i].states[n]
		if s.count+1-spareCounts > c.nodes[k].fewest {
			continue
		}
		// A direction x away from the joint's own makes the arc turn by 2·(alpha − x).
		from, to := max(s.lo-c.kink, alpha-hi), min(s.hi+c.kink, alpha-lo)
		if from > to {
			continue
		}
		r := reached{lo: alpha - beta - to, hi: alpha - beta - from, count: s.count + 1, node: i, from: n,
			chord: alpha, end: beta}
		low, high := -widestLean, widestLean
		if k == len(c.nodes)-1 && !z.corner {
			low, high = c.lean-c.kink/2, c.lean+c.kink/2
		}
		if r.lo, r.hi = max(r.lo, low), min(r.hi, high); r.lo <= r.hi {
			c.nodes[k].keep(r)
			for len(c.ahead) <= r.count {
				c.ahead = append(c.ahead, 0)
			}
			c.ahead[r.count] = max(c.ahead[r.count], c.nodes[k].joint)
		}
	}
}

// keep adds what is new of an interval to a place's: the directions that are not reached by as few pieces already.
func (z *node) keep(r reached) {
	z.fewest = min(z.fewest, r.count)
	replaces := false
	for k := range z.states {
		s := &z.states[k]
		if s.count < r.count-spareCounts || s.count <= r.count && s.lo <= r.lo && s.hi >= r.hi {
			return
		}
		replaces = replaces || s.count > r.count
	}
	if replaces {
		z.states = slices.DeleteFunc(z.states, func(s reached) bool {
			return s.count > r.count+spareCounts || s.count > r.count && s.lo >= r.lo && s.hi <= r.hi
		})
	}

	known := len(z.states)
	parts := [statesKept + 1]reached{r}
	for n := 1; n > 0; {
		n--
		p, all := parts[n], false
		for _, s := range z.states[:known] {
			if s.count > p.count || s.hi < p.lo || s.lo > p.hi {
				continue
			}
			if all = s.lo <= p.lo && s.hi >= p.hi; all {
				break
			}
			if s.lo > p.lo && s.hi < p.hi { // both ends are new
				parts[n] = p
				parts[n].hi = s.lo
				n++
			}
			if s.hi < p.hi {
				p.lo = max(p.lo, s.hi)
			} else {
				p.hi = min(p.hi, s.lo)
			}
		}
		if !all && (p.hi-p.lo == r.hi-r.lo || p.hi-p.lo > narrow) {
			z.states = append(z.states, p)
		}
	}

	for len(z.states) > statesKept {
		worst := 0
		for k, s := range z.states {
			w := z.states[worst]
			if s.count > w.count || s.count == w.count && s.hi-s.lo < w.hi-w.lo {
				worst = k
			}
		}
		z.states = slices.Delete(z.states, worst, worst+1)
	}
}
