package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// takePictures adds the SVG pictures of a folder to the page's files, in a folder of their own; an empty name adds
// none.
func takePictures(files map[string][]byte, dir string) error {
	if dir == "" {
		return nil
	}
	found, err := filepath.Glob(filepath.Join(dir, "*.svg"))
	if err != nil {
		return fmt.Errorf("-pictures %s: %w", dir, err)
	}
	if len(found) == 0 {
		return fmt.Errorf("there is no SVG picture in %s", dir)
	}
	for _, path := range found {
		if files["pictures/"+filepath.Base(path)], err = os.ReadFile(path); err != nil {
			return fmt.Errorf("the picture %s cannot be read: %w", path, err)
		}
	}
	return nil
}
