package firefox

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"openwork/pattern/draft"
)

// artefacts is where screenshots are kept for people to look at.
const artefacts = "../../../artefacts"

// tell has the page evaluate an expression, a promise too, and returns its value.
func tell[T any](d *driver, expression string) T {
	d.t.Helper()
	var out struct{ Value T }
	answer := d.do("WebDriver:ExecuteScript", map[string]any{"script": "return " + expression, "args": []any{}})
	if err := json.Unmarshal(answer, &out); err != nil {
		d.t.Fatalf("%s gives %.200s: %v", expression, answer, err)
	}
	return out.Value
}

// open goes to an address, as if from another page, and waits until the bench is set up.
func (d *driver) open(address string) {
	d.t.Helper()
	d.do("WebDriver:Navigate", map[string]any{"url": "about:blank"})
	d.do("WebDriver:Navigate", map[string]any{"url": address})
	d.ready()
}

// reload loads the page once more, as the browser's button does; WebDriver's own command goes past a service worker.
func (d *driver) reload() {
	d.t.Helper()
	tell[bool](d, `((window.left = true), setTimeout(() => location.reload(), 0), true)`)
	d.wait("the page to go", `!window.left`)
	d.ready()
}

func (d *driver) ready() {
	d.t.Helper()
	d.wait("the first drawing", `performance.getEntriesByName("openwork:first-drawing").length > 0`)
}

// wait waits until an expression holds.
func (d *driver) wait(what, condition string) {
	d.t.Helper()
	for end := time.Now().Add(patience); !tell[bool](d, "!!("+condition+")"); time.Sleep(60 * time.Millisecond) {
		if time.Now().After(end) {
			d.keep("faults/firefox")
			d.t.Fatalf("waited %v for %s; the page says %q", patience, what,
				tell[string](d, `document.querySelector("#foot .words")?.innerText ?? ""`))
		}
	}
	d.t.Log(what)
}

// settled waits until the whole panel was looked at and nothing is in hand.
func (d *driver) settled() {
	d.t.Helper()
	d.wait("the whole panel's verdict", `(() => { const v = JSON.parse(openwork.view());
		return !v.inHand && !v.check.wanted && v.verdict.state !== "waiting"; })()`)
}

// text is the open draft as the page would save it.
func (d *driver) text() string { return tell[string](d, "openwork.save()") }

func (d *driver) draft() draft.Draft {
	d.t.Helper()
	return decode(d.t, d.text())
}

// click presses the middle of an element with the mouse.
func (d *driver) click(selector string) {
	d.t.Helper()
	d.wait(selector+" in reach of the mouse", fmt.Sprintf(`(() => {
		const e = document.querySelector(%q);
		if (!e || e.disabled) return false;
		e.scrollIntoView({block: "nearest", inline: "nearest"});
		const r = e.getBoundingClientRect();
		const there = document.elementFromPoint(r.x + r.width / 2, r.y + r.height / 2);
		return there && (e.contains(there) || there.closest("label")?.contains(e));
	})()`, selector))
	at := tell[[2]float64](d, fmt.Sprintf(`(() => { const r = document.querySelector(%q).getBoundingClientRect();
		return [r.x + r.width / 2, r.y + r.height / 2]; })()`, selector))
	d.drag(at)
}

// drag presses the mouse at the first place of the window, goes by the others, and lets go at the last, in CSS px.
func (d *driver) drag(places ...[2]float64) {
	d.t.Helper()
	move := func(at [2]float64) map[string]any {
		return map[string]any{"type": "pointerMove", "duration": 30, "origin": "viewport", "x": int(at[0]),
			"y": int(at[1])}
	}
	steps := []map[string]any{move(places[0]), {"type": "pointerDown", "button": 0}}
	for _, at := range places[1:] {
		steps = append(steps, move(at))
	}
	steps = append(steps, map[string]any{"type": "pointerUp", "button": 0})
	d.do("WebDriver:PerformActions", map[string]any{"actions": []any{map[string]any{"type": "pointer", "id": "mouse",
		"parameters": map[string]any{"pointerType": "mouse"}, "actions": steps}}})
}

// choose gives a file to a field for files.
func (d *driver) choose(selector, path string) {
	d.t.Helper()
	var found struct{ Value map[string]string }
	answer := d.do("WebDriver:FindElement", map[string]any{"using": "css selector", "value": selector})
	if err := json.Unmarshal(answer, &found); err != nil {
		d.t.Fatal(err)
	}
	for _, id := range found.Value {
		d.do("WebDriver:ElementSendKeys", map[string]any{"id": id, "text": path})
	}
}

// keep leaves a screenshot among the build's artefacts.
func (d *driver) keep(name string) {
	d.t.Helper()
	var shot struct{ Value string }
	if err := json.Unmarshal(d.do("WebDriver:TakeScreenshot", map[string]any{"full": false}), &shot); err != nil {
		d.t.Fatal(err)
	}
	png, err := base64.StdEncoding.DecodeString(shot.Value)
	if err != nil {
		d.t.Fatal(err)
	}
	path := filepath.Join(artefacts, name+".png")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		d.t.Fatal(err)
	}
	if err := os.WriteFile(path, png, 0o644); err != nil {
		d.t.Fatal(err)
	}
}
