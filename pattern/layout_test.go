package pattern_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// arrow is a silhouette without any symmetry of its own.
var arrow = orb.MultiPolygon{{orb.Ring{{-3, -2}, {4, -1}, {6, 3}, {1, 1}, {-2, 5}, {-3, -2}}}}

// bilateral is a silhouette that a mirror along its own y axis leaves as it is, without any other symmetry.
var bilateral = orb.MultiPolygon{{orb.Ring{{-4, 0}, {0, -1}, {4, 0}, {1, 2}, {0, 6}, {-1, 2}, {-4, 0}}}}

// squareOutline is a square of side 6 about the origin.
var squareOutline = orb.MultiPolygon{{orb.Ring{{-3, -3}, {3, -3}, {3, 3}, {-3, 3}, {-3, -3}}}}

// draft puts one motif at a place in cell fractions.
func fieldOf(group string, outline orb.MultiPolygon, x, y, turn float64) draft.Draft {
	d := draft.Default()
	d.Panel = draft.Panel{Width: 300, Height: 260}
	d.Field.Origin = [2]float64{150, 130}
	g, err := symmetry.Find(group)
	if err != nil {
		panic(err)
	}
	c := symmetry.Cell{A: 60, B: 50, Gamma: 90}
	switch g.System {
	case symmetry.Square:
		c.B = 60
	case symmetry.Hexagonal:
		c.B, c.Gamma = 60, 120
	case symmetry.Oblique:
		c.Gamma = 75
	}
	d.Repeat = draft.Repeat{Group: group, A: c.A, B: c.B, Gamma: c.Gamma}
	p := c.Basis().Apply(orb.Point{x, y})
	d.Silhouettes = []draft.Silhouette{{ID: "s1", Name: "Shape", Outline: outline}}
	d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "s1", At: [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])},
		Turn: turn, Scale: 1}}
	return d
}

func layout(t *testing.T, d draft.Draft) *pattern.Layout {
	t.Helper()
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestCopiesThatCoincideAreOne(t *testing.T) {
	for _, c := range []struct {
		name    string
		group   string
		outline orb.MultiPolygon
		x, y    float64
		turn    float64
		want    int
	}{
		{"general place in p4mm", "p4mm", arrow, 0.13, 0.27, 10, 8},
		{"bilateral on the mirror x = 0", "p4mm", bilateral, 0, 0.3, 0, 4},
		{"bilateral on the mirror but turned off it", "p4mm", bilateral, 0, 0.3, 30, 8},
		{"bilateral beside the mirror", "p4mm", bilateral, 0.01, 0.3, 0, 8},
		{"bilateral on the diagonal mirror", "p4mm", bilateral, 0.2, 0.2, -45, 4},
		{"square on the four-fold point", "p4mm", squareOutline, 0, 0, 0, 1},
		{"square on the four-fold point, turned by 45", "p4mm", squareOutline, 0.5, 0.5, 45, 1},
		{"square on the four-fold point, turned by 20", "p4mm", squareOutline, 0, 0, 20, 2},
		{"square on the two-fold point of p4", "p4", squareOutline, 0.5, 0, 0, 2},
		{"square on a half-turn of p2", "p2", squareOutline, 0.5, 0.5, 33, 1},
		{"bilateral on a half-turn of p2", "p2", bilateral, 0.5, 0.5, 0, 2},
		{"square on the centring of cm", "cm", squareOutline, 0, 0.2, 0, 2},
		{"arrow in cm", "cm", arrow, 0.2, 0.2, 0, 4},
		{"bilateral on a mirror of p3m1", "p3m1", bilateral, 0.2, 0.4, 0, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := layout(t, fieldOf(c.group, c.outline, c.x, c.y, c.turn)).InCell(); got != c.want {
				t.Errorf("%d copies in a cell, want %d", got, c.want)
			}
		})
	}
}

func TestTwoMotifsAtOnePlaceAreCutOnce(t *testing.T) {
	d := fieldOf("p4", arrow, 0.13, 0.27, 10)
	twin := d.Motifs[0]
	twin.ID = "m2"
	d.Motifs = append(d.Motifs, twin)
	l := layout(t, d)
	if l.InCell() != 4 || l.Orbits[1].SameAs != 0 {
		t.Errorf("%d copies in a cell, the second is the same as %d; want 4 and 0", l.InCell(), l.Orbits[1].SameAs)
	}
	d.Motifs[1].Turn += 90 // an image of the first under a quarter-turn, at the turned place
	d.Motifs[1].At = [2]float64{-d.Motifs[0].At[1], d.Motifs[0].At[0]}
	if l = layout(t, d); l.Orbits[1].SameAs != 0 {
		t.Error("a motif that is an image of another is laid twice")
	}
	d.Motifs[1].At[0] += 0.05
	if l = layout(t, d); l.Orbits[1].SameAs != -1 {
		t.Error("a motif 0.05 mm off another is taken for it")
	}
}

// TestFieldIsMappedToItself carries every copy well inside the panel by every operation of the group and looks for the
// image among the copies.
func TestFieldIsMappedToItself(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for _, g := range symmetry.Groups() {
		d := patterntest.Draft(r, g.Symbol)
		d.Field.Edge = draft.Crop
		l := layout(t, d)
		copies, err := l.Copies()
		if err != nil {
			t.Fatal(err)
		}
		// A grid over the centres finds an image among thousands of copies at once.
		at := map[[3]int][]geometry.Map{}
		key := func(motif int, p orb.Point, dx, dy int) [3]int {
			return [3]int{motif, int(math.Floor(p[0])) + dx, int(math.Floor(p[1])) + dy}
		}
		centre := func(c pattern.Copy) orb.Point { return c.Map.Apply(l.Orbits[c.Motif].Shape.Centroid()) }
		for _, c := range copies {
			k := key(c.Motif, centre(c), 0, 0)
			at[k] = append(at[k], c.Map)
		}
		field, inner := d.FieldMap(), d.FieldBound().Pad(-12)
		for op := range g.Ops {
			move := field.After(l.Op(op, 0, 0)).After(field.Rigid())
			for _, c := range copies {
				image := move.After(c.Map)
				p := move.Apply(centre(c))
				if !inner.Contains(p) {
					continue
				}
				found := false
				for dx := -1; dx <= 1 && !found; dx++ {
					for dy := -1; dy <= 1 && !found; dy++ {
						for _, m := range at[key(c.Motif, p, dx, dy)] {
							found = found || sameMap(m, image)
						}
					}
				}
				if !found {
					t.Fatalf("%s: operation %d carries a copy to (%.3f, %.3f), where there is none", g.Symbol, op, p[0],
						p[1])
				}
			}
		}
	}
}

func sameMap(a, b geometry.Map) bool {
	const slack = 1e-8
	for _, d := range []float64{a.A - b.A, a.B - b.B, a.C - b.C, a.D - b.D, a.X - b.X, a.Y - b.Y} {
		if math.Abs(d) > slack {
			return false
		}
	}
	return true
}

func TestEdgeRules(t *testing.T) {
	d := fieldOf("p1", squareOutline, 0.5, 0.5, 0)
	d.Repeat = draft.Repeat{Group: "p1", A: 20, B: 20, Gamma: 90}
	d.Panel, d.Field.Margin, d.Field.Origin = draft.Panel{Width: 100, Height: 100}, 10, [2]float64{10, 10}
	// Squares of 6 at every 20 mm from 20 on: 4 × 4 lie wholly in the field of 80 × 80.
	count := func(x float64, e draft.Edge) int {
		d.Motifs[0].At = [2]float64{x, 10}
		d.Field.Edge = e
		copies, err := layout(t, d).Copies()
		if err != nil {
			t.Fatal(err)
		}
		return len(copies)
	}
	for _, c := range []struct {
		name string
		x    float64
		edge draft.Edge
		want int
	}{
		{"all inside, cropped", 10, draft.Crop, 16},
		{"all inside, whole", 10, draft.Whole, 16},
		{"all inside, kept", 10, draft.Touching, 16},
		{"a column across the left edge and one across the right, cropped", 0, draft.Crop, 20},
		{"the same, whole", 0, draft.Whole, 12},
		{"the same, kept", 0, draft.Touching, 20},
		{"touching the edge from inside, whole", 3, draft.Whole, 16},
		{"touching the edge from outside, cropped", -3, draft.Crop, 16},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := count(c.x, c.edge); got != c.want {
				t.Errorf("%d copies, want %d", got, c.want)
			}
		})
	}
}

func TestTooManyCopies(t *testing.T) {
	for _, e := range []draft.Edge{draft.Crop, draft.Whole, draft.Touching} {
		d := fieldOf("p6mm", orb.MultiPolygon{{orb.Ring{{0, 0}, {0.1, 0}, {0, 0.1}, {0, 0}}}}, 0.1, 0.05, 0)
		d.Repeat.A, d.Repeat.B = 1, 1
		d.Motifs[0].At = [2]float64{0.2, 0.1}
		d.Panel, d.Field.Edge = draft.Panel{Width: 2400, Height: 1200}, e
		l := layout(t, d)
		if _, err := l.Copies(); err == nil || !strings.Contains(err.Error(), "20000") {
			t.Errorf("%s: a panel of some ten million copies gives %v; want a sentence with the limit", e, err)
		}
	}
}
