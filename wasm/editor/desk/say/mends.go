package say

import (
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
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
			return w.redrawn(s, c)
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

// redrawn says what becomes of a silhouette's outline.
func (w Words) redrawn(s draft.Silhouette, c pattern.Command) string {
	switch c.Text {
	case pattern.Filled:
		holes := func(mp orb.MultiPolygon) int { return len(geometry.Rings(mp)) - len(mp) }
		if n := holes(s.Outline) - holes(c.Outline); n != 1 {
			return "Fill " + strconv.Itoa(n) + " holes in " + s.Name
		}
		return "Fill this hole in " + s.Name + ", " + w.Area(geometry.Area(c.Outline)-geometry.Area(s.Outline))
	case pattern.Closed:
		return "Close this gap in " + s.Name + ", " + w.Area(geometry.Area(c.Outline)-geometry.Area(s.Outline))
	}
	return "Round off " + s.Name
}

// Effect says how the whole panel will stand with a mend, as it was measured.
func (w Words) Effect(m sheet.Mend) string { return m.Effect(w.Measure) }
