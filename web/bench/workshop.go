package main

import (
	"context"
	_ "embed"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

//go:embed clipper.mjs
var clipperModule []byte

//go:embed gobench.mjs
var goBenchModule []byte

// workshop is a browser with a small local site of its own, on which everything that is compared runs in one tab.
type workshop struct {
	tab     context.Context
	end     context.CancelFunc
	server  *http.Server
	address string
	files   map[string]string // address path to a file on disk, filled before it is asked for
}

// newWorkshop starts the site and the browser, and opens the page.
func newWorkshop(ctx context.Context, o options) (*workshop, error) {
	path, err := findChromium(o.browser)
	if err != nil {
		return nil, err
	}
	goroot, err := output(ctx, nil, "go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	w := &workshop{files: map[string]string{"/wasm_exec.js": filepath.Join(goroot, "lib/wasm/wasm_exec.js")}}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("the measuring page has no port: %w", err)
	}
	w.address = "http://" + listener.Addr().String() + "/"
	w.server = &http.Server{Handler: w}
	go func() { _ = w.server.Serve(listener) }() // ends with close
	if w.tab, w.end, err = startBrowser(ctx, path); err != nil {
		_ = w.server.Close()
		return nil, fmt.Errorf("%s does not start: %w", path, err)
	}
	if err := navigate(w.tab, w.address); err != nil {
		w.close()
		return nil, fmt.Errorf("the measuring page does not open: %w", err)
	}
	return w, nil
}

func (w *workshop) close() {
	w.end()
	_ = w.server.Close()
}

// ServeHTTP gives the page, its modules, and the files put there. The two cross-origin headers give the page the fine
// clock (5 µs in place of 100).
func (w *workshop) ServeHTTP(out http.ResponseWriter, r *http.Request) {
	h := out.Header()
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Embedder-Policy", "require-corp")
	h.Set("Cache-Control", "no-store")
	switch r.URL.Path {
	case "/":
		h.Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprint(out, `<!doctype html><title>measuring</title><link rel="icon" href="data:,">`+
			`<script src="wasm_exec.js"></script>`)
	case "/clipper.mjs":
		h.Set("Content-Type", "text/javascript")
		_, _ = out.Write(clipperModule)
	case "/gobench.mjs":
		h.Set("Content-Type", "text/javascript")
		_, _ = out.Write(goBenchModule)
	default:
		path, ok := w.files[r.URL.Path]
		if !ok {
			http.NotFound(out, r)
			return
		}
		if strings.HasSuffix(path, ".js") {
			h.Set("Content-Type", "text/javascript")
		}
		http.ServeFile(out, r, path)
	}
}

// output runs a program, with more in its environment, and returns what it printed, trimmed. The error holds what it
// complained of.
func output(ctx context.Context, environment []string, name string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(os.Environ(), environment...)
	var complaints strings.Builder
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %w\n%s%s", name, strings.Join(args, " "), err, out, complaints.String())
	}
	return strings.TrimSpace(string(out)), nil
}
