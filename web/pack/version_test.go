package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"maps"
	"regexp"
	"testing"
)

// page is a small page with a service worker.
func page() map[string][]byte {
	return map[string][]byte{"index.html": []byte("<p>version <!-- version --></p>"), "a.css": []byte("a"),
		"offline.js": []byte("const V = /* version */''; const F = /* files */{};")}
}

// versionOf returns the version that a packed service worker has, and its files.
func versionOf(t *testing.T, files map[string][]byte) (string, map[string]string) {
	t.Helper()
	m := regexp.MustCompile(`(?s)V = '([0-9a-f]{8})'; const F = (\{.*\});`).FindSubmatch(files["offline.js"])
	if m == nil {
		t.Fatalf("the service worker is %s", files["offline.js"])
	}
	list := map[string]string{}
	if err := json.Unmarshal(m[2], &list); err != nil {
		t.Fatal(err)
	}
	return string(m[1]), list
}

func TestVersion(t *testing.T) {
	files := page()
	if err := putVersion(files); err != nil {
		t.Fatal(err)
	}
	version, list := versionOf(t, files)
	if !bytes.Contains(files["index.html"], []byte("version "+version)) {
		t.Errorf("the index says %s, and the version is %s", files["index.html"], version)
	}
	if len(list) != 2 {
		t.Errorf("the files are %v", list)
	}
	for name, hash := range list {
		sum := sha256.Sum256(files[name]) // as it is sent
		if want := "sha256-" + base64.StdEncoding.EncodeToString(sum[:]); hash != want {
			t.Errorf("%s has the hash %s, not %s", name, hash, want)
		}
	}

	same := page()
	other := page()
	other["a.css"] = []byte("b")
	for _, f := range []map[string][]byte{same, other} {
		if err := putVersion(f); err != nil {
			t.Fatal(err)
		}
	}
	if !maps.EqualFunc(same, files, bytes.Equal) {
		t.Error("the same files are packed differently")
	}
	if again, _ := versionOf(t, other); again == version {
		t.Error("another file makes no other version")
	}
}

func TestVersionNeedsItsPlaces(t *testing.T) {
	for name, spoil := range map[string]func(map[string][]byte){
		"index":   func(f map[string][]byte) { f["index.html"] = []byte("<p></p>") },
		"version": func(f map[string][]byte) { f["offline.js"] = []byte("const F = /* files */{};") },
		"twice":   func(f map[string][]byte) { f["index.html"] = append(f["index.html"], f["index.html"]...) },
	} {
		t.Run(name, func(t *testing.T) {
			files := page()
			spoil(files)
			if putVersion(files) == nil {
				t.Error("nobody says so")
			}
		})
	}
	plain := map[string][]byte{"index.html": []byte("i")}
	if err := putVersion(plain); err != nil || string(plain["index.html"]) != "i" {
		t.Errorf("a page without a service worker: %v", err)
	}
}
