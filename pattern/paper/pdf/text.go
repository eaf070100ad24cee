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

// drawnFont is the font of pieces of text that are drawn, if any; its glyphs are numbered from 1.
const drawnFont = Font(len(faces))

// spelt is a letter as it is written, and the text that it stands for.
type spelt struct {
	letter
	of    string
	width float64 // in thousandths of the letters' size
}

// spell returns a text in a font's letters. What the font lacks becomes its nearest letters; what has none is left out,
// and so are marks that combine with the letter before and what is not to be seen. Letters that letters.Mark has put
// in are those that are drawn.
func (f Font) spell(s string, drawn []letters.Drawn) []spelt {
	var out []spelt
	face := faces[f]()
	put := func(r rune) bool {
		g, ok := face.glyphs[r]
		if ok {
			out = append(out, spelt{letter{f, g}, string(r), face.width(g)})
		}
		return ok
	}
	for _, r := range s {
		if i, ok := letters.Marked(r, drawn); ok {
			out = append(out, spelt{letter{drawnFont, uint16(i + 1)}, drawn[i].Text, 1000 * drawn[i].Width})
			continue
		}
		if put(r) {
			continue
		}
		near := folded[r]
		if plain, marked := letters.Plain(r); near == "" && marked {
			near = string(plain)
		}
		for _, r := range near {
			put(r)
		}
	}
	return out
}

// Lacking returns the letters of a text that a font neither has nor has a near one for: they are left out where the
// text is written. Each is there once, in the order of the text.
func Lacking(f Font, s string) []rune {
	var out []rune
	for _, r := range s {
		if len(f.spell(string(r), nil)) == 0 && !slices.Contains(out, r) &&
			!unicode.In(r, unicode.Mn, unicode.Me, unicode.Cc, unicode.Cf) {
			out = append(out, r)
		}
	}
	return out
}

// TextWidth returns how wide a text is, in mm, in letters of the given size.
func TextWidth(f Font, size float64, s string) float64 { return (&Content{}).Width(f, size, s) }

// Width returns how wide a text is, in mm, in letters of the given size, those that are drawn among them.
func (c *Content) Width(f Font, size float64, s string) float64 {
	w := 0.0
	for _, l := range f.spell(s, c.drawn) {
		w += l.width
	}
	return w * size / 1000
}

// Text writes one line with its left end at (x, y), y the line it stands on, in letters of size mm.
func (c *Content) Text(f Font, size, x, y float64, s string) {
	c.TextUnder(f, size, geometry.Translate(x, y), s)
}

// TextUnder writes one line from (0, 0) to the right under a map, such as a turn.
func (c *Content) TextUnder(f Font, size float64, m geometry.Map, s string) {
	written := f.spell(s, c.drawn)
	if len(written) == 0 {
		return
	}
	c.b = append(c.b, "BT\n"...)
	at := m
	for len(written) > 0 {
		// A run of letters of one font.
		n, wide := 0, 0.0
		for n < len(written) && written[n].font == written[0].font {
			wide += written[n].width
			n++
		}
		c.b = fmt.Appendf(c.b, "/F%d ", int(written[0].font))
		c.b = append(factor(c.b, size), " Tf\n"...)
		for _, v := range []float64{at.A, at.C, at.B, at.D} {
			c.b = append(factor(c.b, v), ' ')
		}
		c.b = append(number(c.b, at.X), ' ')
		c.b = append(number(c.b, at.Y), " Tm\n<"...)
		for _, l := range written[:n] {
			if l.font == drawnFont {
				c.b = fmt.Appendf(c.b, "%02X", l.glyph)
			} else {
				c.b = fmt.Appendf(c.b, "%04X", l.glyph)
			}
			c.use(l.letter, l.of)
		}
		c.b = append(c.b, "> Tj\n"...)
		written = written[n:]
		at = at.After(geometry.Translate(wide*size/1000, 0))
	}
	c.b = append(c.b, "ET\n"...)
}

// use notes that a letter was written, for a letter of a text. Of several that look alike the first by number counts.
func (c *Content) use(l letter, of string) {
	if c.used == nil {
		c.used = map[letter]string{}
	}
	if was, ok := c.used[l]; !ok || of < was {
		c.used[l] = of
	}
}

// Wrap breaks a text into lines no wider than width mm, at blanks; a word that is wider is broken where it must.
func Wrap(f Font, size, width float64, s string) []string {
	return (&Content{}).Wrap(f, size, width, s)
}

// Wrap is the function Wrap for text with letters that are drawn.
func (c *Content) Wrap(f Font, size, width float64, s string) []string {
	var lines []string
	line := ""
	// Blanks that do not break, between a figure and its unit, stay.
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		with := word
		if line != "" {
			with = line + " " + word
		}
		if c.Width(f, size, with) <= width {
			line = with
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = ""
		for _, r := range word {
			if next := line + string(r); line == "" || c.Width(f, size, next) <= width {
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
func Fit(f Font, size, width float64, s string) string { return (&Content{}).Fit(f, size, width, s) }

// Fit is the function Fit for text with letters that are drawn.
func (c *Content) Fit(f Font, size, width float64, s string) string {
	if c.Width(f, size, s) <= width {
		return s
	}
	letters := []rune(s)
	for len(letters) > 0 {
		letters = letters[:len(letters)-1]
		if short := strings.TrimRight(string(letters), " ") + "…"; c.Width(f, size, short) <= width {
			return short
		}
	}
	return ""
}
