//go:build !packed

// Package web hands the packed page (web/dist) to the program that serves it.
//
// The build tag packed puts the folder into the binary; without it there is nothing to embed, so that a fresh clone
// compiles, vets and tests before the page was ever packed.
package web

import "io/fs"

// Packed returns the page's files when they are inside this binary, and false when it was built without them.
func Packed() (fs.FS, bool) { return nil, false }
