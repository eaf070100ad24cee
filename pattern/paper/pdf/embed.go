package pdf

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf16"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// fonts returns the objects, numbered from first on, of the fonts that the pages use, and their names in the pages'
// resources. Of each font only the glyphs used are embedded (ISO 32000, 9.7 to 9.10): a composite font whose codes are
// numbers of glyphs, the widths of these, and what letters they stand for, so that a reader finds the text again.
func (d *Doc) fonts(first int) (objects [][]byte, named string, err error) {
	used := map[letter]string{}
	for _, p := range d.pages {
		for l, r := range p.used {
			if was, ok := used[l]; !ok || r < was {
				used[l] = r
			}
		}
	}

	for f := range faces {
		of := ofFont(used, Font(f))
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
	if of := ofFont(used, drawnFont); len(of) > 0 {
		named += fmt.Sprintf("/F%d %d 0 R ", drawnFont, first+len(objects))
		more, err := d.drawnLetters(of, first+len(objects))
		if err != nil {
			return nil, "", err
		}
		objects = append(objects, more...)
	}
	return objects, named, nil
}

// ofFont returns the glyphs used of one font, and what each stands for.
func ofFont(used map[letter]string, f Font) map[uint16]string {
	of := map[uint16]string{}
	for l, s := range used {
		if l.font == f {
			of[l.glyph] = s
		}
	}
	return of
}

// drawnLetters returns the objects, numbered from first on, of the font of what is drawn: a font of type 3, whose
// glyphs are drawings (ISO 32000, 9.6.5).
func (d *Doc) drawnLetters(of map[uint16]string, first int) ([][]byte, error) {
	used := slices.Sorted(maps.Keys(of))
	letters, err := pack(toUnicode(used, of, 2))
	if err != nil {
		return nil, err
	}
	objects := [][]byte{nil, stream(nil, letters)}
	var procs, names, widths strings.Builder
	last := int(used[len(used)-1])
	box := orb.Bound{}
	for g := 1; g <= last; g++ {
		drawn := d.drawn[g-1]
		fmt.Fprintf(&widths, "%.6g ", 1000*drawn.Width)
		fmt.Fprintf(&names, "/g%d ", g)
		if _, ok := of[uint16(g)]; !ok {
			continue
		}
		outline := geometry.Transform(drawn.Outline, geometry.Scale(1000))
		b := outline.Bound()
		if len(outline) == 0 {
			b = orb.Bound{}
		}
		box = box.Union(b)
		var c Content
		c.op("d1", 1000*drawn.Width, 0, b.Min[0], b.Min[1], b.Max[0], b.Max[1])
		c.Outline(outline)
		c.op("f") // by winding: outlines of letters may lie over each other
		packed, err := pack(c.b)
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&procs, "/g%d %d 0 R ", g, first+len(objects))
		objects = append(objects, stream(nil, packed))
	}

	objects[0] = fmt.Appendf(nil, "<< /Type /Font /Subtype /Type3 /Name /Drawn /FontBBox [ %.4f %.4f %.4f %.4f ] "+
		"/FontMatrix [ 0.001 0 0 0.001 0 0 ] /CharProcs << %s>> /Encoding << /Type /Encoding /Differences [ 1 %s] >> "+
		"/FirstChar 1 /LastChar %d /Widths [ %s] /Resources << >> /ToUnicode %d 0 R >>", box.Min[0], box.Min[1],
		box.Max[0], box.Max[1], &procs, &names, last, &widths, first+1)
	return objects, nil
}

// embedded returns the objects of one font, numbered from first on; the first is the font itself.
func embedded(f *face, of map[uint16]string, first int) ([][]byte, error) {
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
	letters, err := pack(toUnicode(used, of, 4))
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

// toUnicode says which text each glyph stands for, in the form of a CMap; codes have so many hexadecimal digits.
func toUnicode(used []uint16, of map[uint16]string, digits int) []byte {
	const most = 100 // in one list
	out := fmt.Appendf(nil, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"+
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Letters def\n"+
		"/CMapType 2 def\n1 begincodespacerange\n<%0*X> <%0*X>\nendcodespacerange\n", digits, 0, digits,
		1<<(4*digits)-1)
	for part := range slices.Chunk(used, most) {
		out = fmt.Appendf(out, "%d beginbfchar\n", len(part))
		for _, g := range part {
			out = fmt.Appendf(out, "<%0*X> <", digits, g)
			for _, unit := range utf16.Encode([]rune(of[g])) {
				out = fmt.Appendf(out, "%04X", unit)
			}
			out = append(out, ">\n"...)
		}
		out = append(out, "endbfchar\n"...)
	}
	return append(out, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
