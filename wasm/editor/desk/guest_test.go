package desk

import (
	"math"
	"slices"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/testdata/drafts"
)

// butterfly is a drawing of three pieces: two wings and a feeler.
const butterfly = `[{"id":"s1","name":"moth","outline":[[[[0,0],[30,0],[30,40],[0,40],[0,0]]]]},
	{"id":"s2","name":"moth 2","outline":[[[[40,0],[70,0],[70,40],[40,40],[40,0]]]]},
	{"id":"s3","name":"moth 3","outline":[[[[34,30],[36,30],[36,60],[34,60],[34,30]]]]}]`

// Pieces that came together are one silhouette of one motif; apart, they stand to each other as they were drawn.
func TestPiecesThatCameTogether(t *testing.T) {
	k := New(draft.Default())
	k.Resize(900, 700)
	if err := k.Pieces(butterfly, []int{0, 1, 2}, "add", false); err != nil {
		t.Fatal(err)
	}
	d := k.Session.Draft()
	if len(d.Silhouettes) != 1 || len(d.Silhouettes[0].Outline) != 3 || len(d.Motifs) != 1 ||
		d.Silhouettes[0].Name != "moth" {
		t.Fatalf("came in as %d silhouettes and %d motifs", len(d.Silhouettes), len(d.Motifs))
	}
	if c := geometry.Centroid(d.Silhouettes[0].Outline); math.Hypot(c[0], c[1]) > 0.001 {
		t.Errorf("its middle lies at %v", c)
	}
	if len(k.Session.Live().Overlaps) != 0 {
		t.Error("a first silhouette of three pieces overlaps itself")
	}

	if err := k.Undo(); err != nil {
		t.Fatal(err)
	}
	if err := k.Pieces(butterfly, []int{0, 1, 2}, "add", true); err != nil {
		t.Fatal(err)
	}
	d = k.Session.Draft()
	if len(d.Silhouettes) != 3 || len(d.Motifs) != 3 {
		t.Fatalf("apart: %d silhouettes and %d motifs", len(d.Silhouettes), len(d.Motifs))
	}
	at := d.Motifs[0].At
	for i, want := range [][2]float64{{0, 0}, {40, 0}, {20, 25}} {
		m := d.Motifs[i]
		if math.Abs(m.At[0]-at[0]-want[0]) > 0.001 || math.Abs(m.At[1]-at[1]-want[1]) > 0.001 {
			t.Errorf("piece %d stands at %v from the first, drawn at %v", i, m.At, want)
		}
	}
	if len(k.Session.Live().Overlaps) != 0 {
		t.Error("pieces that were drawn apart overlap")
	}
}

// A first own drawing takes the place of the demonstration, under its own name, in one entry of the history.
func TestFirstDrawingTakesThePlace(t *testing.T) {
	k := demo(t)
	if k.State().Demonstrates {
		t.Error("a draft is the demonstration before anybody said so")
	}
	was := text(k)
	k.Demonstration(was)
	if !k.State().Demonstrates {
		t.Fatal("the demonstration is not known")
	}
	if err := k.Pieces(butterfly, []int{0, 1, 2}, "fresh", false); err != nil {
		t.Fatal(err)
	}
	d := k.Session.Draft()
	if len(d.Silhouettes) != 1 || len(d.Motifs) != 1 || d.Title != "moth" || k.State().Demonstrates {
		t.Errorf("%q with %d silhouettes and %d motifs", d.Title, len(d.Silhouettes), len(d.Motifs))
	}
	if len(k.Session.Live().Overlaps) != 0 {
		t.Error("it overlaps itself")
	}
	if err := k.Undo(); err != nil || text(k) != was {
		t.Error("undoing does not bring the demonstration back")
	}

	// Drawn here: the same.
	if err := k.Pen("open", "", 0); err != nil {
		t.Fatal(err)
	}
	stroke := [][2]float64{{300, 200}, {500, 200}, {500, 400}, {300, 400}, {300, 201}}
	k.Pointer("down", 1, stroke[0][0], stroke[0][1], 1, "mouse")
	for i, p := range stroke[1:] {
		for f := 1.0; f <= 10; f++ {
			q := stroke[i]
			k.Pointer("move", 1, q[0]+(p[0]-q[0])*f/10, q[1]+(p[1]-q[1])*f/10, 1, "mouse")
		}
	}
	k.Pointer("up", 1, 300, 201, 0, "mouse")
	d = k.Session.Draft()
	if len(d.Silhouettes) != 1 || d.Title != "Drawn 1" || d.Silhouettes[0].Name != "Drawn 1" {
		t.Errorf("drawn on the demonstration: %q with %d silhouettes", d.Title, len(d.Silhouettes))
	}
	// A second one joins the first.
	if err := k.Pen("open", "", 0); err != nil {
		t.Fatal(err)
	}
	if k.State().Demonstrates {
		t.Error("an own drawing is taken for the demonstration")
	}
}

// The demonstration holds, and each of its copies can be dragged 16 mm in any of eight directions before it runs into
// another: a first drag is not a field of faults at once.
func TestDemonstrationHasRoom(t *testing.T) {
	k := demo(t)
	if err := k.OpenText(string(drafts.HeronWithRoom)); err != nil {
		t.Fatal(err)
	}
	base := k.Session.Draft()
	shapes := pattern.NewShapes()
	for i := range base.Motifs {
		for turn := range 8 {
			d := base
			d.Motifs = slices.Clone(base.Motifs)
			sin, cos := math.Sincos(float64(turn) * math.Pi / 4)
			d.Motifs[i].At[0] += 16 * cos
			d.Motifs[i].At[1] += 16 * sin
			l, err := pattern.NewLayout(d, shapes)
			if err != nil {
				t.Fatal(err)
			}
			if live := sheet.Check(l, nil); len(live.Overlaps) > 0 {
				t.Errorf("%s dragged by 16 mm towards %d°: %d overlaps", d.Motifs[i].ID, 45*turn, len(live.Overlaps))
			}
		}
	}
}
