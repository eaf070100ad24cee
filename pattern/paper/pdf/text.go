package pdf

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"openwork/geometry"
	"openwork/pattern/letters"
)

// Font is one of the standard fonts that every reader has.
type Font int

// The fonts.
const (
	Sans Font = iota
	SansBold
	Serif
)

// fonts are their names in a file, in the order of the constants.
var fonts = []string{"Helvetica", "Helvetica-Bold", "Times-Roman"}

// unwritten stands for a letter that the fonts do not have.
const unwritten = '?'

// high are the letters of WinAnsiEncoding from 128 to 159; 0 where there is none (ISO 32000, annex D).
var high = [32]rune{'€', 0, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0, 'Ž', 0,
	0, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0, 'ž', 'Ÿ'}

// folded gives what else the encoding lacks its nearest.
var folded = map[rune]string{
	'−': "-", '‐': "-", '‑': "-", '≤': "<=", '≥': ">=", '→': "->", '↑': "^", 'ẞ': "SS", 'ı': "i", 'ﬁ': "fi", 'ﬂ': "fl",
	'\t': " ", '\n': " ", '\r': " ", '\u2009': " ", '\u202f': "\u00a0", 'đ': "d", 'Đ': "D", 'ł': "l", 'Ł': "L",
	'′': "'", '″': "\"",
	'ș': "s", 'Ș': "S", 'ț': "t", 'Ț': "T",
}

// encode returns the text in WinAnsiEncoding. Letters that it lacks become their nearest one, or a question mark; marks
// that combine with the letter before and what is not to be seen are left out.
func encode(s string) []byte {
	var out []byte
	for _, r := range s {
		if b, ok := code(r); ok {
			out = append(out, b)
		} else if f, ok := folded[r]; ok {
			out = append(out, encode(f)...)
		} else if plain, ok := letters.Plain(r); ok {
			out = append(out, byte(plain))
		} else if !unicode.In(r, unicode.Mn, unicode.Me, unicode.Cc, unicode.Cf) {
			out = append(out, unwritten)
		}
	}
	return out
}

// code returns a letter's code in WinAnsiEncoding, if it has one.
func code(r rune) (byte, bool) {
	if r >= 32 && r < 127 || r >= 160 && r < 256 {
		return byte(r), true
	}
	if k := slices.Index(high[:], r); k >= 0 && r != 0 {
		return byte(128 + k), true
	}
	return 0, false
}

// TextWidth returns how wide a text is, in mm, in letters of the given size.
func TextWidth(f Font, size float64, s string) float64 {
	w := 0
	table := widths[f]
	for _, b := range encode(s) {
		w += int(table[b-32])
	}
	return float64(w) * size / 1000
}

// Text writes one line with its left end at (x, y), y the line it stands on, in letters of size mm.
func (c *Content) Text(f Font, size, x, y float64, s string) {
	c.TextUnder(f, size, geometry.Translate(x, y), s)
}

// TextUnder writes one line from (0, 0) to the right under a map, such as a turn.
func (c *Content) TextUnder(f Font, size float64, m geometry.Map, s string) {
	c.b = fmt.Appendf(c.b, "BT\n/F%d ", int(f))
	c.b = append(factor(c.b, size), " Tf\n"...)
	for _, v := range []float64{m.A, m.C, m.B, m.D} {
		c.b = append(factor(c.b, v), ' ')
	}
	c.b = append(number(c.b, m.X), ' ')
	c.b = append(number(c.b, m.Y), " Tm\n("...)
	for _, b := range encode(s) {
		if b == '(' || b == ')' || b == '\\' {
			c.b = append(c.b, '\\')
		}
		c.b = append(c.b, b)
	}
	c.b = append(c.b, ") Tj\nET\n"...)
}

// Wrap breaks a text into lines no wider than width mm, at blanks; a word that is wider is broken where it must.
func Wrap(f Font, size, width float64, s string) []string {
	var lines []string
	line := ""
	// Blanks that do not break, between a figure and its unit, stay.
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		with := word
		if line != "" {
			with = line + " " + word
		}
		if TextWidth(f, size, with) <= width {
			line = with
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = ""
		for _, r := range word {
			if next := line + string(r); line == "" || TextWidth(f, size, next) <= width {
				line = next
				continue
			}
			lines = append(lines, line)
			line = string(r)
		}
	}

	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Fit returns the text, cut off with an ellipsis where it is wider than width mm.
func Fit(f Font, size, width float64, s string) string {
	if TextWidth(f, size, s) <= width {
		return s
	}
	letters := []rune(s)
	for len(letters) > 0 {
		letters = letters[:len(letters)-1]
		if short := strings.TrimRight(string(letters), " ") + "…"; TextWidth(f, size, short) <= width {
			return short
		}
	}
	return ""
}
