package browser

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// answer gives the page a report on the draft that is open, as the engine would.
func (p *tab) answer(problems ...sheet.Problem) {
	p.t.Helper()
	var listing sheet.Listing
	for _, each := range problems {
		listing.Add(each)
	}
	between := 3.41
	r := sheet.Report{NarrowestBetween: &between, Counts: sheet.Counts{Copies: 36, Openings: 36}}
	r.Problems, r.Totals = listing.Result()
	n, _ := r.Count(sheet.Fault)
	r.Sound = n == 0
	text, err := json.Marshal(r)
	if err != nil {
		p.t.Fatal(err)
	}
	eval[string](p, fmt.Sprintf(`openwork.answer(JSON.parse(openwork.view()).check.token, %q)`, text))
	p.drawn()
}

// spread are n problems of a kind over the panel, of different figures in each of groups.
func spread(n, groups int, kind sheet.Kind, severity sheet.Severity, measured, required float64) (out []sheet.Problem) {
	for i := range n {
		x, y := 60+float64(i*137%480), 80+float64(i*211%740)
		m := measured + 0.1*float64(i%groups)
		out = append(out,
			sheet.Problem{Kind: kind, Severity: severity, At: [2]float64{x, y}, Measured: m, Required: required,
				Ends: &[2][2]float64{{x - m/2, y}, {x + m/2, y}}})
	}
	return out
}

// What the foot, the list and the ticket say of each state, looked at on both sizes of screen, by day and by lamp.
func TestVerdictWords(t *testing.T) {
	for _, size := range geometrytest.Share(t, screens, 1) {
		t.Run(size.name, func(t *testing.T) {
			p := open(t, how{used: true, width: size.width, height: size.height})
			p.settled()
			look := func(state string, themes ...string) {
				t.Helper()
				for _, theme := range append(themes, "light") {
					p.theme(theme)
					p.keep(fmt.Sprintf("verdict-%s-%s-%s", state, size.name, theme))
				}
				for _, fault := range eval[[]string](p, clipped) {
					t.Errorf("%s: %s", state, fault)
				}
			}
			says := func(state string, words ...string) {
				t.Helper()
				if v := p.verdict(); !containsAll(v, words...) {
					t.Errorf("%s: the verdict reads %q, without one of %q", state, v, words)
				}
			}
			list := func(open bool) {
				t.Helper()
				if eval[bool](p, `document.getElementById("fault-list").hidden`) == open {
					p.click("#fault-which")
				}
			}

			p.answer(append(spread(12, 2, sheet.Opening, sheet.Warning, 0.5, 1.5),
				spread(5, 1, sheet.Tip, sheet.Warning, 0.8, 3)...)...)
			says("warnings", "This sheet holds.", "3.41 mm", "3 warnings at 17 places", "12 tails", "5 tongues")
			look("warnings", "dark")
			p.act("next-fault")
			p.drawn()
			list(true)
			look("warning-list", "dark")
			list(false)
			p.whole()

			p.answer(append(spread(64, 4, sheet.Overlap, sheet.Fault, 12, 0),
				spread(9, 1, sheet.Island, sheet.Fault, 40, 0)...)...)
			says("overlaps", "Does not hold yet.", "5 faults at 73 places", "64 overlaps",
				"9 islands that would drop out")
			look("overlaps")

			p.answer(append(spread(3, 1, sheet.Unclear, sheet.Fault, 0, 0),
				spread(4, 1, sheet.Opening, sheet.Warning, 0.5, 1.5)...)...)
			says("unclear", "Not certain yet.", "3 places could not be measured")
			look("unclear")

			p.answer(append(append(append(spread(400, 30, sheet.Overlap, sheet.Fault, 12, 0),
				spread(40, 8, sheet.Bridge, sheet.Fault, 0.4, 3)...),
				spread(20, 5, sheet.Edge, sheet.Fault, -2, 3)...),
				spread(30, 6, sheet.Opening, sheet.Fault, 0.2, 1.5)...)...)
			says("many", "Faults at 490 places", "400 overlaps", "200 worst are listed")
			list(true)
			look("many", "dark")
			list(false)
			p.act("next-fault")
			p.drawn()
			p.whole()

			p.act("units")
			p.drawn()
			says("inches", "in, 0.118 needed")
			look("inches")
			p.act("units")

			d := p.draft()
			d.Sheet.Bed = &draft.Bed{Width: 400, Height: 600}
			p.choose("#open-file", write(t, "bed.openwork.json", d.Encode()))
			p.wait("the draft with a bed", `/bed/.test(document.getElementById("verdict-line").textContent)`)
			p.settled()
			says("bed", "This sheet holds.", "The sheet is larger than the bed:",
				"stepping sheet or in joined parts, both in the step Make")
			list(true)
			look("bed")
			list(false)
			p.click("#verdict-cure")
			p.wait("the cures", `document.getElementById("larger").open &&
				document.getElementById("larger-steps").checkVisibility() && document.activeElement.closest("#larger")`)
			look("bed-cures")
			if size.name == "narrow" {
				p.click("#draw-up")
			}

			d.Sheet.Bed, d.Field.Edge, d.Field.Margin = nil, draft.Whole, 290
			p.choose("#open-file", write(t, "empty.openwork.json", d.Encode()))
			p.wait("an empty panel", `document.getElementById("foot").dataset.state === "empty"`)
			p.settled()
			says("empty", "Nothing would be cut.", "No copy lies whole inside the margin", "smaller", "Step 3")
			if faults := p.view().Faults; len(faults) != 1 || !strings.HasPrefix(faults[0].Text, "No copy lies whole") {
				t.Errorf("an empty panel is listed as %+v", faults)
			}
			look("empty-panel")
		})
	}
}
