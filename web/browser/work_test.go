package browser

import (
	"fmt"
	"testing"

	"openwork/pattern/draft"
)

// longCheck is a draft whose check takes a while: half as many motifs as a draft holds, each at its own angle, far
// enough apart. Nothing is alike, so that all must be measured.
func longCheck(t *testing.T, p *tab) draft.Draft {
	t.Helper()
	d := decode(t, p.text())
	d.Title = "A long check"
	d.Panel = draft.Panel{Width: 3100, Height: 2500}
	d.Field.Origin = [2]float64{20, 20}
	d.Repeat = draft.Repeat{Group: "p1", A: 1500, B: 1200, Gamma: 90}
	motif := d.Motifs[0]
	d.Motifs = nil
	for i := range 240 {
		m := motif
		m.ID, m.Scale, m.Turn = fmt.Sprintf("m%d", i), 0.4+float64(i)/4000, float64(7*i%360)
		m.At = [2]float64{30 + 60*float64(i%24), 30 + 60*float64(i/24)}
		d.Motifs = append(d.Motifs, m)
	}
	return d
}

// A check of the whole panel that takes a while shows how far it has come, can be stopped, says so, and is done when
// asked again.
func TestCheckCanBeStopped(t *testing.T) {
	p := open(t, how{})
	d := longCheck(t, p)
	p.choose("#open-file", write(t, "long.openwork.json", d.Encode()))
	p.wait("the bar",
		`!document.getElementById("check-work").hidden && JSON.parse(openwork.save()).title === "A long check"`)
	p.wait("the bar to move", `document.querySelector("#check-work progress").value > 0`)
	p.keep("checking")
	p.click("#check-work button")
	p.wait("the way to ask again", `!document.getElementById("check-again").hidden`)
	p.wait("the sentence", `document.getElementById("verdict-line").textContent.includes("You stopped the check")`)
	p.click("#check-again")
	p.settled()
	if s := p.view().Verdict.State; s != "holds" && s != "fails" {
		t.Errorf("asked again, the state is %s: %q", s, p.verdict())
	}
}

// An engine that dies without a word, idle or at work, is noticed and begun anew.
func TestEngineThatDies(t *testing.T) {
	p := open(t, how{before: `
		window.engines = [];
		const Real = Worker;
		window.Worker = class extends Real { constructor(...how) { super(...how); engines.push(this); } };`})
	p.settled()
	die := func() int { return eval[int](p, `(engines.forEach((each) => each.terminate()), engines.length)`) }
	before := die()
	p.cell("207")
	p.settled()
	if s := p.view().Verdict.State; s != "holds" && s != "fails" {
		t.Errorf("after idle engines died the state is %s: %q", s, p.verdict())
	}

	p.choose("#open-file", write(t, "long.openwork.json", longCheck(t, p).Encode()))
	p.wait("the bar to move",
		`JSON.parse(openwork.save()).title === "A long check" &&
		document.querySelector("#check-work progress").value > 0`)
	n := die()
	if n <= before {
		t.Errorf("%d engines were begun, no more than the %d before", n, before)
	}
	p.wait("another engine", fmt.Sprintf(`engines.length > %d`, n))
	eval[bool](p, `(document.querySelector("#check-work progress").value = 0, true)`)
	p.wait("the bar to move again", `document.querySelector("#check-work progress").value > 0`)
	p.click("#check-work button")
	p.wait("the sentence", `document.getElementById("verdict-line").textContent.includes("You stopped the check")`)
}
