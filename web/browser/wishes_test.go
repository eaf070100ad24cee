package browser

import (
	"os"
	"strings"
	"testing"
)

// What the shop asks for changes the file, and is there again when the page is opened anew; the draft knows nothing of
// it.
func TestWhatTheShopAsksFor(t *testing.T) {
	p := open(t, how{})
	before := p.text()
	ask := func() {
		p.click("[data-step=make] .step-head")
		p.click("#shop summary")
	}
	ask()
	p.change(`[data-wish="cut.colours.cut"]`, "#ff00aa")
	p.fill(`[data-wish="cut.holes.diameter"]`, "6")
	p.fill(`[data-wish="cut.tolerance"]`, "7")
	if said := eval[string](p,
		`document.querySelector("#shop .wrong, #shop [role=alert]")?.innerText ?? ""`); !containsAll(said,
		"from 0.001 to 1") {
		t.Errorf("curves within 7 mm bring %q", said)
	}
	p.fill(`[data-wish="cut.tolerance"]`, "")
	p.click(`[data-wish="cut.polygons"]`)
	p.click(`[data-wish="cut.mirrored"]`)
	p.fill(`[data-wish="cut.leadIn"]`, "1.5")
	cut := func() string {
		t.Helper()
		p.click("#cut")
		data, err := os.ReadFile(p.download("*.svg"))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	text := cut()
	if !strings.Contains(text, "#ff00aa") || strings.Contains(text, "#ff0000") {
		t.Error("the cut lines are not in the shop's colour")
	}
	if !containsAll(text, "mirrored, to be cut from the back", "Lead-in: 1.5 mm") {
		t.Error("the file has no lead-ins, or is not mirrored")
	}
	body := text[strings.Index(text, `id="cut"`):]
	if strings.ContainsAny(strings.Join(paths(body), ""), "Cc") {
		t.Error("there are curves, and straight edges were asked for")
	}
	if p.text() != before {
		t.Error("what the shop asks for has changed the draft")
	}
	again := open(t, how{within: p})
	if v := eval[string](again,
		`document.querySelector('[data-wish="cut.colours.cut"]').value +
		document.querySelector('[data-wish="cut.holes.diameter"]').value +
		document.querySelector('[data-wish="cut.polygons"]').checked`); v != "#ff00aa6true" {
		t.Errorf("opened again, the page has %q", v)
	}
}

// paths returns the path data in a piece of SVG.
func paths(text string) []string {
	var out []string
	for _, part := range strings.Split(text, ` d="`)[1:] {
		out = append(out, part[:strings.IndexByte(part, '"')])
	}
	return out
}
