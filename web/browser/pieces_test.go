package browser

import (
	"math"
	"testing"

	"github.com/fogleman/gg"
)

// A butterfly of two wings and a feeler comes in as one silhouette of three pieces, which takes the demonstration's
// place under its own name; apart, the pieces stand side by side as they were drawn.
func TestPiecesOfOneDrawing(t *testing.T) {
	p := open(t, how{used: true})
	path := write(t, "butterfly.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="70mm" `+
		`viewBox="0 0 80 70">
		<path d="M4 10H34V60H10Z"/><path d="M46 10H76L70 60H46Z"/><path d="M38 2H42V66H38Z"/></svg>`))
	bring := func() {
		t.Helper()
		p.click("#bring-in")
		p.wait("the dialog", `document.getElementById("bring").open`)
		p.choose("#bring-file", path)
		p.wait("three pieces, all taken", `document.querySelectorAll("#bring-pieces input:checked").length === 3 &&
			document.getElementById("bring-busy").hidden`)
	}
	p.click("[data-step=silhouettes] .step-head")
	bring()
	p.keep("pieces")
	p.click("#bring-add")
	p.wait("the butterfly alone",
		`!document.getElementById("bring").open && JSON.parse(openwork.view()).silhouettes.length === 1`)
	d := p.draft()
	if len(d.Silhouettes[0].Outline) != 3 || len(d.Motifs) != 1 || d.Title != "butterfly" {
		t.Fatalf("%d pieces, %d motifs, the title %q", len(d.Silhouettes[0].Outline), len(d.Motifs), d.Title)
	}

	p.settled() // the list of silhouettes has another height, and the button another place
	p.drawn()
	bring()
	p.click("#bring-several [value=apart]")
	p.click("#bring-add")
	p.wait("three more",
		`!document.getElementById("bring").open && JSON.parse(openwork.view()).silhouettes.length === 4`)
	d = p.draft()
	at := d.Motifs[1].At
	for i, m := range d.Motifs[2:] {
		if far := math.Hypot(m.At[0]-at[0], m.At[1]-at[1]); far < 15 || far > 55 {
			t.Errorf("piece %d stands %.1f mm from the first", i+2, far)
		}
	}
}

// A photograph of a drawing on a table: the table's edge and the dust are not ticked, and nothing of them is ringed.
func TestTableAndDustAreLeft(t *testing.T) {
	const w, h = 900, 700 // px
	c := gg.NewContext(w, h)
	c.SetRGB(0.92, 0.91, 0.88)
	c.Clear()
	c.SetRGB(0.12, 0.12, 0.14)
	c.DrawRectangle(0, 0, w, 60) // the table, above the paper
	c.Fill()
	c.DrawEllipse(450, 380, 150, 110)
	c.Fill()
	for i := range 6 {
		c.DrawCircle(120+float64(i)*130, 620, 7) // dust, narrower than an opening may be
	}
	c.Fill()
	p := open(t, how{used: true})
	p.click("[data-step=silhouettes] .step-head")
	p.click("#bring-in")
	p.wait("the dialog", `document.getElementById("bring").open`)
	p.choose("#bring-file", write(t, "photo.png", encode(t, c.Image())))
	p.wait("the pieces",
		`document.querySelectorAll("#bring-pieces input").length >= 2 && document.getElementById("bring-busy").hidden`)
	p.keep("table")
	ticked := eval[[]string](p,
		`[...document.querySelectorAll("#bring-pieces li")].filter((li) => li.querySelector("input").checked)
			.map((li) => li.innerText)`)
	if len(ticked) != 1 {
		t.Fatalf("ticked are %q", ticked)
	}
	if n := eval[int](p, `document.querySelectorAll("#bring-pieces li").length`); n < 3 {
		t.Errorf("%d pieces are found: no dust to be left", n)
	}
	if n := eval[int](p, `document.querySelectorAll("#bring-outline .narrow circle").length`); n != 0 {
		t.Errorf("%d places are ringed, and the drawing has none", n)
	}
	// Ticked by hand, the dust is told of.
	for range 10 { // the list is made anew at each press
		if !eval[bool](p,
			`(() => { const box = document.querySelector("#bring-pieces input:not(:checked)");
				box?.click(); return Boolean(box); })()`) {
			break
		}
	}
	p.wait("rings", `document.querySelectorAll("#bring-outline .narrow circle").length > 0`)
}
