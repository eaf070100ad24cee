package cutplan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
	"openwork/pattern/letters"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
)

func TestFurnitureTouchesNothing(t *testing.T) {
	drafts := append(plantest.RandomDrafts(t, 9, 17), patterntest.Demo(t), plantest.Rings())
	bars, labels, holes := 0, 0, 0
	for i, d := range drafts {
		o := Defaults()
		o.Polygons = true // furniture does not depend on it
		o.Label.Date = "2025-03-01"
		if i%2 == 1 {
			o.Holes = Holes{Diameter: 3, Layer: Cut}
		}
		j, l := built(t, d, o)
		os, err := panel.Openings(l)
		if err != nil {
			t.Fatal(err)
		}
		sheet := d.SheetBound()
		seen := map[string]int{}
		for _, c := range j.Contours {
			if c.Class == ClassOpening || c.Class == ClassIsland || c.Class == ClassSheet {
				continue
			}
			seen[c.Class]++
			b := c.Path.Under(c.Map).Bound()
			if !within(b, sheet) {
				t.Errorf("%s: %s at %v leaves the sheet", d.Title, c.Class, b)
			}
			shape := geometry.RectShape(b.Pad(0.01))
			for _, op := range os {
				if gapOf(op.Bound(), b) < 0.5 && geometry.Distance(shape, op.Shape, op.Shift, 0.5).Found {
					t.Errorf("%s: %s at %v touches an opening", d.Title, c.Class, b)
				}
			}
		}
		for class, of := range map[string]string{ClassBar: "check bar", ClassLabel: "label"} {
			t.Run(class, func(t *testing.T) {
				if noted := strings.Contains(strings.Join(j.Made.Notes, " "), of); (seen[class] == 0) != noted {
					t.Errorf("%s: %d contours of the %s, and the notes say %q", d.Title, seen[class], of, j.Made.Notes)
				}
			})
		}
		bars, labels, holes = bars+min(1, seen[ClassBar]), labels+min(1, seen[ClassLabel]),
			holes+seen[ClassRegistration]
	}
	t.Logf("%d bars, %d labels, %d registration contours on %d sheets", bars, labels, holes, len(drafts))
	if bars == 0 || labels == 0 || holes == 0 || bars == len(drafts) {
		t.Error("the drafts do not show both what fits and what does not")
	}
}

// Latin, Greek and Cyrillic titles are marked letter by letter; what has no strokes is left out and told, never drawn
// as something else.
func TestLabelLetters(t *testing.T) {
	for title, c := range map[string]struct{ drawn, lacks string }{
		"Цапля над карпом": {"ЦAПЛЯ HAД KAPПOM", ""}, "Ερωδιός": {"EPΩΔIOΣ", ""}, "Řeřicha né": {"RERICHA NE", ""},
		"鷺 and 鯉": {"AND", "鷺鯉"}, "鷺": {"", "鷺"}, "Žluťoučký 2×3": {"ZLUTOUCKY 2×3", ""}, "ß…": {"SS...", ""},
	} {
		t.Run(title, func(t *testing.T) {
			if got := string(script{}.plain(title)); got != c.drawn || Lacks(title, nil) != c.lacks {
				t.Errorf("drawn as %q without %q, want %q without %q", got, Lacks(title, nil), c.drawn, c.lacks)
			}
			if n := len(script{}.paths(title, 3)); (n == 0) != (c.drawn == "") {
				t.Errorf("%d strokes", n)
			}
			d := patterntest.Demo(t)
			d.Title, d.Panel = title, draft.Panel{Width: 200, Height: 260}
			j, _ := built(t, d, Options{Label: Label{Height: 3}})
			notes := strings.Join(j.Made.Notes, " ")
			for _, r := range c.lacks {
				if !strings.Contains(notes, fmt.Sprintf("U+%04X", r)) {
					t.Errorf("%q does not tell of %c", notes, r)
				}
			}
			if c.lacks == "" && len(j.Made.Notes) > 0 {
				t.Errorf("noted %q", notes)
			}
		})
	}
	for r, g := range glyphs {
		for _, stroke := range strings.Fields(g) {
			for k := range stroke {
				if v := stroke[k] - '0'; len(stroke)%2 != 0 || len(stroke) < 4 || k%2 == 0 && v > 4 || v > 6 {
					t.Errorf("%c has the stroke %q", r, stroke)
					break
				}
			}
		}
	}
}

// Where the sheet reaches beyond the panel, registration lies wholly on the panel or wholly beside it, never at its
// corner or across its edge, where nothing can be pricked.
func TestRegistrationIsOffThePanelsEdge(t *testing.T) {
	const seed = 23
	r := rand.New(rand.NewPCG(seed, 0))
	on, beside, corner := 0, 0, 0
	for i, d := range plantest.RandomDrafts(t, seed, 12) {
		d.Field.Margin = float64(r.IntN(16))
		d.Sheet.Width, d.Sheet.Height = d.Panel.Width+float64(r.IntN(50)), d.Panel.Height+float64(r.IntN(50))
		o := Defaults()
		o.Polygons = true
		if i%2 == 1 {
			o.Holes = Holes{Diameter: 3, Layer: Cut}
		}
		j, _ := built(t, d, o)
		panel := d.PanelBound()
		for _, c := range j.Contours {
			if c.Class != ClassRegistration {
				continue
			}
			b := c.Path.Under(c.Map).Bound()
			switch out := gapOf(b, panel); {
			case within(b, panel.Pad(-0.5)):
				on++
			case out >= 0.5:
				beside++
			default:
				t.Errorf("%s: registration at %v lies across the edge of the panel %v", d.Title, b, panel)
			}
			if sheet := d.SheetBound(); b.Contains(panel.Min) || !within(b, sheet) {
				corner++
			}
		}
	}
	t.Logf("%d contours on the panel, %d beside it", on, beside)
	if on == 0 || beside == 0 || corner > 0 {
		t.Errorf("%d on the panel, %d beside it, %d at its corner", on, beside, corner)
	}
}

// What has no strokes is marked as outlines where they are handed in, within the label's height, and nothing is noted.
func TestDrawnLettersOnTheLabel(t *testing.T) {
	bird := letters.Drawn{Text: "鷺", Width: 1, Outline: orb.MultiPolygon{{{{0.1, -0.1}, {0.9, -0.1}, {0.5, 0.8},
		{0.1, -0.1}}}}}
	w := script{[]letters.Drawn{bird}}
	if got, want := w.width("A 鷺", 6), 4+1.5+4+1.5+6.0; math.Abs(got-want) > 1e-9 {
		t.Errorf("%g mm wide, want %g", got, want)
	}
	var box orb.Bound
	closed := 0
	for i, p := range w.paths("A 鷺", 6) {
		if box = box.Union(p.Bound()); i == 0 {
			box = p.Bound()
		}
		if p.Closed() && len(p.Pieces) == 3 {
			closed++
		}
	}
	if closed != 1 || box.Min[1] < 0 || box.Max[1] > 6 || box.Max[0] > w.width("A 鷺", 6) {
		t.Errorf("%d outlines, in %v", closed, box)
	}

	d := patterntest.Demo(t)
	d.Title, d.Panel = "鷺", draft.Panel{Width: 200, Height: 260}
	p, _ := built(t, d, Options{Label: Label{Height: 3}, Lettering: w.drawn})
	if len(p.Made.Notes) > 0 || !slices.ContainsFunc(ofClass(p, ClassLabel),
		func(c Contour) bool { return c.Path.Closed() }) {
		t.Errorf("noted %q, and the label has no outline", p.Made.Notes)
	}
}
