package pdf

import (
	"encoding/binary"
	"hash/crc32"
	"maps"
	"math"
	"slices"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// face is a TrueType font as far as it takes to write in it and to embed the letters that were written. Names of tables
// and fields are those of the OpenType specification (ISO/IEC 14496-22).
type face struct {
	name    string // its PostScript name
	data    []byte
	tables  map[string][]byte
	em      float64 // units of the font to the letters' size
	glyphs  map[rune]uint16
	metrics int // rows of hmtx with a width of their own; the glyphs after them are as wide as the last
	long    bool
}

// The fonts that are embedded have Latin, Greek and Cyrillic letters. They are the Go fonts by Bigelow & Holmes, under
// the same BSD licence as Go.
var faces = [...]func() *face{
	Sans:     sync.OnceValue(func() *face { return newFace("GoRegular", goregular.TTF) }),
	SansBold: sync.OnceValue(func() *face { return newFace("Go-Bold", gobold.TTF) }),
}

func be16(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
func be32(b []byte, at int) int { return int(binary.BigEndian.Uint32(b[at:])) }

// newFace reads a font that is compiled in; a test goes through each.
func newFace(name string, data []byte) *face {
	f := &face{name: name, data: data, tables: map[string][]byte{}, glyphs: map[rune]uint16{}}
	for k := range be16(data, 4) {
		row := data[12+16*k:]
		from := be32(row, 8)
		f.tables[string(row[:4])] = data[from : from+be32(row, 12)]
	}

	f.em = float64(be16(f.tables["head"], 18))
	f.long = be16(f.tables["head"], 50) == 1
	f.metrics = be16(f.tables["hhea"], 34)
	f.readLetters()
	return f
}

// readLetters reads which glyph is a letter's, from the table cmap in its format 4: stretches of codes, each with a
// number to add or a list to look up.
func (f *face) readLetters() {
	cmap := f.tables["cmap"]
	for k := range be16(cmap, 2) {
		b := cmap[be32(cmap, 4+8*k+4):]
		if be16(b, 0) != 4 {
			continue
		}
		n := be16(b, 6) // twice the number of stretches
		ends, starts, deltas, lists := 14, 16+n, 16+2*n, 16+3*n
		for i := 0; i < n; i += 2 {
			first, last := be16(b, starts+i), be16(b, ends+i)
			for code := first; code <= last && code < 0xffff; code++ {
				glyph := code
				if at := be16(b, lists+i); at != 0 {
					if glyph = be16(b, lists+i+at+2*(code-first)); glyph == 0 {
						continue
					}
				}
				if glyph = (glyph + be16(b, deltas+i)) & 0xffff; glyph != 0 && code >= ' ' {
					f.glyphs[rune(code)] = uint16(glyph)
				}
			}
		}
		return
	}
}

// width returns a glyph's width in thousandths of the letters' size.
func (f *face) width(glyph uint16) float64 {
	return float64(be16(f.tables["hmtx"], 4*min(int(glyph), f.metrics-1))) * 1000 / f.em
}

// outline returns what the font says of a glyph's outline; nothing for a blank.
func (f *face) outline(glyph int) []byte {
	loca := f.tables["loca"]
	if f.long {
		return f.tables["glyf"][be32(loca, 4*glyph):be32(loca, 4*glyph+4)]
	}
	return f.tables["glyf"][2*be16(loca, 2*glyph) : 2*be16(loca, 2*glyph+2)]
}

// parts returns the glyphs that an outline is composed of, and where what is said of them ends. The mark that
// instructions follow is taken off.
func parts(outline []byte) (of []uint16, end int) {
	const words, scale, more, scales, matrix, instructions = 1, 8, 0x20, 0x40, 0x80, 0x100
	at := 10
	for {
		flags := be16(outline, at)
		binary.BigEndian.PutUint16(outline[at:], uint16(flags&^instructions))
		of = append(of, uint16(be16(outline, at+2)))
		at += 6
		if flags&words != 0 {
			at += 2
		}
		switch {
		case flags&scale != 0:
			at += 2
		case flags&scales != 0:
			at += 4
		case flags&matrix != 0:
			at += 8
		}
		if flags&more == 0 {
			return of, at
		}
	}
}

// plainOutline returns a glyph's outline without the instructions for coarse screens, which need more tables than are
// kept, and the glyphs it is composed of.
func (f *face) plainOutline(glyph uint16) (outline []byte, of []uint16) {
	b := slices.Clone(f.outline(int(glyph)))
	if len(b) == 0 {
		return nil, nil
	}
	contours := int(int16(be16(b, 0)))
	if contours < 0 {
		of, end := parts(b)
		return b[:end], of
	}
	at := 10 + 2*contours
	long := be16(b, at)
	binary.BigEndian.PutUint16(b[at:], 0)
	return slices.Delete(b, at+2, at+2+long), nil
}

// subset returns the font with the outlines of some glyphs, and of what those are composed of, under the numbers that
// they have; all the others are blank.
func (f *face) subset(used []uint16) []byte {
	outlines := map[uint16][]byte{}
	for queue := append([]uint16{0}, used...); len(queue) > 0; queue = queue[1:] {
		if _, done := outlines[queue[0]]; !done {
			b, of := f.plainOutline(queue[0])
			outlines[queue[0]] = append(b, make([]byte, -len(b)&3)...)
			queue = append(queue, of...)
		}
	}

	n := int(slices.Max(slices.Collect(maps.Keys(outlines)))) + 1
	var glyf, loca, hmtx []byte
	for g := range n {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		outline, kept := outlines[uint16(g)]
		glyf = append(glyf, outline...)
		width := 0
		if kept {
			width = be16(f.tables["hmtx"], 4*min(g, f.metrics-1))
		}
		hmtx = binary.BigEndian.AppendUint16(hmtx, uint16(width))
		hmtx = binary.BigEndian.AppendUint16(hmtx, uint16(f.bearing(g)))
	}
	loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))

	head, hhea, maxp := slices.Clone(f.tables["head"]), slices.Clone(f.tables["hhea"]), slices.Clone(f.tables["maxp"])
	binary.BigEndian.PutUint32(head[8:], 0)  // the sum over the file, which is set last
	binary.BigEndian.PutUint16(head[50:], 1) // places of outlines have four bytes
	binary.BigEndian.PutUint16(hhea[34:], uint16(n))
	binary.BigEndian.PutUint16(maxp[4:], uint16(n))
	return fontFile(map[string][]byte{"glyf": glyf, "head": head, "hhea": hhea, "hmtx": hmtx, "loca": loca,
		"maxp": maxp})
}

// bearing returns how far right of where it is set a glyph's outline begins, in the font's units.
func (f *face) bearing(glyph int) int {
	hmtx := f.tables["hmtx"]
	if glyph < f.metrics {
		return be16(hmtx, 4*glyph+2)
	}
	return be16(hmtx, 4*f.metrics+2*(glyph-f.metrics))
}

// fontFile puts tables together as a font, with the sums that the format asks for.
func fontFile(tables map[string][]byte) []byte {
	names := slices.Sorted(maps.Keys(tables))
	n := len(names)
	power := int(math.Log2(float64(n)))
	out := binary.BigEndian.AppendUint32(nil, 0x00010000)
	for _, v := range []int{n, 16 << power, power, 16*n - 16<<power} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}

	at, headAt := 12+16*n, 0
	var body []byte
	for _, name := range names {
		t := tables[name]
		if name == "head" {
			headAt = at
		}
		out = append(out, name...)
		for _, v := range []int{int(sum(t)), at, len(t)} {
			out = binary.BigEndian.AppendUint32(out, uint32(v))
		}
		body = append(append(body, t...), make([]byte, -len(t)&3)...)
		at += len(t) + -len(t)&3
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out[headAt+8:], 0xb1b0afba-sum(out))
	return out
}

// sum is the sum of the table's numbers of four bytes.
func sum(b []byte) uint32 {
	b = append(slices.Clone(b), make([]byte, -len(b)&3)...)
	s := uint32(0)
	for at := 0; at < len(b); at += 4 {
		s += binary.BigEndian.Uint32(b[at:])
	}
	return s
}

// tag returns six capitals that tell a subset from others of the same font, as PDF asks for.
func tag(used []uint16) string {
	var b []byte
	for _, g := range used {
		b = binary.BigEndian.AppendUint16(b, g)
	}
	v := crc32.ChecksumIEEE(b)
	out := make([]byte, 6)
	for k := range out {
		out[k] = 'A' + byte(v%26)
		v /= 26
	}
	return string(out)
}
