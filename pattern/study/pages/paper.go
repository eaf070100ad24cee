package pages

import (
	"fmt"
	"strings"
)

// Paper is a size of paper, upright, in mm.
type Paper struct {
	Name          string
	Width, Height float64
}

// papers are the sizes there are. Sources: ISO 216 (A4, A3); ANSI/ASME Y14.1, sizes A and B (Letter, Tabloid).
var papers = []Paper{{"A4", 210, 297}, {"A3", 297, 420}, {"Letter", 215.9, 279.4}, {"Tabloid", 279.4, 431.8}}

// FindPaper returns the paper of a name, in capitals or not.
func FindPaper(name string) (Paper, error) {
	for _, p := range papers {
		if strings.EqualFold(p.Name, name) {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("there is no paper %.40q here; there are A4, A3, Letter and Tabloid", name)
}
