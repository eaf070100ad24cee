package say

import (
	"math"
	"strconv"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// Mend says in a few words what a mending command does.
func (w Words) Mend(c pattern.Command) string {
	d := w.Draft
	switch c.Name {
	case "cell":
		return "Open the cell to " + w.Size(c.Values["a"], c.Values["b"])
	case "edge":
		if c.Text == string(draft.Crop) {
			return "Cut copies off at the margin"
		}
		return "Keep whole copies only"
	case "field":
		return "Make the margin " + w.Measure(c.Values["margin"])
	case "remove":
		return "Take out motif " + strconv.Itoa(d.Motif(c.ID)+1)
	case "size":
		return "Make every motif " + sheet.Trim(100*(1-c.Values["factor"]), 1) + " % smaller"
	case "redraw":
		if s, ok := d.Silhouette(c.ID); ok {
			return "Round off " + s.Name
		}
	case "place":
		if i := d.Motif(c.ID); i >= 0 {
			m := d.Motifs[i]
			s, _ := d.Silhouette(m.Silhouette)
			return "Move " + s.Name + " by " + w.Measure(math.Hypot(c.Values["x"]-m.At[0], c.Values["y"]-m.At[1]))
		}
	case "ties":
		return "Add " + sheet.Count(len(c.Ties)-len(d.Ties), "tie", "ties")
	}
	return "Mend it"
}

// Effect says how the whole panel will stand with a mend, as it was measured.
func (w Words) Effect(m sheet.Mend) string { return m.Effect(w.Measure) }
