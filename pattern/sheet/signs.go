package sheet

// Sign is how a fault or a warning is drawn at its place. Each has a form of its own, so that none is told from another
// by colour alone: only what is a width too small between two edges has a dimension line.
type Sign string

// The signs.
const (
	// a line across the width, arrows at both ends: a bridge, an opening, the way to the edge
	SignDimension  Sign = "dimension"
	SignRing       Sign = "ring"        // an overlap, which is hatched as well
	SignDoubleRing Sign = "double ring" // an island
	SignCrossed    Sign = "crossed"     // a ring with a cross in it: an opening too narrow as a whole
	SignBroken     Sign = "broken"      // a ring of dashes: what could not be measured
	SignBead       Sign = "bead"        // a small circle: a tail of an opening
	SignLozenge    Sign = "lozenge"     // a small square on its corner: a tongue of sheet
	SignTwin       Sign = "twin"        // two small circles one in the other: a motif on another's copies
	SignBars       Sign = "bars"        // two short strokes along a weak strip
	SignNone       Sign = "none"        // nothing at one place: it is about the whole sheet
)

// SignOf returns how a problem is drawn. Where a dimension line would have no ends there is a crossed ring.
func SignOf(p Problem) Sign {
	sign := SpeechOf(p.Kind, p.Severity).Sign
	if sign == SignDimension && (p.Ends == nil || p.Kind == Opening && p.Measured == 0) {
		return SignCrossed
	}
	return sign
}

// Label is what stands beside a problem's sign. A bare figure is a bridge's; whatever else is measured is named.
func (w Words) Label(p Problem) string {
	if label := SpeechOf(p.Kind, p.Severity).Label; label != nil {
		return label(w, p)
	}
	return ""
}

func unlabelled(Words, Problem) string { return "" }

// labelled is a label that is always the same.
func labelled(text string) func(Words, Problem) string {
	return func(Words, Problem) string { return text }
}

func (w Words) tongueLabel(p Problem) string { return "tongue " + w.Below(p.Measured, p.Required) }

func (w Words) tailLabel(p Problem) string { return "tail " + w.Below(p.Measured, p.Required) }

func (w Words) openingLabel(p Problem) string {
	if p.Measured == 0 {
		return "too narrow"
	}
	return "opening " + w.Below(p.Measured, p.Required)
}

func (w Words) edgeLabel(p Problem) string {
	if p.Measured < 0 {
		return w.Measure(-p.Measured) + " over the edge"
	}
	return w.Below(p.Measured, p.Required) + " to the edge"
}

func (w Words) bridgeLabel(p Problem) string {
	if p.Measured == 0 {
		return "touching"
	}
	return w.Below(p.Measured, p.Required)
}
