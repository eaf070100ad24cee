package say

import (
	"fmt"
	"strings"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/symmetry"
)

// Steps are what the closed steps of the job say, but for the last: see Readiness. inCell is how many copies a cell
// holds.
func (w Words) Steps(inCell int) map[string]string {
	return map[string]string{
		"silhouettes": w.silhouettes(), "repeat": w.repeat(inCell), "panel": w.panel(), "sheet": w.sheet(),
		"paint": w.paint(), "subject": w.subject(),
	}
}

func (w Words) silhouettes() string {
	var drawn []string
	for _, s := range w.Draft.Silhouettes {
		b := s.Outline.Bound()
		drawn = append(drawn, s.Name+" "+w.Size(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))
	}
	if len(drawn) == 0 {
		return "None yet"
	}
	if len(drawn) > 3 {
		drawn = append(drawn[:2], fmt.Sprintf("%d more", len(drawn)-2))
	}
	return strings.Join(drawn, "; ")
}

func (w Words) repeat(inCell int) string {
	r := w.Draft.Repeat
	cell := "cell " + w.Size(r.A, r.B)
	if g, err := symmetry.Find(r.Group); err == nil && g.System == symmetry.Oblique && r.Gamma != 90 {
		cell += " at " + sheet.Trim(r.Gamma, 1) + "°"
	}
	return fmt.Sprintf("%s, %s, %d in a cell", r.Group, cell, inCell)
}

func (w Words) panel() string {
	edge := "cropped at the margin"
	switch w.Draft.Field.Edge {
	case draft.Whole:
		edge = "whole copies only"
	case draft.Touching:
		edge = "copies run over the margin"
	}
	size := w.Size(w.Draft.Panel.Width, w.Draft.Panel.Height)
	return size + ", margin " + w.Length(w.Draft.Field.Margin) + ", " + edge
}

func (w Words) subject() string {
	var said []string
	for _, s := range w.Draft.Subjects {
		edge := "openings stop " + w.Measure(s.Room) + " from it"
		switch s.Edge {
		case draft.Whole:
			edge = "whole copies keep " + w.Measure(s.Room) + " from it"
		case draft.Behind:
			edge = "the pattern runs on behind"
		}
		said = append(said, s.Name+", "+edge)
	}
	if len(said) == 0 {
		return "None: the pattern is all there is"
	}
	if len(said) > 2 {
		said = append(said[:1], fmt.Sprintf("%d more", len(said)-1))
	}
	return strings.Join(said, "; ")
}

func (w Words) sheet() string {
	s := w.Draft.Sheet
	stock := s.Stock
	if stock == "" {
		stock = "stock not named"
	}
	said := fmt.Sprintf("%s %s, bridges from %s, kerf %s",
		stock, w.Measure(s.Thickness), w.Length(s.Bridge), w.Length(s.Kerf))
	return strings.TrimSuffix(pattern.Sentence(said), ".")
}
