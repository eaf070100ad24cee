package recognise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// seeded is a field whose group is known by construction.
type seeded struct {
	draft draft.Draft
	truth symmetry.Group
	site  bool // it also holds a symmetric silhouette at a rotation point
}

// asymmetric returns a silhouette that no isometry keeps: blobs of random corners, some with a hole, some in two
// pieces.
func asymmetric(r *rand.Rand, size float64) orb.MultiPolygon {
	switch r.IntN(4) {
	case 0:
		return separate(r, size*0.6)
	case 1:
		return patterntest.Blob(r, size, 8+r.IntN(20), true)
	}
	return patterntest.Blob(r, size, 7+r.IntN(20), false)
}

// somewhere returns a random place of a motif in a cell.
func somewhere(r *rand.Rand, c symmetry.Cell) isometry {
	p := c.Basis().Apply(orb.Point{r.Float64(), r.Float64()})
	return at(geometry.Snap(p[0]), geometry.Snap(p[1]), geometry.Snap(360*r.Float64()-180), r.IntN(2) == 0)
}

// cellFor returns a cell of the group: generic for its system, or, now and then, with more symmetry than it asks for.
func cellFor(r *rand.Rand, g symmetry.Group, area float64) symmetry.Cell {
	c := patterntest.Cell(r, g, area)
	switch {
	case g.System == symmetry.Rectangular && r.IntN(3) == 0:
		c.B = c.A
		if g.Centred && r.IntN(2) == 0 { // hexagonal
			c.B = c.A * math.Sqrt(3)
		}
	case g.System == symmetry.Oblique:
		switch r.IntN(5) {
		case 0:
			c.Gamma = 90
		case 1:
			c.B, c.Gamma = c.A, 90
		case 2:
			c.B, c.Gamma = c.A, 120
		case 3:
			c.B = c.A
		}
	}
	return c
}

// fieldOf returns a random field of the group. The first motif is asymmetric and stands anywhere: a symmetry of the
// field carries its copies to its copies, each in one way only, so it is one of the group's, however special the cell
// is. The other motifs are copied by the group and take none away.
func fieldOf(r *rand.Rand, g symmetry.Group) seeded {
	size := 4 + 6*r.Float64()
	c := cellFor(r, g, size*size*(1.5+5*r.Float64())*float64(len(g.Ops)))
	shapes := []orb.MultiPolygon{asymmetric(r, size)}
	places := [][]isometry{{somewhere(r, c)}}
	if r.IntN(2) == 0 { // another place of the same silhouette
		places[0] = append(places[0], somewhere(r, c))
	}
	if r.IntN(2) == 0 {
		shapes = append(shapes, asymmetric(r, size*0.7))
		places = append(places, []isometry{somewhere(r, c)})
	}
	out := seeded{truth: g}
	if op := g.Ops[r.IntN(len(g.Ops))]; op.Det() > 0 && r.IntN(2) == 0 { // a symmetric silhouette on a rotation point
		m := op.Map(c, r.IntN(2), r.IntN(2))
		if n := orderOfMap(m); n > 1 {
			shapes = append(shapes, symmetric(r, size*0.6, n, r.IntN(2) == 0, r.IntN(2) == 0))
			p := fixedPoint(m)
			places = append(places, []isometry{at(p[0], p[1], 360*r.Float64(), false)})
			out.site = true
		}
	}
	out.draft = draftOf(g.Symbol, c, shapes, places)
	return out
}

// orderOfMap returns the order of a rotation, 1 for a translation.
func orderOfMap(m isometry) int {
	for n, c := range map[int]float64{2: -1, 3: -0.5, 4: 0, 6: 0.5} {
		if math.Abs(m.A-c) < 1e-9 {
			return n
		}
	}
	return 1
}

// fixedPoint returns the point that a rotation keeps.
func fixedPoint(m isometry) orb.Point {
	a, b, c, d := 1-m.A, -m.B, -m.C, 1-m.D
	det := a*d - b*c
	return orb.Point{(d*m.X - b*m.Y) / det, (a*m.Y - c*m.X) / det}
}

// bases are ways to span a lattice, or a part of it: columns are the new sides in the old ones.
var bases = []matrix{
	{1, 0, 0, 1}, {1, 0, 0, 1}, {1, 1, 0, 1}, {1, -1, 0, 1}, {1, 0, 1, 1}, {0, -1, 1, 0}, {2, 1, 1, 1}, {3, 2, 1, 1},
	{1, 3, 0, 1},
	{2, 0, 0, 1}, {1, 0, 0, 2}, {1, -1, 1, 1}, {2, 1, 0, 1}, {2, 0, 0, 2}, {3, 0, 0, 1}, {1, 1, 0, 3}, {2, -1, 1, 1},
	{1, -2, 2, 1},
}

// again writes a field in another way at random: another basis or a larger cell, and a smaller group whose motifs stand
// for what it lacks.
func again(r *rand.Rand, t *testing.T, s seeded) draft.Draft {
	l := layoutOf(t, s.draft)
	all := symmetry.Groups()
	for range 8 {
		u := bases[r.IntN(len(bases))]
		if len(l.Group.Ops)*u.det() > 24 {
			continue
		}
		o := l.Cell.Basis().Apply(orb.Point{float64(r.IntN(4)) / 4, float64(r.IntN(4)) / 4})
		if r.IntN(2) == 0 {
			o = orb.Point{}
		}
		if d, ok := redescribe(l, u, all[r.IntN(len(all))].Symbol, o); ok {
			return d
		}
	}
	d, ok := redescribe(l, bases[r.IntN(len(bases))], "p1", orb.Point{100 * r.Float64(), 100 * r.Float64()})
	if !ok {
		t.Fatalf("%s cannot be written in p1", s.truth.Symbol)
	}
	return d
}

// carriesCopies reports whether an isometry carries every copy of the draft's first silhouette to one, by the maps that
// place them: to 0.005 mm, which leaves room for sides and angles on the draft's grid.
func carriesCopies(l *pattern.Layout, m isometry) bool {
	var own []placed
	for _, o := range l.Orbits {
		if l.Draft.Motifs[o.Motif].Silhouette == l.Draft.Silhouettes[0].ID {
			for _, image := range o.Images {
				own = append(own, placed{0, l.Op(image.Op, 0, 0).After(o.Place)})
			}
		}
	}
	for _, p := range own {
		if !listedWithin(own, placed{0, m.After(p.m)}, newBasis(l.A, l.B), 0.005) {
			return false
		}
	}
	return true
}

const seededFields = 2000

// numbered returns the numbers of n fields.
func numbered(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func TestSeededFields(t *testing.T) {
	const seed = 20250
	var asChosen, otherwise, finer, sites int
	ways := map[string]int{}
	for _, i := range geometrytest.Share(t, numbered(seededFields), seededFields/2) {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		g := symmetry.Groups()[i%17]
		s := fieldOf(r, g)
		d := s.draft
		if s.site {
			sites++
		}
		if r.IntN(4) > 0 {
			d = again(r, t, s)
		}
		if r.IntN(2) == 0 {
			d = snapped(d)
		}
		l := layoutOf(t, d)
		f, err := Of(l)
		if err != nil {
			t.Fatalf("seed %d, field %d: %v", seed, i, err)
		}
		ways[d.Repeat.Group+" for "+g.Symbol]++
		if d.Repeat.Group == g.Symbol {
			asChosen++
		} else {
			otherwise++
		}
		area := s.draft.Repeat.Cell().Area() // of the true primitive cell
		if g.Centred {
			area /= 2
		}
		if area < 0.7*d.Repeat.Cell().Area() {
			finer++
		}
		if f.Actual != g.Symbol || f.Order != g.Order || f.Chosen != d.Repeat.Group {
			t.Errorf("seed %d, field %d: %s (order %d) as written in %s (%+v) is found to be %s (order %d)",
				seed, i, g.Symbol, g.Order, d.Repeat.Group, d.Repeat, f.Actual, f.Order)
			continue
		}
		if got := geometry.Cross(f.Primitive[0], f.Primitive[1]); math.Abs(got-area) > 1e-4*area {
			t.Errorf("seed %d, field %d, %s in %s: a primitive cell of %g mm², want %g", seed, i, g.Symbol,
				d.Repeat.Group, got, area)
		}
		if got := countOf(f.Elements); got != drawn[g.Symbol] {
			t.Errorf("seed %d, field %d, %s in %s: %+v, want %+v", seed, i, g.Symbol, d.Repeat.Group, got,
				drawn[g.Symbol])
		}
		// Each element carries the copies of the first silhouette, which has no symmetry of its own, to its copies.
		for _, e := range f.Elements {
			if !carriesCopies(l, mapOf(e)) {
				t.Errorf("seed %d, field %d, %s in %s: %+v does not carry copies to copies", seed, i, g.Symbol,
					d.Repeat.Group, e)
			}
		}
	}
	t.Logf("seed %d: of %d fields %d in their own group, %d in another, %d ways; %d cells larger than primitive; %d "+
		"with a symmetric silhouette on a rotation point",
		seed, seededFields, asChosen, otherwise, len(ways), finer, sites)
	for _, g := range symmetry.Groups() {
		n := 0
		for _, h := range symmetry.Groups() {
			if ways[h.Symbol+" for "+g.Symbol] > 0 {
				n++
			}
		}
		if n < 2 && g.Symbol != "p1" {
			t.Errorf("%s was written in %d groups only", g.Symbol, n)
		}
	}
}
