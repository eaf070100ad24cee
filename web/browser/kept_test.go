package browser

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// reload loads the page anew.
func (p *tab) reload() {
	p.t.Helper()
	p.do("reload the page", func() error {
		limited, cancel := context.WithTimeout(p.ctx, patience)
		defer cancel()
		return chromedp.Do(limited, chromedp.Reload())
	})
	p.ready()
}

// crash ends the tab as the system does when it runs out of memory; what is in the tab hears nothing of it.
func (p *tab) crash() {
	limited, cancel := context.WithTimeout(p.ctx, 2*time.Second)
	defer cancel()
	_, _ = chromedp.Call(limited, page.Crash, struct{}{}) // a crashed page gives no answer
}

// cell types a width of the cell and waits until the draft has it.
func (p *tab) cell(a string) {
	p.t.Helper()
	p.fill(`[data-field="cell.a"]`, a)
	p.wait("the cell typed", `JSON.parse(openwork.view()).repeat.a === `+a)
}

// is fails the test when the draft is another than the text.
func (p *tab) is(want, when string) {
	p.t.Helper()
	if got := p.text(); got != want {
		p.t.Fatalf("%s the draft is another:\n%s\ninstead of\n%s", when, got, want)
	}
}

// The last draft is there again after a reload and after the tab has crashed, with the way back. What was in hand when
// the tab died is not: it comes back to the last whole state.
func TestLastDraftSurvives(t *testing.T) {
	p := open(t, how{alone: true}) // it will crash
	first := p.text()
	p.cell("207")
	want := p.text()
	p.reload() // at once: what was not yet kept is kept when the page is left
	p.is(want, "after a reload")
	if v := p.view(); v.Undo != "cell" {
		t.Errorf("after a reload the page offers to undo %q", v.Undo)
	}
	p.strike("z", control)
	p.is(first, "after undoing beyond the reload")
	p.strike("z", control|shift)
	p.is(want, "after redoing")

	p.cell("211")
	p.cell("213")
	want = p.text()
	s := p.whole()
	c := p.takeUp(s, false)
	from := s.on(c.inner)
	p.press(from)
	p.pull(from, point{from.x + 40, from.y + 30}, 4)
	if v := p.view(); !v.InHand || p.text() == want {
		t.Fatal("nothing is in hand")
	}
	p.crash()
	again := open(t, how{within: p})
	again.is(want, "after a crash in the middle of a drag")
	for _, label := range []string{"cell", "cell", "cell", ""} {
		if v := again.view(); v.Undo != label {
			t.Errorf("after a crash the page offers to undo %q, not %q", v.Undo, label)
		}
		again.strike("z", control)
	}
	again.is(first, "after undoing all that was done before the crash")
}

// What was kept and cannot be read is said, put aside, and not written over.
func TestKeptDraftThatCannotBeRead(t *testing.T) {
	const broken = `{"openwork": 1, "title": "torn in h`
	p := open(t, how{stored: map[string]string{"openwork:draft": broken}, before: `
		if (sessionStorage.full) {
			IDBObjectStore.prototype.put = () => { throw new DOMException("No room.", "QuotaExceededError"); };
			Storage.prototype.setItem = IDBObjectStore.prototype.put;
		}`})
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
	if rows := p.onShelf(); len(rows) != 1 || !containsAll(rows[0], "could not be opened") {
		t.Errorf("on the shelf lie %q", rows)
	}

	// Where there is no room to put it aside, nobody says that it was.
	eval[bool](p, fmt.Sprintf(`(localStorage.setItem("openwork:draft", %q), sessionStorage.full = "yes", true)`,
		broken))
	p.reload()
	p.wait("a sentence about it", `/no room to put it aside/.test(document.getElementById("alarm").innerText)`)
	p.cell("211")
	p.wait("the sign that nothing is kept",
		`/what you change now/.test(document.getElementById("unkept-said").innerText)`)
	if left := eval[string](p, `localStorage.getItem("openwork:draft")`); left != broken {
		t.Errorf("the draft that was not put aside is now %q", left)
	}
}

// Without room a sign stands until there is some again, what was kept stays as it is, and the draft can be saved as a
// file.
func TestNoRoomToKeep(t *testing.T) {
	// The browser counts the room only twice a minute: here the store says at once that there is none, and in the midst
	// of it.
	p := open(t, how{before: `
		const put = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (...what) {
			if (window.full && this.name === "drafts") throw new DOMException("No room.", "QuotaExceededError");
			return put.apply(this, what);
		};
		const set = Storage.prototype.setItem;
		Storage.prototype.setItem = function (...what) {
			if (window.full === "all") throw new DOMException("There is no room.", "QuotaExceededError");
			return set.apply(this, what);
		};`})
	p.cell("207")
	p.shelved()
	eval[bool](p, `(window.full = "store", true)`)
	p.cell("211")
	p.wait("the sign", `!document.getElementById("unkept").hidden`)
	said := eval[string](p, `document.getElementById("unkept-said").innerText`)
	if !containsAll(said, "no room", "history") {
		t.Errorf("without room the page says %q", said)
	}
	p.keep("no-room")
	eval[bool](p, `(window.full = "all", true)`)
	p.cell("213")
	p.wait("the sign to say that nothing is kept",
		`/what you change now is not kept/.test(document.getElementById("unkept-said").innerText)`)
	p.click("#unkept-save")
	saved, err := os.ReadFile(p.download("*.openwork.json"))
	if err != nil {
		t.Fatal(err)
	}
	if string(saved) != p.text() {
		t.Error("another draft was saved than that on the bench")
	}
	if rows := p.onShelf(); len(rows) != 1 || !containsAll(rows[0], "2 steps") {
		t.Errorf("without room the shelf has %q", rows)
	}
	p.click("#shelf-close")

	eval[bool](p, `(window.full = "", true)`)
	p.cell("217")
	p.wait("the sign to go", `document.getElementById("unkept").hidden`)
	p.shelved()
	if rows := p.onShelf(); len(rows) != 1 || !containsAll(rows[0], "5 steps") {
		t.Errorf("with room again the shelf has %q", rows)
	}
}

// A second tab on the same draft takes a copy of its own and says so; neither writes over the other.
func TestTwoTabs(t *testing.T) {
	p := open(t, how{})
	p.cell("207")
	p.shelved()
	one := p.text()
	q := open(t, how{within: p})
	q.is(one, "in the second tab")
	said := eval[string](q, `document.getElementById("notice").innerText`)
	if !containsAll(said, "another tab", "copy") {
		t.Errorf("the second tab says %q", said)
	}
	q.cell("211")
	q.shelved()
	p.cell("213")
	p.shelved()
	one, two := p.text(), q.text()
	p.reload()
	p.is(one, "reloaded, in the first tab")
	q.reload()
	q.is(two, "reloaded, in the second tab")
	rows := q.onShelf()
	here := strings.Join(rows, "\n")
	if len(rows) != 2 || strings.Count(here, "On the bench") != 1 || strings.Count(here, "Open in another tab") != 1 {
		t.Errorf("on the shelf lie %q", rows)
	}
	if v := q.view(); v.Undo != "cell" || v.Redo != "" {
		t.Errorf("the second tab would undo %q", v.Undo)
	}
}
