package curve

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Ring fits one closed ring by itself, and returns a bound on the greatest distance of path and ring from each other in
// mm. It does not see whether the path crosses itself. ok is false when the ring has no curve with its area
// and length, or none without a piece shorter than is asked.
func Ring(r orb.Ring, o Options) (path Path, dev float64, ok bool) {
	path, dev, ok = ringOnce(r, o)
	want := geometry.RingArea(r)
	if o.Shortest > 0 {
		want += o.Beside * ringLength(r)
	}
	lacks, by := want-path.Area(), 0.0
	for range evenings {
		if !ok || o.Shortest == 0 || math.Abs(lacks) <= unevenShare*AreaSlack*math.Abs(want) {
			break
		}
		// Again along a way that far beside the ring: what curves lose on one is made up for on the other.
		by += lacks / ringLength(r)
		closer := o
		closer.Tolerance -= math.Abs(by)
		again, d, fits := ringOnce(beside(r, by), closer)
		if left := want - again.Area(); fits && math.Abs(left) < math.Abs(lacks) {
			path, dev, lacks = again, d+math.Abs(by), left
		} else {
			break
		}
	}
	if ok = ok && math.Abs(path.Area()-want) <= AreaSlack*math.Abs(want); !ok {
		return Path{}, 0, false
	}
	return path, dev, true
}

// ringOnce is Ring without a look at the area.
func ringOnce(r orb.Ring, o Options) (path Path, dev float64, ok bool) {
	g, ok := newRing(r, o)
	if !ok || o.Kind == Line || !(o.Tolerance > 0) {
		return Path{}, 0, false
	}
	b := builder{ring: g, kind: o.Kind, kink: kink, slack: flattenShare * o.Tolerance}
	if o.kinks {
		b.kink = widestKink
	}
	b.limit = o.Tolerance - b.slack - straightShare*o.Tolerance
	chains := g.chains()
	path.Start = chains[0][0].at
	for _, c := range chains {
		if b.kind != Arc {
			b.chain(c)
		} else if !cutting.arcs(&b, c) {
			return Path{}, 0, false
		}
	}
	if n := len(b.out); chains[0][0].cut && n > 2 && b.out[0].Kind == Line && b.out[n-1].Kind == Line {
		path.Start = b.out[n-2].To
		b.out = b.out[:n-1]
		b.out[n-2].To = path.Start
	}

	path.Pieces = b.out
	if n := len(path.Pieces); n == 0 || b.failed || path.Pieces[n-1].To != path.Start {
		return Path{}, 0, false
	}
	if path.Shortest() < o.Shortest {
		return Path{}, 0, false
	}
	was := ringLength(r) * (1 - o.Longer)
	slack := LengthSlack*was + g.moved()/2
	if more := path.Length() - was; more > slack || -more > roundedShare*g.rounded()+slack {
		return Path{}, 0, false
	}
	return path, b.worst + b.slack, true
}

// beside returns a ring's points moved to its right by a small way, in mm, so that its edges are; at sharp corners
// less.
func beside(r orb.Ring, by float64) orb.Ring {
	pts := open(r)
	n := len(pts)
	out := make(orb.Ring, 0, n+1)
	for i, p := range pts {
		u, v := rightOf(pts[(i+n-1)%n], p), rightOf(p, pts[(i+1)%n])
		out = append(out, geometry.Add(p, geometry.Times(geometry.Add(u, v), by/max(1+geometry.Dot(u, v), 0.5))))
	}
	return append(out, out[0])
}

func ringLength(r orb.Ring) float64 { return geometry.Length(orb.MultiPolygon{{r}}) }

// builder puts the pieces of one ring together.
type builder struct {
	*ring
	kind         Kind
	kink         float64 // radians by which arcs may miss a common direction
	limit, slack float64 // mm: what a flattened piece may leave the polygon by, and its chords the piece
	out          []Piece
	failed       bool // there is no way within the limit
	worst        float64
	poly, chords []orb.Point // for reuse
}

// arcs answers one chain of joints, parted in the middles of long sides.
func (b *builder) arcs(js []joint) bool {
	from := 0
	for k := 1; k < len(js); k++ {
		if !js[k].cut && k+1 < len(js) {
			continue
		}
		at := len(b.out)
		if !b.arcsBetween(js[from : k+1]) {
			return false
		}
		// The two halves of a side are one.
		if js[from].cut && from > 0 && b.out[at-1].Kind == Line && b.out[at].Kind == Line {
			b.out[at-1].To, b.out[at-1].Corner = b.out[at].To, b.out[at].Corner
			b.out = slices.Delete(b.out, at, at+1)
		}
		from = k
	}
	return true
}

// search is a way to look for arcs along a chain.
type search struct {
	all      bool    // with places beside all joints, not only those at vertices
	thorough bool    // also on from places that others have overtaken
	lean     float64 // radians that a ring without corners begins at, against the direction of its first joint
}

// searches are tried one after another; the last ones for a ring without corners alone.
var searches = [...]search{{}, {all: true}, {all: true, thorough: true}, {true, true, startLean},
	{true, true, -startLean}}

// arcsBetween answers a chain of joints by the fewest arcs and lines; less and less of the limit is made use of until
// they are measured to be within it.
func (b *builder) arcsBetween(js []joint) bool {
	share := arcShare
	round := js[0].at == js[len(js)-1].at
	for try := 0; try < len(searches); {
		s := searches[try]
		if s.lean != 0 && !round {
			return false
		}
		c := b.newArcChain(js, share*b.limit, s)
		if !c.solve() {
			try++
			continue
		}
		pieces, froms, by := c.pieces()
		worst, from := 0.0, 0
		for k, to := range by {
			b.poly = b.between(b.poly, &js[from], &js[to])
			worst = max(worst, b.measure(froms[k], pieces[k:k+1]))
			from = to
		}
		if worst <= b.limit {
			b.out = append(b.out, pieces...)
			b.worst = max(b.worst, worst)
			return true
		}
		if share *= arcLess; share < leastShare {
			return false
		}
	}
	return false
}

// chain answers one chain of joints, from each place going as far as one piece reaches.
func (b *builder) chain(js []joint) {
	for i := 0; i+1 < len(js); {
		next, pieces, dev := b.reach(js, i)
		pieces[len(pieces)-1].Corner = js[next].corner
		b.out = append(b.out, pieces...)
		b.worst = max(b.worst, dev)
		i = next
	}
}

// reach returns the furthest joint that can be reached from joint i by one piece, the pieces and
// their deviation. Middles of edges and corners come first: the number of them is doubled until it is too many, then
// halved in on. When none can be reached, the next vertices are tried, and at last the very next joint, along a single
// edge, which can always be had.
func (b *builder) reach(js []joint, i int) (int, []Piece, float64) {
	var first, second []int
	for k := i + 1; k < len(js) && js[k].turned-js[i].turned <= maxTurn; k++ {
		if js[k].second {
			second = append(second, k)
		} else {
			first = append(first, k)
		}
	}
	best := -1
	var pieces []Piece
	var dev float64
	try := func(k int) bool {
		p, d, ok := b.span(&js[i], &js[k])
		if ok {
			best, pieces, dev = k, p, d
		}
		return ok
	}
	lo, hi := -1, len(first) // the furthest known to be reached, the nearest known not to be
	for step := 0; step < len(first); step = 2*step + 1 {
		if !try(first[step]) {
			hi = step
			break
		}
		lo = step
	}
	for hi-lo > 1 && lo >= 0 {
		if mid := (lo + hi) / 2; try(first[mid]) {
			lo = mid
		} else {
			hi = mid
		}
	}
	if best > i+1 {
		return best, pieces, dev
	}

	// No further than along one edge: a vertex beyond is as good.
	for k := min(2, len(second)) - 1; k >= 0 && second[k] > max(best, i+1); k-- {
		if try(second[k]) {
			break
		}
	}
	if best >= 0 {
		return best, pieces, dev
	}
	pieces, dev = b.short(&js[i], &js[i+1])
	return i + 1, pieces, dev
}

// span returns a cubic from one joint to another within the limit.
func (b *builder) span(from, to *joint) ([]Piece, float64, bool) {
	b.poly = b.between(b.poly, from, to)
	if len(b.poly) == 2 && from.at == from.anchor && to.at == to.anchor {
		return []Piece{{Kind: Line, To: to.at}}, 0, true
	}
	if distance(from.at, to.at) < b.least {
		return nil, 0, false
	}
	f, ok := newFrame(from, to, b.poly)
	if !ok {
		return nil, 0, false
	}
	var best []Piece
	smallest := b.limit
	for _, p := range f.fits(from, to) {
		// One whose handles pass each other has a loop, or nearly.
		if geometry.Dot(geometry.Sub(p.C2, p.C1), f.dir) < 0 {
			continue
		}
		if d := b.measure(from.at, []Piece{p}); d <= smallest {
			best, smallest = []Piece{p}, d
		}
	}
	if best == nil {
		return nil, 0, false
	}
	if q := best[0]; q.Kind == Cubic && q.flat(from.at, straightShare*b.limit) {
		best[0] = Piece{Kind: Line, To: q.To}
		smallest += straightShare * b.limit
	}
	return best, smallest, true
}

// measure returns the deviation of pieces from b.poly, +Inf when it is over the limit.
func (b *builder) measure(from orb.Point, pieces []Piece) float64 {
	b.chords = append(b.chords[:0], from)
	for _, q := range pieces {
		b.chords = q.flatten(b.chords, from, b.slack)
		from = q.To
	}
	return deviation(b.chords, b.poly, b.limit)
}
