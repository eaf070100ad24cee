package letters

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
)

// Drawn is a piece of text as an outline: letters that no font here has, drawn by whoever has one. A piece is a letter,
// or as many as belong together where letters change with those beside them.
type Drawn struct {
	Text  string  `json:"text"`
	Width float64 `json:"width"` // to where the next letter stands, in sizes of the letters
	// Outline in sizes of the letters, from (0, 0) on the line they stand on, y upward; it is filled by winding.
	Outline orb.MultiPolygon `json:"outline"`
}

// Limits of what is drawn.
const (
	maxDrawn       = 255 // pieces: a file numbers them by a byte
	maxDrawnPoints = 100_000
	maxDrawnSize   = 100.0 // sizes of the letters
)

// CheckDrawn says what is wrong with pieces of text that are drawn.
func CheckDrawn(all []Drawn) error {
	if len(all) > maxDrawn {
		return fmt.Errorf("%d pieces of text are drawn; there may be %d", len(all), maxDrawn)
	}
	points := 0
	for i, d := range all {
		if d.Text == "" || !(d.Width > 0 && d.Width <= maxDrawnSize) {
			return fmt.Errorf("piece %d of text that is drawn has no letters, or a width of %g; it may be up to %g",
				i+1, d.Width, maxDrawnSize)
		}
		for _, poly := range d.Outline {
			for _, ring := range poly {
				points += len(ring)
				for _, p := range ring {
					if !(math.Abs(p[0]) <= maxDrawnSize && math.Abs(p[1]) <= maxDrawnSize) {
						return fmt.Errorf("piece %d of text that is drawn reaches to (%g, %g); it may reach to %g", i+1,
							p[0], p[1], maxDrawnSize)
					}
				}
			}
		}
	}
	if points > maxDrawnPoints {
		return fmt.Errorf("the text that is drawn has %d points; it may have %d", points, maxDrawnPoints)
	}
	return nil
}

// firstDrawn stands for the first piece, the next number for the second and so on: letters for private use (Unicode,
// plane 15), which no text that is typed has.
const firstDrawn = 0xf0000

// Mark returns a text with a letter of its own for each piece in it that is drawn, the longest first.
func Mark(text string, all []Drawn) string {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return len(all[b].Text) - len(all[a].Text) })
	for _, i := range order {
		text = strings.ReplaceAll(text, all[i].Text, string(rune(firstDrawn+i)))
	}
	return text
}

// Marked returns which piece a letter stands for; false for any other letter.
func Marked(r rune, all []Drawn) (int, bool) {
	i := int(r) - firstDrawn
	return i, i >= 0 && i < len(all)
}
