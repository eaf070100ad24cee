// Package qr writes QR codes (ISO/IEC 18004): bytes, in versions 1 to 40, at the error correction levels L and M.
package qr

import "fmt"

// MostBytes is what the largest code holds, at level L.
const MostBytes = 2953

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
	Level         Level
	Mask          int
	dark          []bool
	fixed         []bool // finders, timing, alignment, format and version: not masked
}

// Dark reports whether a module is dark, x to the right and y downward from the upper left one.
func (c *Code) Dark(x, y int) bool { return c.dark[y*c.Size+x] }

// Encode makes the smallest code at a level that holds the data. It fails when the data is longer than any holds.
func Encode(data []byte, level Level) (*Code, error) {
	for version := 1; version <= 40; version++ {
		if len(data) <= capacity(version, level) {
			return encode(data, version, level, -1), nil
		}
	}
	return nil, fmt.Errorf("%d bytes are more than the %d that a QR code holds", len(data), capacity(40, level))
}

// Tables of ISO/IEC 18004, table 9, by level and version: code words for error correction in a block, and blocks. From memory,
// and tested by an independent reader in every version.
var (
	correction = [2][41]int{
		{0, 7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28, 30, 30, 26, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
		{0, 10, 16, 26, 18, 24, 16, 18, 22, 22, 26, 30, 22, 22, 24, 24, 28, 28, 26, 26, 26, 26, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28},
	}
	blocks = [2][41]int{
		{0, 1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9, 9, 10, 12, 12, 12, 13, 14, 15, 16, 17, 18, 19, 19, 20, 21, 22, 24, 25},
		{0, 1, 1, 1, 2, 2, 4, 4, 4, 5, 5, 5, 8, 9, 9, 10, 10, 11, 13, 14, 16, 17, 17, 18, 20, 21, 23, 25, 26, 28, 29, 31, 33, 35, 37, 38, 40, 43, 45, 47, 49},
	}
)

// modules returns how many modules of a version carry code words.
func modules(version int) int {
	n := 16*version*version + 128*version + 64
	if version >= 2 {
		a := version/7 + 2
		n -= (25*a-10)*a - 55
		if version >= 7 {
			n -= 36
		}
	}
	return n
}

// dataWords returns how many code words of a version are data.
func dataWords(version int, level Level) int {
	return modules(version)/8 - correction[level][version]*blocks[level][version]
}

// lengthBits of the count of bytes.
func lengthBits(version int) int {
	if version < 10 {
		return 8
	}
	return 16
}

// capacity returns how many bytes a version holds.
func capacity(version int, level Level) int {
	return (dataWords(version, level)*8 - 4 - lengthBits(version)) / 8
}

// encode makes a code of a version that holds the data; with a mask below 0 the one that serves best.
func encode(data []byte, version int, level Level, mask int) *Code {
	c := &Code{Version: version, Size: 17 + 4*version, Level: level}
	c.dark, c.fixed = make([]bool, c.Size*c.Size), make([]bool, c.Size*c.Size)
	c.patterns()
	c.lay(words(data, version, level))
	if mask < 0 {
		least := -1
		for m := range 8 {
			c.mask(m)
			c.format(m)
			if p := c.penalty(); least < 0 || p < least {
				least, mask = p, m
			}
			c.mask(m) // and off again
		}
	}
	c.Mask = mask
	c.mask(mask)
	c.format(mask)
	return c
}

// words returns the code words in the order in which they are laid: data of all blocks in turn, then their corrections.
func words(data []byte, version int, level Level) []byte {
	total := dataWords(version, level)
	var b bits
	b.add(0b0100, 4) // bytes
	b.add(len(data), lengthBits(version))
	for _, v := range data {
		b.add(int(v), 8)
	}
	b.add(0, min(4, total*8-b.n))
	b.add(0, (8-b.n%8)%8)
	for pad := 0xec; len(b.bytes) < total; pad ^= 0xec ^ 0x11 {
		b.add(pad, 8)
	}
	n, check := blocks[level][version], correction[level][version]
	divisor := generator(check)
	short := total / n // the last total mod n blocks are one longer
	var block, rest [][]byte
	at := 0
	for k := range n {
		size := short
		if k >= n-total%n {
			size++
		}
		block = append(block, b.bytes[at:at+size])
		rest = append(rest, remainder(b.bytes[at:at+size], divisor))
		at += size
	}
	var out []byte
	for i := range short + 1 {
		for _, v := range block {
			if i < len(v) {
				out = append(out, v[i])
			}
		}
	}
	for i := range check {
		for _, v := range rest {
			out = append(out, v[i])
		}
	}
	return out
}

// bits are put together to bytes, highest first.
type bits struct {
	bytes []byte
	n     int
}

func (b *bits) add(v, count int) {
	for k := count - 1; k >= 0; k-- {
		if b.n%8 == 0 {
			b.bytes = append(b.bytes, 0)
		}
		b.bytes[b.n/8] |= byte(v>>k&1) << (7 - b.n%8)
		b.n++
	}
}
