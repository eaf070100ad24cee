package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// pageEndings are the endings of files that belong to the page.
var pageEndings = map[string]bool{
	".html": true, ".css": true, ".js": true, ".mjs": true, ".json": true, ".svg": true, ".png": true, ".jpg": true,
	".webp": true, ".ico": true, ".txt": true, ".webmanifest": true,
}

// gather reads the page's files below root, by their slash-separated names: those with a page's ending, tests
// (*.test.mjs) left out. A folder below root that holds Go files is a program or a test and no part of the page, nor is
// one named testdata, dist or dist-…, or with a leading dot.
func gather(root string) (map[string][]byte, error) {
	files := map[string][]byte{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if path == root {
				return nil
			}
			other, err := notThePage(path)
			if err == nil && other {
				return filepath.SkipDir
			}
			return err
		}
		if !pageEndings[filepath.Ext(path)] || strings.HasSuffix(path, ".test.mjs") ||
			strings.HasPrefix(d.Name(), ".") {
			return nil
		}
		name, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		files[filepath.ToSlash(name)], err = os.ReadFile(path)
		return err
	})

	if err != nil {
		return nil, fmt.Errorf("the page's files cannot be gathered: %w", err)
	}
	if files["index.html"] == nil {
		return nil, fmt.Errorf("there is no index.html in %s", root)
	}
	return files, nil
}

// notThePage says whether a folder is left out.
func notThePage(dir string) (bool, error) {
	base := filepath.Base(dir)
	if base == "testdata" || base == "dist" || strings.HasPrefix(base, "dist-") || strings.HasPrefix(base, ".") {
		return true, nil
	}
	goFiles, err := filepath.Glob(filepath.Join(dir, "*.go"))
	return len(goFiles) > 0, err
}
