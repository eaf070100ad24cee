package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// tab is one tab on the page, with the test it belongs to.
type tab struct {
	t         *testing.T
	ctx       context.Context
	downloads string
	outside   int // requests to other hosts before this tab was opened

	mu         sync.Mutex
	complaints []string // what the console said, and exceptions
	strangers  []string // addresses of other hosts that were asked for
	forgiven   []string // what a complaint may hold without being one
}

// how a tab is opened.
type how struct {
	within   *tab              // the same browser, with its storage; nil: a new one, with empty storage
	fragment string            // of the address, with its #
	before   string            // script that runs before the page's own
	stored   map[string]string // what the browser has kept before
	width    int64             // CSS px; 0: 1440 × 900
	height   int64
	broken   bool // the page will not set up its bench: do not wait for the first drawing
}

// open opens the page and waits for the first drawing. When the test ends, the tab must have complained of nothing and
// have asked no other host.
func open(t *testing.T, h how) *tab {
	t.Helper()
	option := chromedp.WithNewBrowserContext()
	if h.within != nil {
		option = chromedp.WithExistingBrowserContext(chromedp.FromContext(h.within.ctx).BrowserContextID)
	}
	ctx, cancel := chromedp.NewContext(bench.browser, option)
	p := &tab{t: t, ctx: ctx, forgiven: []string{"GPU stall due to ReadPixels"}, // that is the screenshots' doing
		downloads: t.TempDir(), outside: len(bench.outside.since(0))}
	t.Cleanup(func() {
		p.account()
		cancel()
	})
	p.listen()
	p.resize(max(h.width, 0), h.height)
	p.do("focus", func() error {
		_, err := chromedp.Call(ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
		return err
	})
	p.do("allow downloads", func() error {
		on := true
		_, err := chromedp.CallBrowser(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
			Behavior: browser.SetDownloadBehaviorBehaviorAllow, BrowserContextID: p.context(), DownloadPath: p.downloads, EventsEnabled: &on})
		return err
	})
	script := h.before
	if len(h.stored) > 0 {
		text, err := json.Marshal(h.stored)
		if err != nil {
			t.Fatal(err)
		}
		script += fmt.Sprintf(";if (!sessionStorage.laid) { sessionStorage.laid = 1; for (const [k, v] of Object.entries(%s)) localStorage.setItem(k, v); }", text)
	}
	if script != "" {
		p.do("set a script before the page's own", func() error {
			_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
			return err
		})
	}
	p.visit(bench.site.URL + "/" + h.fragment)
	if !h.broken {
		p.ready()
	}
	return p
}

// context returns the id of the tab's browser context.
func (p *tab) context() cdp.BrowserContextID { return chromedp.FromContext(p.ctx).BrowserContextID }

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

// listen notes complaints and requests to other hosts.
func (p *tab) listen() {
	p.t.Helper()
	if err := chromedp.Do(p.ctx); err != nil { // opens the tab
		p.t.Fatalf("a tab does not open: %v", err)
	}
	messages := chromedp.Console(p.ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			switch m.Type {
			case chromedp.ConsoleLog, "debug", "info":
				continue
			}
			p.mu.Lock()
			p.complaints = append(p.complaints, string(m.Type)+": "+m.Text)
			p.mu.Unlock()
		}
	}()
	own, _ := url.Parse(bench.site.URL)
	err := chromedp.Listen(p.ctx, func(event any) {
		sent, ok := event.(*network.EventRequestWillBeSent)
		if !ok {
			return
		}
		u, err := url.Parse(sent.Request.URL)
		if err == nil && (u.Host == own.Host || u.Scheme == "blob" || u.Scheme == "data") {
			return
		}
		p.mu.Lock()
		p.strangers = append(p.strangers, sent.Request.URL)
		p.mu.Unlock()
	})
	if err != nil {
		p.t.Fatalf("the tab cannot be listened to: %v", err)
	}
	p.do("watch the network", func() error {
		_, err := chromedp.Call(p.ctx, network.Enable, network.EnableParams{})
		return err
	})
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

// wait asks for a condition in the page until it is true.
func (p *tab) wait(what, condition string) {
	p.t.Helper()
	end := time.Now().Add(patience)
	for !eval[bool](p, "Boolean("+condition+")") {
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
