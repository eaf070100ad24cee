package browser

import (
	"fmt"
	"math"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk"
)

// leaning is a silhouette without any symmetry; tile is a square.
var (
	leaning = orb.MultiPolygon{{{{-12, -9}, {15, -7}, {9, 2}, {17, 13}, {-3, 9}, {-12, -9}}}}
	tile    = orb.MultiPolygon{{{{-20, -20}, {20, -20}, {20, 20}, {-20, 20}, {-20, -20}}}}
)

// lay puts a draft of one motif on the bench and waits for its verdict.
func (p *tab) lay(r draft.Repeat, outline orb.MultiPolygon, at orb.Point) draft.Draft {
	p.t.Helper()
	d := draft.Default()
	d.Repeat = r
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Leaf", Outline: outline}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: at, Scale: 1}}
	if answer := eval[string](p, fmt.Sprintf(`openwork.open(%q)`, d.Encode())); answer != "{}" {
		p.t.Fatalf("the draft does not open: %s", answer)
	}
	p.wait("the draft", fmt.Sprintf(`JSON.parse(openwork.view()).repeat.group === %q`, r.Group))
	p.settled()
	return p.draft()
}

// shows says whether an element is on the page and can be seen.
func (p *tab) shows(selector string) bool {
	p.t.Helper()
	return eval[bool](p, fmt.Sprintf(`document.querySelector(%q)?.checkVisibility() ?? false`, selector))
}

func TestLayRepeatsAndHold(t *testing.T) {
	p := open(t, how{used: true})
	p.lay(draft.Repeat{Group: "p2", A: 120, B: 90, Gamma: 90}, leaning, orb.Point{30, 22})
	p.click("#rarer-open")

	// A lay in one step; the cell is then spoken of by column and drop.
	p.entry("choosing the half-drop", func() { p.click(`#lay input[value="half-drop"]`) })
	p.wait("the width of a column and the drop, and nothing else",
		`["lay.drop", "cell.a", "lay.step"]
			.map((name) => document.querySelector('[data-field="' + name + '"]')?.checkVisibility() ?? false)
			.join() === "true,false,false"`)
	p.entry("typing a drop", func() { p.fill(`[data-field="lay.drop"]`, "52.5") })
	if l, ok := pattern.LayOf(p.draft().Repeat, pattern.HalfDrop); !ok || l.Name != pattern.HalfDrop ||
		math.Abs(l.Height-105) > 1e-3 {
		t.Errorf("a drop of 52.5 mm makes %+v", l)
	}
	p.still("speaking of the cell by its sides", func() { p.click(`#lay input[value=""]`) })
	if !p.shows(`[data-field="cell.a"]`) || !p.shows(`[data-field="cell.gamma"]`) ||
		p.shows(`[data-field="lay.drop"]`) {
		t.Error("a, b and γ are not shown")
	}

	// Whole repeats on the panel.
	p.lay(draft.Repeat{Group: "p2gg", A: 110, B: 97, Gamma: 90}, leaning, orb.Point{30, 22})
	if p.shows("#lay") {
		t.Error("p2gg leaves no choice of a lay, and the page offers one")
	}
	p.entry("five across", func() { p.fill(`[data-field="repeats.across"]`, "5") })
	p.entry("seven down", func() { p.fill(`[data-field="repeats.down"]`, "7") })
	d := p.draft()
	side := d.FieldBound()
	if a, b := (side.Max[0]-side.Min[0])/5, (side.Max[1]-side.Min[1])/7; math.Abs(d.Repeat.A-a) > 1e-3 ||
		math.Abs(d.Repeat.B-b) > 1e-3 {
		t.Errorf("5 across and 7 down make a cell of %g × %g mm, not %g × %g", d.Repeat.A, d.Repeat.B, a, b)
	}
	p.wait("word that they fit",
		`document.getElementById("fit").innerText === "5 across and 7 down fill the field exactly."`)
	if said := p.said(); !containsAll(said, "%") {
		t.Errorf("the change is not told: %q", said)
	}
	p.still("half a repeat", func() { p.fill(`[data-field="repeats.across"]`, "2.5") })
	if said := p.said(); !containsAll(said, "whole repeats") {
		t.Errorf("2.5 repeats bring %q", said)
	}
	p.strike("Escape", 0)
	p.entry("a cell's corner in the middle", func() { p.click(`[data-middle="corner"]`) })
	if p.shows(`[data-middle="mirror"]:enabled`) {
		t.Error("p2gg has no mirror to put in the middle")
	}

	// The proportion, held while the cell's far corner is dragged.
	d = p.lay(draft.Repeat{Group: "p2mm", A: 160, B: 120, Gamma: 90}, leaning, orb.Point{40, 30})
	p.click(`#hold input[value="proportion"]`)
	p.wait("the proportion to be held", `JSON.parse(openwork.view()).repeat.hold === "proportion" &&
		document.querySelector('#hold input[value="proportion"]').checked`)
	s := p.whole()
	far := s.on(d.FieldMap().Apply(d.Repeat.Cell().Basis().Apply(orb.Point{1, 1})))
	p.entry("dragging the cell's far corner", func() { p.drag(far, point{far.x + 34, far.y - 5}) })
	if r := p.draft().Repeat; r.A < 190 || math.Abs(r.B/r.A-0.75) > 1e-3 {
		t.Errorf("the cell is %g × %g mm; it should have grown from 160 × 120 in proportion", r.A, r.B)
	}
}

func TestSignsAndFolding(t *testing.T) {
	p := open(t, how{used: true})
	d := p.lay(draft.Repeat{Group: "p4mm", A: 220, B: 220, Gamma: 90}, leaning, orb.Point{34, 76})
	s := p.whole()
	place := func(x, y float64) point {
		return s.on(d.FieldMap().Apply(d.Repeat.Cell().Basis().Apply(orb.Point{x, y})))
	}
	const said = `document.getElementById("signs-said").innerText`
	p.clickAt(place(0.5, 0.1)) // takes the keyboard to the bench, on no copy and no handle
	p.strike("s", 0)
	p.wait("the signs", fmt.Sprintf(`JSON.parse(openwork.view()).signs.shown &&
		document.getElementById("signs").getAttribute("aria-pressed") === "true" && %s !== ""`, said))
	g, err := symmetry.Find("p4mm")
	if err != nil {
		t.Fatal(err)
	}
	sentences := map[symmetry.Kind]string{}
	for _, e := range g.Elements() {
		if e.Kind == symmetry.Mirror || e.Kind == symmetry.Glide {
			sentences[e.Kind] = e.Sentence()
		}
	}
	for _, at := range []struct {
		what  string
		where point
		says  string
	}{
		{"a mirror", place(0, 0.3), sentences[symmetry.Mirror]},
		{"a rotation point", place(0.5, 0.5), "Rotation point: given a quarter turn"},
		{"a glide", place(0.125, 0.375), "Glide: mirrored here and moved along"},
	} {
		p.mouse(chromedp.MouseMoved, at.where.x+1, at.where.y)
		p.wait("word of "+at.what, fmt.Sprintf(`%s.startsWith(%q)`, said, at.says))
	}
	p.click("#signs")
	p.wait("the signs to go", fmt.Sprintf(`!JSON.parse(openwork.view()).signs.shown && %s === ""`, said))

	// A copy dragged near a mirror comes to stand on it. The silhouette is not the same on both sides, and is folded.
	before := p.view()
	copies := before.Counts.Copies
	c := field(t, d)[name{}].deepen()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	heart := l.Orbits[0].Place.Apply(l.Orbits[0].Shape.Centroid()) // the nearest mirror upright is x = 0
	from := s.on(c.inner)
	p.entry("dragging a copy to a mirror", func() { p.drag(from, point{from.x - heart[0]*s.zoom + 4, from.y}) })
	p.settled()
	dragged := p.text()
	p.wait("the offers", `!document.getElementById("offer").hidden &&
		document.querySelectorAll("#offers button:not([hidden])").length === 3`)
	if text := eval[string](p, `document.getElementById("offer-text").innerText`); !containsAll(text, "on a mirror",
		"not the same on both sides") {
		t.Errorf("of the copy on the mirror it says %q", text)
	}
	p.entry("folding", func() { p.click(`#offers [data-way="keep"]`) })
	p.settled()
	v := p.view()
	if len(v.Silhouettes) != 2 || v.Motifs[0].Silhouette == "s" || v.Silhouettes[1].Name != "Leaf, folded" {
		t.Errorf("folding should give the motif a new silhouette: %+v, %+v", v.Silhouettes, v.Motifs)
	}
	if v.Counts == nil || v.Counts.Copies >= copies || hasFault(v, "overlap") {
		t.Errorf("there were %d copies, there are %+v; %s", copies, v.Counts, p.verdict())
	}
	p.wait("word of the place",
		`/^Leaf, folded: .+[.] On a mirror: 4 in a cell instead of 8[.]$/.test(
			document.getElementById("hand-site").innerText) &&
		document.getElementById("offer").hidden`)
	p.strike("z", control)
	p.wait("the silhouette as it was, with its offers",
		fmt.Sprintf(`openwork.save() === %q && !document.getElementById("offer").hidden`, dragged))
}

func TestFoundAndHowPage(t *testing.T) {
	p := open(t, how{used: true})
	p.lay(draft.Repeat{Group: "p1", A: 100, B: 100, Gamma: 90}, tile, orb.Point{30, 62})
	p.wait("word of what the field is",
		`/You chose p1. As drawn, this is p4mm: there are mirrors/.test(document.getElementById("found").innerText)`)
	p.lay(draft.Repeat{Group: "p2", A: 100, B: 100, Gamma: 90}, leaning, orb.Point{30, 22})
	p.wait("the field to be looked at", `!JSON.parse(openwork.view()).found.wanted`)
	if text := eval[string](p, `document.getElementById("found").innerText`); text != "" {
		t.Errorf("of a field that is what was chosen it says %q", text)
	}

	p.click(".how-open")
	p.wait("the page of patterns with its pictures", `document.getElementById("how").open &&
		document.querySelectorAll('#how .how-group .group-picture > span[style*="url"]').length === 17`)
	type entry struct {
		Symbol, Picture string
		Sentences       []string
	}
	list := eval[[]entry](p, `[...document.querySelectorAll("#how .how-group")].map((e) => ({Symbol: e.dataset.symbol,
		Picture: e.querySelector(".group-picture > span").style.maskImage,
		Sentences: [...e.querySelectorAll(".how-sentence")].map((s) => s.innerText)}))`)
	cards := desk.GroupCards()
	if len(list) != len(cards) {
		t.Fatalf("%d patterns are told of", len(list))
	}
	sentences, drawn := map[string]bool{}, map[string]bool{}
	for _, e := range list {
		drawn[e.Picture] = true
		for _, s := range e.Sentences {
			sentences[s] = true
		}
	}
	if len(sentences) != 51 || len(drawn) != 17 {
		t.Errorf("%d different sentences and %d pictures", len(sentences), len(drawn))
	}
	if yours := eval[string](p, `document.querySelector("#how .yours")?.dataset.symbol ?? ""`); yours != "p2" {
		t.Errorf("the group in use is marked as %q", yours)
	}
	for _, fault := range eval[[]string](p, clipped) {
		t.Error(fault)
	}
	p.strike("Escape", 0)
	p.wait("the page of patterns to close", `!document.getElementById("how").open`)
	p.click("#help")
	p.click("#keys [data-how]")
	p.wait("the page of patterns from the keys",
		`document.getElementById("how").open && !document.getElementById("keys").open`)
}
