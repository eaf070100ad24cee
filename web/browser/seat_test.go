package browser

import (
	"context"
	"fmt"
	"net/url"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// seat is a tab of the browser without the test that sits at it, in a browser context of its own or of another seat.
type seat struct {
	ctx    context.Context
	end    context.CancelFunc
	script page.ScriptIdentifier // that runs before the page's own; "" for none

	mu         sync.Mutex
	complaints []string // what the console said, and exceptions
	strangers  []string // addresses of other hosts that were asked for
}

// sit returns the seat that is free, cleared, or a new one where there is none or it has to be another.
func sit(t *testing.T, h how) *seat {
	t.Helper()
	s := bench.free
	if s == nil || h.within != nil || h.alone {
		return newSeat(t, h.within)
	}
	bench.free = nil
	if err := s.clear(); err != nil {
		s.end()
		t.Fatalf("the tab of the test before cannot be cleared: %v", err)
	}
	return s
}

// leave gives the tab to the next test, or ends it.
func (p *tab) leave(h how) {
	switch {
	case p.t.Failed() || h.within != nil || h.alone:
		p.end()
	case h.used && bench.used == nil:
		bench.used = p.seat
	case !h.used && bench.free == nil:
		bench.free = p.seat
	default:
		p.end()
	}
}

// newSeat opens a tab: in the browser context of another one, or in a new one, with empty storage.
func newSeat(t *testing.T, within *tab) *seat {
	t.Helper()
	option := chromedp.WithNewBrowserContext()
	if within != nil {
		option = chromedp.WithExistingBrowserContext(within.context())
	}
	s := &seat{}
	s.ctx, s.end = chromedp.NewContext(bench.browser, option)
	if err := s.listen(); err != nil {
		s.end()
		t.Fatalf("a tab does not open: %v", err)
	}
	if _, err := chromedp.Call(s.ctx, emulation.SetFocusEmulationEnabled,
		emulation.SetFocusEmulationEnabledParams{Enabled: true}); err != nil {
		s.end()
		t.Fatalf("the tab gets no focus: %v", err)
	}
	return s
}

// context returns the id of the tab's browser context.
func (s *seat) context() cdp.BrowserContextID { return chromedp.FromContext(s.ctx).BrowserContextID }

// emptyStorage empties what a page may keep, and says what is left. A database that the page of before still holds open
// is deleted once that page is all gone.
const emptyStorage = `(async () => {
	localStorage.clear();
	sessionStorage.clear();
	for (const {name} of await indexedDB.databases()) {
		await new Promise((done, fail) => {
			const request = indexedDB.deleteDatabase(name);
			request.onsuccess = done;
			request.onerror = () => fail(new Error(name + " cannot be deleted"));
		});
	}
	return localStorage.length + sessionStorage.length + (await indexedDB.databases()).length;
})()`

// clear takes the tab off the page, to a file of the same host that runs no script, and then takes away all that a test
// can have left: what is stored, scripts, permissions, the emulated system's theme, where the mouse is, complaints.
func (s *seat) clear() error {
	limited, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	if s.script != "" {
		if _, err := chromedp.Call(limited, page.RemoveScriptToEvaluateOnNewDocument,
			page.RemoveScriptToEvaluateOnNewDocumentParams{Identifier: s.script}); err != nil {
			return err
		}
		s.script = ""
	}
	if err := chromedp.Do(limited, chromedp.Navigate(bench.site.URL+"/style.css")); err != nil {
		return err
	}

	left, err := chromedp.Run(limited, chromedp.Evaluate[int](emptyStorage, chromedp.EvalAwaitPromise))
	if err == nil && left > 0 {
		err = fmt.Errorf("%d things are still stored", left)
	}
	if err != nil {
		return err
	}
	return s.calm()
}

// calm takes back what a test can have told the browser of the tab, and forgets what the tab complained of.
func (s *seat) calm() error {
	limited, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	if _, err := chromedp.CallBrowser(limited, browser.ResetPermissions,
		browser.ResetPermissionsParams{BrowserContextID: s.context()}); err != nil {
		return err
	}
	if _, err := chromedp.Call(limited, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme"}}}); err != nil {
		return err
	}
	if err := chromedp.Do(limited, chromedp.MouseEvent(chromedp.MouseMoved, 0, 0)); err != nil {
		return err
	}

	s.mu.Lock()
	defer s.mu.Unlock()
	s.complaints, s.strangers = nil, nil
	return nil
}

// listen notes complaints and requests to other hosts.
func (s *seat) listen() error {
	if err := chromedp.Do(s.ctx); err != nil { // opens the tab
		return err
	}
	messages := chromedp.Console(s.ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			switch m.Type {
			case chromedp.ConsoleLog, "debug", "info":
				continue
			}
			s.mu.Lock()
			s.complaints = append(s.complaints, string(m.Type)+": "+m.Text)
			s.mu.Unlock()
		}
	}()
	own, _ := url.Parse(bench.site.URL)
	err := chromedp.Listen(s.ctx, func(event any) {
		sent, ok := event.(*network.EventRequestWillBeSent)
		if !ok {
			return
		}
		u, err := url.Parse(sent.Request.URL)
		if err == nil && (u.Host == own.Host || u.Scheme == "blob" || u.Scheme == "data") {
			return
		}
		s.mu.Lock()
		s.strangers = append(s.strangers, sent.Request.URL)
		s.mu.Unlock()
	})
	if err != nil {
		return err
	}
	_, err = chromedp.Call(s.ctx, network.Enable, network.EnableParams{})
	return err
}
