// Package browser tests the packed page as a person meets it: in a real browser, through real pointer, key and touch
// events, with what comes out of it read by other readers.
//
// One Chromium serves the whole package. Every test has the page loaded anew, with empty storage and as if it had been
// the first; but it is loaded in the tab that the test before left (seat_test.go), as a browser that has compiled the
// programs once does not do so again. The page is served from web/dist by the same handler as in the program. Nothing
// here measures time: a wait asks for a condition until a generous deadline, and says what it waited for when that
// passes.
package browser

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"openwork/web/site"
)

const (
	// dist is the packed page, from this folder.
	dist = "../dist"
	// artefacts is where screenshots are kept for people to look at.
	artefacts = "../../artefacts"
	// patience is how long any one condition may take on a slow, busy machine without a graphics card.
	patience = 90 * time.Second
)

// bench is what all tests share.
var bench struct {
	browser context.Context
	free    *seat // that nobody sits at; nil: none
	used    *seat // the same, with a page in it that tests may use one after the other
	site    *httptest.Server
	folder  folder // of the same host, that a test may lay a page into
	outside *listener
}

func TestMain(m *testing.M) {
	code, err := run(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(code)
}

func run(m *testing.M) (int, error) {
	files := os.DirFS(dist)
	if _, err := fs.Stat(files, "index.html"); err != nil {
		return 0, errors.New("web/dist is not there or is not whole: run ./build.sh pack first, then these tests")
	}
	handler, err := site.New(files)
	if err != nil {
		return 0, fmt.Errorf("web/dist cannot be served; ./build.sh pack makes it anew: %w", err)
	}
	path, err := findChromium()
	if err != nil {
		return 0, err
	}
	if err := os.MkdirAll(filepath.Join(artefacts, "faults"), 0o755); err != nil {
		return 0, fmt.Errorf("the folder for screenshots cannot be made: %w", err)
	}
	bench.site = httptest.NewServer(bench.folder.beside(handler))
	defer bench.site.Close()
	bench.outside = listen()
	defer bench.outside.Close()
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.WindowSize(1440, 900),
		chromedp.Flag("enable-unsafe-swiftshader", true),
		// The processor draws: in a process of its own it would only be waited for.
		chromedp.Flag("in-process-gpu", true),
		// Every test loads the programs anew: what is not gone through very often need not be compiled twice.
		chromedp.Flag("js-flags", "--wasm-tiering-budget=100000000"),
		// Whatever is asked of another host goes to the listener, which notes it.
		chromedp.ProxyServer(bench.outside.URL),
		chromedp.Flag("proxy-bypass-list", "127.0.0.1"),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-features",
			"Translate,BlinkGenPropertyTrees,AutofillServerCommunication,OptimizationHints,"+
				"MediaRouter,NetworkTimeServiceQuerying"),
	)
	if os.Getuid() == 0 {
		options = append(options, chromedp.NoSandbox)
	}
	allocated, endAllocated := chromedp.NewExecAllocator(context.Background(), options...)
	defer endAllocated()
	browser, end := chromedp.NewContext(allocated)
	defer end()
	if err := chromedp.Do(browser); err != nil { // starts it, without a time limit: that would end the browser with it
		return 0, fmt.Errorf("%s does not start: %w", path, err)
	}
	bench.browser = browser
	return m.Run(), nil
}

// findChromium returns the path of Chromium without its windows, menus and autofill, where it is there, and otherwise
// of the whole one, in which the tests take a third longer.
func findChromium() (string, error) {
	for _, name := range []string{"chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", errors.New("there is no Chromium on the PATH: the Debian package chromium-headless-shell brings it " +
		"(./build.sh test installs it where it may)")
}

// rsvg returns the path of the independent SVG reader.
func rsvg(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Fatal("there is no rsvg-convert on the PATH: the Debian package librsvg2-bin brings it " +
			"(./build.sh test installs it where it may)")
	}
	return path
}

// listener stands for every other host: it notes what it is asked for, and refuses.
type listener struct {
	*httptest.Server
	mu    sync.Mutex
	asked []string
}

func listen() *listener {
	l := &listener{}
	l.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host := r.Host
		if h, _, err := net.SplitHostPort(host); err == nil {
			host = h
		}
		l.note(r.Method, host, r.URL.Path)
		http.Error(w, "There is nothing outside.", http.StatusForbidden)
	}))
	return l
}

// ownErrands are hosts that Chromium asks on its own account (updates, the time, autofill), whatever page is open, and
// however many of its switches say not to.
var ownErrands = []string{"google.com", "googleapis.com", "gvt1.com"}

// note keeps a request, unless it is one of the browser's own errands.
func (l *listener) note(method, host, path string) {
	for _, own := range ownErrands {
		if host == own || strings.HasSuffix(host, "."+own) {
			return
		}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.asked = append(l.asked, method+" "+host+" "+path)
}

// since returns what was asked after the first n requests.
func (l *listener) since(n int) []string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return append([]string(nil), l.asked[min(n, len(l.asked)):]...)
}
