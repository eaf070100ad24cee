// Package sentences says in plain words what a check found: a sentence for each problem, the words with which problems of a
// kind are counted, and the verdict on the whole. Every number has its noun, and none says more than the report does.
//
// A *place* is one problem of the report. A *fault*, or a warning, is what repeats: alike in kind and figure, it shows at
// one place or at many.
package sentences

import (
	"openwork/pattern"
	"openwork/pattern/sheet"
)

// Words writes sentences about one draft, in one unit.
type Words struct {
	Unit
	Draft pattern.Draft
}

// kindWords are how problems of one kind and severity are spoken of. one and many are counted: "1 overlap", "4 overlaps".
// worst says the worst figure of all after them, given the least measure; it is left out where it is nil or where something
// was not measured. sentence is about a single problem.
type kindWords struct {
	one, many string
	worst     func(w Words, n int, measured float64) string
	sentence  func(w Words, p sheet.Problem) string
}

// faults and warnings are the words of every kind. Some pairs never come from a check; they have words all the same, so
// that nothing that is found can go unsaid.
var (
	faults = map[sheet.Kind]kindWords{
		sheet.Empty:   {one: "panel without an opening", many: "panels without an opening", sentence: Words.empty},
		sheet.Overlap: {one: "overlap", many: "overlaps", sentence: Words.overlap},
		sheet.Island:  {one: "island that would drop out", many: "islands that would drop out", sentence: Words.island},
		sheet.Bridge:  {one: "bridge too thin", many: "bridges too thin", worst: Words.thinnest, sentence: Words.bridge},
		sheet.Unclear: {one: "place that could not be measured", many: "places that could not be measured", sentence: Words.unclear},
		sheet.Opening: {one: "place in an opening too narrow for paste", many: "places in openings too narrow for paste",
			worst: Words.narrowest, sentence: Words.opening},
		sheet.Edge: {one: "opening too near the sheet's edge", many: "openings too near the sheet's edge", worst: Words.nearestEdge, sentence: Words.edge},
		sheet.Size: {one: "sheet larger than the bed", many: "sheets larger than the bed", sentence: Words.size},
		sheet.Tip:  {one: "tongue of sheet held at one end only", many: "tongues of sheet held at one end only", sentence: Words.tongue},
	}
	warnings = map[sheet.Kind]kindWords{
		sheet.Empty:   faults[sheet.Empty],
		sheet.Overlap: {one: "motif exactly on another's copies", many: "motifs exactly on another's copies", sentence: Words.twice},
		sheet.Island:  faults[sheet.Island],
		sheet.Bridge:  faults[sheet.Bridge],
		sheet.Unclear: faults[sheet.Unclear],
		sheet.Opening: {one: "tail of an opening that paste will not fill", many: "tails of openings that paste will not fill", sentence: Words.tail},
		sheet.Edge:    faults[sheet.Edge],
		sheet.Size:    faults[sheet.Size],
		sheet.Tip:     faults[sheet.Tip],
	}
)

func wordsOf(kind sheet.Kind, severity sheet.Severity) kindWords {
	if severity == sheet.Warning {
		return warnings[kind]
	}
	return faults[kind]
}

// Problem is the sentence about one problem.
func (w Words) Problem(p sheet.Problem) string {
	if say := wordsOf(p.Kind, p.Severity).sentence; say != nil {
		return pattern.Sentence(say(w, p))
	}
	return p.Text
}

// Fault is the sentence about a fault of the repeat.
func (w Words) Fault(f Fault) string {
	if !f.More {
		return w.Problem(f.First)
	}
	words := wordsOf(f.First.Kind, f.First.Severity)
	return pattern.Sentence("more " + words.many + ", none worse than those above")
}

func (w Words) overlap(p sheet.Problem) string {
	return "Two silhouettes run into each other over " + w.Area(p.Measured)
}

func (w Words) twice(p sheet.Problem) string {
	if p.Text != "" {
		return p.Text
	}
	return "A motif lies exactly on another's copies; each place is cut once"
}

func (w Words) island(p sheet.Problem) string {
	return "Island of " + w.Area(p.Measured) + ": a piece of sheet that nothing holds and that would drop out"
}

func (w Words) bridge(p sheet.Problem) string {
	if p.Measured == 0 {
		return "No bridge is left: openings touch here, and " + w.Measure(p.Required) + " of sheet are needed between them"
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

func (w Words) tongue(p sheet.Problem) string {
	return "Tongue of sheet about " + w.Below(p.Measured, p.Required) + " wide, held at one end only: the palette knife may lift it"
}

func (w Words) opening(p sheet.Problem) string {
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

func (w Words) tail(p sheet.Problem) string {
	return "Opening runs out in a tail about " + w.Below(p.Measured, p.Required) + " wide, which paste will not fill; it needs " + w.Length(p.Required)
}

func (w Words) edge(p sheet.Problem) string {
	switch {
	case p.Measured < 0:
		return "Opening runs over the sheet's edge by " + w.Measure(-p.Measured)
	case p.Measured == 0:
		return "Opening touches the sheet's edge; " + w.Measure(p.Required) + " of sheet are needed there"
	}
	return "Opening " + w.Below(p.Measured, p.Required) + " from the sheet's edge, at least " + w.Length(p.Required) + " needed"
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

func (w Words) size(sheet.Problem) string {
	said := "The sheet is larger than the bed"
	if bed := w.Draft.Sheet.Bed; bed != nil {
		b := w.Draft.SheetBound()
		said = "The sheet of " + w.Size(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) + " is larger than the bed of " + w.Size(bed.Width, bed.Height)
	}
	return said + ": lay it with a stepping sheet or in joined parts, both in step 5"
}

func (w Words) unclear(sheet.Problem) string {
	return "What lies here could not be measured, so that nothing can be promised of it: move or redraw it a little"
}

// empty says why nothing would be cut, and what to do.
func (w Words) empty(sheet.Problem) string {
	const room = "make the margin smaller or the panel larger"
	d := w.Draft
	switch {
	case len(d.Motifs) == 0:
		return "No silhouette is placed yet: bring one in"
	case d.Field.Edge == pattern.Whole:
		return "No copy lies whole inside the margin: " + room + ", or let copies be cropped at the margin"
	case d.Field.Edge == pattern.Touching:
		return "No copy reaches the field inside the margin: " + room + ", or move the pattern"
	}
	return "No opening lies inside the margin: " + room + ", or move the pattern"
}
