//go:build !js

package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// endless gives noughts for ever and counts them.
type endless struct{ n int64 }

func (e *endless) Read(p []byte) (int, error) {
	clear(p)
	e.n += int64(len(p))
	return len(p), nil
}

func TestReadingStopsAtTheLimit(t *testing.T) {
	const limit = 1 << 20
	e := &endless{}
	if data, err := readUpTo(e, "a pipe", limit); err == nil || data != nil ||
		err.Error() != "a pipe has more than 1 MB; files up to 1 MB are read" || e.n > limit+1 {
		t.Errorf("%d bytes were read, %d kept: %v", e.n, len(data), err)
	}
	if data, err := readUpTo(bytes.NewReader(make([]byte, limit)), "a file", limit); err != nil || len(data) != limit {
		t.Errorf("as many as may be: %d bytes, %v", len(data), err)
	}
	if _, err := readFile(filepath.Join(t.TempDir(), "none"), limit); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
}

// Files of 2 GB, mostly holes, are refused without being read: what is allocated is counted.
func TestHugeFilesAreRefusedUnread(t *testing.T) {
	for _, c := range []struct {
		name, verb, want string
		limit            uint64 // bytes that refusing may allocate
	}{
		{"huge.png", "trace", "has 2048 MB; files up to 128 MB are read", 1 << 20},
		{"huge.svg", "trace", "has 2048 MB; files up to 128 MB are read", 1 << 20},
		{"huge.openwork.json", "check", "the draft has more than 64 MB", 1 << 20},
		{"huge.openwork.json", "cut -o a.svg", "the draft has more than 64 MB", 1 << 20},
	} {
		t.Run(c.verb+" "+c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), c.name)
			if err := os.WriteFile(path, []byte("{"), 0o644); err != nil {
				t.Fatal(err)
			}
			if err := os.Truncate(path, 2<<30); err != nil {
				t.Skipf("no file with holes can be made here: %v", err)
			}
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			err := run(append(strings.Fields(c.verb), path), &bytes.Buffer{})
			runtime.ReadMemStats(&after)
			if err == nil || errors.Is(err, errUnsound) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v", err)
			}
			if n := after.TotalAlloc - before.TotalAlloc; n > c.limit {
				t.Errorf("%d bytes were allocated", n)
			}
		})
	}
}
