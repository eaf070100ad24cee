package curve

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Options say what to fit with.
type Options struct {
	Kind      Kind    // Cubic: lines and cubic Béziers; Arc: lines and circular arcs; Line: the polygon itself
	Tolerance float64 // mm, > 0: the greatest distance of the curve from the polygon and of the polygon from the curve
}

// Approximation is an outline approximated by curves, within a tolerance.
type Approximation struct {
	Paths     [][]Path // ring by ring as the outline has them: outer rings counter-clockwise, holes clockwise
	Deviation float64  // mm: a bound on the greatest distance between curves and polygons, either way
	Pieces    int
	Points    int // corners of the polygons
	// rings left as polygons because no curve within the tolerance kept their measures and crossed nothing
	Straight int
}

// Outline fits all rings of an outline. Where the curves would cross or touch each other and the polygons do not, or a
// ring would lose or gain more than AreaSlack of its area, or sway (see LengthSlack), it is fitted again more closely,
// and in the end left as it is. Corners are kept exactly (see judge for what a corner is); elsewhere pieces meet with a
// common tangent, but where a piece along a single edge had to be a straight line. Time grows with the number of points
// times its logarithm.
func Outline(mp orb.MultiPolygon, o Options) (Approximation, error) {
	if !(o.Tolerance > 0) || math.IsInf(o.Tolerance, 0) {
		return Approximation{}, errors.New("the tolerance of a curve must be a number of mm greater than 0")
	}
	var out Approximation
	for _, p := range mp {
		for _, r := range p {
			for _, v := range r {
				if !(math.Abs(v[0]) <= geometry.MaxCoordinate && math.Abs(v[1]) <= geometry.MaxCoordinate) {
					return Approximation{}, errors.New("a coordinate is not a number, or too large for a curve")
				}
			}
		}
	}

	out.Points = geometry.Points(mp)
	tol := o.Tolerance
	for try := 0; o.Kind != Line && try <= refits; try, tol = try+1, tol/3 {
		out.Paths, out.Deviation, out.Straight = nil, 0, 0
		for _, p := range mp {
			var paths []Path
			for _, r := range p {
				path, dev, ok := Path{}, 0.0, false
				for k, t := try, tol; k <= refits && !ok; k, t = k+1, t/3 {
					path, dev, ok = Ring(r, Options{o.Kind, t})
				}
				if !ok {
					path, dev = Polygon(r), 0
					out.Straight++
				}
				paths = append(paths, path)
				out.Deviation = max(out.Deviation, dev)
			}
			out.Paths = append(out.Paths, paths)
		}
		if out.simple(o.Tolerance) {
			return out.counted(), nil
		}
	}

	out.Paths, out.Deviation, out.Straight = nil, 0, 0
	for _, p := range mp {
		var paths []Path
		for _, r := range p {
			paths = append(paths, Polygon(r))
			if o.Kind != Line {
				out.Straight++
			}
		}
		out.Paths = append(out.Paths, paths)
	}
	return out.counted(), nil
}

func (f Approximation) counted() Approximation {
	f.Pieces = 0
	for _, p := range f.Paths {
		for _, r := range p {
			f.Pieces += len(r.Pieces)
		}
	}
	return f
}

// simple reports whether the curves, flattened, are a valid outline.
func (f Approximation) simple(tolerance float64) bool {
	mp := make(orb.MultiPolygon, len(f.Paths))
	for i, p := range f.Paths {
		for _, r := range p {
			mp[i] = append(mp[i], distinct(r.Flatten(tolerance/10)))
		}
	}
	return geometry.CheckOutline(mp) == nil
}

// distinct leaves out points that repeat the one before.
func distinct(r orb.Ring) orb.Ring {
	out := r[:1]
	for _, p := range r[1:] {
		if p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	return out
}

// Ring fits one closed ring by itself, and returns a bound on the greatest distance of path and ring from each other in
// mm. It does not see whether the path crosses itself. ok is false when the ring has no curve with its area
// and length.
func Ring(r orb.Ring, o Options) (path Path, dev float64, ok bool) {
	g, ok := newRing(r, o)
	if !ok || o.Kind == Line {
		return Path{}, 0, false
	}
	b := builder{ring: g, kind: o.Kind, slack: flattenShare * o.Tolerance}
	b.limit = o.Tolerance - b.slack - straightShare*o.Tolerance
	chains := g.chains()
	path.Start = chains[0][0].at
	for _, c := range chains {
		b.chain(c)
	}
	path.Pieces = b.out
	if n := len(path.Pieces); n == 0 || path.Pieces[n-1].To != path.Start {
		return Path{}, 0, false
	}
	want := geometry.RingArea(r)
	if math.Abs(path.Area()-want) > AreaSlack*math.Abs(want) {
		return Path{}, 0, false
	}
	if was := ringLength(r); math.Abs(path.Length()-was+g.rounded()) > LengthSlack*was {
		return Path{}, 0, false
	}
	return path, b.worst + b.slack, true
}

func ringLength(r orb.Ring) float64 { return geometry.Length(orb.MultiPolygon{{r}}) }

// builder puts the pieces of one ring together.
type builder struct {
	*ring
	kind         Kind
	limit, slack float64 // mm: what a flattened piece may leave the polygon by, and its chords the piece
	out          []Piece
	worst        float64
	poly, chords []orb.Point // for reuse
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

// reach returns the furthest joint that can be reached from joint i by one piece (or pair of arcs), the pieces and
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

// span returns a piece from one joint to another within the limit.
func (b *builder) span(from, to *joint) ([]Piece, float64, bool) {
	b.poly = b.between(b.poly, from, to)
	if len(b.poly) == 2 && from.at == from.anchor && to.at == to.anchor {
		return []Piece{{Kind: Line, To: to.at}}, 0, true
	}
	f, ok := newFrame(from, to, b.poly)
	if !ok {
		return nil, 0, false
	}
	var choices [][]Piece
	if b.kind == Arc {
		choices = f.arcsBetween(from, to)
	} else {
		for _, p := range f.fits(from, to) {
			choices = append(choices, []Piece{p})
		}
	}
	var best []Piece
	smallest := b.limit
	for _, c := range choices {
		if d := b.measure(from.at, c); d <= smallest {
			best, smallest = c, d
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

// measure returns the deviation of pieces from b.poly.
func (b *builder) measure(from orb.Point, pieces []Piece) float64 {
	b.chords = append(b.chords[:0], from)
	for _, q := range pieces {
		b.chords = q.flatten(b.chords, from, b.slack)
		from = q.To
	}
	return deviation(b.chords, b.poly, b.limit)
}

// short returns a piece from one joint to the next, along one edge: as span gives it, or with handles as long as the
// limit allows, or straight, or as the polygon goes.
func (b *builder) short(from, to *joint) ([]Piece, float64) {
	if p, d, ok := b.span(from, to); ok {
		return p, d
	}
	if f, ok := newFrame(from, to, b.poly); ok && b.kind == Cubic {
		for k := range shrinkSteps {
			// A handle that rises by d bulges out by four ninths of d.
			d := 2 * b.limit * math.Pow(0.6, float64(k)) / f.l
			p := []Piece{f.piece(min(1.0/3, d/max(math.Abs(f.s0), d)), min(1.0/3, d/max(math.Abs(f.s1), d)), from, to)}
			if d := b.measure(from.at, p); d <= b.limit {
				return p, d
			}
		}
	}
	p := []Piece{{Kind: Line, To: to.at}}
	if d := b.measure(from.at, p); d <= b.limit {
		return p, d
	}
	p = p[:0]
	for _, v := range b.poly[1 : len(b.poly)-1] {
		p = append(p, Piece{Kind: Line, To: v, Corner: true})
	}
	return append(p, Piece{Kind: Line, To: to.at}), max(distance(from.at, from.anchor), distance(to.at, to.anchor))
}
