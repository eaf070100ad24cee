// Package firefox tests that the page does its main job in Firefox too, in a window on a screen in memory: what the
// tests in the folder above do in Chromium at length. Nothing here measures time.
package firefox

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync/atomic"
	"testing"

	"openwork/web/site"
)

// leaf is a drawing of one closed outline.
const leaf = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30">` +
	`<path d="M2 15C14 0 42 0 58 15C42 30 14 30 2 15Z"/></svg>`

// The main job: open, drag, bring a drawing in, choose a group, the cut file, the link, reload, and all of it kept
// without a network.
func TestMainJob(t *testing.T) {
	handler, err := site.New(os.DirFS("../../dist"))
	if err != nil {
		t.Fatalf("web/dist cannot be served; ./build.sh pack makes it: %v", err)
	}
	var down atomic.Bool // the network
	host := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if down.Load() {
			panic(http.ErrAbortHandler)
		}
		handler.ServeHTTP(w, r)
	}))
	defer host.Close()
	downloads := t.TempDir()
	d := start(t, downloads)

	d.open(host.URL + "/")
	d.settled()
	if n := len(d.draft().Motifs); n < 2 {
		t.Fatalf("the page should begin on the demonstration; it has %d motifs", n)
	}
	d.dragCopy()
	d.bringIn()
	d.chooseGroup("p2")
	d.keep("firefox")

	d.click("[data-step=make] .step-head")
	d.cutFile(downloads)

	want := d.text()
	d.reload()
	if d.text() != want {
		t.Error("after a reload there is another draft")
	}
	fragment := tell[string](d, `JSON.parse(openwork.link()).fragment ?? ""`)
	if !strings.HasPrefix(fragment, "#") {
		t.Fatalf("the link is %q", fragment)
	}
	d.open(host.URL + "/" + fragment)
	if got := d.draft(); got.Repeat.Group != "p2" || len(got.Silhouettes) != len(decode(t, want).Silhouettes) {
		t.Errorf("the link opens a draft in %s with %d silhouettes", got.Repeat.Group, len(got.Silhouettes))
	}

	d.wait("the service worker", `navigator.serviceWorker.controller?.state === "activated"`)
	kept := d.text()
	down.Store(true)
	d.reload()
	if d.text() != kept {
		t.Error("without a network there is another draft")
	}
	d.settled() // by an engine that was kept too
}
