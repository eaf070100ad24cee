package cutplan

import (
	"math/rand/v2"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern/cutplan/plantest"
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

// Where the sheet reaches beyond the panel, registration lies wholly on the panel or wholly beside it, never at its
// corner or across its edge, where nothing can be pricked.
func TestRegistrationIsOffThePanelsEdge(t *testing.T) {
	const seed = 23
	r := rand.New(rand.NewPCG(seed, 0))
	on, beside, corner := 0, 0, 0
	for i, d := range plantest.RandomDrafts(t, seed, 24) {
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
