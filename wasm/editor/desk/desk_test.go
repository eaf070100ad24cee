package desk

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/say"
)

// demo returns a desk with the demo on a canvas of 900 × 700 px.
func demo(t testing.TB) *Desk {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/drafts/heron-over-carp.openwork.json")
	if err != nil {
		t.Fatal(err)
	}
	k := New(draft.Default())
	k.Resize(900, 700)
	if err := k.Start(string(text)); err != nil {
		t.Fatal(err)
	}
	return k
}

// centre returns the canvas point in the middle of a copy.
func centre(k *Desk, c pattern.Copy) orb.Point {
	p := k.View.Map().Apply(c.Map.Apply(k.Session.layout.Orbits[c.Motif].Shape.Centroid()))
	return p
}

// someCopy returns a copy well inside the field whose operation is the one asked for, with its centre inside it.
func someCopy(t *testing.T, k *Desk, op int) pattern.Copy {
	t.Helper()
	all, err := k.Session.layout.Copies()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		p := centre(k, c)
		if h, ok := k.copies.Hit(p); ok && c.Op == op && h == (copies.Held{Motif: c.Motif, Op: c.Op, Cell: c.Cell}) {
			return c
		}
	}
	t.Fatalf("no copy under operation %d can be taken", op)
	return pattern.Copy{}
}

func drag(k *Desk, from, by orb.Point) { dragWith(k, from, by, 0) }

// dragWith drags with modifiers held.
func dragWith(k *Desk, from, by orb.Point, mods int) {
	k.Pointer("down", 1, from[0], from[1], mods, "mouse")
	for i := 1; i <= 10; i++ {
		f := float64(i) / 10
		k.Pointer("move", 1, from[0]+f*by[0], from[1]+f*by[1], mods, "mouse")
	}
	k.Pointer("up", 1, from[0]+by[0], from[1]+by[1], mods, "mouse")
}

func TestPanningChangesNoDraft(t *testing.T) {
	k := demo(t)
	rev := k.State().Revision
	drag(k, orb.Point{60, 60}, orb.Point{40, 30})
	k.Wheel(400, 300, 0, -120, 0)
	k.Key("ArrowLeft", 0, true, false)
	k.Pointer("down", 1, 300, 300, 0, "touch")
	k.Pointer("down", 2, 500, 300, 0, "touch")
	zoom := k.View.Zoom
	k.Pointer("move", 2, 700, 300, 0, "touch")
	k.Pointer("up", 1, 300, 300, 0, "touch")
	k.Pointer("up", 2, 700, 300, 0, "touch")
	if math.Abs(k.View.Zoom/zoom-2) > 1e-9 {
		t.Errorf("fingers twice as far apart zoom by %g", k.View.Zoom/zoom)
	}
	if s := k.State(); s.Revision != rev || s.Undo != "" {
		t.Errorf("looking about changed the draft: revision %d → %d, undo %q", rev, s.Revision, s.Undo)
	}
}

func TestBadDraftLosesNothing(t *testing.T) {
	k := demo(t)
	before := string(k.Session.Draft().Encode())
	for _, text := range []string{"", "{", `{"openwork":2}`, strings.Replace(before, `"turn"`, `"tune"`, 1)} {
		err := k.OpenText(text)
		if err == nil {
			t.Errorf("%.30q was opened", text)
			continue
		}
		if s := pattern.Sentence(err.Error()); !strings.Contains(s, "still here") {
			t.Errorf("the refusal does not say that nothing is lost: %s", s)
		}
	}
	if err := k.OpenLink("https://example.org/#other"); err == nil {
		t.Error("a foreign link was opened")
	}
	if string(k.Session.Draft().Encode()) != before || k.State().Undo != "" {
		t.Error("a refused draft changed the open one")
	}
}

func TestPiecesComeInCentredAndPlaced(t *testing.T) {
	k := New(draft.Default())
	k.Resize(900, 700)
	traced, err := json.Marshal([]draft.Silhouette{
		{ID: "s1", Name: "fish",
			Outline: orb.MultiPolygon{{orb.Ring{{100, 100}, {140, 100}, {140, 120}, {100, 120}, {100, 100}}}}},
		{ID: "s2", Name: "bow", Outline: orb.MultiPolygon{{orb.Ring{{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := k.Pieces(string(traced), []int{0}, "add", true); err != nil {
		t.Fatal(err)
	}
	d := k.Session.Draft()
	if len(d.Silhouettes) != 1 || len(d.Motifs) != 1 || d.Silhouettes[0].Outline.Bound().Center() != (orb.Point{}) {
		t.Errorf("came in as %+v with %d motifs", d.Silhouettes, len(d.Motifs))
	}
	if len(k.Session.Live().Overlaps) != 0 {
		t.Error("a first silhouette overlaps itself")
	}
	if err := k.Undo(); err != nil || len(k.Session.Draft().Silhouettes) != 0 {
		t.Error("bringing a piece in is not one entry")
	}
	if err := k.Pieces(string(traced), []int{1}, "add", true); err == nil {
		t.Error("a self-crossing piece came in")
	}
	if err := k.Pieces(string(traced), nil, "add", true); err == nil {
		t.Error("no piece at all came in")
	}
}

func TestFaultsAreGathered(t *testing.T) {
	g := say.Gather([]sheet.Problem{
		{Kind: sheet.Tip, Severity: sheet.Warning, Measured: 2},
		{Kind: sheet.Bridge, Severity: sheet.Fault, Measured: 1.8},
		{Kind: sheet.Bridge, Severity: sheet.Fault, Measured: 1.8 + 1e-9},
		{Kind: sheet.Bridge, Severity: sheet.Fault, Measured: 1.2},
		{Kind: sheet.Overlap, Severity: sheet.Fault, Measured: 40},
	})
	if len(g) != 4 || g[0].First.Kind != sheet.Overlap || g[1].First.Measured != 1.2 ||
		len(g[2].Places) != 2 || g[3].First.Kind != sheet.Tip {
		t.Errorf("gathered as %+v", g)
	}
}

func TestRulersAgreeWithThePanel(t *testing.T) {
	for _, inches := range []bool{false, true} {
		k := demo(t)
		k.Session.Inches = inches
		unit := 1.0
		if inches {
			unit = 25.4
		}
		for _, zoom := range []float64{0.05, 0.4, 1, 7, 60} {
			k.View.Zoom = zoom
			across, _ := k.View.Rulers(k.Session.Inches)
			long := 0
			for _, tick := range across {
				if !tick.Long {
					continue
				}
				long++
				var v float64
				if err := json.Unmarshal([]byte(tick.Text), &v); err != nil {
					t.Fatal(err)
				}
				if mm := k.View.Panel(tick.At, 0)[0]; math.Abs(mm-v*unit) > 1e-6*math.Max(1, math.Abs(mm)) {
					t.Errorf("zoom %g: the mark %s stands at %g mm", zoom, tick.Text, mm)
				}
			}
			if long < 2 || long > 14 {
				t.Errorf("zoom %g, inches %v: %d figures on 860 px", zoom, inches, long)
			}
		}
	}
}
