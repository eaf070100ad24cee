package browser

import (
	"os"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// A scene is opened in one press from the empty bench; its subject is taken up, drawn over the panel by hand, moved by
// keys and fields, and made to keep room, each in one entry; its mask is cut; undoing brings it all back.
func TestSubject(t *testing.T) {
	p := open(t, how{used: true, width: screens[0].width, height: screens[0].height})
	p.settled()
	p.act("new")
	p.drawn()
	p.click(".scenes button:nth-of-type(2)")
	p.wait("the scene", `JSON.parse(openwork.view()).subjects.length === 1`)
	p.settled()
	first := p.text()
	at := func() orb.Point { return p.draft().Subjects[0].At }
	moved := func(what string, want orb.Point, slack float64) {
		t.Helper()
		if now := at(); geometry.PointDistance(now, want) > slack {
			t.Errorf("%s: the subject stands at %v, not at %v", what, now, want)
		}
	}

	p.click("[data-step=subject] .step-head")
	p.click("[data-subject]")
	p.drawn()
	s, was := p.whole(), at()
	inside := p.draft().Subjects[0].Map().Apply(orb.Point{2, -4})
	if !geometry.Contains(p.draft().Subjects[0].Placed(), inside) {
		t.Fatalf("%v is not on the heron", inside)
	}
	by := orb.Point{30, -40}
	p.drag(s.on(inside), s.on(geometry.Add(inside, by)))
	p.settled()
	moved("by hand", geometry.Add(was, by), 3/s.zoom)

	was = at()
	eval[bool](p, `(document.getElementById("bench").focus(), true)`)
	p.strike("ArrowUp", 0)
	p.settled()
	moved("by a key", geometry.Add(was, orb.Point{0, 1}), 1e-6)
	p.fill(`[data-field="subjectPlace.x"]`, "250")
	p.settled()
	moved("by a field", orb.Point{250, was[1] + 1}, 1e-6)

	openings := p.view().Counts.Openings
	p.click(`#subject-edge input[value=whole]`)
	p.settled()
	if n := p.view().Counts.Openings; n >= openings {
		t.Errorf("keeping room for the subject leaves %d of %d openings", n, openings)
	}
	p.click(`#subject-edge input[value=behind]`)
	p.settled()

	p.click(`[data-step=make] .step-head`)
	p.click("#mask-of summary")
	p.click("#mask")
	file, err := os.ReadFile(p.download("*-mask.svg"))
	if err != nil || !strings.Contains(string(file), `class="registration"`) {
		t.Errorf("the mask's file has %d bytes and no registration marks (%v)", len(file), err)
	}

	for range 8 {
		if p.text() == first {
			break
		}
		p.act("undo")
		p.drawn()
	}
	if p.text() != first {
		t.Error("undoing does not bring the scene back")
	}
}
