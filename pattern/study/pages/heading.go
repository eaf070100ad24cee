package pages

import (
	"openwork/pattern/letters"
	"openwork/pattern/paper/pdf"
)

// Heading returns a title as it can be printed: one that has no letter that is printed here says so.
func Heading(title string) string {
	if lacks := pdf.Lacking(pdf.Title, title); len(lacks) > 0 && pdf.TextWidth(pdf.Title, 1, title) == 0 {
		return "A title that is not printed here: " + letters.Named(lacks)
	}
	return title
}

// Unwritten says which letters of a title the pages leave out; empty where they have them all.
func Unwritten(title string) string {
	lacks := pdf.Lacking(pdf.Title, title)
	if len(lacks) == 0 {
		return ""
	}
	return "The title's letters " + letters.Named(lacks) + " are not printed: the fonts here are Latin, Greek and " +
		"Cyrillic. The file's own title has them."
}
