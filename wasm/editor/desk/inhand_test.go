package desk

import (
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
	"openwork/wasm/editor/desk/copies"
)

// In every group any copy, taken up from the list, goes to where it is told by its place, its turn and its size as they
// are seen on the panel, in one entry each: two points of the silhouette show it, carried by the layout's own maps.
func TestPlaceHeldInEveryGroup(t *testing.T) {
	const seed = 71
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for _, g := range symmetry.Groups() {
		t.Run(g.Symbol, func(t *testing.T) {
			d := patterntest.Draft(r, g.Symbol)
			d.Field.Edge, d.Field.Turn = draft.Crop, 27
			k := New(d)
			k.Resize(900, 700)
			list := k.Copies(0, mostListed)
			if k.Session.Layout() == nil || list.Total == 0 {
				t.Skip("the draft lays no copy")
			}
			inside := slices.DeleteFunc(list.Rows, func(row CopyRow) bool { // others might leave the panel
				return row.Cut || !d.FieldBound().Pad(-10).Contains(orb.Point{row.X, row.Y})
			})
			if len(inside) == 0 {
				t.Skip("no copy lies well inside the field")
			}
			row := inside[r.IntN(len(inside))]
			if err := k.HoldCopy(row.Copy.Motif, row.Copy.Op, row.Copy.Cell); err != nil {
				t.Fatal(err)
			}
			seen := func() (at orb.Point, turn, size float64) {
				t.Helper()
				now := k.Session.Draft()
				m := now.Motifs[now.Motif(row.Copy.Motif)]
				h := copies.Held{Motif: now.Motif(row.Copy.Motif), Op: row.Copy.Op, Cell: row.Copy.Cell}
				whole := h.Map(k.Session.Layout()).After(m.Map())
				at, up := whole.Apply(orb.Point{}), whole.Vector(orb.Point{0, 1}) // no mirror turns the upright
				return at, math.Atan2(-up[0], up[1]) * 180 / math.Pi, math.Hypot(up[0], up[1])
			}
			at, turn, size := seen()
			want := map[string]float64{"x": at[0] + 1.5, "y": at[1] - 0.75, "turn": turn + 11, "scale": 0.97 * size}
			for _, name := range []string{"x", "y", "turn", "scale"} {
				before := len(k.Session.History().Steps)
				if err := k.PlaceHeld(name, want[name]); err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				if n := len(k.Session.History().Steps) - before; n != 1 {
					t.Errorf("%s made %d entries", name, n)
				}
			}
			at, turn, size = seen()
			s := k.State().Held
			for name, got := range map[string][2]float64{"x": {at[0], s.X}, "y": {at[1], s.Y}, "turn": {turn, s.Turn},
				"scale": {size, s.Scale}} {
				for _, v := range got {
					off := v - want[name]
					if name == "turn" {
						off = math.Remainder(off, 360)
					}
					if math.Abs(off) > 2e-3 {
						t.Errorf("%s: %v, not %.4f", name, got, want[name])
					}
				}
			}
		})
	}
}

// The list has every copy that the panel has, each once, page by page, and keeps their order while one is moved.
func TestCopyListIsWhole(t *testing.T) {
	k := demo(t)
	want, err := k.Session.Layout().Copies()
	if err != nil {
		t.Fatal(err)
	}
	walk := func() (names []copyName) {
		for from := 0; ; from += 7 {
			page := k.Copies(from, 7)
			if page.Total != len(want) {
				t.Fatalf("%d copies in the list, %d on the panel", page.Total, len(want))
			}
			if page.From != from {
				return names
			}
			for _, row := range page.Rows {
				names = append(names, row.Copy)
			}
		}
	}
	before := walk()
	found := map[copyName]bool{}
	for _, name := range before {
		found[name] = true
	}
	if len(before) != len(want) || len(found) != len(want) {
		t.Fatalf("%d rows, %d different ones, %d copies", len(before), len(found), len(want))
	}
	for _, c := range want {
		if !found[copyName{k.Session.Draft().Motifs[c.Motif].ID, c.Op, c.Cell}] {
			t.Errorf("%v is not in the list", c)
		}
	}

	last := before[len(before)-1]
	if err := k.HoldCopy(last.Motif, last.Op, last.Cell); err != nil {
		t.Fatal(err)
	}
	if page := k.Copies(-1, 7); page.From != (len(before)-1)/7*7 || !page.Rows[len(page.Rows)-1].Held {
		t.Errorf("the page of the copy in hand begins at %d and does not mark it", page.From)
	}
	if err := k.PlaceHeld("x", k.State().Held.X+0.5); err != nil {
		t.Fatal(err)
	}
	if want, err = k.Session.Layout().Copies(); err != nil {
		t.Fatal(err)
	}
	seen := map[copyName]int{}
	for i, name := range walk() {
		seen[name] = i
	}
	place := -1
	for _, name := range before {
		if at, ok := seen[name]; ok {
			if at < place {
				t.Fatalf("%v has come before its forerunner", name)
			}
			place = at
		}
	}
}

// What is in hand is named: a copy by its motif, its number and how it comes from the motif, a subject by its name, a
// swatch and a tie as what they are.
func TestHeldIsNamed(t *testing.T) {
	k := demo(t)
	if h := k.State().Held; h.Kind != "" || h.Name != "" {
		t.Errorf("nothing is in hand, and it is called %+v", h)
	}
	for op, how := range map[int]string{0: "copy 1 of 2, as it was placed; group pg",
		1: "copy 2 of 2, mirrored and moved along; group pg"} {
		c := someCopy(t, k, op)
		if err := k.HoldCopy(k.Session.Draft().Motifs[c.Motif].ID, op, c.Cell); err != nil {
			t.Fatal(err)
		}
		if h := k.State().Held; h.Kind != "copy" || h.Which != how {
			t.Errorf("a copy of operation %d is %q, %q; not %q", op, h.Kind, h.Which, how)
		}
	}
	swatches(t, k, "#17564a")
	k.Brush(true, k.Session.Draft().Swatches[0].ID)
	if h := k.State().Held; h.Kind != "copy" || !strings.HasSuffix(h.Which, "with the swatch Swatch #17564a") {
		t.Errorf("with a swatch in hand: %+v", h)
	}
	k.Session.Choose("")
	if h := k.State().Held; h.Kind != "swatch" || h.Name != "Swatch #17564a" {
		t.Errorf("a swatch alone in hand is %+v", h)
	}
	k.Brush(false, "")

	outline := geometry.Orient(orb.MultiPolygon{{{{-9, -9}, {9, -9}, {0, 12}, {-9, -9}}}})
	if err := k.Do(pattern.Command{Name: "subject", Text: "Heron", Outline: outline}); err != nil {
		t.Fatal(err)
	}
	if h := k.State().Held; h.Kind != "subject" || h.Name != "Heron" {
		t.Errorf("a subject in hand is %+v", h)
	}
	before := k.Session.Draft().Subjects[0].Mirrored
	if err := k.MirrorHeld(); err != nil || k.Session.Draft().Subjects[0].Mirrored == before {
		t.Errorf("the subject is not mirrored (%v)", err)
	}
	if err := k.PlaceHeld("x", 77); err != nil || k.Session.Draft().Subjects[0].At[0] != 77 {
		t.Errorf("the subject stands at %v (%v)", k.Session.Draft().Subjects[0].At, err)
	}
	if err := k.Act("tying"); err != nil {
		t.Fatal(err)
	}
	if h := k.State().Held; h.Kind != "tie" {
		t.Errorf("tying, what is in hand is %+v", h)
	}
}
