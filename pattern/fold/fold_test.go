package fold

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

// specialDraft returns a draft whose one motif stands with its centre of area on a mirror or a rotation point near a
// random place; false when the group has none.
func specialDraft(t *testing.T, r *rand.Rand, g symmetry.Group) (draft.Draft, bool) {
	t.Helper()
	c := patterntest.Cell(r, g, 20000)
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: g.Symbol, A: c.A, B: c.B, Gamma: c.Gamma}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Blob",
		Outline: patterntest.Blob(r, 20+20*r.Float64(), 5+r.IntN(40), r.IntN(2) == 0)}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Turn: geometry.Snap(360*r.Float64() - 180), Scale: 0.5 +
		r.Float64(), Mirrored: r.IntN(2) == 0}}
	at := c.Basis().Apply(orb.Point{r.Float64(), r.Float64()})
	d.Motifs[0].At = at
	l := layout(t, d)
	o := l.Orbits[0]
	heart := o.Place.Apply(o.Shape.Centroid())
	there, ok := l.Special(heart, 1000)
	if !ok {
		return d, false
	}
	for i := range d.Motifs[0].At {
		d.Motifs[0].At[i] = geometry.Snap(d.Motifs[0].At[i] + there[i] - heart[i])
	}
	return d, true
}

func layout(t *testing.T, d draft.Draft) *pattern.Layout {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// A silhouette made symmetrical has the symmetry of its place: the field holds fewer copies, and there is nothing left
// to mend. What is kept of a fold was in the silhouette; what is gathered holds all of it.
func TestEveryWayOverEveryGroup(t *testing.T) {
	seed := uint64(303)
	r := rand.New(rand.NewPCG(seed, 1))
	tried := 0
	for _, g := range symmetry.Groups() {
		for n := range 12 {
			d, ok := specialDraft(t, r, g)
			if !ok {
				if g.Symbol != "p1" && g.Symbol != "pg" {
					t.Errorf("%s: no special place", g.Symbol)
				}
				continue
			}
			l := layout(t, d)
			site := l.Site(0)
			if site.Order < 2 {
				t.Fatalf("seed %d, %s %d: the place is not special", seed, g.Symbol, n)
			}
			if !site.Lacks || len(l.Orbits[0].Images) != len(g.Ops) {
				t.Errorf("seed %d, %s %d: a blob has the symmetry of its place", seed, g.Symbol, n)
			}
			for _, way := range []string{Keep, Other, Gather} {
				mp, err := Outline(l, 0, way)
				if site.Mirrors == 0 && way != Gather {
					if err == nil {
						t.Errorf("%s: folded without a mirror", g.Symbol)
					}
					continue
				}
				if err != nil {
					if way == Other {
						continue // next to nothing on that side
					}
					t.Fatalf("seed %d, %s %d, %s: %v", seed, g.Symbol, n, way, err)
				}
				made, err := pattern.Apply(d, pattern.Command{Name: "remake", ID: "m", Text: "Blob again", Outline: mp})
				if err != nil {
					t.Fatalf("seed %d, %s %d, %s: %v", seed, g.Symbol, n, way, err)
				}
				tried++
				after := layout(t, made)
				if got := after.Site(0); got.Order != site.Order || got.Lacks {
					t.Errorf("seed %d, %s %d, %s: site %+v, was of order %d", seed, g.Symbol, n, way, got, site.Order)
				}
				if got, want := len(after.Orbits[0].Images), len(g.Ops)/site.Order; got != want {
					t.Errorf("seed %d, %s %d, %s: %d images, want %d", seed, g.Symbol, n, way, got, want)
				}
				was, is := geometry.Area(d.Silhouettes[0].Outline), geometry.Area(made.Silhouettes[1].Outline)
				if way == Gather && (is < was-1e-2 || is > was*float64(site.Order)+1e-2) {
					t.Errorf("seed %d, %s %d: gathered area %g of %g", seed, g.Symbol, n, is, was)
				}
				if way == Keep && is > was*float64(site.Order) {
					t.Errorf("seed %d, %s %d: folded area %g of %g", seed, g.Symbol, n, is, was)
				}
				if _, err := Outline(after, 0, Gather); err == nil {
					t.Errorf("seed %d, %s %d, %s: it can be done once more", seed, g.Symbol, n, way)
				}
			}
		}
	}
	t.Logf("seed %d: %d silhouettes made symmetrical", seed, tried)
	if tried < 300 {
		t.Errorf("only %d were tried", tried)
	}
}

// What straightening leaves out lies beside the line that takes its place, however close the points of a curve stand.
func TestStraightenedStaysOnTheCurve(t *testing.T) {
	for _, c := range []struct {
		name string
		n    int
		at   func(t float64) orb.Point
	}{
		{"a circle of long edges", 60, func(t float64) orb.Point {
			return orb.Point{50 * math.Cos(t), 50 * math.Sin(t)}
		}},
		{"a circle of edges of 0.01 mm", 30000, func(t float64) orb.Point {
			return orb.Point{50 * math.Cos(t), 50 * math.Sin(t)}
		}},
		{"a straight-sided star", 4000, func(t float64) orb.Point {
			d := 10 + 5*math.Abs(math.Mod(5*t/math.Pi, 2)-1)
			return orb.Point{d * math.Cos(t), d * math.Sin(t)}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var r orb.Ring
			for i := range c.n {
				r = append(r, c.at(2*math.Pi*float64(i)/float64(c.n)))
			}
			r = append(r, r[0])
			got := straightened(r)
			shape := geometry.NewShape(orb.MultiPolygon{{got}})
			worst := 0.0
			for _, p := range r {
				worst = math.Max(worst, shape.DistanceTo(p, 1).D)
			}
			t.Logf("%d points of %d, %.2g mm off", len(got), len(r), worst)
			if !(worst <= straightMM+1e-9) {
				t.Errorf("a point left out lies %g mm off, %g allowed", worst, straightMM)
			}
		})
	}
}

// A right angle of 30 × 10 mm and 10 × 20 mm over an upright mirror through its centre: the areas are known.
func TestFoldOfAKnownShape(t *testing.T) {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "pm", A: 200, B: 100, Gamma: 90}
	ell := orb.MultiPolygon{{{{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}, {0, 0}}}}
	heart := geometry.Centroid(ell) // (11, 11): (300·15 + 200·5)/500
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "L", Outline: ell}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{-heart[0], 0}, Scale: 1}}
	l := layout(t, d)
	left := 10*30 + 1*10.0 // x < 11
	right := 19 * 10.0     // x > 11
	for way, want := range map[string]float64{Keep: 2 * left, Other: 2 * right, Gather: 19*10*2 + 2*20*10.0} {
		t.Run(way, func(t *testing.T) {
			mp, err := Outline(l, 0, way)
			if err != nil {
				t.Fatal(err)
			}
			if got := geometry.Area(mp); math.Abs(got-want) > 0.05 {
				t.Errorf("area %g, want %g", got, want)
			}
		})
	}
	if _, err := Outline(l, 0, "crumple"); err == nil {
		t.Error("an unknown way is taken")
	}
	d.Motifs[0].At[0] += 5
	if _, err := Outline(layout(t, d), 0, Keep); err == nil {
		t.Error("folded where there is no mirror")
	}
}
