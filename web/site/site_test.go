package site

import (
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
)

// page is a small packed folder. The compressed bodies are only marks: this package never opens them.
func page() fstest.MapFS {
	file := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	return fstest.MapFS{
		"index.html":     file("<!doctype html>"),
		"index.html.br":  file("index in br"),
		"index.html.gz":  file("index in gz"),
		"js/main.mjs":    file("export {}"),
		"worker.js":      file("// worker"),
		"editor.wasm":    file("\x00asm"),
		"editor.wasm.br": file("wasm in br"),
		"style.css":      file("body{}"),
		"picture.svg":    file("<svg/>"),
		"plain.gz":       file("an archive of its own"),
	}
}

func ask(t *testing.T, h http.Handler, method, path string, header map[string]string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, path, nil)
	for k, v := range header {
		r.Header.Set(k, v)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) string {
	t.Helper()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func newSite(t *testing.T) *Site {
	t.Helper()
	s, err := New(page())
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestFilesAndTheirTypes(t *testing.T) {
	s := newSite(t)
	for _, c := range []struct {
		path, mime, want string
	}{
		{"/", "text/html; charset=utf-8", "<!doctype html>"},
		{"/index.html", "text/html; charset=utf-8", "<!doctype html>"},
		{"/js/main.mjs", "text/javascript; charset=utf-8", "export {}"},
		{"/worker.js", "text/javascript; charset=utf-8", "// worker"},
		{"/editor.wasm", "application/wasm", "\x00asm"},
		{"/style.css", "text/css; charset=utf-8", "body{}"},
		{"/picture.svg", "image/svg+xml", "<svg/>"},
		{"/plain.gz", "application/octet-stream", "an archive of its own"},
	} {
		t.Run(c.path, func(t *testing.T) {
			r := ask(t, s, "GET", c.path, nil)
			if got := body(t, r); r.StatusCode != 200 || got != c.want {
				t.Errorf("status %d, body %q; want 200, %q", r.StatusCode, got, c.want)
			}
			if got := r.Header.Get("Content-Type"); got != c.mime {
				t.Errorf("type %q, want %q", got, c.mime)
			}
			if got := r.Header.Get("Content-Encoding"); got != "" {
				t.Errorf("encoded as %q though nobody asked", got)
			}
		})
	}
}

func TestWhatIsNotThere(t *testing.T) {
	s := newSite(t)
	for _, path := range []string{"/nothing", "/js", "/js/", "/index.html.br", "/editor.wasm.br", "/../site.go",
		"//index.html"} {
		r := ask(t, s, "GET", path, nil)
		if r.StatusCode != 404 {
			t.Errorf("%s: status %d, want 404", path, r.StatusCode)
		}
		if r.Header.Get("Content-Security-Policy") != Policy {
			t.Errorf("%s: an error page goes out without the policy", path)
		}
	}
}

func TestMethods(t *testing.T) {
	s := newSite(t)
	for _, m := range []string{"POST", "PUT", "DELETE", "OPTIONS"} {
		r := ask(t, s, m, "/", nil)
		if r.StatusCode != 405 || r.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: status %d, Allow %q; want 405 and GET, HEAD", m, r.StatusCode, r.Header.Get("Allow"))
		}
	}
	r := ask(t, s, "HEAD", "/style.css", nil)
	if r.StatusCode != 200 || body(t, r) != "" || r.Header.Get("Content-Length") != "6" {
		t.Errorf("HEAD: status %d, length %q; want 200, 6 and no body", r.StatusCode, r.Header.Get("Content-Length"))
	}
}

func TestEncodings(t *testing.T) {
	s := newSite(t)
	for _, c := range []struct {
		name, path, accept, encoding, body string
	}{
		{"nothing asked", "/", "", "", "<!doctype html>"},
		{"what a browser sends", "/", "gzip, deflate, br, zstd", "br", "index in br"},
		{"gzip only", "/", "gzip", "gzip", "index in gz"},
		{"br ruled out", "/", "br;q=0, gzip", "gzip", "index in gz"},
		{"gzip weighed higher", "/", "br;q=0.2, gzip;q=0.9", "gzip", "index in gz"},
		{"anything", "/", "*", "br", "index in br"},
		{"anything but br", "/", "*, br;q=0", "gzip", "index in gz"},
		{"the file as it is, weighed higher", "/", "identity, br;q=0.5", "", "<!doctype html>"},
		{"all ruled out", "/", "*;q=0", "", "<!doctype html>"},
		{"upper case and spaces", "/", " BR ; Q=0.7 ", "br", "index in br"},
		{"a weight that is no number", "/", "br;q=NaN, gzip;q=0.1", "gzip", "index in gz"},
		{"no gzip beside this file", "/editor.wasm", "gzip", "", "\x00asm"},
		{"br beside this file", "/editor.wasm", "gzip, br", "br", "wasm in br"},
		{"nothing beside this file", "/style.css", "gzip, br", "", "body{}"},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := map[string]string{}
			if c.accept != "" {
				h["Accept-Encoding"] = c.accept
			}
			r := ask(t, s, "GET", c.path, h)
			if got := r.Header.Get("Content-Encoding"); got != c.encoding {
				t.Errorf("encoding %q, want %q", got, c.encoding)
			}
			if got := body(t, r); got != c.body {
				t.Errorf("body %q, want %q", got, c.body)
			}
			wantVary := "Accept-Encoding"
			if c.path == "/style.css" {
				wantVary = ""
			}
			if got := r.Header.Get("Vary"); got != wantVary {
				t.Errorf("Vary %q, want %q", got, wantVary)
			}
		})
	}
}

func TestTagsAndNotModified(t *testing.T) {
	s := newSite(t)
	plain := ask(t, s, "GET", "/", nil).Header.Get("ETag")
	br := ask(t, s, "GET", "/", map[string]string{"Accept-Encoding": "br"}).Header.Get("ETag")
	if plain == "" || br == "" || plain == br {
		t.Fatalf("tags %q and %q: each encoding needs its own", plain, br)
	}
	for _, c := range []struct {
		name, match, accept string
		want                int
	}{
		{"the same", plain, "", 304},
		{"the same, weak", "W/" + plain, "", 304},
		{"in a list", `"old", ` + plain, "", 304},
		{"anything", "*", "", 304},
		{"an old one", `"old"`, "", 200},
		{"the other encoding's", br, "", 200},
		{"br's own", br, "br", 304},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := ask(t, s, "GET", "/", map[string]string{"If-None-Match": c.match, "Accept-Encoding": c.accept})
			if r.StatusCode != c.want {
				t.Errorf("status %d, want %d", r.StatusCode, c.want)
			}
			if c.want == 304 && (body(t, r) != "" || r.Header.Get("ETag") == "" ||
				r.Header.Get("Cache-Control") != "no-cache") {
				t.Errorf("a 304 has a tag, a cache rule and no body")
			}
		})
	}
	changed := page()
	changed["index.html"] = &fstest.MapFile{Data: []byte("<!doctype html><p>")}
	s2, err := New(changed)
	if err != nil {
		t.Fatal(err)
	}
	if got := ask(t, s2, "GET", "/", nil).Header.Get("ETag"); got == plain {
		t.Error("other bytes have the same tag")
	}
}

func TestHeaders(t *testing.T) {
	r := ask(t, newSite(t), "GET", "/", nil)
	for name, want := range map[string]string{
		"Cache-Control":                "no-cache",
		"X-Content-Type-Options":       "nosniff",
		"Referrer-Policy":              "no-referrer",
		"Cross-Origin-Opener-Policy":   "same-origin",
		"Cross-Origin-Embedder-Policy": "require-corp",
		"Cross-Origin-Resource-Policy": "same-origin",
	} {
		t.Run(name, func(t *testing.T) {
			if got := r.Header.Get(name); got != want {
				t.Errorf("%q, want %q", got, want)
			}
		})
	}
	rules := directives(r.Header.Get("Content-Security-Policy"))
	for name, want := range map[string]string{
		"default-src": "'none'", "script-src": "'self' 'wasm-unsafe-eval'", "style-src": "'self'",
		"img-src": "'self' blob: data:", "connect-src": "'self'", "worker-src": "'self'", "font-src": "'none'",
		"base-uri": "'none'", "form-action": "'none'", "frame-ancestors": "'none'",
	} {
		t.Run(name, func(t *testing.T) {
			if rules[name] != want {
				t.Errorf("policy: %s is %q, want %q", name, rules[name], want)
			}
		})
	}
}

func TestAFolderThatIsNoPage(t *testing.T) {
	if _, err := New(fstest.MapFS{"a.txt": &fstest.MapFile{}}); err == nil ||
		!strings.Contains(err.Error(), "index.html") {
		t.Errorf("a folder without index.html: %v", err)
	}
	if _, err := New(os.DirFS("no such folder")); err == nil {
		t.Error("a folder that is not there: no error")
	}
}

// TestPageRepeatsThePolicy holds the meta element in the page to the header, so that a plain static host is as strict.
func TestPageRepeatsThePolicy(t *testing.T) {
	html, err := os.ReadFile("../index.html")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?s)<meta\s+http-equiv="Content-Security-Policy"\s+content="([^"]*)"`).FindSubmatch(html)
	if m == nil {
		t.Fatal(`web/index.html has no <meta http-equiv="Content-Security-Policy" content="…">`)
	}
	page, header := directives(string(m[1])), directives(strings.TrimSuffix(Policy, FrameRule))
	for name, want := range header {
		got, said := page[name]
		if !said && strings.HasSuffix(name, "-src") {
			got = page["default-src"] // what a policy says of a kind of source it does not name
		}
		if got != want {
			t.Errorf("%s: the page says %q, the server %q", name, got, want)
		}
	}
	for name := range page {
		if _, ok := header[name]; !ok {
			t.Errorf("%s: only the page says it", name)
		}
	}
}

// directives splits a policy into its rules, white space made single.
func directives(policy string) map[string]string {
	out := map[string]string{}
	for d := range strings.SplitSeq(policy, ";") {
		if f := strings.Fields(d); len(f) > 0 {
			out[f[0]] = strings.Join(f[1:], " ")
		}
	}
	return out
}
