package recognise

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// As many motifs as a draft may hold, on a grid that makes of one cell 500: found, and lost when one of them is off.
func TestFiveHundredAlike(t *testing.T) {
	for _, c := range []struct {
		name, want string
		shape      orb.MultiPolygon
		off        float64
		cells      float64 // true primitive cells in the one drawn
	}{
		{"carp", "p1", carp, 0, 500}, {"carp, one off", "p1", carp, 0.05, 1},
		{"carp, one hardly off", "p1", carp, 0.001, 500},
		{"squares", "p4mm", square, 0, 500}, {"squares, one off", "p1", square, 0.05, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var places []isometry
			for x := range 25 {
				for y := range 20 {
					places = append(places, at(30*float64(x), 30*float64(y), 0, false))
				}
			}
			places[123] = moved(places[123], orb.Point{0.6 * c.off, 0.8 * c.off})
			f := find(t, draftOf("p1", symmetry.Cell{A: 750, B: 600, Gamma: 90}, []orb.MultiPolygon{c.shape},
				[][]isometry{places}))
			if got := 750 * 600 / geometry.Cross(f.Primitive[0], f.Primitive[1]); f.Actual != c.want ||
				math.Abs(got-c.cells) > 1e-6*c.cells {
				t.Errorf("%s with %g primitive cells, want %s with %g", f.Actual, got, c.want, c.cells)
			}
		})
	}
	const seed = 2
	r := rand.New(rand.NewPCG(seed, 0))
	var places []isometry
	cell := symmetry.Cell{A: 2000, B: 2000, Gamma: 120}
	for range 500 {
		places = append(places, somewhere(r, cell))
	}
	if f := find(t, draftOf("p6mm", cell, []orb.MultiPolygon{carp}, [][]isometry{places})); f.Actual != "p6mm" {
		t.Errorf("seed %d: 500 carp in p6mm are found to be %s", seed, f.Actual)
	}
}

// More pieces than are looked through: a sentence, not an hour.
func TestTooManyPieces(t *testing.T) {
	var crumbs orb.MultiPolygon
	for k := range 60 {
		crumbs = append(crumbs, geometry.Transform(square, geometry.Translate(20*float64(k), 0))[0])
	}
	r := rand.New(rand.NewPCG(1, 1))
	cell := symmetry.Cell{A: 9000, B: 9000, Gamma: 120}
	var places []isometry
	for range 30 {
		places = append(places, somewhere(r, cell))
	}
	_, err := Of(layoutOf(t, draftOf("p6mm", cell, []orb.MultiPolygon{crumbs}, [][]isometry{places})))
	if err == nil || !strings.Contains(err.Error(), "too many") {
		t.Errorf("21,600 pieces give %v", err)
	}
}

// Nothing that a draft may hold makes the search fail: cells under a beam's width and over any panel, silhouettes many
// cells long, slivers, motifs on top of each other.
func TestOddFields(t *testing.T) {
	const seed = 41
	sliver := orb.MultiPolygon{polygon(0, 0, 30, 0.01, 30, 0.015)}
	speck := orb.MultiPolygon{polygon(0, 0, 0.02, 0, 0.01, 0.015)}
	for i := range 400 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		g := symmetry.Groups()[i%17]
		side := math.Pow(10, -0.3+5*r.Float64())
		c := patterntest.Cell(r, g, side*side)
		c.A = max(c.A, symmetry.MinSide)
		c.B = max(c.B, symmetry.MinSide)
		if g.System == symmetry.Oblique {
			c.Gamma = []float64{5, 175, 90, 60, 120, 37}[r.IntN(6)]
		}
		which := r.IntN(4)
		shapes := []orb.MultiPolygon{[]orb.MultiPolygon{carp, square, sliver, speck}[which], carp}
		var places [][]isometry
		for range shapes {
			var own []isometry
			for range 1 + r.IntN(4) {
				m := somewhere(r, c)
				if r.IntN(3) == 0 {
					m.X, m.Y = 0, 0
				}
				own = append(own, m)
			}
			places = append(places, own)
		}
		f := find(t, draftOf(g.Symbol, c, shapes, places))
		actual, err := symmetry.Find(f.Actual)
		if err != nil || actual.Order != f.Order || countOf(f.Elements) != drawn[f.Actual] {
			t.Errorf("seed %d, field %d: %s of order %d with %+v", seed, i, f.Actual, f.Order, countOf(f.Elements))
		}
		area := c.Area()
		if g.Centred {
			area /= 2
		}
		// Where the tolerance is small beside the cell and the silhouettes, the chosen group is among what is found.
		if got := geometry.Cross(f.Primitive[0], f.Primitive[1]); side > 5 && which != 3 &&
			(f.Order < g.Order || got > area*(1+1e-6)) {
			t.Errorf("seed %d, field %d: %s in a cell of %g mm with silhouette %d is found to be %s", seed, i, g.Symbol,
				side, which, f.Actual)
		}
		for _, e := range f.Elements {
			for _, v := range []float64{e.At[0], e.At[1], e.Along[0], e.Along[1], e.Shift} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("seed %d, field %d: %+v", seed, i, e)
				}
			}
		}
	}
}
