package browser

import (
	"bytes"
	"io/fs"
	"net/http"
	"os"
	"path"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"openwork/web/site"
)

// inFolder is where a test may lay a page of its own, on the host of all tests.
const inFolder = "some/folder/"

// folder serves what a test laid into it, or nothing: then the line is cut, as without a network.
type folder struct {
	mu     sync.Mutex
	served http.Handler
}

func (f *folder) lay(page http.Handler) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.served = page
}

// beside returns a handler that answers for the folder, and passes everything else on.
func (f *folder) beside(other http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		rest, within := strings.CutPrefix(r.URL.Path, "/"+inFolder)
		if !within {
			other.ServeHTTP(w, r)
			return
		}
		f.mu.Lock()
		page := f.served
		f.mu.Unlock()
		if page == nil {
			panic(http.ErrAbortHandler)
		}
		r.URL.Path = "/" + rest
		page.ServeHTTP(w, r)
	})
}

// plainHost serves the packed page as any static host does, compressed files and headers of our own left out. A version
// other than "" stands in the place of the packed one.
func plainHost(t *testing.T, version string) http.Handler {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(os.DirFS(dist), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) == ".br" || path.Ext(name) == ".gz" {
			return err
		}
		data, err := os.ReadFile(dist + "/" + name)
		if version != "" && name == "offline.js" {
			at := bytes.Index(data, []byte("VERSION = '")) + len("VERSION = '")
			data = append(append(append([]byte(nil), data[:at]...), version...), data[at+len(version):]...)
		}
		files[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	page, err := site.New(files)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// The page is kept by the browser: without a network it opens again from any folder, with the draft and an engine, and
// so does a new worker. A new version says so and waits for a press.
func TestWithoutANetwork(t *testing.T) {
	bench.folder.lay(plainHost(t, ""))
	defer bench.folder.lay(nil)
	p := open(t, how{alone: true, worker: true, folder: inFolder})
	p.forgiven = append(p.forgiven, "Failed to load resource", "ERR_EMPTY_RESPONSE",
		"An unknown error occurred when fetching the script")
	p.installable()
	p.wait("the service worker", `navigator.serviceWorker.controller?.state === "activated"`)
	p.cell("207")
	want := p.text()

	bench.folder.lay(nil)
	p.reload()
	p.is(want, "without a network")
	p.settled()
	if s := p.view().Verdict.State; s != "holds" && s != "fails" {
		t.Errorf("without a network the engine gives no verdict: %q", p.verdict())
	}
	said := eval[string](p, `document.getElementById("version").textContent`)
	if !strings.Contains(said, "version "+packedVersion(t)) {
		t.Errorf("the page says %q", said)
	}
	if eval[bool](p, `!document.getElementById("newer").hidden`) {
		t.Error("a new version is offered, and there is none")
	}

	p.readGuide()
	p.strike("Escape", 0)

	bench.folder.lay(plainHost(t, "00000000"))
	eval[bool](p, `navigator.serviceWorker.getRegistration().then((r) => r.update()).then(() => true)`)
	p.wait("the new version", `!document.getElementById("newer").hidden`)
	p.drawn()
	p.keep("newer")
	p.is(want, "while a new version waits")
	p.arrive(func() { p.click("#newer-take") })
	if kept := eval[[]string](p, `caches.keys()`); len(kept) != 1 || !strings.HasSuffix(kept[0], " 00000000") {
		t.Errorf("after the new version was taken, kept are %q", kept)
	}
	p.is(want, "after the new version was taken")
}

// packedVersion is the version that the packed page's service worker has.
func packedVersion(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(dist + "/offline.js")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(data), "VERSION = '")
	version, _, found := strings.Cut(rest, "'")
	if !found || len(version) != 8 {
		t.Fatalf("the service worker has no version: %.80q", rest)
	}
	return version
}

// installable holds what makes the page one that can be installed: a manifest of its own folder, every icon of the size
// that it says, and nothing that the browser itself has against it.
func (p *tab) installable() {
	p.t.Helper()
	wrong := eval[[]string](p, `(async () => {
		const address = document.querySelector("link[rel=manifest]").href;
		const sent = await fetch(address);
		const type = sent.headers.get("content-type"), wrong = [];
		if (type !== "application/manifest+json") wrong.push(type);
		const manifest = await sent.json();
		if (new URL(manifest.start_url, address).href !== new URL("./", location).href) wrong.push(manifest.start_url);
		for (const {src, sizes} of manifest.icons) {
			const image = new Image();
			image.src = new URL(src, address);
			await image.decode();
			const size = image.naturalWidth + "x" + image.naturalHeight;
			if (sizes !== "any" && sizes !== size) wrong.push(src + " is " + size);
		}
		return wrong;
	})()`)
	for _, each := range wrong {
		p.t.Error(each)
	}

	told, err := chromedp.Call(p.ctx, page.GetInstallabilityErrors, cdp.Empty{})
	if err != nil {
		p.t.Fatal(err)
	}
	for _, e := range told.InstallabilityErrors {
		if e.ErrorID != "in-incognito" { // as all tabs of the tests are
			p.t.Errorf("the browser would not install the page: %s", e.ErrorID)
		}
	}
}

// arrive waits until a page that was left has been loaded anew and set up; while it goes, nothing can be asked.
func (p *tab) arrive(leave func()) {
	p.t.Helper()
	eval[bool](p, `(window.left = true)`)
	leave()
	const there = `!window.left && performance.getEntriesByName("openwork:first-drawing").length > 0`
	for end := time.Now().Add(patience); ; {
		if done, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](there)); err == nil && done {
			return
		}
		if time.Now().After(end) {
			p.t.Fatal("the page does not come again")
		}
		time.Sleep(40 * time.Millisecond) // between two questions
	}
}
