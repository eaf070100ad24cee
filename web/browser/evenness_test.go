package browser

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
)

// disc is a round silhouette.
func disc(radius float64) orb.MultiPolygon {
	var ring orb.Ring
	for k := range 181 {
		s, c := math.Sincos(2 * math.Pi * float64(k%180) / 180)
		ring = append(ring, orb.Point{radius * c, radius * s})
	}
	return orb.MultiPolygon{{ring}}
}

// gapsSaid waits until the gaps are measured and painted, and returns what is said of them.
func (p *tab) gapsSaid(words string) string {
	p.t.Helper()
	p.wait("the gaps measured", fmt.Sprintf(`document.querySelector("#gaps-words").textContent.includes(%q)
		&& !JSON.parse(openwork.view()).gaps.wanted`, words))
	p.drawn()
	return eval[string](p, `document.querySelector("#gaps-found").innerText`)
}

// Discs 24 mm across on a square lattice of 40 mm: the narrowest gap is 16 mm, the widest √2·40 − 24 = 32.6 mm, and one
// sees through along the rows.
func TestEvennessIsShown(t *testing.T) {
	p := open(t, how{used: true})
	p.lay(draft.Repeat{Group: "p1", A: 40, B: 40, Gamma: 90}, disc(12), orb.Point{20, 20})
	s := p.whole()
	before := p.shot()

	p.still("showing the gaps", func() { p.click("#gaps") })
	said := p.gapsSaid("16 mm")
	if !containsAll(said, "narrowest gap 16 mm, widest 32.57 mm: 2.0 to 1", "corridor 16 mm wide", "from 3 mm") {
		t.Errorf("the page says %q", said)
	}
	painted := p.shot()
	if same(before, painted, s) {
		t.Error("nothing is painted on the panel")
	}

	// The picture goes with the view, and with the draft.
	p.wheel(point{s.bench.X + s.bench.Width/2, s.bench.Y + s.bench.Height/2}, -300)
	p.drawn()
	if same(painted, p.shot(), s) {
		t.Error("the picture does not go with the view")
	}
	p.strike("0", 0)
	p.entry("a wider cell", func() { p.fill(`[data-field="cell.a"]`, "60") })
	if said := p.gapsSaid("48.11 mm"); !containsAll(said, "narrowest gap 16 mm", "corridor 36 mm wide") {
		t.Errorf("after the change the page says %q", said)
	}

	// In inches, and off again.
	p.click(`#units input[value="in"]`)
	if said := p.gapsSaid("0.63 in"); !containsAll(said, "widest 1.8") {
		t.Errorf("in inches the page says %q", said)
	}
	p.click(`#units input[value="mm"]`)
	p.entry("the cell as it was", func() { p.fill(`[data-field="cell.a"]`, "40") })
	p.settled()
	p.still("hiding the gaps", func() { p.click("#gaps") })
	if p.shows("#gaps-found") {
		t.Error("what was said of the gaps stays")
	}
}

// A silhouette's size is said in either unit; the other side follows.
func TestSizeIsSaid(t *testing.T) {
	p := open(t, how{used: true})
	p.lay(draft.Repeat{Group: "p1", A: 400, B: 400, Gamma: 90}, tile, orb.Point{60, 60})
	p.click(`[data-step="silhouettes"] .step-head`)
	for _, c := range []struct {
		side, typed string
		scale       float64
	}{{"wide", "4 in", 101.6 / 40}, {"high", "10cm", 2.5}, {"wide", "80", 2}} {
		p.entry("a size of "+c.typed, func() { p.fill(fmt.Sprintf(`[data-key="%s s"]`, c.side), c.typed) })
		if got := p.draft().Motifs[0].Scale; math.Abs(got-c.scale) > 1e-4 {
			t.Errorf("%s %s makes a scale of %g, want %g", c.typed, c.side, got, c.scale)
		}
	}
	p.drawn()
	if got := eval[string](p, `document.querySelector('[data-key="high s"]').value`); got != "80" {
		t.Errorf("the height of a square 80 mm wide is shown as %q", got)
	}
	p.still("a size of nothing", func() { p.fill(`[data-key="wide s"]`, "0") })
	if !eval[bool](p, `document.querySelector('[data-key="wide s"]').getAttribute("aria-invalid") === "true"`) {
		t.Error("a size of nothing is not refused")
	}
}
