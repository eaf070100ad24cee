package sheet

import (
	"openwork/pattern"
	"openwork/pattern/draft"
)

// Words writes sentences about one draft, in one unit.
type Words struct {
	Unit
	Draft draft.Draft
}

// Sentence is the sentence about one problem.
func (w Words) Sentence(p Problem) string {
	if say := SpeechOf(p.Kind, p.Severity).Sentence; say != nil {
		return pattern.Sentence(say(w, p))
	}
	return p.Text
}

func (w Words) overlap(p Problem) string {
	return "Two silhouettes run into each other over " + w.Area(p.Measured)
}

func (w Words) twice(p Problem) string {
	if p.Text != "" {
		return p.Text
	}
	return "A motif lies exactly on another's copies; each place is cut once"
}

func (w Words) island(p Problem) string {
	return "Island of " + w.Area(p.Measured) + ": a piece of sheet that nothing holds and that would drop out"
}

func (w Words) bridge(p Problem) string {
	if p.Measured == 0 {
		return "No bridge is left: openings touch here, and " + w.Measure(p.Required) +
			" of sheet are needed between them"
	}
	return "Bridge of " + w.Below(p.Measured, p.Required) + ", at least " + w.Length(p.Required) + " needed"
}

func (w Words) thinnest(n int, measured float64) string {
	need := w.Draft.Sheet.Bridge
	said := "touching"
	if measured > 0 {
		said = w.Below(measured, need)
	}
	if n > 1 {
		said = "the thinnest " + said
	}
	return said + ", " + w.Length(need) + " needed"
}

func (w Words) tongue(p Problem) string {
	return "Tongue of sheet about " + w.Below(p.Measured, p.Required) +
		" wide, held at one end only: the palette knife may lift it"
}

func (w Words) opening(p Problem) string {
	need := w.Draft.Sheet
	switch {
	case p.Measured > 0:
		return "Opening narrows to " + w.Below(p.Measured, p.Required) + "; paste needs " + w.Length(p.Required)
	case p.Required == need.Kerf && need.Kerf != need.Opening:
		return "Opening narrower than the kerf of " + w.Measure(need.Kerf) + ": the beam leaves nothing of its shape"
	}
	return "Opening nowhere as wide as the " + w.Measure(need.Opening) + " that paste needs"
}

func (w Words) narrowest(n int, measured float64) string {
	said := w.Below(measured, w.Draft.Sheet.Opening)
	if n > 1 {
		said = "the narrowest " + said
	}
	return said
}

func (w Words) tail(p Problem) string {
	return "Opening runs out in a tail about " + w.Below(p.Measured, p.Required) +
		" wide, which paste will not fill; it needs " + w.Length(p.Required)
}

func (w Words) release(Problem) string {
	return "Opening small beside a sheet " + w.Measure(w.Draft.Sheet.Thickness) +
		" thick: paste may stay in it and tear when the sheet is lifted; make it larger or the sheet thinner"
}

func (w Words) edge(p Problem) string {
	switch {
	case p.Measured < 0:
		return "Opening runs over the sheet's edge by " + w.Measure(-p.Measured)
	case p.Measured == 0:
		return "Opening touches the sheet's edge; " + w.Measure(p.Required) + " of sheet are needed there"
	}
	return "Opening " + w.Below(p.Measured, p.Required) + " from the sheet's edge, at least " + w.Length(p.Required) +
		" needed"
}

func (w Words) nearestEdge(n int, measured float64) string {
	said := "touching it"
	switch {
	case measured > 0:
		said = w.Below(measured, w.Draft.Sheet.Bridge)
	case measured < 0:
		said = w.Measure(-measured) + " over it"
	}
	if n > 1 {
		said = "the worst " + said
	}
	return said
}

func (w Words) size(Problem) string {
	said := "The sheet is larger than the bed"
	if bed := w.Draft.Sheet.Bed; bed != nil {
		b := w.Draft.SheetBound()
		said = "The sheet of " + w.Size(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) + " is larger than the bed of " +
			w.Size(bed.Width, bed.Height)
	}
	return said + ": lay it with a stepping sheet or in joined parts, both in the step Make"
}

func (w Words) offPanel(p Problem) string {
	if p.Text != "" {
		return p.Text
	}
	return "A subject lies off the panel, so that nothing gives way to it"
}

func (w Words) unclear(Problem) string {
	return "What lies here could not be measured, so that nothing can be promised of it: move or redraw it a little"
}

// Empty says why nothing would be cut, and what to do.
func (w Words) Empty(Problem) string {
	const room = "make the margin smaller or the panel larger"
	d := w.Draft
	switch {
	case len(d.Motifs) == 0:
		return "No silhouette is placed yet: bring one in"
	case d.Field.Edge == draft.Whole:
		return "No copy lies whole inside the margin: " + room + ", or let copies be cropped at the margin"
	case d.Field.Edge == draft.Touching:
		return "No copy reaches the field inside the margin: " + room + ", or move the pattern"
	}
	return "No opening lies inside the margin: " + room + ", or move the pattern"
}
