package jobsheet

import (
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

var box = regexp.MustCompile(`<(page|word) (?:width="([\d.]+)" height="([\d.]+)"|xMin="(-?[\d.]+)" ` +
	`yMin="(-?[\d.]+)" xMax="(-?[\d.]+)" yMax="(-?[\d.]+)")>`)

// Whatever the draft, every word lies inside their margins and on no other.
func TestWordsStayOnThePage(t *testing.T) {
	const seed = 29
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	groups := symmetry.Groups()
	o := Defaults()
	o.Address, o.File, o.Date,
		o.Currency = "https://openwork.example/a/very/long/way/to/the/page/that/opens/links/"+strings.Repeat("and/on/",
		40), strings.Repeat("long name ", 30)+".json", "1 March", strings.Repeat("kr", 100)
	o.Rate = 1e8
	var drafts []draft.Draft
	for k := range 8 {
		drafts = append(drafts, patterntest.Draft(r, groups[k].Symbol))
	}
	for _, k := range geometrytest.Share(t, []int{0, 1, 2, 3, 4, 5, 6, 7}, 5) {
		d := drafts[k]
		d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 120), math.Min(d.Panel.Height, 120)
		d.Title = []string{"Short", strings.Repeat("Heron over carp and ", 9), strings.Repeat("W", 200)}[k%3]
		d.Sheet.Stock = []string{"card", strings.Repeat("Strong birch plywood ", 9)}[k%2]
		if k%4 == 3 {
			d.Panel.Width *= 3
		}
		o.Paper = []string{"A4", "Letter", "A3", ""}[k%4]
		o.Units = []string{"mm", "in"}[k/4]
		if k%2 == 0 {
			long := strings.Repeat("Very Long Name ", 12)
			o.Head = Head{Customer: long, Contact: strings.Repeat("x", 300), Quantity: 12, Due: long, Revision: "B",
				Tolerance: long, Shows: "back", Film: "on", Dropouts: "discard", Approval: true}
		}
		m, path := written(t, d, o)
		if m.Pages < 3 || m.Pages > 6 { // some more for what is wrong and what is to be looked at
			t.Errorf("draft %d: %d pages", k, m.Pages)
		}
		var size [2]float64
		var seen [][4]float64
		for _, v := range box.FindAllStringSubmatch(run(t, "poppler-utils", "pdftotext", "-bbox", path, "-"), -1) {
			var n [6]float64
			for i := range n {
				n[i], _ = strconv.ParseFloat(v[i+2], 64)
			}
			if v[1] == "page" {
				size, seen = [2]float64{n[0], n[1]}, nil
				continue
			}
			const pt = 72 / 25.4
			if n[2] < 12*pt || n[4] > size[0]-(margin-1)*pt || n[3] < 12*pt || n[5] > size[1]-9*pt {
				t.Errorf("draft %d on %s: a word at %v of a page of %v is outside the margins", k, o.Paper, n[2:], size)
			}
			for _, w := range seen {
				x, y := math.Min(n[4], w[2])-math.Max(n[2], w[0]), math.Min(n[5], w[3])-math.Max(n[3], w[1])
				if x > 0.5 && y > 0.45*math.Min(n[5]-n[3], w[3]-w[1]) {
					t.Errorf("draft %d on %s: words at %v and %v lie on each other", k, o.Paper, n[2:], w)
				}
			}
			seen = append(seen, [4]float64{n[2], n[3], n[4], n[5]})
		}
	}
}
