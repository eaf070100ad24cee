package pdf

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// fonts returns the objects, numbered from first on, of the fonts that the pages use, and their names in the pages'
// resources. Of each font only the glyphs used are embedded (ISO 32000, 9.7 to 9.10): a composite font whose codes are
// numbers of glyphs, the widths of these, and what letters they stand for, so that a reader finds the text again.
func (d *Doc) fonts(first int) (objects [][]byte, named string, err error) {
	used := map[letter]rune{}
	for _, p := range d.pages {
		for l, r := range p.used {
			if was, ok := used[l]; !ok || r < was {
				used[l] = r
			}
		}
	}

	for f := range faces {
		of := map[uint16]rune{}
		for l, r := range used {
			if l.font == Font(f) {
				of[l.glyph] = r
			}
		}
		if len(of) == 0 {
			continue
		}
		named += fmt.Sprintf("/F%d %d 0 R ", f, first+len(objects))
		more, err := embedded(faces[f](), of, first+len(objects))
		if err != nil {
			return nil, "", err
		}
		objects = append(objects, more...)
	}
	return objects, named, nil
}

// embedded returns the objects of one font, numbered from first on; the first is the font itself.
func embedded(f *face, of map[uint16]rune, first int) ([][]byte, error) {
	used := slices.Sorted(maps.Keys(of))
	name := tag(used) + "+" + f.name
	var widths strings.Builder
	for _, g := range used {
		fmt.Fprintf(&widths, "%d [ %.7g ] ", g, f.width(g))
	}
	font := f.subset(used)
	packed, err := pack(font)
	if err != nil {
		return nil, err
	}
	letters, err := pack(toUnicode(used, of))
	if err != nil {
		return nil, err
	}

	head, hhea := f.tables["head"], f.tables["hhea"]
	unit := func(b []byte, at int) float64 { return float64(int16(be16(b, at))) * 1000 / f.em }
	const symbolic, upright = 4, 0
	objects := make([][]byte, 0, 5)
	add := func(format string, a ...any) { objects = append(objects, fmt.Appendf(nil, format, a...)) }
	add("<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H /DescendantFonts [ %d 0 R ] "+
		"/ToUnicode %d 0 R >>", name, first+1, first+4)
	add("<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) "+
		"/Supplement 0 >> /FontDescriptor %d 0 R /CIDToGIDMap /Identity /DW 0 /W [ %s] >>", name, first+2, &widths)
	add("<< /Type /FontDescriptor /FontName /%s /Flags %d /FontBBox [ %.4g %.4g %.4g %.4g ] /ItalicAngle %d "+
		"/Ascent %.4g /Descent %.4g /CapHeight %.4g /StemV 80 /FontFile2 %d 0 R >>", name, symbolic, unit(head, 36),
		unit(head, 38), unit(head, 40), unit(head, 42), upright, unit(hhea, 4), unit(hhea, 6), f.capitals(), first+3)
	objects = append(objects, stream(fmt.Appendf(nil, "/Length1 %d", len(font)), packed), stream(nil, letters))
	return objects, nil
}

// capitals returns how high a capital is, in thousandths of the letters' size.
func (f *face) capitals() float64 {
	h := f.outline(int(f.glyphs['H']))
	return float64(int16(be16(h, 8))) * 1000 / f.em
}

// toUnicode says which letter each glyph stands for, in the form of a CMap.
func toUnicode(used []uint16, of map[uint16]rune) []byte {
	const most = 100 // in one list
	out := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Letters def\n" +
		"/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	for part := range slices.Chunk(used, most) {
		out = fmt.Appendf(out, "%d beginbfchar\n", len(part))
		for _, g := range part {
			out = fmt.Appendf(out, "<%04X> <%04X>\n", g, of[g])
		}
		out = append(out, "endbfchar\n"...)
	}
	return append(out, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
