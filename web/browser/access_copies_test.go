package browser

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// heldCopy names the copy in hand as the draft's layout does, with how it lies on the panel.
func (p *tab) heldCopy() copyOf {
	p.t.Helper()
	it := eval[struct {
		Motif string
		Op    int
		Cell  [2]int
	}](p, `JSON.parse(openwork.view()).held.copy`)
	d := p.draft()
	c, ok := field(p.t, d)[name{d.Motif(it.Motif), it.Op, it.Cell}]
	if !ok {
		p.t.Fatalf("the copy in hand, %+v, is not on the panel", it)
	}
	return c
}

// angle is how a direction that points up is turned, in degrees counter-clockwise.
func angle(up orb.Point) float64 { return math.Atan2(-up[0], up[1]) * 180 / math.Pi }

// By keys alone a copy is found in the list, taken up and named; then presses without any dragging move, turn, scale
// and mirror it and a subject as they are seen, in millimetres and inches, each in one entry of the history.
func TestCopiesByListAndPresses(t *testing.T) {
	p := open(t, how{used: true})
	p.furnish()
	eval[bool](p, `(document.getElementById("signs").focus(), true)`)
	p.strike("Tab", 0)
	p.rests("Tab beside the panel", "#copies-open")
	p.strike("Enter", 0)
	p.tabTo(".copy-row:not([data-key^=subject])")
	p.strike("Tab", 0)
	p.strike("Enter", 0)
	p.rests("taking a copy up", ".copy-row[aria-pressed=true]")
	c := p.heldCopy()
	if said := eval[string](p, `document.activeElement.innerText`); !containsAll(said, "Carp", "copy", "of 4",
		fmt.Sprintf("%.1f", c.seat[0])) {
		t.Errorf("the row says %q of a copy at %v", said, c.seat)
	}

	press := func(way string) copyOf {
		t.Helper()
		before := p.text()
		p.enter(`#copies-moves [data-way="`+way+`"]`, `[data-way="`+way+`"]`)
		p.wait(way+" to change the draft", fmt.Sprintf(`openwork.save() !== %q`, before))
		return p.heldCopy()
	}
	p.entry("a press", func() { press("left") })
	for way, by := range map[string]orb.Point{"left": {-1, 0}, "right": {1, 0}, "up": {0, 1}, "down": {0, -1}} {
		was := p.heldCopy()
		if now := press(way); geometry.PointDistance(now.seat, geometry.Add(was.seat, by)) > 2e-3 {
			t.Errorf("%s took the copy from %v to %v", way, was.seat, now.seat)
		}
	}
	was := p.heldCopy()
	if turned := math.Remainder(angle(press("to-left").up)-angle(was.up), 360); math.Abs(turned-1) > 1e-3 {
		t.Errorf("turned left the copy goes by %.4f°", turned)
	}
	press("to-right")
	if now := press("larger"); math.Abs(math.Hypot(now.up[0], now.up[1])/math.Hypot(was.up[0], was.up[1])-1.01) > 1e-3 {
		t.Errorf("made larger the copy's unit goes from %v to %v", was.up, now.up)
	}
	press("smaller")
	if now := press("mirror"); now.up[0]*now.along[1]*(was.up[0]*was.along[1]) == 0 ||
		(now.along[0]*now.up[1]-now.along[1]*now.up[0])*(was.along[0]*was.up[1]-was.along[1]*was.up[0]) > 0 {
		t.Error("mirrored the copy is the same way round")
	}
	p.act("units")
	p.drawn()
	p.entry("a place in inches", func() { p.fill("#copies [data-held=x]", "10") })
	if now := p.heldCopy(); math.Abs(now.seat[0]-254) > 2e-3 {
		t.Errorf("10 inches from the left are %v mm", now.seat[0])
	}
	p.act("units")
	p.drawn()

	p.enter("#copies-list [data-key^=subject]", "[aria-pressed=true]")
	first := p.draft().Subjects[0]
	for _, way := range []string{"right", "up", "to-left", "larger"} {
		p.enter(`#copies-moves [data-way="`+way+`"]`, "")
	}
	now := p.draft().Subjects[0]
	if geometry.PointDistance(now.At, geometry.Add(first.At, orb.Point{1, 1})) > 5e-3 || now.Turn != first.Turn+1 ||
		math.Abs(now.Scale/first.Scale-1.01) > 1e-3 {
		t.Errorf("the subject went from %v, %g°, × %g to %v, %g°, × %g", first.At, first.Turn, first.Scale, now.At,
			now.Turn, now.Scale)
	}
	p.entry("mirror", func() { p.enter(`#copies-moves [data-way="mirror"]`, "") })
	if p.draft().Subjects[0].Mirrored == first.Mirrored {
		t.Error("mirrored the subject is the same way round")
	}
}

// Thousands of copies are listed by the page: each once, in order, none while something is dragged.
func TestListOfThousands(t *testing.T) {
	p := open(t, how{used: true})
	d := p.lay(draft.Repeat{Group: "p1", A: 14, B: 13, Gamma: 90}, ring(4, 2), orb.Point{7, 6})
	p.settled()
	want := len(field(t, d))
	p.click("#copies-open")
	p.wait("the list", `document.querySelectorAll("#copies-list li").length === 12`)
	if said := eval[string](p, `document.getElementById("copies-count").textContent`); want < 2000 ||
		!strings.HasSuffix(strings.ReplaceAll(said, ",", ""), fmt.Sprintf(" of %d", want)) {
		t.Errorf("of %d copies the list says %q", want, said)
	}
	first := eval[string](p, `document.querySelector("#copies-list li:last-child").innerText`)
	p.click("#copies-after")
	p.wait("the next page", `document.getElementById("copies-count").textContent.startsWith("Copies 13–24")`)
	if eval[string](p, `document.querySelector("#copies-list li").innerText`) == first {
		t.Error("the next page begins with a copy of the page before")
	}
}

// The strip under the panel names what is in hand: a copy by its silhouette, its number and its group, a subject by its
// name, a tie and a swatch as such.
func TestWhatIsInHandIsNamed(t *testing.T) {
	p := open(t, how{used: true})
	p.furnish()
	strip := func() string {
		t.Helper()
		p.drawn()
		return eval[string](p, `document.getElementById("hand-motif").selectedOptions[0].text + "; " +
			document.getElementById("hand-site").innerText + "; " + document.getElementById("hand-line").textContent`)
	}
	named := func(what string, words ...string) {
		t.Helper()
		p.wait(what+" in hand", `JSON.parse(openwork.view()).held.kind !== ""`)
		if said := strip(); !containsAll(said, words...) {
			t.Errorf("%s in hand is called %q, without %q", what, said, words)
		}
	}
	s := p.whole()
	c := p.takeUp(s, false)
	carried := eval[string](p, `JSON.parse(openwork.view()).held.which`)
	if it := p.heldCopy(); it.name != c.name {
		t.Errorf("pressed %v, in hand is %v", c.name, it.name)
	}
	named("a copy", "Carp", "copy ", " of 4", carried, "group p2gg")

	id := p.draft().Subjects[0].ID
	eval[bool](p, fmt.Sprintf(`(openwork.subject(%q), true)`, id))
	named("a subject", "Heron", "subject")
	x := eval[string](p, `document.querySelector('[data-field="place.x"]').value`)
	if want := fmt.Sprintf("%g", p.draft().Subjects[0].At[0]); x != want {
		t.Errorf("the strip says that the subject stands at %s, not at %s", x, want)
	}
	p.entry("the subject by the strip's field", func() { p.fill(`[data-field="place.x"]`, "250") })
	if at := p.draft().Subjects[0].At; at[0] != 250 {
		t.Errorf("typed 250, the subject stands at %v", at)
	}
	p.pick("#hand-motif", "nothing")
	p.wait("nothing in hand", `JSON.parse(openwork.view()).held.kind === ""`)
	p.pick("#hand-motif", "Heron")
	named("a subject from the strip's list", "Heron", "subject")

	eval[bool](p, `(openwork.brush(true, JSON.parse(openwork.view()).paint.swatches[1].id), true)`)
	named("a swatch", "Leaf", "colours it")
	eval[bool](p, `(openwork.brush(false, ""), true)`)
	p.command(pattern.Command{Name: "ties", Ties: []draft.Tie{{Silhouette: p.draft().Silhouettes[0].ID,
		From: orb.Point{0, -20}, To: orb.Point{0, 20}, Width: 3}}})
	p.act("next-tie")
	named("a tie", "A tie", "across Carp")
}
