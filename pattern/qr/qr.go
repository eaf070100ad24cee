// Package qr writes QR codes (ISO/IEC 18004) of bytes, at the error correction levels L and M.
package qr

import (
	"fmt"

	"github.com/boombuler/barcode/qr"
)

// MaxBytes is what the largest code holds, at level L (ISO/IEC 18004, table 7).
const MaxBytes = 2953

// maxBytesM is what the largest code holds at level M.
const maxBytesM = 2331

// Level is how much of a code may be spoilt and still be read: L some 7 %, M some 15 %.
type Level int

// The levels.
const (
	L Level = iota
	M
)

// Code is a QR code: Size × Size modules, without the quiet zone of four modules that it needs on every side.
type Code struct {
	Version, Size int

	dark []bool
}

// Dark reports whether a module is dark, x to the right and y downward from the upper left one.
func (c *Code) Dark(x, y int) bool { return c.dark[y*c.Size+x] }

// Encode makes the smallest code at a level that holds the data. It fails when the data is longer than any holds.
func Encode(data []byte, level Level) (*Code, error) {
	correction, limit := qr.L, MaxBytes
	if level == M {
		correction, limit = qr.M, maxBytesM
	}
	if len(data) > limit {
		return nil, fmt.Errorf("%d bytes are more than the %d that a QR code holds", len(data), limit)
	}

	// The mode called Unicode writes bytes as they are.
	made, err := qr.Encode(string(data), correction, qr.Unicode)
	if err != nil {
		return nil, fmt.Errorf("the QR code of %d bytes could not be made: %w", len(data), err)
	}
	size := made.Bounds().Dx()
	c := &Code{Version: (size - 17) / 4, Size: size, dark: make([]bool, size*size)}
	for y := range size {
		for x := range size {
			r, _, _, _ := made.At(x, y).RGBA()
			c.dark[y*size+x] = r == 0
		}
	}
	return c, nil
}
