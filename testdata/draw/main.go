// Command draw makes the drawings and drafts under testdata, all of them drawn here as points and curves.
//
//	go run ./testdata/draw            writes the files again, from the root of the repository
//	go run ./testdata/draw -look DIR  also renders large pictures of each into DIR, to look at
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
)

func main() {
	look := flag.String("look", "", "also render pictures into this folder")
	to := flag.String("to", "testdata", "the folder that holds drawings and drafts")
	flag.Parse()
	if err := run(*to, *look); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(to, look string) error {
	files, err := made()
	if err != nil {
		return err
	}
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		if err := os.WriteFile(filepath.Join(to, name), files[name], 0o644); err != nil {
			return err
		}
	}
	readme := filepath.Join(to, "README.md")
	text, err := os.ReadFile(readme)
	if err != nil {
		return err
	}
	if err := os.WriteFile(readme, checksums(text, files), 0o644); err != nil {
		return err
	}
	if look == "" {
		return nil
	}
	drawings, err := all()
	if err != nil {
		return err
	}
	for _, d := range drawings {
		lo, hi := bounds(d.ring)
		fmt.Printf("%s: %d points, %.1f × %.1f mm\n", d.id, len(d.ring)-1, hi.x-lo.x, hi.y-lo.y)
		if err := portrait(d, look); err != nil {
			return err
		}
	}
	for name, d := range drafts(drawings) {
		if err := wall(d, name, look, 1.6); err != nil {
			return err
		}
	}
	return nil
}

// all draws every silhouette, by id.
func all() (map[string]drawing, error) {
	out := map[string]drawing{}
	for _, draw := range []func() (drawing, error){carp, heron, moth, leaf} {
		d, err := draw()
		if err != nil {
			return nil, err
		}
		out[d.id] = d
	}
	return out, nil
}

// made gives the bytes of every file this command writes, by its path under testdata.
func made() (map[string][]byte, error) {
	d, err := all()
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{}
	for id, one := range d {
		out["drawings/"+id+".svg"] = one.svg()
	}
	if out["drawings/carp-scan.png"], err = scan(d["carp"]); err != nil {
		return nil, err
	}
	for name, one := range drafts(d) {
		if out["drafts/"+name+".openwork.json"], err = one.text(); err != nil {
			return nil, err
		}
	}
	return out, nil
}
