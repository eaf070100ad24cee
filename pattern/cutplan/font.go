package cutplan

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/letters"
)

// The letters are drawn on a field 4 wide and 6 high, in strokes: points as two digits x y, strokes parted by blanks.
// All corners of bowls are cut off at 45°, so that a machine that only knows straight lines draws them as they are.
// Capitals only: a label is short, and capitals stay legible lowest. Greek and Cyrillic letters that look like a Latin
// one are that one.
var glyphs = map[rune]string{
	'A': "0004264440 0242", 'B': "00063645443303 3342413000", 'C': "4536160501103041", 'D': "00062644422000",
	'E': "46060040 0333", 'F': "000646 0333", 'G': "45361605011030414323", 'H': "0006 4046 0343", 'I': "2026 1030 1636",
	'J': "4641301001", 'K': "0006 0246 1340", 'L': "060040", 'M': "0006234640", 'N': "00064046",
	'O': "100105163645413010",
	'P': "00063645443303", 'Q': "100105163645413010 2240", 'R': "00063645443303 2340", 'S': "453616050413334241301001",
	'T': "2026 0646",
	'U': "060110304146", 'V': "062046", 'W': "0610243046", 'X': "0046 0640", 'Y': "062346 2320", 'Z': "06460040",
	'0': "100105163645413010 1135", '1': "052620 1030", '2': "05163645440040", '3': "0516364544334241301001 1333",
	'4': "30360242", '5': "460603334241301001", '6': "4536160501103041423303", '7': "064610",
	'8': "13040516364544331302011030414233",
	'9': "0110304145361605041343", '.': "2021", ',': "2110", ':': "2021 2425", ';': "2110 2425", '-': "1333",
	'+': "1333 2224", '/': "0046",
	'(': "36252130", ')': "16252110", '!': "2021 2226", '?': "05163645442322 2021", '\'': "2624", '"': "1614 3634",
	'=': "1232 1434",
	'×': "1133 1331", '°': "2415263524", '&': "40041526350401103042", '%': "0046 0515 3141", '#': "1016 3036 0242 0444",
	'*': "1234 1432 2125",
	'<': "350331", '>': "150311", '_': "0040", '@': "33232232314145361605011030", '↑': "2026 0426 4426",

	'Б': "4606003041423303", 'Г': "000646", 'Д': "00014140 1115263631", 'Ё': "44040040 0232 1516 3536",
	'Ж': "2026 0046 0640", 'З': "0516364544334241301001 1333", 'И': "06004640", 'Й': "04004440 162536",
	'Л': "0005164640", 'П': "00064640", 'У': "4600 0623", 'Ф': "2026 153544423111020415", 'Ц': "06014140 3631",
	'Ч': "06041343 4640", 'Ш': "06004046 2620", 'Щ': "06014146 2621 4140", 'Ъ': "0616103041423313",
	'Ы': "06002031322303 4640", 'Ь': "06003041423303", 'Э': "0516364541301001 2343",
	'Ю': "0006 0313 201115263645413020", 'Я': "40461605041343 1300", 'Є': "4536160501103041 0323",
	'Ї': "2420 1030 1434 1516 3536", 'Ґ': "00054546", 'Џ': "06014146 2120", 'Њ': "0006 26203041423303",
	'Љ': "00051626203041423323", 'Ћ': "0636 1610 13334240", 'Ђ': "0636 1610 133342413020",
	'Γ': "000646", 'Δ': "00264000", 'Θ': "100105163645413010 1333", 'Λ': "002640", 'Ξ': "0646 1333 0040",
	'Π': "00064640", 'Σ': "4606230040", 'Φ': "2026 153544423111020415", 'Ψ': "2026 060413334446",
	'Ω': "001011020516364542313040",
}

// folded gives capitals and marks those that stand for them; what is not here, has no plain letter and is not among the
// glyphs is left out.
var folded = map[rune]string{
	'ß': "SS", 'Æ': "AE", 'Œ': "OE", 'Ø': "O", 'Ł': "L", 'Đ': "D", 'Ð': "D", 'Þ': "TH", '–': "-", '—': "-", '−': "-",
	'’': "'", '‘': "'", '“': "\"", '”': "\"", '„': "\"", '·': ".", '…': "...", '\u00a0': " ",
	'А': "A", 'В': "B", 'Е': "E", 'І': "I", 'Ј': "J", 'К': "K", 'М': "M", 'Н': "H", 'О': "O", 'Р': "P", 'С': "C",
	'Т': "T", 'Х': "X", 'Ѕ': "S",
	'Α': "A", 'Β': "B", 'Ε': "E", 'Ζ': "Z", 'Η': "H", 'Ι': "I", 'Κ': "K", 'Μ': "M", 'Ν': "N", 'Ο': "O", 'Ρ': "P",
	'Τ': "T", 'Υ': "Y", 'Χ': "X",
	'Ά': "A", 'Έ': "E", 'Ή': "H", 'Ί': "I", 'Ϊ': "I", 'ΐ': "I", 'Ό': "O", 'Ύ': "Y", 'Ϋ': "Y", 'ΰ': "Y", 'Ώ': "Ω",
}

const glyphWide, glyphHigh, glyphStep = 4.0, 6.0, 5.5

// script is what text on a sheet is marked in: the strokes above, and for letters that have none outlines of them,
// where there are any.
type script struct{ drawn []letters.Drawn }

// Lacks returns the letters of a text that a label leaves out, each once: those that have neither strokes nor outlines.
func Lacks(text string, drawn []letters.Drawn) string {
	_, out := script{drawn}.spelled(text)
	return string(out)
}

// plain returns the text in the letters that are marked.
func (w script) plain(text string) []rune {
	out, _ := w.spelled(text)
	return out
}

// spelled returns the text in the letters that are marked, without blanks at its ends, and what it has that is not
// marked, each once. Marks that combine with the letter before are not told.
func (w script) spelled(text string) (out, lacks []rune) {
	put := func(r rune) bool {
		_, known := glyphs[r]
		if r == ' ' && len(out) > 0 || known {
			out = append(out, r)
		}
		return known || r == ' '
	}
	for _, each := range w.mark(text) {
		if _, ok := letters.Marked(each, w.drawn); ok {
			out = append(out, each)
			continue
		}
		r, _ := letters.Plain(unicode.ToUpper(each))
		f, ok := folded[r]
		if !ok {
			f = string(r)
		}
		for _, r := range f {
			if !put(r) && !slices.Contains(lacks, each) &&
				!unicode.In(r, unicode.Mn, unicode.Me, unicode.Cc, unicode.Cf) {
				lacks = append(lacks, each)
			}
		}
	}
	for len(out) > 0 && out[len(out)-1] == ' ' {
		out = out[:len(out)-1]
	}
	return out, lacks
}

// mark puts in what is drawn, where the text has it and strokes do not.
func (w script) mark(text string) string {
	if len(w.drawn) == 0 {
		return text
	}
	if _, lacks := (script{}).spelled(text); len(lacks) == 0 {
		return text
	}
	return letters.Mark(text, w.drawn)
}

// wide returns how wide a letter is on the field of the strokes.
func (w script) wide(r rune) float64 {
	if k, ok := letters.Marked(r, w.drawn); ok {
		return w.drawn[k].Width * glyphHigh
	}
	return glyphWide
}

// width returns how wide a text of capitals height mm high is.
func (w script) width(text string, height float64) float64 {
	sum := 0.0
	for k, r := range w.plain(text) {
		if k > 0 {
			sum += glyphStep - glyphWide
		}
		sum += w.wide(r)
	}
	return sum * height / glyphHigh
}

// paths returns a text, capitals height mm high, from (0, 0) to the right: strokes as open paths, outlines as closed
// ones.
func (w script) paths(text string, height float64) []curve.Path {
	var out []curve.Path
	f, x := height/glyphHigh, 0.0
	for _, r := range w.plain(text) {
		if k, ok := letters.Marked(r, w.drawn); ok {
			out = append(out, outlined(w.drawn[k], x*f, height)...)
		} else if r != ' ' {
			out = append(out, strokes(r, x, f)...)
		}
		x += w.wide(r) + glyphStep - glyphWide
	}
	return out
}

// strokes returns a letter's strokes, x to the right on its field, f mm to a step of it.
func strokes(r rune, x, f float64) []curve.Path {
	var out []curve.Path
	for _, stroke := range strings.Fields(glyphs[r]) {
		var p curve.Path
		for i := 0; i+1 < len(stroke); i += 2 {
			at := orb.Point{(float64(stroke[i]-'0') + x) * f, float64(stroke[i+1]-'0') * f}
			if i == 0 {
				p.Start = at
			} else {
				p.Pieces = append(p.Pieces, curve.Piece{Kind: curve.Line, To: at, Corner: true})
			}
		}
		if len(p.Pieces) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// below is the part of a letter's size that lies below the line, common practice: a letter that is drawn, with what
// hangs below, becomes as high as a capital.
const below = 0.12

// outlined returns the outlines of what is drawn, x mm to the right. What reaches out of its square is cut off.
func outlined(d letters.Drawn, x, height float64) []curve.Path {
	var out []curve.Path
	for _, poly := range d.Outline {
		for _, ring := range poly {
			if len(ring) < 4 {
				continue
			}
			var p curve.Path
			for i, q := range ring {
				at := orb.Point{x + height*max(0, min(q[0], d.Width)), height * max(0, min(q[1]+below, 1))}
				if i == 0 {
					p.Start = at
				} else if at != p.End() {
					p.Pieces = append(p.Pieces, curve.Piece{Kind: curve.Line, To: at, Corner: true})
				}
			}
			if len(p.Pieces) > 2 && p.Closed() {
				out = append(out, p)
			}
		}
	}
	return out
}

// placed returns paths as contours of a layer.
func placed(paths []curve.Path, m geometry.Map, layer Layer, class string) []Contour {
	var out []Contour
	for i := range paths {
		p := paths[i].Under(m)
		out = append(out, Contour{Layer: layer, Class: class, Path: &p, Map: geometry.Identity})
	}
	return out
}

// length writes mm to whole steps, without what is not needed.
func length(v float64) string { return strconv.FormatFloat(math.Round(v/Step)/1000, 'f', -1, 64) }
