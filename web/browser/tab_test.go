package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// tab is one tab on the page, with the test it belongs to.
type tab struct {
	*seat
	t         *testing.T
	downloads string
	outside   int      // requests to other hosts before this tab was opened
	forgiven  []string // what a complaint may hold without being one
}

// how a tab is opened.
type how struct {
	within   *tab              // the same browser, with its storage; nil: a new one, with empty storage
	fragment string            // of the address, with its #
	before   string            // script that runs before the page's own
	stored   map[string]string // what the browser has kept before
	width    int64             // CSS px; 0: 1320 × 760
	height   int64
	broken   bool   // the page will not set up its bench: do not wait for the first drawing
	alone    bool   // the tab is spoiled for others
	worker   bool   // the page may have its service worker, which fetches every file once more and outlives the test
	folder   string // of the host that the page lies in, with a / at its end; "" for the host's root
	used     bool   // the page may be one that such tests used before: it is not loaded, but begun anew
	fits     bool   // fits are looked for ahead of need; else the browser was asked to save data
}

// open opens the page and waits for the first drawing. When the test ends, the tab must have complained of nothing and
// have asked no other host.
func open(t *testing.T, h how) *tab {
	t.Helper()
	if h.used && bench.used != nil {
		return goOn(t, h)
	}
	p := newTab(t, h, sit(t, h))
	script := h.before
	if !h.fits {
		script += `;Object.defineProperty(navigator, "connection", {value: {saveData: true}});`
	}
	if !h.worker {
		script += `;if (navigator.serviceWorker) navigator.serviceWorker.register = () => new Promise(() => {});`
	}
	if len(h.stored) > 0 {
		text, err := json.Marshal(h.stored)
		if err != nil {
			t.Fatal(err)
		}
		script += fmt.Sprintf(";if (!sessionStorage.laid) { sessionStorage.laid = 1; "+
			"for (const [k, v] of Object.entries(%s)) localStorage.setItem(k, v); }", text)
	}
	if script != "" {
		p.do("set a script before the page's own", func() error {
			added, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument,
				page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
			p.script = added.Identifier
			return err
		})
	}
	p.visit(bench.site.URL + "/" + h.folder + h.fragment)
	if !h.broken {
		p.ready()
	}
	return p
}

// newTab has a test sit down at a seat.
func newTab(t *testing.T, h how, s *seat) *tab {
	t.Helper()
	p := &tab{t: t, seat: s, downloads: t.TempDir(), outside: len(bench.outside.since(0)),
		forgiven: []string{"GPU stall due to ReadPixels"}} // that is the screenshots' doing
	t.Cleanup(func() {
		p.account()
		p.leave(h)
	})
	p.resize(h.width, h.height)
	p.allowDownloads()
	return p
}

// goOn takes the page that a test before used, and begins it anew: the demonstration with no steps done, nothing open,
// the view and the system's theme as they are at first. What a page learns while it is open it still knows: which hints
// were followed, what was sent for, what was fitted.
func goOn(t *testing.T, h how) *tab {
	t.Helper()
	seat := bench.used
	bench.used = nil
	p := newTab(t, h, seat)
	p.do("clear the page that was used before", p.calm)
	if said := eval[string](p, beginAnew); said != "{}" {
		t.Fatalf("the page that was used before cannot begin anew: %s", said)
	}
	p.settled()
	return p
}

// beginAnew closes all that is open, and starts with the demonstration.
const beginAnew = `(async () => {
	const drawn = () => new Promise((then) => requestAnimationFrame(() => requestAnimationFrame(then)));
	document.querySelectorAll("dialog[open]").forEach((dialog) => dialog.close());
	document.querySelectorAll(".notices button").forEach((button) => button.click());
	document.querySelectorAll("details[open]").forEach((fold) => { fold.open = false; });
	if (JSON.parse(openwork.view()).pen.open) openwork.act("draw-done");
	if (JSON.parse(openwork.view()).units !== "mm") openwork.act("units");
	document.querySelectorAll(":is(#signs, #gaps)[aria-pressed=true]").forEach((sign) => sign.click());
	const list = document.getElementById("copies-close");
	if (list.checkVisibility()) list.click();
	const pressed = (id) => { const e = document.getElementById(id);
		if (e.getAttribute("aria-expanded") === "true") e.click(); };
	["draw-up", "more", "rarer-open", "held-open"].forEach(pressed);
	const said = openwork.start(await (await fetch("demo.openwork.json")).text());
	openwork.act("fit");
	const head = document.querySelector("[data-step=repeat] .step-head");
	do head.click(); while (head.getAttribute("aria-expanded") !== "true"); // either closes the others
	document.querySelectorAll(".step-body, .steps").forEach((body) => { body.scrollTop = 0; });
	await drawn();
	document.activeElement?.blur();
	return said;
})()`

// allowDownloads has what is downloaded put into the test's own folder.
func (p *tab) allowDownloads() {
	p.t.Helper()
	p.do("allow downloads", func() error {
		on := true
		_, err := chromedp.CallBrowser(p.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
			Behavior: browser.SetDownloadBehaviorBehaviorAllow, BrowserContextID: p.context(),
			DownloadPath: p.downloads, EventsEnabled: &on})
		return err
	})
}

// visit goes to an address.
func (p *tab) visit(address string) {
	p.t.Helper()
	limited, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Do(limited, chromedp.Navigate(address)); err != nil {
		p.t.Fatalf("the page does not open: %v", err)
	}
}

// ready waits until the bench is set up.
func (p *tab) ready() {
	p.t.Helper()
	p.wait("the first drawing", `performance.getEntriesByName("openwork:first-drawing").length > 0`)
}

// account fails the test for what the tab complained of, and for what it asked of other hosts.
func (p *tab) account() {
	if p.t.Failed() {
		p.keepFault()
	}
	p.mu.Lock()
	defer p.mu.Unlock()
next:
	for _, complaint := range p.complaints {
		for _, words := range p.forgiven {
			if strings.Contains(complaint, words) {
				continue next
			}
		}
		p.t.Errorf("the console says: %s", complaint)
	}
	for _, address := range p.strangers {
		p.t.Errorf("the page asked another host: %s", address)
	}
	for _, asked := range bench.outside.since(p.outside) {
		p.t.Errorf("the browser asked another host: %s", asked)
	}
}

// keepFault leaves a screenshot of a failed test.
func (p *tab) keepFault() {
	limited, cancel := context.WithTimeout(p.ctx, 20*time.Second)
	defer cancel()
	if shot, err := chromedp.Run(limited, chromedp.CaptureScreenshot()); err == nil {
		name := strings.NewReplacer("/", "-", " ", "-").Replace(p.t.Name()) + ".png"
		_ = os.WriteFile(filepath.Join(artefacts, "faults", name), shot, 0o644)
	}
}

// do carries out one step that is no part of what is tested.
func (p *tab) do(what string, step func() error) {
	p.t.Helper()
	if err := step(); err != nil {
		p.t.Fatalf("could not %s: %v", what, err)
	}
}

// eval returns the value of an expression in the page.
func eval[T any](p *tab, expression string) T {
	p.t.Helper()
	limited, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(limited, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v", short(expression), err)
	}
	return v
}

// wait asks for a condition in the page, or the promise of one, until it is true.
func (p *tab) wait(what, condition string) {
	p.t.Helper()
	end := time.Now().Add(patience)
	for !eval[bool](p, "Promise.resolve("+condition+").then(Boolean)") {
		if time.Now().After(end) {
			p.t.Fatalf("waited %v for %s; the verdict reads %q, the message %q", patience, what, p.verdict(), p.said())
		}
		time.Sleep(40 * time.Millisecond) // between two questions
	}
	p.t.Log(what)
}

func short(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if len(s) > 120 {
		return s[:120] + "…"
	}
	return s
}
