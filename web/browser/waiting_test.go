package browser

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// holdChecks lets a test keep the check of the whole panel back: while holding.checks is true, what the page sends the
// engine for it waits; holding.go lets it through.
const holdChecks = `globalThis.holding = {checks: false, kept: [], go() {
		this.checks = false;
		this.kept.splice(0).forEach((send) => send());
	}};
	const post = Worker.prototype.postMessage;
	Worker.prototype.postMessage = function (message, ...rest) {
		const send = () => post.call(this, message, ...rest);
		if (holding.checks && message?.verb === "check") holding.kept.push(send);
		else send();
	};`

// files returns what is in the tab's downloads.
func (p *tab) files() []string {
	p.t.Helper()
	all, err := filepath.Glob(filepath.Join(p.downloads, "*"))
	if err != nil {
		p.t.Fatal(err)
	}
	return all
}

// keepsBack changes the draft's title and its cell while checks are held, so that there is no verdict on it: a title
// alone changes none.
func (p *tab) keepsBack(title string) {
	p.t.Helper()
	p.settled()
	eval[bool](p, `holding.checks = true`)
	p.fill("#title", title)
	p.command(pattern.Command{Name: "cell", Values: map[string]float64{"b": p.view().Repeat.B + 1}})
	p.wait("a draft without a verdict",
		`(() => { const v = JSON.parse(openwork.view()); return v.title === `+quoted(title)+` && v.check.wanted; })()`)
}

func quoted(s string) string { return `"` + s + `"` }

// waits presses a button, and sees that nothing but waiting comes of it.
func (p *tab) waits(button string) {
	p.t.Helper()
	p.click(button)
	p.wait("the page to say that it waits",
		`/^Waiting for the verdict/.test(document.getElementById("made").textContent)`)
	p.wait("the bar", `document.querySelector("#make-work button").checkVisibility()`)
	if got := p.files(); len(got) > 0 {
		p.t.Errorf("without a verdict there is %s", got[0])
	}
	if eval[bool](p, `document.getElementById("ask").open`) {
		p.t.Error("the page asks before there is a verdict")
	}
}

// What a person did: the demonstration in a smaller cell on a large panel, Cut file pressed at once. No file comes
// before the verdict is there, and then only when the person wants it all the same.
func TestCutFileAtOnce(t *testing.T) {
	p := open(t, how{used: true})
	d := decode(t, p.text())
	d.Panel = draft.Panel{Width: 1400, Height: 1400}
	d.Repeat.A, d.Repeat.B = 155, 110
	p.click("[data-step=make] .step-head")
	p.choose("#open-file", write(t, "large.openwork.json", d.Encode()))
	p.wait("the draft", `JSON.parse(openwork.view()).panel.width === 1400`)
	p.click("#cut")
	p.wait("the page to ask", `document.getElementById("ask").open`)
	if v := p.view().Verdict; v.State != "fails" || eval[bool](p, `JSON.parse(openwork.view()).check.wanted`) {
		t.Errorf("the page asks while the verdict is %+v", v)
	}
	if s := eval[string](p, `document.getElementById("ask").innerText`); !containsAll(s, "does not hold", "Bridge of") {
		t.Errorf("it asks %q", s)
	}
	p.keep("cut-asks")
	p.click("#ask-no")
	p.wait("the button again", `!document.getElementById("cut").disabled`)
	if got := p.files(); len(got) > 0 || p.made() != "" {
		t.Errorf("gone back, there is %q, and the page says %q", got, p.made())
	}
	p.click("#cut")
	p.click("#ask-yes")
	data, err := os.ReadFile(p.download("*.svg"))
	if err != nil || !strings.Contains(string(data), "<desc>This sheet does not hold: ") ||
		strings.Count(string(data[:4000]), "Bridge of") > 8 {
		t.Errorf("the file does not carry its few reasons: %v", err)
	}
}

// While there is no verdict, pressing the button waits for it, goes on by itself, can be stopped, and ends when the
// draft is changed.
func TestCutFileWaits(t *testing.T) {
	p := open(t, how{before: holdChecks})
	p.click("[data-step=make] .step-head")
	p.keepsBack("Stopped")
	p.waits("#cut")
	p.keep("cut-waits")
	p.click("#make-work button")
	p.wait("the sentence", `document.getElementById("made").textContent === "Stopped; nothing was made."`)

	p.click("#larger summary")
	p.waits("#larger-steps")
	p.fill("#title", "Changed")
	p.wait("the sentence", `/^The draft was changed while/.test(document.getElementById("made").textContent)`)
	eval[bool](p, `(holding.go(), true)`)
	p.settled()
	if got := p.files(); len(got) > 0 {
		t.Errorf("stopped, or changed, there is %s", got[0])
	}

	p.keepsBack("Goes on")
	p.waits("#cut")
	eval[bool](p, `(holding.go(), true)`)
	data, err := os.ReadFile(p.download("*.svg"))
	if err != nil || strings.Contains(string(data), "<desc>") || eval[bool](p, `document.getElementById("ask").open`) {
		t.Errorf("a sheet that holds is asked for, or its file says that it does not: %v", err)
	}
}

// Where the check was stopped there is no verdict to wait for: the page asks in other words, and the file says that
// nobody has looked.
func TestCutFileUnchecked(t *testing.T) {
	p := open(t, how{before: holdChecks})
	p.click("[data-step=make] .step-head")
	p.keepsBack("Unchecked")
	p.waits("#cut")
	p.click("#check-work button")
	p.wait("the page to ask", `document.getElementById("ask").open`)
	if s := eval[string](p, `document.getElementById("ask").innerText`); !containsAll(s,
		"Nobody knows whether this sheet holds", "You stopped the check") {
		t.Errorf("it asks %q", s)
	}
	p.keep("cut-unchecked")
	p.click("#ask-no")
	p.wait("the button again", `!document.getElementById("cut").disabled`)
	if got := p.files(); len(got) > 0 {
		t.Errorf("gone back, there is %s", got[0])
	}
	p.click("#cut")
	p.click("#ask-yes")
	data, err := os.ReadFile(p.download("*.svg"))
	if err != nil || !strings.Contains(string(data), "<desc>It was not checked whether this sheet holds.</desc>") {
		t.Errorf("the file does not say that nobody has looked: %v", err)
	}
}

// A panel with motifs but without a copy inside is empty: the page says so, and nothing is cut.
func TestNoCopyInside(t *testing.T) {
	p := open(t, how{used: true})
	d := decode(t, p.text())
	d.Field.Edge, d.Panel = draft.Whole, draft.Panel{Width: 60, Height: 60}
	p.click("[data-step=make] .step-head")
	p.choose("#open-file", write(t, "small.openwork.json", d.Encode()))
	p.wait("the draft", `JSON.parse(openwork.view()).panel.width === 60`)
	p.settled()
	if v := p.view().Verdict; v.State != "empty" ||
		!containsAll(p.verdict(), "Nothing would be cut", "No copy lies whole inside the margin") {
		t.Errorf("the verdict is %+v", v)
	}
	if !eval[bool](p,
		`["cut", "job", "larger-steps", "larger-parts", "study", "picture"]
			.every((id) => document.getElementById(id).disabled)`) {
		t.Error("something can be made of it")
	}
	p.keep("nothing-to-cut")
}
