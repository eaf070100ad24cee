package browser

import (
	"encoding/json"
	"strings"
	"testing"

	"openwork/pattern/draft"
)

// view is what the test reads of the editor's view state.
type view struct {
	Revision int
	Undo     string
	Redo     string
	Selected string
	Units    string
	Zoom     float64
	Pictures int
	InHand   bool
	Fault    int
	Motifs   []struct {
		ID, Name, Silhouette string
		X, Y, Turn, Scale    float64
		Mirrored             bool
	}
	Silhouettes []struct{ ID, Name string }
	Repeat      struct {
		Group       string
		A, B, Gamma float64
	}
	Verdict struct{ State, Head, Line string }
	Faults  []struct {
		Kind, Severity, Text, Mend string
		Places                     int
	}
	Counts *struct{ Copies, Openings, Islands int }
}

func (p *tab) view() view {
	p.t.Helper()
	var v view
	if err := json.Unmarshal([]byte(eval[string](p, "openwork.view()")), &v); err != nil {
		p.t.Fatalf("the view state cannot be read: %v", err)
	}
	return v
}

// text is the open draft as the page would save it.
func (p *tab) text() string {
	p.t.Helper()
	return eval[string](p, "openwork.save()")
}

// draft is the open draft.
func (p *tab) draft() draft.Draft {
	p.t.Helper()
	return decode(p.t, p.text())
}

func decode(t *testing.T, text string) draft.Draft {
	t.Helper()
	d, err := draft.Decode(strings.NewReader(text))
	if err != nil {
		t.Fatalf("the draft cannot be read: %v", err)
	}
	return d
}

// verdict is the sentence along the foot, as the page shows it.
func (p *tab) verdict() string {
	p.t.Helper()
	return eval[string](p, `document.querySelector("#foot .words")?.innerText ?? ""`)
}

// said is what the page tells the person now, notes and errors, in or out of a dialog.
func (p *tab) said() string {
	p.t.Helper()
	return eval[string](p,
		`[...document.querySelectorAll("#notice .card p, #alarm .card p, .wrong:not([hidden])")]
			.map((e) => e.innerText).join("\n")`)
}

// settled waits until the whole panel was looked at and nothing is in hand.
func (p *tab) settled() {
	p.t.Helper()
	p.wait("the whole panel's verdict", `(() => {
		const v = JSON.parse(openwork.view());
		return !v.inHand && !v.check.wanted && v.verdict.state !== "waiting" &&
			document.getElementById("foot").dataset.state === v.verdict.state;
	})()`)
}
