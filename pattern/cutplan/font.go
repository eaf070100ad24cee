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

// plain returns the text in the letters that are drawn.
func plain(text string) []rune {
	out, _ := spelled(text)
	return out
}

// lacking returns the letters of a text that are not drawn, each once.
func lacking(text string) []rune {
	_, out := spelled(text)
	return out
}

// spelled returns the text in the letters that are drawn, without blanks at its ends, and what it has that is not drawn,
// each once. Marks that combine with the letter before are not told.
func spelled(text string) (out, lacks []rune) {
	put := func(r rune) bool {
		_, drawn := glyphs[r]
		if r == ' ' && len(out) > 0 || drawn {
			out = append(out, r)
		}
		return drawn || r == ' '
	}
	for _, each := range text {
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

// textWidth returns how wide a text of capitals height mm high is.
func textWidth(text string, height float64) float64 {
	n := len(plain(text))
	if n == 0 {
		return 0
	}
	return (float64(n-1)*glyphStep + glyphWide) * height / glyphHigh
}

// textPaths returns the strokes of a text as open paths: capitals height mm high, from (0, 0) to the right.
func textPaths(text string, height float64) []curve.Path {
	var out []curve.Path
	f := height / glyphHigh
	for k, r := range plain(text) {
		if r == ' ' {
			continue
		}
		for _, stroke := range strings.Fields(glyphs[r]) {
			var p curve.Path
			for i := 0; i+1 < len(stroke); i += 2 {
				at := orb.Point{(float64(stroke[i]-'0') + float64(k)*glyphStep) * f, float64(stroke[i+1]-'0') * f}
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
