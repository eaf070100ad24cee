package browser

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/geometrytest"
	"openwork/pattern/draft"
)

// While a point is dragged, what is wrong with the outline is said and ringed; let go of, it stays; undone, it goes. A
// line that is drawn across itself is told while it is drawn.
func TestFaultsWhileDrawing(t *testing.T) {
	waist := orb.MultiPolygon{{{{0, 0}, {40, 0}, {40, 40}, {20, 40}, {0, 40}, {0, 0}}}}
	for _, size := range geometrytest.Share(t, screens, 1) {
		t.Run(size.name, func(t *testing.T) {
			p := open(t, how{used: true, width: size.width, height: size.height})
			p.openSilhouette(waist)
			eval[string](p, `openwork.pen("open", "seal", 0)`)
			said := func(words string) string {
				return fmt.Sprintf(`/%s/.test(document.getElementById("draw-faults").innerText)`, words)
			}
			p.wait("the drawing", `!document.getElementById("draw").hidden && `+said("sound"))
			l := p.plane()
			from, to := l.on(orb.Point{20, 40}), l.on(orb.Point{20, 0.8})
			p.entry("a point dragged", func() {
				p.press(from)
				p.pull(from, to, 6)
				p.wait("the waist to be told in the hand", said("Opening narrows to 0.8"))
				p.keep("drawing-faults-" + size.name)
				red, seen := p.colour("fault"), false
				shot := p.shot()
				for dx := -40; dx < 40 && !seen; dx++ {
					for dy := -40; dy < 40; dy++ {
						r, g, b, _ := shot.At(int(to.x)+dx, int(to.y)+dy).RGBA()
						seen = seen || near(r, red.R, 12) && near(g, red.G, 12) && near(b, red.B, 12)
					}
				}
				if !seen {
					t.Error("nothing is marked where the waist is too thin")
				}
				p.release(to)
			})
			p.wait("it to be told of the outline", said("Opening narrows to 0.8"))
			p.strike("z", control)
			p.wait("the square to be sound again", said("sound"))

			p.click("[name=way][value=free] + span")
			l = p.plane()
			at := []orb.Point{{5, 12}, {35, 12}, {35, 30}, {20, 30}, {20, 4}}
			p.press(l.on(at[0]))
			for i := 1; i < len(at); i++ {
				p.pull(l.on(at[i-1]), l.on(at[i]), 8)
			}
			p.wait("the crossing to be told in the hand", said("crosses itself"))
			p.strike("Escape", 0)
			p.release(l.on(at[len(at)-1]))
		})
	}
}

// openSilhouette opens a draft with one silhouette called seal on a small panel.
func (p *tab) openSilhouette(outline orb.MultiPolygon) {
	p.t.Helper()
	d := draft.Default()
	d.Title, d.Panel = "Seals", draft.Panel{Width: 240, Height: 180}
	d.Field.Origin, d.Field.Edge = orb.Point{120, 90}, draft.Whole
	d.Repeat = draft.Repeat{Group: "p1", A: 70, B: 70, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "seal", Name: "Seal", Outline: outline}}
	d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "seal", Scale: 1}}
	p.choose("#open-file", write(p.t, "seals.openwork.json", d.Encode()))
	p.wait("the seals", `JSON.parse(openwork.view()).title === "Seals"`)
}
