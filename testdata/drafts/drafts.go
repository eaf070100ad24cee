// Package drafts holds the drafts that tests and measurements begin with, so that they can be read in the browser too.
package drafts

import _ "embed"

// HeronOverCarp is a tight field of two silhouettes that holds, as its file has it.
//
//go:embed heron-over-carp.openwork.json
var HeronOverCarp []byte

// HeronWithRoom is the draft the page starts on, as its file has it.
//
//go:embed heron-with-room.openwork.json
var HeronWithRoom []byte
