package browser

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/paulmach/orb"

	"openwork/geometry"
)

// plane is how a drawing lies on the page: px to the mm, and where its (0, 0) is.
type plane struct{ Zoom, X, Y float64 }

func (p *tab) plane() plane {
	p.t.Helper()
	p.drawn()
	p.drawn() // the strip under the drawing has had its say
	return eval[plane](p, `(() => {
		const [zoom, x, y] = JSON.parse(openwork.view()).pen.map,
			box = document.getElementById("bench").getBoundingClientRect();
		return {Zoom: zoom, X: box.x + x, Y: box.y + y};
	})()`)
}

func (l plane) on(at orb.Point) point { return point{l.X + l.Zoom*at[0], l.Y - l.Zoom*at[1]} }

// trace draws freehand with the mouse through places of the plane.
func (p *tab) trace(l plane, places ...orb.Point) {
	p.t.Helper()
	p.press(l.on(places[0]))
	for _, at := range places[1:] {
		to := l.on(at)
		p.mouse(chromedp.MouseMoved, to.x, to.y, held)
	}
	p.release(l.on(places[len(places)-1]))
	p.drawn()
}

// oval is a hand's way round an ellipse, and a little further.
func oval(c orb.Point, a, b float64) []orb.Point {
	var out []orb.Point
	for i := range 41 {
		s, k := math.Sincos(float64(i) / 40 * 6.5)
		out = append(out, orb.Point{c[0] + a*k, c[1] + b*s})
	}
	return out
}

// A shape is drawn freehand, gets an eye, a point of it is moved and one set by number, and all of it is undone, step
// by step.
func TestDrawingASilhouette(t *testing.T) {
	p := open(t, how{used: true})
	start := p.text()
	p.click("[data-step=silhouettes] .step-head")
	p.click("#draw-new")
	p.wait("the drawing",
		`!document.getElementById("draw").hidden && document.querySelector("[name=way][value=free]").checked`)
	last := func() orb.MultiPolygon {
		t.Helper()
		s := p.draft().Silhouettes
		if len(s) != 1 { // a first drawing takes the demonstration's place
			t.Fatalf("%d silhouettes: %s", len(s), p.said())
		}
		return s[0].Outline
	}
	p.entry("a shape drawn freehand", func() { p.trace(p.plane(), oval(orb.Point{5, 0}, 25, 40)...) })
	want := math.Pi * 25 * 40
	if a := geometry.Area(last()); math.Abs(a-want) > 0.02*want {
		t.Errorf("an oval of %.0f mm² became one of %.0f", want, a)
	}
	if d := p.draft(); len(d.Motifs) != 1 || d.Title != "Drawn 1" {
		t.Errorf("%q with %d motifs", d.Title, len(d.Motifs))
	}
	p.pick("#draw-use", "cut away")
	body := geometry.Area(last())
	p.entry("an eye", func() { p.trace(p.plane(), oval(orb.Point{8, 15}, 5, 5)...) })
	if eye := body - geometry.Area(last()); len(last()[0]) != 2 || math.Abs(eye-25*math.Pi) > 6 {
		t.Errorf("an eye of %.0f mm² took %.1f away; %d rings", 25*math.Pi, eye, len(last()[0]))
	}
	p.click("[name=way][value=move] + span")
	p.strike("Tab", 0)
	p.do("give the drawing the keys",
		func() error { eval[bool](p, `(document.getElementById("bench").focus(), true)`); return nil })
	p.strike("n", 0)
	p.wait("a point", `JSON.parse(openwork.view()).pen.chosen`)
	at := eval[orb.Point](p, `[JSON.parse(openwork.view()).pen.x, JSON.parse(openwork.view()).pen.y]`)
	l := p.plane()
	p.keep("drawing")
	p.entry("a point dragged", func() { p.drag(l.on(at), l.on(orb.Point{at[0] + 6, at[1] - 4})) })
	now := eval[orb.Point](p, `[JSON.parse(openwork.view()).pen.x, JSON.parse(openwork.view()).pen.y]`)
	if math.Abs(now[0]-at[0]-6) > 0.3 || math.Abs(now[1]-at[1]+4) > 0.3 {
		t.Errorf("dragged by (6, −4) mm, the point went from %.2f to %.2f", at, now)
	}
	p.entry("a point moved by number", func() { p.fill(`[data-field="pen.x"]`, fmt.Sprintf("%.1f", at[0]+2)) })
	p.entry("a point moved by keys", func() {
		p.do("give the drawing the keys",
			func() error { eval[bool](p, `(document.getElementById("bench").focus(), true)`); return nil })
		p.hold("ArrowUp", 0, 3)
	})
	// Two points enclose nothing: Escape lets them go, then the choice, then leaves.
	p.click("[name=way][value=points] + span")
	l = p.plane()
	p.clickAt(l.on(orb.Point{-40, 40}))
	p.clickAt(l.on(orb.Point{-30, 40}))
	p.wait("two points", `JSON.parse(openwork.view()).pen.set === 2`)
	p.strike("Escape", 0)
	p.wait("no points", `JSON.parse(openwork.view()).pen.set === 0 && JSON.parse(openwork.view()).pen.open`)
	p.strike("Escape", 0)
	p.wait("the panel", `document.getElementById("draw").hidden && !JSON.parse(openwork.view()).pen.open`)
	for range 5 {
		p.strike("z", control)
	}
	if p.text() != start {
		t.Error("five steps back, the draft is another")
	}
}

// A half comes with its image; the list doubles a silhouette and turns it round.
func TestDrawingAHalf(t *testing.T) {
	p := open(t, how{used: true, width: 390, height: 844})
	p.click("#draw-up")
	p.click("[data-step=silhouettes] .step-head")
	p.click("#draw-new")
	p.click("#draw-half")
	var half []orb.Point
	for i := range 31 {
		s, c := math.Sincos(math.Pi * (0.5 - float64(i)/30))
		half = append(half, orb.Point{24*c + 4*c*s, 36 * s})
	}
	p.entry("a half", func() { p.trace(p.plane(), half...) })
	p.keep("drawing-narrow")
	s := p.draft().Silhouettes
	mp := s[len(s)-1].Outline
	m := geometry.MirrorX
	if !geometry.SameWithin(geometry.NewShape(mp), geometry.NewShape(geometry.Transform(mp, m)), 2*geometry.Grid) {
		t.Error("the halves are not alike")
	}
	if b := mp.Bound(); b.Max[0] < 22 || b.Max[0] > 27 {
		t.Errorf("the half reaches to %.1f mm", b.Max[0])
	}
	p.click("[data-act=draw-done]")
	p.click("#draw-up")
	p.strike("z", control)
	p.wait("the demonstration again", `JSON.parse(openwork.view()).silhouettes.length === 2`)
	p.entry("another like it", func() { p.click(`[data-key="copy heron"]`) })
	p.entry("turned round", func() { p.click(`[data-key="mirror heron"]`) })
}

// scanned returns a PNG that says how many pixels a metre of it has.
func scanned(t *testing.T, width, height int, perMetre uint32) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, image.NewGray(image.Rect(0, 0, width, height))); err != nil {
		t.Fatal(err)
	}
	chunk := binary.BigEndian.AppendUint32([]byte("pHYs"), perMetre)
	chunk = append(binary.BigEndian.AppendUint32(chunk, perMetre), 1)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk))
	const head = 8 + 25 // the signature and IHDR
	data := out.Bytes()
	return slices.Concat(data[:head], []byte{0, 0, 0, 9}, chunk, data[head:])
}

// A picture lies under the drawing at true scale, is there again when the page is opened anew, and is in no draft and
// no link.
func TestPictureToDrawOver(t *testing.T) {
	p := open(t, how{})
	path := filepath.Join(t.TempDir(), "heron-sketch.svg")
	svg := `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200">` +
		`<rect width="300" height="200" fill="#c00"/></svg>`
	if err := os.WriteFile(path, []byte(svg), 0o644); err != nil {
		t.Fatal(err)
	}
	p.click("[data-step=silhouettes] .step-head")
	p.click("#draw-new")
	p.choose("#under-file", path)
	p.wait("the picture", `document.querySelector(".under-picture:not([hidden])")`)
	p.fill("#under-height", "60")
	p.fill("#under-x", "10")
	sized := `(() => {
		const r = document.querySelector(".under-picture").getBoundingClientRect();
		const z = JSON.parse(openwork.view()).pen.map[0];
		return [r.width / z, r.height / z];
	})()`
	if s := eval[[2]float64](p, sized); math.Abs(s[0]-90) > 0.5 || math.Abs(s[1]-60) > 0.5 {
		t.Errorf("60 mm high, it is %.1f × %.1f mm", s[0], s[1])
	}
	// It shines through the drawing, and moves with the hand.
	seen := func(in, out orb.Point) bool { // waits, as the picture is decoded and painted when the browser likes
		for range 25 {
			l, shot := p.plane(), p.shot()
			red := func(at orb.Point) bool {
				q := l.on(at)
				r, _, b, _ := shot.At(int(q.x), int(q.y)).RGBA()
				return r > b+0x2000
			}
			if red(in) && !red(out) {
				return true
			}
			time.Sleep(100 * time.Millisecond)
		}
		return false
	}
	if !seen(orb.Point{13, 3}, orb.Point{-48, 3}) {
		t.Error("the picture is not seen where it lies, or where it does not")
	}
	p.click("#under-move")
	l := p.plane()
	p.drag(l.on(orb.Point{10, 0}), l.on(orb.Point{-20, 0}))
	p.strike("Escape", 0)
	if !seen(orb.Point{-48, 3}, orb.Point{42, 3}) {
		t.Error("the picture did not go with the hand")
	}
	p.keep("drawing-over")
	for what, text := range map[string]string{"draft": p.text(),
		"link": eval[string](p, `JSON.parse(openwork.link()).fragment`)} {
		if strings.Contains(text, "heron-sketch") || strings.Contains(text, "c00") || len(text) > 40000 {
			t.Errorf("the picture is in the %s", what)
		}
	}
	kept := `new Promise((done) => {
		const look = () => {
			const r = indexedDB.open("openwork", 1);
			r.onsuccess = () => {
				const g = r.result.transaction("under").objectStore("under").get("picture");
				g.onsuccess = () => {
					r.result.close();
					if (Math.abs(g.result.x + 20) < 1) done(true);
					else setTimeout(look, 50);
				};
			};
		};
		look();
	})`
	eval[bool](p, kept) // returns once the store has it where it was moved to
	again := open(t, how{within: p})
	again.click("#draw-new") // the step is open: it was when the page was left
	again.wait("the picture again", `document.querySelector(".under-picture:not([hidden])") &&
		document.getElementById("under-height").value === "60"`)
	// A scan says how large it is: 300 dots to the inch.
	again.choose("#under-file", write(t, "scan.png", scanned(t, 200, 600, 11811)))
	again.wait("the scan at its size",
		`Math.abs(parseFloat(document.getElementById("under-height").value) - 50.8) < 0.02`)
	again.click("#under-away")
	again.wait("it to be gone", `document.querySelector(".under-picture").hidden`)
}
