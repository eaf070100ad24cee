package main

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"time"

	"github.com/chromedp/chromedp"
)

// patience is how long one step in the browser may take before it counts as hung.
const patience = 5 * time.Minute

// findChromium returns the path of the browser.
func findChromium(flagged string) (string, error) {
	if flagged != "" {
		return flagged, nil
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "",
		errors.New(
			"there is no Chromium on the PATH: the Debian package chromium brings it, or name one with -chromium")
}

// startBrowser starts a new Chromium with an empty profile and one tab. The software renderer is allowed, for machines
// without a graphics card; the sandbox is off only for root, which Chromium refuses to run with it.
func startBrowser(ctx context.Context, path string) (context.Context, context.CancelFunc, error) {
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.WindowSize(1280, 800),
		chromedp.Flag("enable-unsafe-swiftshader", true),
	)
	if os.Getuid() == 0 {
		options = append(options, chromedp.NoSandbox)
	}
	allocated, endAllocated := chromedp.NewExecAllocator(ctx, options...)
	tab, endTab := chromedp.NewContext(allocated)
	end := func() { endTab(); endAllocated() }
	if err := chromedp.Do(tab); err != nil { // starts it, without a time limit: that would end the browser with it
		end()
		return nil, nil, err
	}
	return tab, end, nil
}

// evaluate runs an expression in the tab, waits for its promise, and returns its value.
func evaluate[T any](tab context.Context, expression string) (T, error) {
	limited, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	return chromedp.Run(limited, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

// navigate opens an address in the tab.
func navigate(tab context.Context, address string) error {
	limited, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	return chromedp.Do(limited, chromedp.Navigate(address))
}
