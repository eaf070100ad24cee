// Slow reads what go test -json writes, prints it as go test would without it, and remembers how long each test took,
// so that the slowest can be named at the end.
//
//	go test -json ./... | go run ./web/slow -times FILE        prints, and adds to FILE
//	go run ./web/slow -times FILE -name 10                     names the ten slowest of FILE
package main

import (
	"bufio"
	"cmp"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// event is one line of go test -json; see go doc test2json.
type event struct {
	Action, Package, Test, Output string
	Elapsed                       float64 // s, of a test or a package that has ended
}

// took is how long a test took, in s.
type took struct {
	Package, Test string
	Seconds       float64
}

func main() {
	path := flag.String("times", "", "file that keeps how long tests took")
	all := flag.Bool("v", false, "print what tests that pass say, too")
	name := flag.Int("name", 0, "name so many of the slowest tests, and read nothing")
	flag.Parse()
	err := run(*path, *all, *name)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(path string, all bool, name int) error {
	flags := os.O_CREATE | os.O_APPEND | os.O_WRONLY
	if name > 0 {
		flags = os.O_RDONLY
	}
	times, err := os.OpenFile(path, flags, 0o644)
	if err != nil {
		return fmt.Errorf("-times: %w", err)
	}
	defer times.Close()
	if name > 0 {
		return nameSlowest(times, name, os.Stdout)
	}
	return follow(os.Stdin, os.Stdout, times, all)
}

// follow prints what the events say: of a package that passes its last line, of one that fails all, and with all set
// everything as it comes. It writes the times of whole tests, not of their parts. A line that is no event is printed.
func follow(in io.Reader, out, times io.Writer, all bool) error {
	said := map[string][]event{} // by package
	write := json.NewEncoder(times)
	lines := bufio.NewScanner(in)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil || e.Action == "" {
			fmt.Fprintln(out, lines.Text())
			continue
		}
		ended := e.Action == "pass" || e.Action == "fail"
		switch {
		case e.Output != "" && all, e.Action == "build-output":
			fmt.Fprint(out, e.Output)
		case e.Output != "":
			said[e.Package] = append(said[e.Package], e)
		case ended && e.Test == "":
			words := said[e.Package]
			if e.Action == "pass" && len(words) > 0 {
				words = words[len(words)-1:]
			}
			for _, each := range words {
				fmt.Fprint(out, each.Output)
			}
			delete(said, e.Package)
		}

		if e.Test == "" {
			continue
		}
		if e.Action == "pass" || e.Action == "skip" { // go test says nothing of those
			said[e.Package] = slices.DeleteFunc(said[e.Package], func(each event) bool { return each.Test == e.Test })
		}
		if ended && !strings.Contains(e.Test, "/") {
			if err := write.Encode(took{e.Package, e.Test, e.Elapsed}); err != nil {
				return err
			}
		}
	}
	return lines.Err()
}

// nameSlowest prints the slowest tests of a file of times, the slowest first.
func nameSlowest(times io.Reader, n int, out io.Writer) error {
	var list []took
	for read := json.NewDecoder(times); ; {
		var t took
		if err := read.Decode(&t); err == io.EOF {
			break
		} else if err != nil {
			return fmt.Errorf("the file of times: %w", err)
		}
		list = append(list, t)
	}
	slices.SortStableFunc(list, func(a, b took) int { return cmp.Compare(b.Seconds, a.Seconds) })
	for _, t := range list[:min(n, len(list))] {
		fmt.Fprintf(out, "%6.1f s  %s in %s\n", t.Seconds, t.Test, t.Package)
	}
	return nil
}
