package browser

import (
	"fmt"
	"math"
	"testing"

	"github.com/fogleman/gg"
)

// A pencil drawing, photographed lying on its side: it is turned upright, a part of it is read, its lines are filled
// with the gap in them closed, its size comes from two points, and a line drawn over it says what should lie level.
// Each choice stands in a field.
func TestReadingADrawing(t *testing.T) {
	const w, h = 600, 900 // px
	c := gg.NewContext(w, h)
	c.SetRGB(0.9, 0.9, 0.88)
	c.Clear()
	c.SetRGB(0.2, 0.2, 0.22)
	c.SetLineWidth(5)
	c.DrawArc(300, 450, 150, 0.05, 2*math.Pi-0.03) // a circle with a gap of 12 px
	c.Stroke()
	c.DrawCircle(80, 80, 40) // not to be read
	c.Fill()
	path := write(t, "pencil.png", encode(t, c.Image()))

	p := open(t, how{used: true})
	p.click("[data-step=silhouettes] .step-head")
	p.click("#bring-in")
	p.choose("#bring-file", path)
	found := func(what, condition string) {
		t.Helper()
		p.wait(what, fmt.Sprintf(`document.getElementById("bring-busy").hidden &&
			document.getElementById("bring-error").hidden && (%s)`, condition))
	}
	pieces := `[...document.querySelectorAll("#bring-pieces li")].map((li) => li.textContent).join("; ")`
	found("the pieces", pieces+` !== ""`)
	p.click(`[name=drawn][value=lines]`)
	p.click("#bring-place summary")
	// Draw round the part that is meant: below the dot.
	p.click("[data-aid=crop]")
	b := p.boxOf("#bring-outline")
	at := func(x, y float64) point { return point{b.X + b.Width*x/w, b.Y + b.Height*y/h} }
	p.drag(at(100, 250), at(500, 650))
	found("a quarter of a picture in the fields",
		`Math.abs(document.querySelector("[data-trace=crop0]").value - 100) < 4 &&
		Math.abs(document.querySelector("[data-trace=crop3]").value - 650) < 4`)
	// The size, from two points that lie on the circle's left and right: 300 px, said to be 60 mm.
	p.click(`[name=scale][value=distance]`)
	p.click("[data-aid=points]")
	p.drag(at(150, 450), at(450, 450))
	p.fill(`[data-trace=distance]`, "60")
	p.fill(`[data-trace=gap]`, "4")
	found("the circle, filled", fmt.Sprintf(`/^(59|60|61)(\.\d+)? × (59|60|61)(\.\d+)? mm/.test(%s)`, pieces))
	p.keep("pencil")
	// A line 10° off level turns the drawing by as much.
	p.click("[data-aid=level]")
	p.drag(at(150, 450), at(450, 450+300*math.Tan(10*math.Pi/180)))
	found("the turn", `Math.abs(document.querySelector("[data-trace=turn]").value - 10) < 0.7`)
	// The picture is shown level: a line that was drawn 10° off is upright now, outline and all.
	p.wait("the picture turned", `Math.abs(parseFloat(document.getElementById("bring-paper").style.rotate) + 10) < 0.7`)
	// No gap closed: the line closes nothing, and that is said; the picture stays to be read in another way.
	p.fill(`[data-trace=gap]`, "0")
	p.wait("a sentence", `!document.getElementById("bring-error").hidden`)
	sentence(t, eval[string](p, `document.getElementById("bring-error").innerText`), `(?i)line|drawing`)
	// The gap is ringed, numbered, and the figure that would close it stands beside: 12 px of a picture with 5 to the
	// mm.
	p.wait("the gap's ring", `document.querySelectorAll("#bring-outline .gap").length === 1 &&
		document.querySelector("#bring-outline .narrow text").textContent === "1"`)
	sentence(t, eval[string](p, `document.getElementById("bring-left").innerText`),
		`Gap 1 is [12]\.\d+ mm wide; it closes with [12](\.\d)? mm`)
	p.fill(`[data-trace=gap]`, "4")
	found("the circle again", pieces+` !== ""`)
	// Lying on its side.
	p.click("#bring-quarter")
	found("the turned picture", `document.getElementById("bring-outline").viewBox.baseVal.width === 900`)
	if !eval[bool](p, `document.querySelector("[data-trace=crop0]").value === ""`) {
		t.Error("the part that was read of the picture as it lay is still asked for")
	}
	p.click("#bring-add")
	p.wait("the silhouette", `!document.getElementById("bring").open`)
	if d := p.draft(); len(d.Silhouettes) != 1 || d.Title != "pencil" {
		t.Errorf("a first drawing of one's own: %d silhouettes under the title %q", len(d.Silhouettes), d.Title)
	}
	p.strike("z", control)
	p.wait("the demonstration again", `JSON.parse(openwork.view()).silhouettes.length === 2`)
}
