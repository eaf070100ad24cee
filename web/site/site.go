// Package site serves a packed page: static files only, compressed when it was packed, with the headers that keep it to
// its own host.
//
// All files are read once, when the site is made. They stay in memory (some 20 MB), so an answer costs no disk and no
// compression, and a page that is packed again is seen by the next start only.
package site

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
)

// endings maps an encoding to what packing adds to the name of the file that holds it.
var endings = map[string]string{"br": ".br", "gzip": ".gz"}

// variant is one file's bytes in one encoding.
type variant struct {
	body []byte
	etag string
}

// asset is one address: its type, and its bytes by encoding, identity always among them.
type asset struct {
	mime     string
	variants map[string]variant
}

// Site answers for every file of one folder. It is safe for use by many requests at once.
type Site struct{ assets map[string]asset }

// New reads all files of the folder. A file next to which the same name plus .br or .gz lies is sent in that encoding
// to whoever accepts it; those two have no address of their own. A folder without index.html is an error.
func New(files fs.FS) (*Site, error) {
	s := &Site{assets: map[string]asset{}}
	packed := map[string]bool{}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		packed[name] = true
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("the page's folder cannot be read: %w", err)
	}

	for name := range packed {
		if isVariant(name, packed) {
			continue
		}
		a := asset{mime: typeOf(name), variants: map[string]variant{}}
		for enc, ending := range map[string]string{identity: "", "br": endings["br"], "gzip": endings["gzip"]} {
			if !packed[name+ending] {
				continue
			}
			body, err := fs.ReadFile(files, name+ending)
			if err != nil {
				return nil, fmt.Errorf("%s cannot be read: %w", name+ending, err)
			}
			sum := sha256.Sum256(body)
			a.variants[enc] = variant{body, `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`}
		}
		s.assets["/"+name] = a
	}

	index, ok := s.assets["/index.html"]
	if !ok {
		return nil, fmt.Errorf("index.html is not in the page's folder")
	}
	s.assets["/"] = index
	return s, nil
}

// isVariant says whether a file is only another encoding of a file beside it.
func isVariant(name string, packed map[string]bool) bool {
	for _, ending := range endings {
		if plain, ok := strings.CutSuffix(name, ending); ok && packed[plain] {
			return true
		}
	}
	return false
}

// ServeHTTP answers GET and HEAD for the files, 304 when the asker has the same bytes already, 404 and 405 otherwise.
func (s *Site) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	setHeaders(h)
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		h.Set("Allow", "GET, HEAD")
		http.Error(w, "Only GET and HEAD are answered here.", http.StatusMethodNotAllowed)
		return
	}
	a, ok := s.assets[r.URL.Path]
	if !ok {
		h.Set("Cache-Control", "no-store")
		http.Error(w, "There is no file "+path.Base(r.URL.Path)+" here.", http.StatusNotFound)
		return
	}
	enc := choose(strings.Join(r.Header.Values("Accept-Encoding"), ","), func(e string) bool {
		_, ok := a.variants[e]
		return ok
	})
	v := a.variants[enc]
	h.Set("Content-Type", a.mime)
	h.Set("Cache-Control", "no-cache") // keep it, but ask each time: an ETag makes that a short answer
	h.Set("ETag", v.etag)
	if len(a.variants) > 1 {
		h.Set("Vary", "Accept-Encoding")
	}
	if matches(r.Header.Values("If-None-Match"), v.etag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	if enc != identity {
		h.Set("Content-Encoding", enc)
	}
	h.Set("Content-Length", strconv.Itoa(len(v.body)))
	w.WriteHeader(http.StatusOK)
	if r.Method == http.MethodGet {
		_, _ = w.Write(v.body) // the asker may have gone; there is nobody left to tell
	}
}

// matches says whether an If-None-Match header names the tag; weak tags count, as RFC 9110 (13.1.2) has it.
func matches(headers []string, etag string) bool {
	for item := range strings.SplitSeq(strings.Join(headers, ","), ",") {
		item = strings.TrimPrefix(strings.TrimSpace(item), "W/")
		if item == "*" || item == etag {
			return true
		}
	}
	return false
}
