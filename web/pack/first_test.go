package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestFirstPictureGoesWhereThePageWantsIt(t *testing.T) {
	got := string(putFirst([]byte("<p>"+firstPlace+"</p>"), []byte("<svg/>\n")))
	if !strings.HasPrefix(got, "<p><div") || !strings.Contains(got, "<svg/></div></p>") {
		t.Error(got)
	}
	if got := string(putFirst([]byte("<p></p>"), []byte("<svg/>"))); got != "<p></p>" {
		t.Errorf("a page that wants none has one: %s", got)
	}
}

// Every module the page imports is fetched at once, not one level after the other; index.html has the first picture's
// place once.
func TestModulesAreFetchedAtOnce(t *testing.T) {
	page, err := os.ReadFile("../index.html")
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(page, []byte(firstPlace)); n != 1 {
		t.Errorf("the first picture's place is there %d times", n)
	}
	modules, err := filepath.Glob("../js/*.mjs")
	if err != nil || len(modules) == 0 {
		t.Fatal(err, len(modules))
	}
	for _, m := range modules {
		name := filepath.Base(m)
		if !regexp.MustCompile(`(modulepreload" href|type="module" src)="js/` + regexp.QuoteMeta(name) +
			`"`).Match(page) {
			t.Errorf("index.html does not fetch js/%s at once", name)
		}
	}
	for _, m := range regexp.MustCompile(`modulepreload" href="([^"]+)"`).FindAllSubmatch(page, -1) {
		if _, err := os.Stat(filepath.Join("..", string(m[1]))); err != nil {
			t.Errorf("index.html fetches %s, which is not there", m[1])
		}
	}
}
