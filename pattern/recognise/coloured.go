package recognise

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// Colours gives each copy of a field its colour.
type Colours struct {
	Cells [2]int // conventional cells along a and b after which the colours repeat, from 1
	// Of returns the number of the colour of the copy that an operation of the group, moved by m and n cells, makes of
	// a motif; what numbers there are does not matter
	Of func(motif, op, m, n int) int
}

// Coloured finds the plane group of a layout as Of does, and what its colours leave of it. Copies at one place count
// once, with the colour of the first. It is an error when the cells after which the colours repeat hold more pieces
// than are looked through.
func Coloured(l *pattern.Layout, c Colours) (Finding, error) {
	if c.Cells[0] < 1 || c.Cells[1] < 1 {
		return Finding{}, errors.New("colours repeat after one cell at the least, along a and along b")
	}
	f := &field{basis: newBasis(l.A, l.B), known: map[question]bool{}}
	f.pieces = piecesOf(l, maxPieces+1)
	// Divided, so that no number of cells overflows.
	if n := len(f.pieces); n > 0 && c.Cells[0] > maxPieces/n/c.Cells[1] {
		return Finding{}, fmt.Errorf("the %d by %d cells after which the colours repeat hold more than %d pieces, too "+
			"many to look through for symmetry; use fewer motifs, or a smaller block of cells", c.Cells[0], c.Cells[1],
			maxPieces)
	}

	p := &painted{field{basis: newBasis(times(float64(c.Cells[0]), l.A), times(float64(c.Cells[1]), l.B)),
		known: f.known}}
	for m := range c.Cells[0] {
		for n := range c.Cells[1] {
			for _, q := range f.pieces {
				q.at, q.colour = geometry.Add(q.at, l.Lattice(m, n)), c.Of(q.motif, q.op, m, n)
				p.pieces = append(p.pieces, q)
			}
		}
	}
	g, err := f.search()
	if err != nil {
		return Finding{}, err
	}
	out := f.finding(l, g)
	p.dropTwins()
	own := p.pieces[0].colour
	p.refine(g)
	permutes := p.part(g, func(int, int) bool { return true })
	out.Permutes = permutes.name()
	out.KeptOne = p.part(permutes, func(c, to int) bool { return c != own || to == own }).name()
	kept := p.part(permutes, sameColour)
	out.Kept = kept.name()
	out.KeptCells = int(math.Round(geometry.Cross(kept.basis.a, kept.basis.b) / geometry.Cross(g.basis.a, g.basis.b)))
	if p.looks > maxLooks {
		return Finding{}, errTooAlike
	}
	return out, nil
}

// painted is a field whose pieces have colours. Its lattice keeps them.
type painted struct{ field }

func sameColour(c, to int) bool { return c == to }

// refine goes on to the finest lattice that keeps all colours, among translations of a group of the field without them.
func (p *painted) refine(g group) {
	p.basis = p.translations(g, sameColour).of(g.basis)
	p.dropTwins()
}

// part returns the group of those operations of a group of the field that carry all pieces of one colour to pieces of
// one colour, and only such colours to such as are wanted. These operations keep the lattice that keeps all
// colours, and then it is enough to look at the pieces modulo it. For each matrix one operation is looked for, among
// the classes modulo the translations that are wanted.
func (p *painted) part(g group, want func(c, to int) bool) group {
	lattice := p.translations(g, want)
	b := lattice.of(g.basis)
	kept := spanned(g.basis.whole(p.basis.a), g.basis.whole(p.basis.b))
	var found []op
	for i, w := range g.ops {
		if !kept.has(w.apply(kept.a)) || !kept.has(w.apply(kept.b)) {
			continue
		}
		r := g.basis.orthogonal(g.basis.at(orb.Point{float64(w[0]), float64(w[2])}),
			g.basis.at(orb.Point{float64(w[1]), float64(w[3])}))
		for _, v := range lattice.classes() {
			t := g.basis.at(geometry.Add(g.translation(i), point(v)))
			if w == unit || p.carriesColours(moved(r, t), want) {
				found = append(found, op{b.motion(r), b.fraction(t)})
				break
			}
		}
	}
	return settled(b, found, func(group, []op) int { return -1 })
}

// translations returns the lattice of those translations of a group that carry colours to colours as is wanted, in its
// cell coordinates. All of the field's own lattice are.
func (p *painted) translations(g group, want func(c, to int) bool) sublattice {
	lattice := spanned(g.basis.whole(p.basis.a), g.basis.whole(p.basis.b))
	for _, v := range lattice.classes() {
		if !lattice.has(v) && p.carriesColours(translation(g.basis.at(point(v))), want) {
			lattice = spanned(lattice.a, lattice.b, v)
		}
	}
	return lattice
}

// carriesColours reports whether an isometry that carries the set without its colours to itself, and keeps the lattice,
// carries pieces of one colour to pieces of one, as is wanted.
func (p *painted) carriesColours(m geometry.Map, want func(c, to int) bool) bool {
	if p.looks > maxLooks {
		return false
	}
	becomes := map[int]int{}
	for i, q := range p.pieces {
		j, _, ok := p.find(i, m, nil, false)
		if !ok { // to within slack, the set may be carried to itself only when the isometry is placed by all pieces
			j, _, ok = p.find(i, m, nil, true)
		}
		c := p.pieces[j].colour
		if was, met := becomes[q.colour]; !ok || met && was != c || !want(q.colour, c) {
			return false
		}
		becomes[q.colour] = c
	}
	return true
}

// motion returns an orthogonal map that keeps the lattice as a motion of this basis.
func (l basis) motion(r geometry.Map) motion {
	a, b := l.whole(r.Vector(l.a)), l.whole(r.Vector(l.b))
	return motion{matrix{a[0], b[0], a[1], b[1]}, r}
}

// whole returns a lattice vector's cell coordinates.
func (l basis) whole(v orb.Point) [2]int {
	x := l.fraction(v)
	return [2]int{int(math.Round(x[0])), int(math.Round(x[1]))}
}

func point(v [2]int) orb.Point { return orb.Point{float64(v[0]), float64(v[1])} }

// sublattice is a lattice of whole vectors with the basis a = (a[0], a[1]), b = (0, b[1]), a[0] and b[1] above 0.
type sublattice struct{ a, b [2]int }

// spanned returns the lattice that vectors span, two of which are not on one line.
func spanned(vectors ...[2]int) sublattice {
	var l sublattice
	for _, v := range vectors {
		for v[0] != 0 { // Euclid on the first numbers
			q := l.a[0] / v[0]
			l.a, v = v, [2]int{l.a[0] - q*v[0], l.a[1] - q*v[1]}
		}
		for v[1] != 0 {
			l.b[1], v[1] = v[1], l.b[1]%v[1]
		}
	}
	if l.a[0] < 0 {
		l.a = [2]int{-l.a[0], -l.a[1]}
	}
	l.b[1] = max(l.b[1], -l.b[1])
	return l
}

func (l sublattice) has(v [2]int) bool {
	return v[0]%l.a[0] == 0 && (v[1]-v[0]/l.a[0]*l.a[1])%l.b[1] == 0
}

// of returns the lattice's reduced basis, given the basis in whose cell coordinates it is.
func (l sublattice) of(b basis) basis { return newBasis(b.at(point(l.a)), b.at(point(l.b))) }

// classes returns a vector of each class modulo the lattice.
func (l sublattice) classes() [][2]int {
	out := make([][2]int, 0, l.a[0]*l.b[1])
	for x := range l.a[0] {
		for y := range l.b[1] {
			out = append(out, [2]int{x, y})
		}
	}
	return out
}
