package pages

import (
	"openwork/pattern/letters"
	"openwork/pattern/paper/pdf"
)

// Heading returns a title as it is printed: with a mark for each piece that is drawn. One that has no letter that can
// be printed says so.
func Heading(title string, drawn []letters.Drawn) string {
	marked := letters.Mark(title, drawn)
	if lacks := Lacks(title, drawn); lacks != "" && marked == title && pdf.TextWidth(pdf.Title, 1, title) == 0 {
		return "A title that is not printed here: " + letters.Named([]rune(lacks))
	}
	return marked
}

// Lacks returns the letters of a title that can neither be printed nor are drawn, each once, in the order of the title.
func Lacks(title string, drawn []letters.Drawn) string {
	var out []rune
	for _, r := range pdf.Lacking(pdf.Title, letters.Mark(title, drawn)) {
		if _, ok := letters.Marked(r, drawn); !ok {
			out = append(out, r)
		}
	}
	return string(out)
}

// Unwritten says which letters of a title the pages leave out; empty where they have them all.
func Unwritten(title string, drawn []letters.Drawn) string {
	lacks := Lacks(title, drawn)
	if lacks == "" {
		return ""
	}
	return "The title's letters " + letters.Named([]rune(lacks)) +
		" are not printed: the fonts here are Latin, Greek " +
		"and Cyrillic. The file's own title has them."
}
