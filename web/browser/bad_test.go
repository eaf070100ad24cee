package browser

import (
	"fmt"
	"image"
	"os"
	"regexp"
	"strings"
	"testing"

	"openwork/pattern/draft"
)

// A drawing that cannot be used is refused with a sentence, in the dialog, and the open draft stays.
func TestBadDrawings(t *testing.T) {
	white := image.NewGray(image.Rect(0, 0, 400, 300))
	for i := range white.Pix {
		white.Pix[i] = 254
	}
	laughs := `<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "ha">` + func() string {
		var b strings.Builder
		for c := 'b'; c <= 'j'; c++ {
			fmt.Fprintf(&b, "<!ENTITY %c \"%s\">", c, strings.Repeat(fmt.Sprintf("&%c;", c-1), 10))
		}
		return b.String()
	}() + `]><svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">` +
		`<title>&j;</title><path d="M5 5h30v30H5z"/></svg>`
	elsewhere := `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ` +
		`width="40mm" height="40mm" viewBox="0 0 40 40">` +
		`<image href="http://elsewhere.test/a.png" xlink:href="http://elsewhere.test/b.png" width="40" height="40"/>` +
		`<path d="M5 5h30v30H5z"/></svg>`
	cases := []struct {
		name, file string
		data       []byte
		words      string // what the sentence must say
	}{
		{"text named .png", "notes.png", []byte("These are only words, whatever the name says.\n"), `(?i)png|picture`},
		{"20,000 × 20,000 px", "huge.png", headerOnly(20000, 20000), `20,?000`},
		{"an all-white scan", "white.png", encode(t, white),
			`(?i)nothing|no (silhouette|drawing|ink)|blank|one grey|same`},
		{"an SVG with entities in entities", "laughs.svg", []byte(laughs), `(?i)entit|DOCTYPE|document type`},
		{"an SVG with a link to another host", "elsewhere.svg", []byte(elsewhere),
			`(?i)elsewhere\.test|other (host|file)|link`},
		{"an empty file", "empty.png", nil, `(?i)empty|png|picture`},
	}
	p := open(t, how{used: true})
	before, was := p.text(), p.view().Undo
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := p.on(t)
			p.click(`[data-step=silhouettes] .step-head`)
			p.click("#bring-in")
			p.wait("the dialog", `document.getElementById("bring").open`)
			p.choose("#bring-file", write(t, c.file, c.data))
			p.wait("a sentence about "+c.name, `!document.getElementById("bring-error").hidden &&
				document.getElementById("bring-error").innerText.length > 10`)
			said := eval[string](p, `document.getElementById("bring-error").innerText`)
			t.Logf("the page says: %s", said)
			sentence(t, said, c.words)
			if !eval[bool](p, `document.getElementById("bring-add").disabled`) {
				t.Error("what cannot be used can be added")
			}
			p.click("#bring [data-close]")
			p.wait("the dialog to close", `!document.getElementById("bring").open`)
			p.click(`[data-step=silhouettes] .step-head`)
			if p.text() != before || p.view().Undo != was {
				t.Error("the open draft changed")
			}
		})
	}
	if asked := bench.outside.since(p.outside); len(asked) > 0 {
		t.Errorf("other hosts were asked: %q", asked)
	}
}

// sentence holds a message against what it must say and against what a sentence is.
func sentence(t *testing.T, said, words string) {
	t.Helper()
	if !regexp.MustCompile(words).MatchString(said) {
		t.Errorf("the sentence %q does not say %s", said, words)
	}
	if !strings.HasSuffix(said, ".") || len(said) > 400 ||
		regexp.MustCompile(`(?i)panic|goroutine|undefined|\[object|<nil>|exit status`).MatchString(said) {
		t.Errorf("this is no sentence for a person: %q", said)
	}
}

// on is the same tab for a part of the test.
func (p *tab) on(t *testing.T) *tab {
	return &tab{t: t, seat: p.seat, downloads: p.downloads, outside: p.outside}
}

// A draft that cannot be opened is refused with a sentence that names the place, and the open draft stays.
func TestBadDrafts(t *testing.T) {
	text, err := os.ReadFile("../../testdata/drafts/heron-over-carp.openwork.json")
	if err != nil {
		t.Fatal(err)
	}
	good := decode(t, string(text))
	change := func(f func(d *draft.Draft)) string {
		d := good
		d.Motifs = append([]draft.Motif(nil), good.Motifs...)
		f(&d)
		return string(d.Encode())
	}
	whole := string(good.Encode())
	cases := []struct{ name, text, words string }{
		{"an unknown key", strings.Replace(whole, `"title"`, `"colour": 3, "title"`, 1), `colour`},
		{"NaN", strings.Replace(whole, `"turn": 0, "scale": 1`, `"turn": NaN, "scale": 1`, 1), `motifs\[\d\]\.turn`},
		{"a self-crossing outline", strings.Replace(whole, firstRing(whole),
			`[[0, 0], [40, 30], [40, 0], [0, 30], [0, 0]]`, 1), `silhouettes\[0\]\.outline.*cross`},
		{"a missing silhouette", change(func(d *draft.Draft) { d.Motifs[1].Silhouette = "otter" }),
			`motifs\[1\]\.silhouette.*otter`},
		{"a cell of no area", change(func(d *draft.Draft) { d.Repeat.A = 0 }), `repeat\.a`},
		{"the wrong angle", change(func(d *draft.Draft) { d.Repeat.Gamma = 75 }), `repeat\.gamma`},
		{"a later version", strings.Replace(whole, `"openwork": 1`, `"openwork": 99`, 1), `openwork|version`},
		{"half a file", whole[:len(whole)/2], `(?i)end|cut`},
		{"another kind of file", `{"type": "FeatureCollection", "features": []}`, `(?i)openwork|type`},
	}
	p := open(t, how{used: true})
	before, was := p.text(), p.view().Undo
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := p.on(t)
			eval[bool](p, `(document.getElementById("alarm").replaceChildren(), true)`)
			p.choose("#open-file", write(t, "broken.openwork.json", []byte(c.text)))
			p.wait("a sentence about "+c.name, `document.querySelector("#alarm .card p")`)
			said := eval[string](p, `document.querySelector("#alarm .card p").innerText`)
			t.Logf("the page says: %s", said)
			sentence(t, said, c.words)
			if p.text() != before || p.view().Undo != was {
				t.Errorf("the open draft changed: Undo %q", p.view().Undo)
			}
		})
	}
}

// A draft that would need too many copies says the limit and is not laid out; one step back brings back what was open.
func TestTooManyCopies(t *testing.T) {
	p := open(t, how{used: true})
	before := p.text()
	d := decode(t, before)
	d.Panel = draft.Panel{Width: 20000, Height: 20000}
	d.Field.Origin = [2]float64{10000, 10000}
	p.choose("#open-file", write(t, "wall.openwork.json", d.Encode()))
	p.wait("the limit",
		`/20,?000/.test(document.querySelector("#foot .words").innerText + document.getElementById("alarm").innerText)`)
	p.keep("error")
	if p.text() != before {
		p.strike("z", control)
		p.wait("what was open before", fmt.Sprintf(`openwork.save() === %q`, before))
	}
	p.settled()
	if v := p.view(); v.Verdict.State != "holds" {
		t.Errorf("the demonstration should hold again; the verdict reads %q", p.verdict())
	}
}

// firstRing is the text of a draft's first ring.
func firstRing(text string) string {
	from := strings.Index(text, `"outline":`)
	return regexp.MustCompile(`\[\[-?\d[^\]]*\](, \[[^\]]*\])*\]`).FindString(text[from:])
}

// A link that cannot be read says so and leaves what was open alone.
func TestBadLinks(t *testing.T) {
	p := open(t, how{fragment: "#owl-and-pussycat"})
	p.wait("a sentence about the foreign link", `document.querySelector("#alarm .card p")`)
	sentence(t, p.said(), `(?i)link`)
	if len(p.view().Motifs) == 0 {
		t.Error("with a foreign link the demonstration should still be there")
	}
	before, was := p.text(), p.view().Undo
	link := eval[string](p, `JSON.parse(openwork.link()).fragment`)
	middle := len(link) / 2
	swapped := "A"
	if link[middle] == 'A' {
		swapped = "B"
	}
	for _, c := range []struct{ name, fragment string }{
		{"cut short", link[:middle]},
		{"one letter changed", link[:middle] + swapped + link[middle+1:]},
		{"something after it", link + "xyz"},
		{"foreign", "#page=3&view=fit"},
		{"odd signs", "#%F0%9F%A6%A9"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := p.on(t)
			eval[bool](p, fmt.Sprintf(`(document.getElementById("alarm").replaceChildren(), location.hash = %q, true)`,
				c.fragment))
			p.wait("a sentence about a link "+c.name, `document.querySelector("#alarm .card p")`)
			said := eval[string](p, `document.querySelector("#alarm .card p").innerText`)
			t.Logf("the page says: %s", said)
			sentence(t, said, `(?i)link`)
			if p.text() != before || p.view().Undo != was {
				t.Errorf("the open draft changed: Undo %q", p.view().Undo)
			}
		})
	}
}

// Without WebGL 2 the page says so, offers the kept draft, and does not break.
func TestWithoutWebGL2(t *testing.T) {
	kept, err := os.ReadFile("../../testdata/drafts/leaf-p6mm.openwork.json")
	if err != nil {
		t.Fatal(err)
	}
	p := open(t, how{broken: true, stored: map[string]string{"openwork:draft": string(kept)}, before: `
		const real = HTMLCanvasElement.prototype.getContext;
		HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
			return kind === "webgl2" ? null : real.call(this, kind, ...rest);
		};`})
	p.wait("a sentence about WebGL 2", `/WebGL 2/.test(document.getElementById("over").innerText)`)
	p.keep("without-webgl2")
	sentence(t, strings.TrimSpace(eval[string](p, `document.querySelector("#over > p:not(.over-head)").innerText`)),
		`WebGL 2`)
	if words := p.verdict(); !containsAll(words, "no verdict") {
		t.Errorf("without a drawing the verdict reads %q", words)
	}
	p.click("#over button")
	saved, err := os.ReadFile(p.download("*.json"))
	if err != nil {
		t.Fatal(err)
	}
	if string(saved) != string(kept) {
		t.Error("the kept draft was not saved as it is")
	}
}
