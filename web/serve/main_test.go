package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

func noEnv(string) string { return "" }

// pageFolder makes a folder with the least a page needs.
func pageFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "index.html"), []byte("<!doctype html>"), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestServesUntilStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	in, out := io.Pipe()
	done := make(chan error, 1)
	dir := pageFolder(t)
	go func() { done <- run(ctx, []string{"-dir", dir, "-port", "0"}, noEnv, out) }()
	line, err := bufio.NewReader(in).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	address := regexp.MustCompile(`http://localhost:\d+`).FindString(line)
	if address == "" {
		t.Fatalf("no address in %q", line)
	}
	r, err := http.Get(address + "/")
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r.Body)
	r.Body.Close()
	if err != nil || string(text) != "<!doctype html>" {
		t.Errorf("got %q, %v", text, err)
	}
	stop()
	select {
	case err := <-done:
		if err != nil {
			t.Errorf("stopped with %v, want nothing", err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("did not stop")
	}
	if _, err := http.Get(address + "/"); err == nil {
		t.Error("still answers after it was stopped")
	}
}

func TestTakenPortSaysSo(t *testing.T) {
	taken, err := net.Listen("tcp", "localhost:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	port := strconv.Itoa(taken.Addr().(*net.TCPAddr).Port)
	env := func(name string) string { return map[string]string{"PORT": port}[name] }
	err = run(context.Background(), []string{"-dir", pageFolder(t)}, env, io.Discard)
	if err == nil || !strings.Contains(err.Error(), "port "+port+" is taken") ||
		!strings.Contains(err.Error(), "PORT=") {
		t.Errorf("got %v; want a sentence that names port %s and the way out", err, port)
	}
}

func TestPortNumber(t *testing.T) {
	for _, c := range []struct {
		flagged, environment string
		want                 int
		wrong                string // what the error names; empty for none
	}{
		{"", "", 8017, ""},
		{"", "9000", 9000, ""},
		{"9001", "9000", 9001, ""},
		{"0", "", 0, ""},
		{"", "0", 0, ""},
		{"65536", "", 0, "-port"},
		{"", "-1", 0, "PORT"},
		{"", "http", 0, "PORT"},
	} {
		t.Run(fmt.Sprintf("-port %q PORT=%q", c.flagged, c.environment), func(t *testing.T) {
			got, err := portNumber(c.flagged, c.environment)
			if c.wrong != "" {
				if err == nil || !strings.HasPrefix(err.Error(), c.wrong+":") {
					t.Errorf("%q: error %v, want one that names %s", c.environment, err, c.wrong)
				}
			} else if err != nil || got != c.want {
				t.Errorf("%q: %d, %v; want %d", c.environment, got, err, c.want)
			}
		})
	}
}

func TestBadUse(t *testing.T) {
	empty := t.TempDir()
	for _, c := range []struct {
		name string
		args []string
		says string
	}{
		{"a folder that is not there", []string{"-dir", filepath.Join(empty, "none")}, "./build.sh"},
		{"a folder that is no page", []string{"-dir", empty}, "index.html"},
		{"a word too many", []string{"please"}, `"please"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := run(context.Background(), c.args, noEnv, io.Discard)
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%v; want an error that says %s", err, c.says)
			}
		})
	}
}
