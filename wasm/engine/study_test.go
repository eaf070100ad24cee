//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"openwork/pattern/jobsheet"
	"openwork/pattern/study/pages"
)

// study and job write PDFs as their flags ask, and print what they hold.
func TestStudyAndJobWriteFiles(t *testing.T) {
	dir, demo := t.TempDir(), smallDemoFile(t)
	write := func(made any, args ...string) []byte {
		t.Helper()
		path := filepath.Join(dir, "a.PDF")
		var out bytes.Buffer
		if err := run(append(args, demo, "-o", path), &out); err != nil {
			t.Fatalf("%v: %v", args, err)
		}
		if err := json.Unmarshal(out.Bytes(), made); err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(path)
		if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
			t.Fatalf("%v: %.20q, %v", args, data, err)
		}
		return data
	}
	var small, large pages.Made
	few, many := write(&large, "study", "-paper", "a3", "-draw", "full"),
		write(&small, "study", "-way", "upright", "-overlap", "20", "-marks=false", "-cell")
	if large.Paper != "A3" || small.Paper != "A4" || small.Lying || large.Pages >= small.Pages ||
		small.Pages != small.Rows*small.Columns+1 || large.Bytes != len(few) || small.Bytes != len(many) {
		t.Errorf("A3 %+v, A4 %+v", large, small)
	}
	var slow, fast jobsheet.Made
	write(&slow, "job", "-speed", "5", "-rate", "60", "-paper", "Letter")
	write(&fast, "job", "-speed", "50", "-holes", "0")
	if slow.Cost == nil || fast.Cost != nil || slow.Seconds < 5*fast.Seconds || len(slow.Holes) != 3 ||
		len(fast.Holes) != 0 || !slow.Code {
		t.Errorf("slow %+v, fast %+v", slow, fast)
	}
	for _, args := range [][]string{{"study", demoFile}, {"study", demoFile, "-o", "a.png"},
		{"job", demoFile, "-o", ""}} {
		if err := run(args, &bytes.Buffer{}); !errors.Is(err, errUsage) {
			t.Errorf("%v: %v", args, err)
		}
	}
	for _, args := range [][]string{{"study", demoFile, "-paper", "B5"}, {"study", demoFile, "-correction", "40"},
		{"job", demoFile, "-speed", "-1"}} {
		path := filepath.Join(dir, "none.pdf")
		if err := run(append(args, "-o", path), &bytes.Buffer{}); err == nil {
			t.Errorf("%v was done", args)
		}
		if _, err := os.Stat(path); err == nil {
			t.Errorf("%v left a file", args)
		}
	}
}
