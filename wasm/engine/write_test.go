//go:build !js

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// names returns what is in a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestFilesComeWholeOrNotAtAll(t *testing.T) {
	data := []byte("new\n")
	for _, c := range []struct {
		name  string
		files []string // asked for; "old" is there before, "folder" is a folder, "link" leads to old
		want  string   // of the sentence; empty: it is done
		left  []string // besides old, folder and link
		kept  bool     // old is as it was
	}{
		{"one", []string{"a"}, "", []string{"a"}, true},
		{"two", []string{"a", "b"}, "", []string{"a", "b"}, true},
		{"over another", []string{"old"}, "", nil, false},
		{"over another, with more", []string{"a", "old", "b"}, "", []string{"a", "b"}, false},
		{"through a link", []string{"link"}, "", nil, false},
		{"a name that is a folder", []string{"folder"}, "is a folder", nil, true},
		{"a folder that is not there", []string{"nowhere/a"}, "no such file", nil, true},
		{"the last a folder", []string{"old", "a", "folder"}, "is a folder", nil, true},
		{"the last nowhere", []string{"a", "old", "nowhere/a"}, "no such file", nil, true},
		{"one name twice", []string{"a", "a"}, "asked for twice", nil, true},
		{"one name twice, through a link", []string{"old", "link"}, "asked for twice", nil, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			if err := os.WriteFile(filepath.Join(dir, "old"), []byte("old\n"), 0o600); err != nil {
				t.Fatal(err)
			}
			if err := os.Mkdir(filepath.Join(dir, "folder"), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.Symlink("old", filepath.Join(dir, "link")); err != nil {
				t.Fatal(err)
			}
			var files []outFile
			for _, f := range c.files {
				files = append(files, outFile{filepath.Join(dir, f), data})
			}
			err := writeFiles(files...)
			if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
				t.Errorf("%v", err)
			}
			want := append([]string{"folder", "link", "old"}, c.left...)
			slices.Sort(want)
			if got := names(t, dir); !slices.Equal(got, want) {
				t.Errorf("there are %q, want %q", got, want)
			}
			old, err := os.ReadFile(filepath.Join(dir, "old"))
			if err != nil || (string(old) == "old\n") != c.kept {
				t.Errorf("the old file reads %q: %v", old, err)
			}
			if info, err := os.Stat(filepath.Join(dir, "old")); err != nil || info.Mode().Perm() != 0o600 {
				t.Errorf("the old file's rights became %v: %v", info.Mode(), err)
			}
			for _, f := range c.left {
				if got, err := os.ReadFile(filepath.Join(dir, f)); err != nil || !bytes.Equal(got, data) {
					t.Errorf("%s reads %q: %v", f, got, err)
				}
			}
		})
	}
}

// A name that cannot be given any more, when the others have theirs already, takes these back.
func TestNamesAreTakenBack(t *testing.T) {
	dir := t.TempDir()
	for _, f := range []string{"a", "b"} {
		if err := os.WriteFile(filepath.Join(dir, f), []byte("old"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var staged []*stagedFile
	for _, f := range []string{"a", "b", "c"} {
		s, err := stage(outFile{filepath.Join(dir, f), []byte("new")})
		if err != nil {
			t.Fatal(err)
		}
		staged = append(staged, s)
	}
	if err := os.Mkdir(filepath.Join(dir, "c"), 0o755); err != nil { // meanwhile
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "c", "full"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := placeAll(staged); err == nil {
		t.Error("a folder was written over")
	}
	if got := names(t, dir); !slices.Equal(got, []string{"a", "b", "c"}) {
		t.Errorf("there are %q", got)
	}
	for _, f := range []string{"a", "b"} {
		if data, err := os.ReadFile(filepath.Join(dir, f)); err != nil || string(data) != "old" {
			t.Errorf("%s reads %q: %v", f, data, err)
		}
	}
}

// limited is set in the child process that writes with a limit on the size of files, as on a disk that fills up.
const limited = "OPENWORK_TEST_LIMITED"

// A disk that is full half way through leaves nothing under the asked name, and what stood there stands.
func TestWriteThatFailsHalfWay(t *testing.T) {
	if os.Getenv(limited) != "" {
		if err := run([]string{"cut", smallDemoFile(t), "-o", os.Getenv(limited)}, &bytes.Buffer{}); err == nil ||
			!strings.Contains(err.Error(), "could not be written") {
			t.Errorf("it was written: %v", err)
		}
		return
	}
	shell, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("there is no bash to set the limit")
	}
	for name, before := range map[string][]string{"new": nil, "over another": {"a.svg"}} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "a.svg")
			for _, f := range before {
				if err := os.WriteFile(filepath.Join(dir, f), []byte("old"), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			// A limit of 8 KB on the size of files; the signal that comes with it is left aside, so that the write
			// returns its error.
			c := exec.Command(shell, "-c",
				`trap '' XFSZ; ulimit -f 8; exec "$0" -test.run '^TestWriteThatFailsHalfWay$' -test.count 1`,
				os.Args[0])
			c.Env = append(os.Environ(), limited+"="+path)
			if out, err := c.CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			if got := names(t, dir); !slices.Equal(got, before) {
				t.Errorf("there are %q, want %q", got, before)
			}
			if data, err := os.ReadFile(path); len(before) > 0 && (err != nil || string(data) != "old") {
				t.Errorf("what stood there reads %.20q: %v", data, err)
			}
		})
	}
}

// The map of a stepping sheet that cannot be written takes the sheet with it, and so does a part of joined sheets.
func TestSheetsAndTheirMapComeTogether(t *testing.T) {
	dir, demo := t.TempDir(), smallDemoFile(t)
	for _, args := range [][]string{
		{"steps", demo, "-o", filepath.Join(dir, "a.svg"), "-map", filepath.Join(dir, "nowhere", "map.pdf")},
		{"join", demo, "-bed", "260x240", "-o", filepath.Join(dir, "a.svg")},
	} {
		t.Run(args[0], func(t *testing.T) {
			folder := filepath.Join(dir, "a-3.svg")
			if err := os.Mkdir(folder, 0o755); err != nil && !errors.Is(err, os.ErrExist) {
				t.Fatal(err)
			}
			var out bytes.Buffer
			if err := run(args, &out); err == nil || errors.Is(err, errUnsound) || out.Len() > 0 {
				t.Errorf("%v, and %q was printed", err, out.String())
			}
			if got := names(t, dir); !slices.Equal(got, []string{"a-3.svg"}) {
				t.Errorf("there are %q", got)
			}
		})
	}
}
