package browser

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// holdEditor keeps the editor's program back until letGo is called.
const holdEditor = `;(() => {
	const own = WebAssembly.instantiateStreaming, held = new Promise((go) => { window.letGo = go; });
	WebAssembly.instantiateStreaming = async (...all) => { await held; return own.call(WebAssembly, ...all); }; })()`

// Before the editor is there a copy can be dragged on the first picture: all copies of its silhouette go as the group
// has it, and the editor, once there, has done the same, as one step; a hand still down goes on.
func TestDragBeforeTheEditorIsThere(t *testing.T) {
	for _, row := range []struct {
		name string
		held bool
	}{{"let go before", false}, {"still in the hand", true}} {
		t.Run(row.name, func(t *testing.T) {
			p := open(t, how{before: holdEditor, broken: true})
			p.wait("the picture", `performance.getEntriesByName("openwork:draggable").length > 0`)
			place := eval[[2]float64](p, `(() => {
				// A place well inside a copy near the middle, by the browser's own look at the picture.
				const b = document.getElementById("bench").getBoundingClientRect();
				const svg = document.querySelector("#first svg");
				for (let r = 60; r < 300; r += 3) {
					for (let k = 0; k < 24; k++) {
						const at = [b.x + b.width / 2 + r * Math.cos(k), b.y + b.height / 2 + r * Math.sin(k)];
						for (const use of svg.querySelectorAll("use")) {
							const shape = svg.querySelector(use.getAttribute("href"));
							const into = use.getScreenCTM().inverse();
							const inside = (x, y) => shape.isPointInFill(new DOMPoint(x, y).matrixTransform(into));
							const near = [[0, 0], [4, 0], [-4, 0], [0, 4], [0, -4]];
							if (near.every(([x, y]) => inside(at[0] + x, at[1] + y))) return at.map(Math.round);
						}
					}
				}
			})()`)
			from := point{place[0], place[1]}
			const places = `[...document.querySelectorAll("#first use")].map((use) => { const m = use.getScreenCTM();
				return [use.getAttribute("href").endsWith("0") ? 0 : 1, m.e, m.f]; })`
			was := eval[[][3]float64](p, places)
			p.press(from)
			p.pull(from, point{from.x + 18, from.y - 12}, 3)
			at := eval[[][3]float64](p, places)
			if !row.held {
				p.release(point{from.x + 18, from.y - 12})
			}
			p.keep("early")

			eval[bool](p, `(window.letGo(), true)`)
			p.ready()
			hand := orb.Point{18, -12}
			if row.held {
				p.pull(point{from.x + 18, from.y - 12}, point{from.x + 26, from.y + 4}, 3)
				p.release(point{from.x + 26, from.y + 4})
				hand = orb.Point{26, 4}
			}
			p.settled()
			v := p.view()
			d, demo := p.draft(), decode(t, eval[string](p, `fetch("demo.openwork.json").then((r) => r.text())`))
			moved := -1
			for i, m := range d.Motifs {
				by := planar.Distance(orb.Point(m.At), orb.Point(demo.Motifs[i].At))
				if by == 0 {
					continue
				}
				if want := math.Hypot(hand[0], hand[1]) / v.Zoom; moved >= 0 || math.Abs(by-want) > 0.01 {
					t.Errorf("motif %d went by %.3f mm, the hand by %.3f", i, by, want)
				}
				moved = i
			}
			if moved < 0 || v.Undo == "" {
				t.Fatalf("nothing was moved, or it cannot be undone; Undo says %q", v.Undo)
			}
			// Every copy of the motif went as far on the picture, and no other.
			for i := range at {
				by := math.Hypot(at[i][1]-was[i][1], at[i][2]-was[i][2])
				want := 0.0
				if int(at[i][0]) == moved {
					want = math.Hypot(18, 12)
				}
				if math.Abs(by-want) > 0.05 {
					t.Fatalf("on the picture a copy of silhouette %g went by %.2f px instead of %.2f",
						at[i][0], by, want)
				}
			}
		})
	}
}
