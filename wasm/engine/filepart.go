package main

import (
	"bytes"
	"io"

	"openwork/pattern/cutplan"
)

// filePart is one of several cut files in a block of bytes: where it stands there, and what was made.
type filePart struct {
	Offset int          `json:"offset"`
	Length int          `json:"length"`
	Made   cutplan.Made `json:"made"`
}

// appendFile writes a cut file at the end of a block and says where it stands.
func appendFile(all *bytes.Buffer, write func(io.Writer) (cutplan.Made, error)) (filePart, error) {
	from := all.Len()
	made, err := write(all)
	return filePart{from, all.Len() - from, made}, err
}

// in returns the file's bytes.
func (p filePart) in(all []byte) []byte { return all[p.Offset : p.Offset+p.Length] }
