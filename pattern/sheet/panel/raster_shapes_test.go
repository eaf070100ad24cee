package panel

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// small is a draft on a sheet small enough to be drawn at rasterPX.
func small(group string, a, b, gamma float64, outline orb.MultiPolygon) draft.Draft {
	d := draft.Default()
	d.Panel = draft.Panel{Width: 56, Height: 48}
	d.Field = draft.Field{Margin: 4, Origin: [2]float64{28, 24}, Edge: draft.Crop}
	d.Repeat = draft.Repeat{Group: group, A: a, B: b, Gamma: gamma}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: outline}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	return d
}

func circle(x, y, r float64, n int) orb.Ring {
	var out orb.Ring
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		out = append(out, orb.Point{x + r*math.Cos(a), y + r*math.Sin(a)})
	}
	return append(out, out[0])
}

func reversed(r orb.Ring) orb.Ring {
	out := slices.Clone(r)
	slices.Reverse(out)
	return out
}

// koch is the snowflake of the given depth about the origin.
func koch(side float64, depth int) orb.Ring {
	h := side * math.Sqrt(3) / 2
	ring := orb.Ring{{-side / 2, -h / 3}, {side / 2, -h / 3}, {0, 2 * h / 3}, {-side / 2, -h / 3}}
	for range depth {
		var next orb.Ring
		for i := range len(ring) - 1 {
			p, q := ring[i], ring[i+1]
			dx, dy := (q[0]-p[0])/3, (q[1]-p[1])/3
			a, b := orb.Point{p[0] + dx, p[1] + dy}, orb.Point{p[0] + 2*dx, p[1] + 2*dy}
			tip := orb.Point{a[0] + dx/2 + dy*math.Sqrt(3)/2, a[1] + dy/2 - dx*math.Sqrt(3)/2}
			next = append(next, p, a, tip, b)
		}
		ring = append(next, next[0])
	}
	return ring
}

// spiral is a band of the given width that winds round the origin, each turn pitch further out.
func spiral(width, pitch, turns float64) orb.Ring {
	var in, out orb.Ring
	n := int(turns * 40)
	for i := range n + 1 {
		a := 2 * math.Pi * turns * float64(i) / float64(n)
		r := 4 + pitch*a/2/math.Pi
		in = append(in, orb.Point{r * math.Cos(a), r * math.Sin(a)})
		out = append(out, orb.Point{(r + width) * math.Cos(a), (r + width) * math.Sin(a)})
	}
	slices.Reverse(in)
	ring := append(out, in...)
	return append(ring, ring[0])
}

// Known shapes and random drafts, drawn in px and flooded.
func TestAgainstARaster(t *testing.T) {
	ring := orb.Polygon{circle(0, 0, 12, 60), reversed(circle(0, 0, 8, 60))}
	chain := orb.MultiPolygon{}
	for i := range 3 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 3)
		chain = append(chain, orb.Polygon{circle(8*c, 8*s, 3, 40)})
	}
	comb := orb.MultiPolygon{{orb.Ring{{-15, -10}, {15, -10}, {15, 8}, {11, 8}, {11, -6}, {7, -6}, {7, 8}, {3, 8},
		{3, -6}, {-1, -6}, {-1, 8}, {-5, 8}, {-5, -6}, {-15, -6}, {-15, -10}}}}
	square := orb.MultiPolygon{{orb.Ring{{0, -9}, {9, 0}, {0, 9}, {-9, 0}, {0, -9}}}}
	type known struct {
		name string
		d    draft.Draft
	}
	for _, c := range geometrytest.Share(t, []known{
		{"discs on a hexagonal lattice", small("p6mm", 20, 20, 120, orb.MultiPolygon{{circle(0, 0, 8, 72)}})},
		{"squares on their corners", small("p4", 20, 20, 90, square)},
		{"a ring", small("p1", 100, 100, 90, orb.MultiPolygon{ring})},
		{"rings in a row that run into each other", small("p2", 22, 40, 90, orb.MultiPolygon{ring})},
		{"three discs apart", small("p3", 60, 60, 120, chain)},
		{"combs into each other", small("p2", 34, 30, 90, comb)},
		{"a spiral", small("p1", 100, 100, 90, orb.MultiPolygon{{spiral(3, 6, 3)}})},
		{"a snowflake", small("p1", 40, 40, 90, orb.MultiPolygon{{koch(30, 3)}})},
	}, 4) {
		compareRaster(t, c.name, c.d)
	}
	seed := uint64(515)
	r := rand.New(rand.NewPCG(seed, 1))
	var drafts []draft.Draft
	for _, g := range symmetry.Groups() {
		c := patterntest.Cell(r, g, 120*float64(len(g.Ops))*(0.7+0.8*r.Float64()))
		d := small(g.Symbol, c.A, c.B, c.Gamma, patterntest.Blob(r, 7, 8+r.IntN(20), r.IntN(2) == 0))
		at := c.Basis().Apply(orb.Point{r.Float64(), r.Float64()})
		d.Motifs[0].At = at
		d.Motifs[0].Turn = 360 * r.Float64()
		d.Field.Edge = []draft.Edge{draft.Crop, draft.Whole}[r.IntN(2)]
		drafts = append(drafts, d)
	}
	for _, d := range geometrytest.Share(t, drafts, 6) {
		compareRaster(t, d.Repeat.Group+" at random", d)
	}
	t.Logf("seed %d", seed)
}

// Squares of side s on their corners, a cell apart, leave a − s√2 between corners.
func TestSquaresOnTheirCorners(t *testing.T) {
	s := 9 * math.Sqrt2
	d := small("p4", 20, 20, 90, orb.MultiPolygon{{orb.Ring{{0, -9}, {9, 0}, {0, 9}, {-9, 0}, {0, -9}}}})
	d.Panel = draft.Panel{Width: 90, Height: 90}
	d.Field.Edge = draft.Whole
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Check(l)
	if err != nil {
		t.Fatal(err)
	}
	if want := 20 - s*math.Sqrt2; r.NarrowestBetween == nil || math.Abs(*r.NarrowestBetween-want) > 1e-9 {
		t.Errorf("narrowest %v, want %g", r.NarrowestBetween, want)
	}
}
