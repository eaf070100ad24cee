package browser

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// command sends a command to the editor.
func (p *tab) command(c pattern.Command) {
	p.t.Helper()
	if said := eval[string](p, "openwork.command("+inJS(p.t, string(inJSON(p.t, c)))+")"); said != "{}" {
		p.t.Fatalf("%s: %s", c.Name, said)
	}
}

func inJSON(t *testing.T, v any) []byte {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// inJS writes a text as JavaScript does.
func inJS(t *testing.T, text string) string {
	t.Helper()
	return string(inJSON(t, text))
}

// coloursOnTheBench counts the px of each colour on the canvas.
func (p *tab) coloursOnTheBench() map[string]int {
	p.t.Helper()
	img, b := p.shot(), p.boxOf("#bench")
	out := map[string]int{}
	for y := int(b.Y); y < int(b.Y+b.Height); y++ {
		for x := int(b.X); x < int(b.X+b.Width); x++ {
			r, g, bl, _ := img.At(x, y).RGBA()
			out[fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, bl>>8)]++
		}
	}
	return out
}

// copyOnTheBench returns a place on the page inside some copy, near the panel's middle.
func (p *tab) copyOnTheBench() point {
	p.t.Helper()
	s, d := p.whole(), p.draft()
	for _, c := range field(p.t, d) {
		if c = c.deepen(); c.depth > 2 && s.free(s.on(c.inner)) && d.FieldBound().Pad(-60).Contains(c.inner) {
			return s.on(c.inner)
		}
	}
	p.t.Fatal("there is no copy in sight")
	return point{}
}

// The step Paint from empty to a panel in two colours by symmetry, with a copy coloured by hand: swatches, ground, the
// small pictures, the canvas in the swatches' own colours by day and by lamp, in values, and the paste.
func TestPaintingByTheStep(t *testing.T) {
	p := open(t, how{used: true, width: 1440, height: 900})
	p.settled()
	p.click("[data-step=paint] .step-head")
	for range 2 {
		p.click("#swatch-new")
	}
	p.wait("two swatches", `document.querySelectorAll("#swatches .swatch").length === 2`)
	p.command(pattern.Command{Name: "reswatch", ID: "c1", Swatches: []draft.Swatch{{Name: "Bone", Colour: "#e8dcc0"}}})
	p.command(pattern.Command{Name: "reswatch", ID: "c2", Swatches: []draft.Swatch{{Name: "Leaf", Colour: "#175f4a"}}})
	p.change("#ground", "c1")
	p.wait("the ground", `JSON.parse(openwork.view()).paint.ground === "c1"`)
	p.wait("colourings of pg by two", `document.querySelectorAll("#colourings img[src]").length === 2`)
	p.click("#colourings label:nth-of-type(2)")
	p.wait("two rows of paste", `document.querySelectorAll("#paste tbody tr").length === 2`)
	d := p.draft()
	if d.Paint == nil || d.Paint.Perms == nil || len(d.Paint.Colours) != 2 || len(d.Swatches) != 3 {
		t.Fatalf("%+v", d.Paint)
	}

	// On the canvas there are the swatches themselves, whatever the light.
	want := []string{"#e8dcc0", "#175f4a", d.Swatches[2].Colour}
	for _, theme := range []string{"light", "dark"} {
		p.theme(theme)
		p.drawn()
		if counts := p.coloursOnTheBench(); counts[want[0]] < 5000 || counts[want[1]] < 5000 || counts[want[2]] < 5000 {
			t.Errorf("%s: %d, %d and %d px in the swatches' colours", theme, counts[want[0]], counts[want[1]],
				counts[want[2]])
		}
	}
	p.theme("light")
	p.change("#look", "2")
	p.wait("values in two steps", `JSON.parse(openwork.view()).paint.look === "2"`)
	p.drawn()
	if counts := p.coloursOnTheBench(); counts[want[1]] > 0 || counts["#000000"] < 5000 || counts["#ffffff"] < 5000 {
		t.Errorf("in two steps %d px are still green, %d black, %d white", counts[want[1]], counts["#000000"],
			counts["#ffffff"])
	}
	eval[string](p, `openwork.seeAs("")`)

	// The brush: a press on a copy colours it, closing the step lays the brush down.
	eval[int](p, `(document.querySelector("#brushes input[value=c1]").click(), 1)`)
	p.wait("the brush", `JSON.parse(openwork.view()).paint.byHand.on`)
	p.clickAt(p.copyOnTheBench())
	p.wait("one copy by hand", `JSON.parse(openwork.view()).paint.byHand.copies === 1`)
	p.click("[data-step=paint] .step-head")
	p.wait("the brush laid down", `!JSON.parse(openwork.view()).paint.byHand.on`)
	eval[string](p, `openwork.act("undo")`)
	if got := p.draft(); got.Paint.ByHand != nil {
		t.Errorf("%+v", got.Paint.ByHand)
	}
}

// A swatch is matched against the painter's tubes, and what comes of it can be its note.
func TestMatchingTubes(t *testing.T) {
	p := open(t, how{used: true, width: 1440, height: 900})
	p.settled()
	p.click("[data-step=paint] .step-head")
	for _, s := range [][2]string{{"White", "#f7f6f2"}, {"Ochre", "#c08a2e"}, {"Black", "#1d1b1a"}} {
		p.command(pattern.Command{Name: "swatch", Swatches: []draft.Swatch{{Name: s[0], Colour: s[1]}}})
	}
	p.click("#matching summary")
	p.click("#tubes-these")
	p.command(pattern.Command{Name: "swatch", Swatches: []draft.Swatch{{Name: "Sand", Colour: "#d9bf8f"}}})
	p.wait("the swatch to match", `document.querySelectorAll("#match-swatch option").length === 4`)
	p.change("#match-swatch", "c4")
	p.click("#match")
	p.wait("the match",
		`/^Nearest tube to Sand: Ochre, .* Nearer when mixed: \d parts? .*White/.test(
			document.querySelector("#match-said").textContent)`)
	p.click("#match-note")
	p.wait("its note", `/part/.test(JSON.parse(openwork.view()).paint.swatches[3].note)`)
}

// Swatches go out as CSS or a table and come in again; a file without colours says so.
func TestSwatchesAsFiles(t *testing.T) {
	p := open(t, how{used: true, width: 1440, height: 900})
	p.settled()
	read := func(text string) string {
		return eval[string](p, `import("./js/swatches.mjs").then((m) => { try {
			return m.read(`+inJS(p.t, text)+`).map((s) => [s.name, s.colour, s.note].join("|")).join("; ");
		} catch (error) { return error.message; } })`)
	}
	for _, c := range [][2]string{
		{":root { --deep-green: #17564a; /* phthalo, umber */ --rust: rgb(138 59 28); }",
			"Deep green|#17564a|phthalo, umber; Rust|#8a3b1c|"},
		{"name,colour,note\nVerdigris,#17564A,\"phthalo green, umber\"\nRust,hsl(17 66% 33%)\n",
			"Verdigris|#17564a|phthalo green, umber; Rust|#8c3c1d|"},
		{"Bone\t#eee\n", "Bone|#eeeeee|"},
		{"--x: nonsense;", "“nonsense”, the value of --x, is not a colour; nothing was read."},
		{"a\nb\n", "Line 2 has no colour: “b”. Nothing was read."},
		{"", "There are no colours in this file: neither CSS colours nor a table of them."},
	} {
		if got := read(c[0]); !strings.EqualFold(got, c[1]) {
			t.Errorf("%q is read as %q, not %q", c[0], got, c[1])
		}
	}
	swatches := []draft.Swatch{{Name: "Two, words", Colour: "#010203", Note: `a "mix"`},
		{Name: "Two words", Colour: "#fedcba"}}
	p.command(pattern.Command{Name: "swatch", Swatches: swatches})
	p.click("[data-step=paint] .step-head")
	before := p.files()
	p.click("#swatch-css")
	p.click("#swatch-table")
	var names []string
	for start := time.Now(); len(names) < 2 && time.Since(start) < patience; time.Sleep(50 * time.Millisecond) {
		names = names[:0]
		for _, f := range p.files() {
			if !slices.Contains(before, f) && !strings.HasSuffix(f, ".crdownload") {
				names = append(names, f)
			}
		}
	}
	for _, f := range names {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		want := "Two, words|#010203|a \"mix\"; Two words|#fedcba|"
		if strings.HasSuffix(f, ".css") { // a name in CSS has no comma, and no two are one
			want = "Two words|#010203|a \"mix\"; Two words 2|#fedcba|"
		}
		if got := read(string(text)); got != want {
			t.Errorf("%s comes back as %q, not %q", f, got, want)
		}
	}
	if len(names) != 2 {
		t.Errorf("the files are %v", names)
	}
}

// From the empty bench each scene opens in one press, and holds.
func TestScenesOpenInOnePress(t *testing.T) {
	p := open(t, how{used: true, width: 1440, height: 900})
	for file, title := range map[string]string{"demo": "Heron over carp", "scene-counterchange": "Carp, counterchanged",
		"scene-six-fold": "Leaves in three colours"} {
		p.act("new")
		p.wait("the empty bench", `document.querySelectorAll("#over .scenes button").length >= 3`)
		p.click(fmt.Sprintf(`#over .scenes button[data-scene="%s.openwork.json"]`, file))
		p.wait(title, `JSON.parse(openwork.view()).title === `+inJS(t, title))
		p.settled()
		if v := p.view(); v.Verdict.State == "fails" {
			t.Errorf("%s: %s", title, p.verdict())
		}
	}
}

// The scene in three colours gives three plates, and its job sheet a page for the studio wall.
func TestPlatesFromThePage(t *testing.T) {
	p := open(t, how{used: true, width: 1440, height: 900})
	p.act("new")
	p.wait("the empty bench", `document.querySelectorAll("#over .scenes button").length >= 3`)
	p.click(`#over .scenes button[data-scene="scene-six-fold.openwork.json"]`)
	p.wait("the scene", `JSON.parse(openwork.view()).paint.colours.length === 3`)
	p.settled()
	p.click("[data-step=make] .step-head")
	p.click("#plates")
	p.wait("the plates", `/^3 plates are in your downloads. Lay them in this order: 1, Fir; 2, Brick; 3, Ochre\.$/
		.test(document.getElementById("made").textContent)`)
	p.handedOver("-1.svg", "-2.svg", "-3.svg")

	// The same by a stepping sheet for each colour.
	p.click("#larger summary")
	p.click("#larger-plates input")
	p.click("#larger-steps")
	p.wait("the stepping sheets", `/^3 stepping sheets, one for each colour, and their map/
		.test(document.getElementById("made").textContent)`)
	p.handedOver("-stepping-1.svg", "-stepping-2.svg", "-stepping-3.svg", "-stepping-map.pdf")
	list := eval[string](p, `document.getElementById("steps-list").textContent`)
	if !strings.Contains(list, "Ochre: opening") {
		t.Errorf("the map's words are %q", list)
	}
}

// handedOver waits until there are files with these endings.
func (p *tab) handedOver(endings ...string) {
	p.t.Helper()
	there := func(ending string) bool {
		return slices.ContainsFunc(p.files(), func(f string) bool { return strings.HasSuffix(f, ending) })
	}
	for start := time.Now(); time.Since(start) < patience; time.Sleep(50 * time.Millisecond) {
		if !slices.ContainsFunc(endings, func(e string) bool { return !there(e) }) {
			return
		}
	}
	p.t.Errorf("the files are %v", p.files())
}
