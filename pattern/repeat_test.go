package pattern_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

func do(t *testing.T, d draft.Draft, c pattern.Command) draft.Draft {
	t.Helper()
	next, err := pattern.Apply(d, c)
	if err != nil {
		t.Fatalf("%+v: %v", c, err)
	}
	return next
}

func value(kv ...any) map[string]float64 {
	out := map[string]float64{}
	for i := 0; i < len(kv); i += 2 {
		out[kv[i].(string)] = kv[i+1].(float64)
	}
	return out
}

// Going through any groups and returning gives back the same draft, to the last digit.
func TestGroupsThereAndBack(t *testing.T) {
	seed := uint64(29)
	r := rand.New(rand.NewPCG(seed, 1))
	all := symmetry.Groups()
	for n := range 300 {
		from := all[n%17].Symbol
		d := patterntest.Draft(r, from)
		was := string(d.Encode())
		through := []string{}
		for range 1 + r.IntN(4) {
			g := all[r.IntN(17)].Symbol
			through = append(through, g)
			d = do(t, d, pattern.Command{Name: "group", Text: g})
		}
		d = do(t, d, pattern.Command{Name: "group", Text: from})
		if string(d.Encode()) != was {
			t.Errorf("seed %d, draft %d: from %s through %v and back it is another", seed, n, from, through)
		}
	}
}

// What is done to the cell or to a motif on the way is kept.
func TestGroupsThereAndBackKeepsWhatWasDone(t *testing.T) {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p1", A: 100, B: 80, Gamma: 70}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "S",
		Outline: orb.MultiPolygon{{{{0, 0}, {9, 0}, {0, 5}, {0, 0}}}}}}
	d.Motifs = []draft.Motif{{ID: "a", Silhouette: "s", At: [2]float64{10, 20}, Scale: 1},
		{ID: "b", Silhouette: "s", At: [2]float64{50, 40}, Scale: 1}}
	square := do(t, d, pattern.Command{Name: "group", Text: "p4"})
	moved := do(t, square, pattern.Command{Name: "place", ID: "b", Values: value("x", 33.0)})
	hexagon := do(t, moved, pattern.Command{Name: "group", Text: "p6"})
	back := do(t, hexagon, pattern.Command{Name: "group", Text: "p1"})
	if back.Repeat != d.Repeat || back.Motifs[0].At != d.Motifs[0].At {
		t.Errorf("cell %+v, first motif at %v", back.Repeat, back.Motifs[0].At)
	}
	in := func(d draft.Draft, i int) orb.Point {
		inv, _ := d.Repeat.Cell().Basis().Inverse()
		return inv.Apply(d.Motifs[i].At)
	}
	if p, q := in(moved, 1), in(back, 1); math.Hypot(p[0]-q[0], p[1]-q[1]) > 1e-5 {
		t.Errorf("the moved motif stands at %v of the cell, and stood at %v", q, p)
	}
	larger := do(t, square, pattern.Command{Name: "cell", Values: value("a", 120.0)})
	if other := do(t, larger, pattern.Command{Name: "group", Text: "p1"}); other.Repeat.A != 120 {
		t.Errorf("the cell was made larger and is %+v", other.Repeat)
	}
}

func TestCellHoldsAreaAndProportion(t *testing.T) {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p2", A: 100, B: 60, Gamma: 70}
	area := d.Repeat.Cell().Area()
	for _, v := range []map[string]float64{value("a", 130.0), value("b", 45.0), value("gamma", 110.0)} {
		if got := do(t, d, pattern.Command{Name: "cell", Text: pattern.KeepArea,
			Values: v}).Repeat.Cell().Area(); math.Abs(got-area) > 0.02 {
			t.Errorf("%v: area %g, was %g", v, got, area)
		}
		got := do(t, d, pattern.Command{Name: "cell", Text: pattern.KeepProportion, Values: v}).Repeat
		if math.Abs(got.B/got.A-0.6) > 1e-5 {
			t.Errorf("%v: sides %g and %g", v, got.A, got.B)
		}
	}
	d.Repeat = draft.Repeat{Group: "p4", A: 100, B: 100, Gamma: 90}
	if _, err := pattern.Apply(d, pattern.Command{Name: "cell", Text: pattern.KeepArea,
		Values: value("a", 90.0)}); err == nil || !strings.Contains(err.Error(), "area") {
		t.Errorf("a square cell of the same area and another side: %v", err)
	}
	if got := do(t, d, pattern.Command{Name: "cell", Text: pattern.KeepProportion,
		Values: value("b", 90.0)}).Repeat; got.A != 90 {
		t.Errorf("side %g", got.A)
	}
	if _, err := pattern.Apply(d, pattern.Command{Name: "cell", Text: "colour", Values: value("a", 90.0)}); err == nil {
		t.Error("a cell keeps its colour")
	}
}

// A lay is checked by what it means: in a half-drop every lattice point has one a width over and half a height up or
// down, and one a height up; in a brick lay the other way about.
func TestLays(t *testing.T) {
	has := func(d draft.Draft, x, y float64) bool {
		d.Silhouettes, d.Motifs = nil, nil
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		points := []orb.Point{{}}
		if l.Group.Centred {
			points = append(points, orb.Point{d.Repeat.A / 2, d.Repeat.B / 2})
		}
		for _, p := range points {
			q := orb.Point{x - p[0], y - p[1]}
			v := l.NearestLattice(q)
			if math.Hypot(q[0]-v[0], q[1]-v[1]) < 1e-3 {
				return true
			}
		}
		return false
	}
	const w, h = 70.0, 110.0
	for group, lays := range map[string][]string{"p1": {"straight", "half-drop", "brick"},
		"p2": {"straight", "half-drop", "brick"},
		"cm": {"half-drop", "brick"}, "c2mm": {"half-drop", "brick"}} {
		t.Run(group, func(t *testing.T) {
			for _, lay := range lays {
				d := draft.Default()
				d = do(t, d, pattern.Command{Name: "group", Text: group})
				d = do(t, d, pattern.Command{Name: "lay", Text: lay, Values: value("width", w, "height", h)})
				var steps [][2]float64
				switch lay {
				case "straight":
					steps = [][2]float64{{w, 0}, {0, h}}
				case "half-drop":
					steps = [][2]float64{{w, h / 2}, {w, -h / 2}, {0, h}}
				case "brick":
					steps = [][2]float64{{w / 2, h}, {-w / 2, h}, {w, 0}}
				}
				for _, s := range steps {
					if !has(d, s[0], s[1]) {
						t.Errorf("%s: no repeat at %v of another; the cell is %+v", lay, s, d.Repeat)
					}
				}
				if got := d.Repeat.Cell().Area() / map[bool]float64{true: 2,
					false: 1}[len(lays) == 2]; math.Abs(got-w*h) > 0.01 {
					t.Errorf("%s: %g mm² for a repeat, want %g", lay, got, w*h)
				}
				got, ok := pattern.LayOf(d.Repeat, lay)
				if !ok || got.Name != lay || math.Abs(got.Width-w) > 1e-3 || math.Abs(got.Height-h) > 1e-3 {
					t.Errorf("%s: read back as %+v", lay, got)
				}
				if !slices.Equal(pattern.LayChoices(d.Repeat), lays) {
					t.Errorf("the lays to choose from are %v", pattern.LayChoices(d.Repeat))
				}
			}
		})
	}
	d := do(t, draft.Default(), pattern.Command{Name: "group", Text: "p2mm"})
	if _, err := pattern.Apply(d, pattern.Command{Name: "lay", Text: "half-drop"}); err == nil {
		t.Error("p2mm is laid half-drop")
	}
	if len(pattern.LayChoices(d.Repeat)) != 0 {
		t.Error("p2mm offers a choice of lays")
	}
}

// Whole repeats: the field's corners are corners of cells, counted by the lattice itself.
func TestWholeRepeats(t *testing.T) {
	for _, c := range []struct {
		group, lay   string
		turn         float64
		across, down float64
	}{
		{"p1", "", 0, 5, 7}, {"p1", "straight", 90, 5, 7}, {"p2", "half-drop", 0, 4, 6}, {"p1", "brick", 0, 3, 8},
		{"p2mm", "", 0, 5, 7},
		{"pg", "", 180, 3, 0}, {"pm", "", -90, 0, 4}, {"cm", "half-drop", 0, 6, 5}, {"c2mm", "brick", 0, 6, 4},
		{"p4", "", 0, 5, 0},
		{"p4mm", "", 0, 0, 6}, {"p4gm", "", 0, 5, 7}, {"p6", "", 0, 5, 0}, {"p3m1", "", 0, 0, 9}, {"p6mm", "", 0, 5, 9},
	} {
		t.Run(fmt.Sprintf("%s, %s, %v × %v", c.group, c.lay, c.across, c.down), func(t *testing.T) {
			name := fmt.Sprintf("%s %s at %g°, %g across, %g down", c.group, c.lay, c.turn, c.across, c.down)
			d := do(t, draft.Default(), pattern.Command{Name: "field", Values: value("turn", c.turn)})
			d = do(t, d, pattern.Command{Name: "group", Text: c.group})
			if c.lay != "" && len(pattern.LayChoices(d.Repeat)) > 0 {
				d = do(t, d, pattern.Command{Name: "lay", Text: c.lay})
			}
			d = do(t, d, pattern.Command{Name: "repeats", Text: c.lay,
				Values: value("across", c.across, "down", c.down)})
			fit, _, ok := pattern.RepeatsOf(d, c.lay)
			if !ok {
				t.Fatalf("%s: no count", name)
			}
			fits := func(got, want float64) bool { return want != 0 && math.Abs(got-want) < 1e-4 }
			g, _ := symmetry.Find(c.group)
			even := g.System == symmetry.Square || g.System == symmetry.Hexagonal
			both := c.across != 0 && c.down != 0 && !even
			if both && (!fits(fit.Across, c.across) || !fits(fit.Down, c.down)) || !fits(fit.Across, c.across) &&
				!fits(fit.Down, c.down) {
				t.Errorf("%s: %+v", name, fit)
			}
			// A cell's corner lies on the field's.
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			p := d.FieldMap().Rigid().Apply(d.FieldBound().Min)
			v := l.NearestLattice(p)
			if math.Hypot(p[0]-v[0], p[1]-v[1]) > 1e-3 {
				t.Errorf("%s: the field's corner lies at %v of a cell", name, p)
			}
		})
	}
	d := do(t, draft.Default(), pattern.Command{Name: "field", Values: value("turn", 12.0)})
	for _, c := range []pattern.Command{{Name: "repeats", Values: value("across", 5.0)}} {
		if _, err := pattern.Apply(d, c); err == nil || !strings.Contains(err.Error(), "turn") {
			t.Errorf("a turned field: %v", err)
		}
	}
	for _, v := range []map[string]float64{nil, value("across", 2.5), value("down", -1.0), value("across", 1e9)} {
		if _, err := pattern.Apply(draft.Default(), pattern.Command{Name: "repeats", Values: v}); err == nil {
			t.Errorf("%v is taken", v)
		}
	}
}

// The middle of the panel comes to lie on what was asked for, and the field moves by less than a cell.
func TestCentre(t *testing.T) {
	for _, g := range symmetry.Groups() {
		d := do(t, draft.Default(), pattern.Command{Name: "group", Text: g.Symbol})
		d = do(t, d, pattern.Command{Name: "field", Values: value("x", 123.0, "y", 77.0, "turn", 17.0)})
		highest, mirrors := 1, false
		for _, op := range g.Ops {
			if op.Det() < 0 {
				mirrors = true
			} else {
				highest = max(highest, map[int]int{2: 1, -2: 2, -1: 3, 0: 4, 1: 6}[op.W[0][0]+op.W[1][1]])
			}
		}
		if g.Symbol == "pg" || g.Symbol == "p2gg" {
			mirrors = false
		}
		for _, what := range []string{"corner", "turn", "mirror"} {
			next, err := pattern.Apply(d, pattern.Command{Name: "centre", Text: what})
			if can := what == "corner" || what == "turn" && highest > 1 || what == "mirror" &&
				mirrors; can != (err == nil) {
				t.Errorf("%s, %s: %v", g.Symbol, what, err)
			}
			if err != nil {
				continue
			}
			next.Silhouettes = []draft.Silhouette{{ID: "s",
				Outline: orb.MultiPolygon{{{{-5, -5}, {5, -5}, {5, 5}, {-5, 5}, {-5, -5}}}}}}
			l, err := pattern.NewLayout(next, nil)
			if err != nil {
				t.Fatal(err)
			}
			p := next.FieldMap().Rigid().Apply(next.PanelBound().Center())
			there, special := l.Special(p, 0.01)
			off := math.Hypot(p[0]-there[0], p[1]-there[1])
			if what != "corner" && (!special || off > 1e-3) {
				t.Errorf("%s, %s: %g mm off", g.Symbol, what, off)
			}
			if v := l.NearestLattice(p); what == "corner" && math.Hypot(p[0]-v[0], p[1]-v[1]) > 1e-3 {
				t.Errorf("%s: no corner in the middle", g.Symbol)
			}
			if moved := math.Hypot(next.Field.Origin[0]-123,
				next.Field.Origin[1]-77); moved > next.Repeat.A+next.Repeat.B {
				t.Errorf("%s, %s: the field moved by %g mm", g.Symbol, what, moved)
			}
			if what == "turn" {
				next.Motifs = []draft.Motif{{ID: "m", Silhouette: "s",
					At: [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])}, Scale: 1}}
				if l, err = pattern.NewLayout(next, nil); err != nil {
					t.Fatal(err)
				}
				if s := l.Site(0); s.Turn != highest {
					t.Errorf("%s: a point of order %d in the middle, want %d", g.Symbol, s.Turn, highest)
				}
			}
		}
	}
}
