// Pack puts the page together in one folder, web/dist, which any static host can serve as it lies: the page's files,
// the two wasm programs, Go's loader for them, and next to each file its compressed forms. It fails when a wasm program
// is over its budget, and then leaves the folder as it was.
//
// It is run by ./build.sh, from the root of the repository.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run gathers, compresses, weighs, and only then puts the new folder in the place of the old one.
func run(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("pack", flag.ContinueOnError)
	from := flags.String("from", "web", "folder with the page's files")
	wasm := flags.String("wasm", ".cache/wasm", "folder with editor.wasm and engine.wasm")
	demo := flags.String("demo", "testdata/drafts/heron-with-room.openwork.json", "the draft the page starts on")
	scenes := flags.String("scenes", "testdata/drafts/scene-*.openwork.json",
		"further drafts that the empty bench offers, as a pattern of paths")
	first := flags.String("first", "",
		"an SVG of that draft, for the page to show until its editor draws; none when empty")
	pictures := flags.String("pictures", "",
		"a folder with SVG pictures of examples and for the guide; none when empty")
	loader := flags.String("loader", "", "Go's wasm_exec.js")
	to := flags.String("to", "web/dist", "folder to make")
	cache := flags.String("cache", ".cache/brotli", "folder that keeps compressed files by their content")
	plain := flags.Bool("plain", false, "compress nothing and weigh nothing: for tests, which need not wait for that")
	only := flags.Bool("weigh", false, "hold the wasm programs against their budgets, and write no page")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if *only {
		return weighPrograms(*wasm, *cache, out)
	}
	if *loader == "" {
		return errors.New("-loader is missing: give the path of wasm_exec.js in Go's own folder, lib/wasm")
	}
	files, err := gather(*from)
	if err != nil {
		return err
	}

	for name, path := range map[string]string{
		"demo.openwork.json": *demo,
		"wasm_exec.js":       *loader,
		"editor.wasm":        filepath.Join(*wasm, "editor.wasm"),
		"engine.wasm":        filepath.Join(*wasm, "engine.wasm"),
	} {
		if files[name], err = os.ReadFile(path); err != nil {
			return fmt.Errorf("%s cannot be read: %w", name, err)
		}
	}

	further, err := filepath.Glob(*scenes)
	if err != nil {
		return fmt.Errorf("-scenes %s: %w", *scenes, err)
	}
	for _, path := range further {
		if files[filepath.Base(path)], err = os.ReadFile(path); err != nil {
			return fmt.Errorf("%s cannot be read: %w", path, err)
		}
	}

	if err := takePictures(files, *pictures); err != nil {
		return err
	}
	if *first != "" {
		drawing, err := os.ReadFile(*first)
		if err != nil {
			return fmt.Errorf("the first picture cannot be read: %w", err)
		}
		files["index.html"] = putFirst(files["index.html"], drawing)
	}
	if err := putVersion(files); err != nil {
		return err
	}
	if *plain {
		return replace(*to, uncompressed(files))
	}
	packed, err := compressAll(files, *cache)
	if err != nil {
		return err
	}
	if err := weigh(packed, budgets, out); err != nil {
		return err
	}
	return replace(*to, packed)
}

// replace writes the files into a new folder beside dir and then lets it take dir's place, so that a failure on the way
// leaves the old one whole.
func replace(dir string, packed []packedFile) error {
	if err := os.MkdirAll(filepath.Dir(dir), 0o755); err != nil {
		return fmt.Errorf("%s cannot be made: %w", filepath.Dir(dir), err)
	}
	fresh, err := os.MkdirTemp(filepath.Dir(dir), filepath.Base(dir)+"-")
	if err != nil {
		return fmt.Errorf("no room for a new folder beside %s: %w", dir, err)
	}
	defer os.RemoveAll(fresh) // nothing is left there after the rename

	for _, f := range packed {
		for _, part := range []struct {
			ending string
			data   []byte
		}{{"", f.plain}, {".gz", f.gzip}, {".br", f.brotli}} {
			if part.data == nil {
				continue
			}
			path := filepath.Join(fresh, filepath.FromSlash(f.name)) + part.ending
			if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
				return fmt.Errorf("%s cannot be made: %w", filepath.Dir(path), err)
			}
			if err := os.WriteFile(path, part.data, 0o644); err != nil {
				return fmt.Errorf("%s cannot be written: %w", path, err)
			}
		}
	}

	if err := os.Chmod(fresh, 0o755); err != nil {
		return err
	}
	if err := os.RemoveAll(dir); err != nil {
		return fmt.Errorf("the old %s cannot be removed: %w", dir, err)
	}
	return os.Rename(fresh, dir)
}
