package browser

import (
	"fmt"
	"testing"

	"openwork/pattern/draft"
)

// A check of the whole panel that takes a while shows how far it has come, can be stopped, says so, and is done when
// asked again.
func TestCheckCanBeStopped(t *testing.T) {
	p := open(t, how{})
	d := decode(t, p.text())
	// Half as many motifs as a draft holds, each at its own angle, far enough apart: nothing is alike, so that all must be
	// measured.
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
