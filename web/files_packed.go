//go:build packed

// Package web hands the packed page (web/dist) to the program that serves it.
package web

import (
	"embed"
	"io/fs"
)

//go:embed dist
var dist embed.FS

// Packed returns the page's files when they are inside this binary, and false when it was built without them.
func Packed() (fs.FS, bool) {
	files, err := fs.Sub(dist, "dist")
	return files, err == nil
}
