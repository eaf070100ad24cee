package browser

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// ring is a silhouette with a hole, whose middle drops out.
func ring(outer, inner float64) orb.MultiPolygon {
	round := func(r float64) orb.Ring {
		var out orb.Ring
		for k := range 48 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / 48)
			out = append(out, orb.Point{geometry.Snap(r * c), geometry.Snap(r * s)})
		}
		return append(out, out[0])
	}
	return geometry.Orient(orb.MultiPolygon{{round(outer), round(inner)}})
}

// Islands are told, tied in one step, a tie is taken hold of, slid along the edge, made wider and taken out, and a mend
// from the list does what it says.
func TestTiesAndMends(t *testing.T) {
	p := open(t, how{width: 1440, height: 900})
	p.lay(draft.Repeat{Group: "p1", A: 120, B: 110, Gamma: 90}, ring(24, 12), orb.Point{60, 55})
	p.settled()
	if v := p.view(); v.Verdict.State != "fails" || !containsAll(p.verdict(), "island") {
		t.Fatalf("a ring holds: %q", p.verdict())
	}
	// Each mend in the list has its effect beside it.
	p.click("#fault-which")
	p.wait("a mend with its effect",
		`[...document.querySelectorAll("#faults .moves li")].some((li) =>
			/tie/i.test(li.querySelector("button").textContent) &&
			li.querySelector(".does").textContent.trim() !== "")`)
	p.keep("mends")
	p.entry("the mend that ties", func() {
		p.wait("its button to press", `(() => {
			const tie = [...document.querySelectorAll("#faults .moves button")].find((b) => /tie/i.test(b.textContent));
			tie?.click();
			return Boolean(tie);
		})()`)
	})
	p.settled()
	d := p.draft()
	if len(d.Ties) == 0 || p.view().Verdict.State != "holds" {
		t.Fatalf("tied, there are %d ties and the verdict is %q", len(d.Ties), p.verdict())
	}
	p.strike("z", control)
	p.settled()
	if n := len(p.draft().Ties); n != 0 {
		t.Fatalf("undone, %d ties are left", n)
	}

	p.click("[data-step=sheet] .step-head")
	p.click("#tie-all")
	p.wait("ties", `(JSON.parse(openwork.save()).ties ?? []).length > 0`)
	p.settled()
	d = p.draft()
	if s := p.view().Verdict.State; s != "holds" {
		t.Errorf("every island tied, the verdict is %s: %q", s, p.verdict())
	}
	// By hand: press in the middle of a tie of the copy in the middle of the panel, and drag it round the hole.
	p.click("#tie-hand")
	s := p.whole()
	m := d.FieldMap().After(geometry.Translate(d.Motifs[0].At[0], d.Motifs[0].At[1]))
	tie := d.Ties[0]
	mid := orb.Point{(tie.From[0] + tie.To[0]) / 2, (tie.From[1] + tie.To[1]) / 2}
	round := func(by float64) point {
		s1, c1 := math.Sincos(by)
		return s.on(m.Apply(orb.Point{c1*mid[0] - s1*mid[1], s1*mid[0] + c1*mid[1]}))
	}
	p.entry("sliding a tie", func() { p.drag(round(0), round(0.35)) })
	moved := p.draft().Ties[0]
	a := math.Atan2(moved.From[1]+moved.To[1], moved.From[0]+moved.To[0]) - math.Atan2(mid[1], mid[0])
	if a = math.Remainder(a, 2*math.Pi); math.Abs(a-0.35) > 0.12 {
		t.Errorf("dragged by 0.35 round the hole, the tie went by %.2f: %v became %v", a, tie, moved)
	}
	p.wait("its width",
		`!document.getElementById("tie-width").disabled && parseFloat(document.getElementById("tie-width").value) > 0`)
	p.keep("tie")
	p.entry("a wider tie", func() { p.fill("#tie-width", "5") })
	if w := p.draft().Ties[0].Width; w != 5 {
		t.Errorf("typed 5 mm, the tie is %g wide", w)
	}
	p.entry("taking it out", func() { p.click("#tie-out") })
	if n := len(p.draft().Ties); n != len(d.Ties)-1 {
		t.Errorf("%d ties became %d", len(d.Ties), n)
	}
}

// The middle of a ring drops out: in the list of faults it is offered to fill the hole, beside ties, with what the
// sheet will then be; pressed, the sheet holds, and one step back brings the ring back.
func TestAHoleIsFilled(t *testing.T) {
	p := open(t, how{used: true})
	p.openSilhouette(ring(25, 10))
	p.settled()
	p.click("#fault-which")
	offers := `[...document.querySelectorAll("#faults .fix")]`
	p.wait("what would mend it", fmt.Sprintf(`
		%s.some((b) => /^Fill this hole in Seal, 31\d/.test(b.innerText)) &&
		%s.some((b) => /^Add .* tie/.test(b.innerText))`, offers, offers))
	p.keep("mends-beside-ties")
	p.entry("the hole filled", func() {
		eval[bool](p, fmt.Sprintf(`(%s.find((b) => b.innerText.startsWith("Fill")).click(), true)`, offers))
	})
	p.settled()
	if v := p.view(); v.Verdict.State != "holds" || len(p.draft().Silhouettes[0].Outline[0]) != 1 {
		t.Errorf("with the hole filled the verdict reads %q", p.verdict())
	}
}
