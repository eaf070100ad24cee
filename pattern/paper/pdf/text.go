package pdf

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"openwork/geometry"
	"openwork/pattern/letters"
)

// Font is one of the fonts of a file. What is used of each is embedded.
type Font int

// The fonts.
const (
	Sans Font = iota
	SansBold

	Title = Sans // of titles, in large letters
)

// folded gives what the fonts may lack its nearest.
var folded = map[rune]string{
	'\u00a0': " ", '\u202f': " ", '\u2009': " ", '\t': " ", '\n': " ", '\r': " ",
	'−': "-", '‐': "-", '‑': "-", '→': "->", '↑': "^", 'ẞ': "SS", 'ﬁ': "fi", 'ﬂ': "fl", '′': "'", '″': "\"",
}

// letter is a letter as a font has it.
type letter struct {
	font  Font
	glyph uint16
}

// spell returns a text in a font's letters, with the letters of the text that each stands for. What the font lacks
// becomes its nearest letters; what has none is left out, and so are marks that combine with the letter before and what
// is not to be seen.
func (f Font) spell(s string) (out []letter, of []rune) {
	face := faces[f]()
	for _, r := range s {
		if g, ok := face.glyphs[r]; ok {
			out, of = append(out, letter{f, g}), append(of, r)
			continue
		}
		near, ok := folded[r]
		if plain, marked := letters.Plain(r); !ok && marked {
			near, ok = string(plain), true
		}
		for _, r := range near {
			if g, has := face.glyphs[r]; ok && has {
				out, of = append(out, letter{f, g}), append(of, r)
			}
		}
	}
	return out, of
}

// Lacking returns the letters of a text that a font neither has nor has a near one for: they are left out where the
// text is written. Each is there once, in the order of the text.
func Lacking(f Font, s string) []rune {
	var out []rune
	for _, r := range s {
		if written, _ := f.spell(string(r)); len(written) == 0 && !slices.Contains(out, r) &&
			!unicode.In(r, unicode.Mn, unicode.Me, unicode.Cc, unicode.Cf) {
			out = append(out, r)
		}
	}
	return out
}

// TextWidth returns how wide a text is, in mm, in letters of the given size.
func TextWidth(f Font, size float64, s string) float64 {
	w := 0.0
	written, _ := f.spell(s)
	for _, l := range written {
		w += faces[l.font]().width(l.glyph)
	}
	return w * size / 1000
}

// Text writes one line with its left end at (x, y), y the line it stands on, in letters of size mm.
func (c *Content) Text(f Font, size, x, y float64, s string) {
	c.TextUnder(f, size, geometry.Translate(x, y), s)
}

// TextUnder writes one line from (0, 0) to the right under a map, such as a turn.
func (c *Content) TextUnder(f Font, size float64, m geometry.Map, s string) {
	written, of := f.spell(s)
	if len(written) == 0 {
		return
	}
	c.b = fmt.Appendf(c.b, "BT\n/F%d ", int(f))
	c.b = append(factor(c.b, size), " Tf\n"...)
	for _, v := range []float64{m.A, m.C, m.B, m.D} {
		c.b = append(factor(c.b, v), ' ')
	}
	c.b = append(number(c.b, m.X), ' ')
	c.b = append(number(c.b, m.Y), " Tm\n<"...)
	for k, l := range written {
		c.b = fmt.Appendf(c.b, "%04X", l.glyph)
		c.use(l, of[k])
	}
	c.b = append(c.b, "> Tj\nET\n"...)
}

// use notes that a letter was written, for a letter of a text. Of several that look alike the first by number counts.
func (c *Content) use(l letter, of rune) {
	if c.used == nil {
		c.used = map[letter]rune{}
	}
	if was, ok := c.used[l]; !ok || of < was {
		c.used[l] = of
	}
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
