package browser

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
)

// undone presses Undo in the page's head.
func (p *tab) undone() {
	p.t.Helper()
	p.click("[data-act=undo]")
	p.drawn()
}

// shelved waits until the store has what is on the bench.
func (p *tab) shelved() {
	p.t.Helper()
	p.wait("what is on the bench to lie on the shelf", `(async () => {
		const at = JSON.parse(localStorage.getItem("openwork:draft-at"));
		const done = (r) => new Promise((give) => { r.onsuccess = () => give(r.result); });
		const db = await done(indexedDB.open("openwork-shelf"));
		const entry = at && await done(db.transaction("drafts").objectStore("drafts").get(at.id));
		db.close();
		return entry?.now === at?.key && localStorage.getItem("openwork:draft") === openwork.save();
	})()`)
}

// onShelf opens the shelf, or shows it as it is now, and returns the rows' words.
func (p *tab) onShelf() []string {
	p.t.Helper()
	if !eval[bool](p, `document.getElementById("shelf").open`) {
		// What it showed when it was open last.
		eval[bool](p, `(document.getElementById("shelf-count").textContent = "", true)`)
		p.click("#shelf-open")
	}
	p.wait("the shelf", `document.getElementById("shelf-count").textContent`)
	return eval[[]string](p,
		`[...document.querySelectorAll("#shelf-list li .shelf-words")].map((each) => each.innerText)`)
}

// New, a link and a file put what was there before on the shelf and in the history, and both outlive a reload.
func TestNothingIsReplacedWithoutACopy(t *testing.T) {
	p := open(t, how{})
	first := p.text()
	p.cell("207")
	carp := p.text()
	link := eval[string](p, `JSON.parse(openwork.link()).fragment`)
	p.click("[data-act=new]")
	p.wait("the empty draft", `!JSON.parse(openwork.view()).motifs.length`)
	empty := p.text()
	p.reload()
	p.is(empty, "after New and a reload")
	p.undone()
	p.is(carp, "after New, a reload and Undo")
	p.undone()
	p.is(first, "after another Undo")
	p.strike("z", control|shift)
	p.strike("z", control|shift)
	p.is(empty, "after doing it again")

	p.do("follow the link", func() error { eval[bool](p, fmt.Sprintf(`(location.hash = %q, true)`, link)); return nil })
	p.wait("the link's draft", fmt.Sprintf(`openwork.save() === %q`, carp))
	p.fill("#title", "From a link")
	p.wait("the title", `JSON.parse(openwork.view()).title === "From a link"`)
	linked := p.text()
	p.choose("#open-file", "../../testdata/drafts/leaf-p6mm.openwork.json")
	p.wait("the file's draft", `JSON.parse(openwork.view()).repeat.group === "p6mm"`)
	leaf := p.text()
	p.reload()
	p.is(leaf, "after a file and a reload")

	rows := p.onShelf()
	if len(rows) != 4 || !strings.Contains(rows[0], "On the bench") || !strings.Contains(rows[1], "From a link") {
		t.Fatalf("on the shelf lie %q", rows)
	}
	p.wait("their pictures", `document.querySelectorAll("#shelf-list img").length === 4`)
	p.keep("shelf")
	p.click("#shelf-list li:nth-child(2) .shelf-buttons button")
	p.wait("the draft from the shelf", fmt.Sprintf(`openwork.save() === %q`, linked))
	if v := p.view(); v.Undo != "title" {
		t.Errorf("from the shelf it offers to undo %q", v.Undo)
	}
	p.reload()
	p.is(linked, "from the shelf, after a reload")
	p.steps(carp, linked)
	p.shelfAsAFile(rows)
	p.shelfIsFull()
}

// What was changed last lies on the shelf, also where another draft was opened while earlier changes were being
// written.
func TestLastChangeBeforeAnotherDraft(t *testing.T) {
	p := open(t, how{})
	p.cell("207")
	p.shelved()
	leaf, err := os.ReadFile("../../testdata/drafts/leaf-p6mm.openwork.json")
	if err != nil {
		t.Fatal(err)
	}
	eval[string](p, fmt.Sprintf(`(() => {
		for (const text of ["One", "Two", "Three"]) openwork.command(JSON.stringify({name: "title", text}));
		return openwork.open(%q);
	})()`, leaf))
	p.wait("the other draft", `JSON.parse(openwork.view()).repeat.group === "p6mm"`)
	p.shelved()
	rows := p.onShelf()
	if len(rows) != 2 || !strings.HasPrefix(rows[1], "Three") {
		t.Fatalf("on the shelf lie %q", rows)
	}
	p.click("#shelf-list li:nth-child(2) .shelf-buttons button")
	p.wait("the draft as it was left", `JSON.parse(openwork.view()).title === "Three"`)
}

// shelfIsFull takes in more drafts than the shelf holds, and begins another one: the oldest leaves.
func (p *tab) shelfIsFull() {
	p.t.Helper()
	var drafts []string
	for i := range 60 {
		drafts = append(drafts, fmt.Sprintf(`{"id": "d%d", "title": "Draft %d", "made": 1, "when": %d, "width": 1, `+
			`"height": 1,
			"now": "k", "rows": [{"key": "k", "label": "", "origin": "k"}], "steps": [{"text": "{}"}]}`, i, i, 1000+i))
	}
	file := `{"openworkShelf":1,"drafts":[` + strings.Join(drafts, ",") + `]}`
	p.choose("#open-file", write(p.t, "many.openwork-shelf.json", []byte(file))) // as any file
	p.wait("as many taken in as there is room for", `/^46 drafts taken in, 14 drafts left out, because the shelf `+
		`holds 50/
		.test(document.getElementById("shelf-said").innerText)`)
	p.click("#shelf-close")
	p.click("[data-act=new]")
	p.shelved()
	p.wait("the shelf to hold 50 drafts again", `(async () => {
		const all = await (await import("/js/records.mjs")).entries();
		return all.length === 50 && !all.some((each) => each.id === "d0") && all.some((each) => each.id === "d1");
	})()`)
}

// steps goes through the list of what was done: back to a step, and forward to the last.
func (p *tab) steps(carp, last string) {
	p.t.Helper()
	p.click("#history-open")
	said := eval[[]string](p, `[...document.querySelectorAll("#history-list button")].map((each) => each.innerText)`)
	want := []string{"4. Title", "3. Opening of a draft", "2. Opening of a draft", "1. Cell", "0. As it was opened"}
	if !slices.Equal(said, want) {
		p.t.Errorf("the steps are %q", said)
	}
	p.keep("steps")
	p.click("#history-list li:nth-child(4) button")
	p.is(carp, "at the step of the cell")
	if now := eval[string](p, `document.activeElement.innerText`); now != "1. Cell" {
		p.t.Errorf("after that the focus is at %q", now)
	}
	p.click("#history-list li:nth-child(1) button")
	p.is(last, "at the last step")
	p.strike("Escape", 0)
}

// shelfAsAFile saves the shelf, empties it as far as it can be, and takes the file in again, twice.
func (p *tab) shelfAsAFile(want []string) {
	p.t.Helper()
	p.onShelf()
	p.click("#shelf-save")
	file := p.download("*.openwork-shelf.json")
	for n := len(want); n > 1; n-- {
		p.click(fmt.Sprintf("#shelf-list li:nth-child(%d) .shelf-buttons button:last-child", n))
		if n > 2 {
			p.click("#ask-yes")
			p.wait("one less", fmt.Sprintf(`document.querySelectorAll("#shelf-list li").length === %d`, n-1))
			continue
		}
		p.click("#ask-no")
	}
	for _, said := range []string{"2 drafts taken in, 2 drafts on the shelf already.",
		"0 drafts taken in, 4 drafts on the shelf already."} {
		p.choose("#shelf-file", file)
		p.wait("the file taken in", fmt.Sprintf(`document.getElementById("shelf-said").innerText === %q`, said))
	}
	if rows := p.onShelf(); len(rows) != len(want) {
		p.t.Errorf("taken in, on the shelf lie %q", rows)
	}
	p.choose("#shelf-file", write(p.t, "torn.openwork-shelf.json", []byte(`{"openworkShelf":1,"drafts":[{"id":"x"}]}`)))
	p.wait("a sentence about a file that is not whole",
		`/Draft 1 of this shelf’s file is not whole/.test(document.getElementById("shelf-said").innerText)`)
	p.click("#shelf-list li:nth-child(4) .shelf-buttons button") // one that was thrown away
	p.wait("a draft from the file", `JSON.parse(openwork.view()).undo === "opening of a draft"`)
}
