// Package paper has the sizes of ordinary paper; package pdf below it writes pages of any size. Neither knows what is
// drawn on them.
package paper

import (
	"fmt"
	"slices"
	"strings"
)

// Size is a size of paper, upright, in mm.
type Size struct {
	Name          string
	Width, Height float64
}

// sizes there are. Sources: ISO 216 (A4, A3); ANSI/ASME Y14.1, sizes A and B (Letter, Tabloid).
var sizes = []Size{{"A4", 210, 297}, {"A3", 297, 420}, {"Letter", 215.9, 279.4}, {"Tabloid", 279.4, 431.8}}

// Sizes returns the sizes there are, smallest first within each series.
func Sizes() []Size { return slices.Clone(sizes) }

// Usual returns the size that is usual where lengths are in inches, or not.
func Usual(inches bool) string {
	if inches {
		return "Letter"
	}
	return "A4"
}

// Find returns the size of a name, in capitals or not.
func Find(name string) (Size, error) {
	for _, s := range sizes {
		if strings.EqualFold(s.Name, name) {
			return s, nil
		}
	}
	return Size{}, fmt.Errorf("there is no paper %.40q here; there are A4, A3, Letter and Tabloid", name)
}
