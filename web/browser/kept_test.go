package browser

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// The last draft is there again after a reload and after the tab has crashed.
func TestLastDraftSurvives(t *testing.T) {
	p := open(t, how{alone: true}) // it will crash
	p.fill(`[data-field="cell.a"]`, "207")
	p.wait("the cell typed", `JSON.parse(openwork.view()).repeat.a === 207`)
	want := p.text()
	// At once: what was not yet kept is kept when the page is left.
	p.do("reload the page", func() error {
		limited, cancel := context.WithTimeout(p.ctx, patience)
		defer cancel()
		return chromedp.Do(limited, chromedp.Reload())
	})
	p.ready()
	if p.text() != want {
		t.Fatalf("after a reload the draft is another:\n%s\ninstead of\n%s", p.text(), want)
	}
	if v := p.view(); v.Undo != "" {
		t.Errorf("a page just opened offers to undo %q", v.Undo)
	}
	p.fill(`[data-field="cell.a"]`, "211")
	p.wait("the cell typed", `JSON.parse(openwork.view()).repeat.a === 211`)
	want = p.text()
	p.wait("the draft to be kept", fmt.Sprintf(`localStorage.getItem("openwork:draft") === %q`, want))
	limited, cancel := context.WithTimeout(p.ctx, 10*time.Second)
	defer cancel()
	_, _ = chromedp.Call(limited, page.Crash, struct{}{}) // a crashed page gives no answer
	again := open(t, how{within: p})
	if again.text() != want {
		t.Fatalf("after a crash the draft is another:\n%s\ninstead of\n%s", again.text(), want)
	}
}

// What was kept and cannot be read is said, put aside, and not written over.
func TestKeptDraftThatCannotBeRead(t *testing.T) {
	const broken = `{"openwork": 1, "title": "torn in h`
	p := open(t, how{stored: map[string]string{"openwork:draft": broken}})
	if said := p.said(); !containsAll(said, "kept", "put aside") {
		t.Errorf("a kept draft that cannot be read brings %q", said)
	}
	if len(p.view().Motifs) == 0 {
		t.Error("the demonstration should stand in for a kept draft that cannot be read")
	}
	if kept := eval[string](p, `localStorage.getItem("openwork:draft-unread")`); kept != broken {
		t.Errorf("the draft that cannot be read was put aside as %q", kept)
	}
	p.click("#alarm button")
	p.download("put-aside.openwork.json")
}
