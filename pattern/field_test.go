package pattern_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// inDisc returns the maps, to field coordinates, of the copies whose centres lie within reach of the field's origin.
func inDisc(t *testing.T, d draft.Draft, reach float64) []geometry.Map {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	toField := d.FieldMap().Rigid()
	var out []geometry.Map
	for _, c := range copies {
		m := toField.After(c.Map)
		if p := m.Apply(l.Orbits[c.Motif].Shape.Centroid()); math.Hypot(p[0], p[1]) < reach {
			out = append(out, m)
		}
	}
	return out
}

// sameMaps reports the first map of a, scaled, that is not in b, or the other way about.
func sameMaps(a, b []geometry.Map, scale float64) (geometry.Map, bool) {
	near := func(p, q geometry.Map, k float64) bool {
		d := math.Abs(p.A*k-q.A) + math.Abs(p.B*k-q.B) + math.Abs(p.C*k-q.C) + math.Abs(p.D*k-q.D)
		return d < 1e-6*k && math.Hypot(p.X*k-q.X, p.Y*k-q.Y) < 1e-3*math.Max(1, k)
	}
	for _, side := range []struct {
		from, to []geometry.Map
		k        float64
	}{{a, b, scale}, {b, a, 1 / scale}} {
		for _, p := range side.from {
			found := false
			for _, q := range side.to {
				found = found || near(p, q, side.k)
			}
			if !found {
				return p, false
			}
		}
	}
	return geometry.Map{}, true
}

// Turning, moving or scaling the whole field changes nothing but the place; a motif moved by whole cells is the same
// motif, so that neighbours agree across the cell's borders.
func TestFieldTurnedMovedScaled(t *testing.T) {
	seed := uint64(71)
	r := rand.New(rand.NewPCG(seed, 1))
	for _, g := range symmetry.Groups() {
		for n := range 4 {
			c := patterntest.Cell(r, g, 4000+8000*r.Float64())
			d := draft.Default()
			d.Panel = draft.Panel{Width: 1400, Height: 1400}
			d.Field = draft.Field{Origin: [2]float64{700, 700}, Edge: draft.Touching}
			d.Repeat = draft.Repeat{Group: g.Symbol, A: c.A, B: c.B, Gamma: c.Gamma}
			d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: patterntest.Blob(r, 15, 9, false)}}
			at := c.Basis().Apply(orb.Point{r.Float64(), r.Float64()})
			d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: at, Turn: 360 * r.Float64(), Scale: 1,
				Mirrored: r.IntN(2) == 0}}
			const reach = 400.0
			base := inDisc(t, d, reach)
			if len(base) < 20 {
				t.Fatalf("seed %d, %s %d: only %d copies", seed, g.Symbol, n, len(base))
			}
			turned := d
			turned.Field.Turn = 360 * r.Float64()
			turned.Field.Origin = [2]float64{650 + 100*r.Float64(), 650 + 100*r.Float64()}
			if m, ok := sameMaps(base, inDisc(t, turned, reach), 1); !ok {
				t.Errorf("seed %d, %s %d: turned and moved, the copy %v is missing", seed, g.Symbol, n, m)
			}
			k := 0.5 + r.Float64()
			scaled := d
			scaled.Repeat.A, scaled.Repeat.B = d.Repeat.A*k, d.Repeat.B*k
			scaled.Motifs = []draft.Motif{d.Motifs[0]}
			scaled.Motifs[0].Scale = k
			for i := range at {
				scaled.Motifs[0].At[i] = at[i] * k
			}
			if m, ok := sameMaps(base, inDisc(t, scaled, reach*k), k); !ok {
				t.Errorf("seed %d, %s %d: scaled by %g, the copy %v is missing", seed, g.Symbol, n, k, m)
			}
			over := c.Basis().Apply(orb.Point{float64(r.IntN(5) - 2), float64(r.IntN(5) - 2)})
			next := d
			next.Motifs = []draft.Motif{d.Motifs[0]}
			next.Motifs[0].At = [2]float64{at[0] + over[0], at[1] + over[1]}
			if m, ok := sameMaps(base, inDisc(t, next, reach), 1); !ok {
				t.Errorf("seed %d, %s %d: a whole number of cells over, the copy %v is missing", seed, g.Symbol, n, m)
			}
		}
	}
}

// Two silhouettes that share their first ring in memory are still two.
func TestSilhouettesThatShareARing(t *testing.T) {
	shell := orb.Ring{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}
	d := draft.Default()
	d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: orb.MultiPolygon{{shell}}},
		{ID: "t", Outline: orb.MultiPolygon{{shell, {{-2, -2}, {-2, 2}, {2, 2}, {2, -2}, {-2, -2}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1},
		{ID: "n", Silhouette: "t", At: [2]float64{40, 0}, Scale: 1}}
	l, err := pattern.NewLayout(d, pattern.NewShapes())
	if err != nil {
		t.Fatal(err)
	}
	if a, b := l.Orbits[0].Shape.Area(), l.Orbits[1].Shape.Area(); a != 400 || b != 384 {
		t.Errorf("areas %g and %g, want 400 and 384", a, b)
	}
}
