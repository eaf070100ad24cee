package sheet

import (
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// Plain returns the problems of a panel that are seen without measuring: motifs that lie exactly on another's copies, a
// panel on which none of its openings lies, a subject off the panel, a sheet that does not fit the shop's bed.
func Plain(l *pattern.Layout, openings int) []Problem {
	out := coinciding(l)
	if openings == 0 {
		out = append(out, empty(l.Draft))
	}
	for _, s := range l.Draft.Subjects {
		if text := l.Draft.OffPanel(s, l.Shapes.Subject(s)); text != "" {
			out = append(out, Problem{Kind: Subject, Severity: Warning, At: l.Draft.PanelBound().Center(), Text: text})
		}
	}
	if p, ok := tooLarge(l.Draft); ok {
		out = append(out, p)
	}
	return out
}

// coinciding warns of motifs that lie exactly on another's copies.
func coinciding(l *pattern.Layout) (out []Problem) {
	for i, o := range l.Orbits {
		if o.SameAs < 0 {
			continue
		}
		m := l.Draft.Motifs[i]
		name := m.Silhouette
		if s, ok := l.Draft.Silhouette(m.Silhouette); ok {
			name = s.Name
		}
		out = append(out, Problem{Kind: Overlap, Severity: Warning, At: l.Draft.FieldMap().Apply(orb.Point(m.At)),
			Text: fmt.Sprintf("A motif of %s lies exactly on another's copies; each place is cut once.", name),
			Mend: &pattern.Command{Name: "remove", ID: m.ID}})
	}
	return out
}

// empty is a panel without an opening.
func empty(d draft.Draft) Problem {
	text := "There is no opening on this panel: nothing would be cut."
	if len(d.Motifs) > 0 {
		text = "No opening lies on this panel: no copy is kept inside the margin, so that nothing would be cut."
	}
	return Problem{Kind: Empty, Severity: Fault, At: d.PanelBound().Center(), Text: text}
}

// tooLarge notes a sheet that does not fit the bed either way round.
func tooLarge(d draft.Draft) (Problem, bool) {
	bed := d.Sheet.Bed
	if bed == nil || bed.Width == 0 || bed.Height == 0 {
		return Problem{}, false
	}
	b := d.SheetBound()
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	if (w <= bed.Width && h <= bed.Height) || (w <= bed.Height && h <= bed.Width) {
		return Problem{}, false
	}
	return Problem{Kind: Size, Severity: Warning, At: b.Center(),
		Measured: math.Max(w, h), Required: math.Max(bed.Width, bed.Height),
		Text: fmt.Sprintf("The sheet of %s × %s mm does not fit the bed of %s × %s: make a stepping sheet or joined "+
			"sheets, or find a larger bed.",
			short(w), short(h), short(bed.Width), short(bed.Height))}, true
}

// LostProblem is an opening that is too small as a whole, at a place inside it.
func LostProblem(how Lost, need draft.Sheet, at orb.Point) Problem {
	out := Problem{Kind: Opening, Severity: Fault, At: at, Required: need.Opening,
		Text: fmt.Sprintf("An opening is nowhere as wide as the %s mm that paste needs.", short(need.Opening))}
	switch how {
	case LostToSheet:
		return Problem{Kind: Release, Severity: Warning, At: at,
			Text: fmt.Sprintf("An opening is small beside a sheet %s "+
				"mm thick: paste may stay in it when the sheet is lifted.", short(need.Thickness))}
	case LostToKerf:
		out.Required = need.Kerf
		out.Text = fmt.Sprintf("An opening is narrower than the kerf of %s mm and would vanish.", short(need.Kerf))
	}
	return out
}

// short writes a length for a sentence: two decimals at most.
func short(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }
