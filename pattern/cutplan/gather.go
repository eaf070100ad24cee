package cutplan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// Lying is a plan on a sheet of stock: where the lower left corner of its page comes to lie, and by how many quarters
// it is turned, counter-clockwise.
type Lying struct {
	Plan     *Plan
	At       orb.Point
	Quarters int
}

// Gather puts plans together on a sheet of stock of a size in mm: marks first, then one after another, each as it was
// planned, the nearest to the last one next. The stock's own edge is not cut.
func Gather(title string, width, height float64, lying []Lying) *Plan {
	out := &Plan{Title: title, Page: orb.Bound{Max: orb.Point{width, height}}}
	out.Made.Notes = []string{}
	var placed []*Plan
	for _, l := range lying {
		placed = append(placed, l.placed())
		p := l.Plan
		out.Lines, out.Unchecked = p.Lines, out.Unchecked || p.Unchecked
		for _, f := range p.Facts {
			if !slices.Contains(out.Facts, f) {
				out.Facts = append(out.Facts, f)
			}
		}
		out.Made.add(p.Made)
		for _, text := range p.Unsound {
			if !slices.Contains(out.Unsound, text) {
				out.Unsound = append(out.Unsound, text)
			}
		}
	}
	out.Made.SheetArea = width * height

	for _, layer := range Layers {
		if layer == Cut {
			continue
		}
		for _, p := range placed {
			for _, c := range p.Contours {
				if c.Layer == layer {
					out.Contours = append(out.Contours, c)
				}
			}
		}
	}
	at := orb.Point{}
	for len(placed) > 0 {
		k, nearest := 0, math.Inf(1)
		for i, p := range placed {
			if d := far(at, p.Page.Min); d < nearest {
				k, nearest = i, d
			}
		}
		for _, c := range placed[k].Contours {
			if c.Layer == Cut {
				out.Made.Travel += far(at, c.at())
				at = c.at()
				out.Contours = append(out.Contours, c)
			}
		}
		placed = slices.Delete(placed, k, k+1)
	}
	return out
}

// placed returns the plan as it lies. Contours that share a path still do.
func (l Lying) placed() *Plan {
	p := *l.Plan
	turn := geometry.Turn(float64(l.Quarters) * math.Pi / 2) // exactly
	a, b := turn.Apply(p.Page.Min), turn.Apply(p.Page.Max)
	page := orb.MultiPoint{a, b}.Bound()
	move := geometry.Sub(l.At, page.Min)
	page = orb.Bound{Min: l.At, Max: geometry.Add(l.At, geometry.Sub(page.Max, page.Min))}
	p.Page, p.Outline = page, nil

	known := map[*curve.Path]*curve.Path{}
	contours := make([]Contour, len(p.Contours))
	for i, c := range p.Contours {
		if turn != geometry.Identity {
			path, ok := known[c.Path]
			if !ok {
				q := c.Path.Under(turn)
				path = &q
				known[c.Path] = path
			}
			c.Path = path
		}
		// Contours are moved, never turned, so that a turn of the path and one of the move is all.
		v := geometry.Add(turn.Apply(c.Map.Apply(orb.Point{})), move)
		c.Map = geometry.Translate(v[0], v[1])
		contours[i] = c
	}
	p.Contours = contours
	return &p
}

// add adds the figures of another plan on the same sheet, but for the travel.
func (m *Made) add(o Made) {
	m.Openings, m.Lost, m.Notches = m.Openings+o.Openings, m.Lost+o.Lost, m.Notches+o.Notches
	m.Area, m.CutLength = m.Area+o.Area, m.CutLength+o.CutLength
	m.Piercings, m.Pieces, m.Points = m.Piercings+o.Piercings, m.Pieces+o.Pieces, m.Points+o.Points
	m.Near, m.Holes, m.Fixings = m.Near+o.Near, m.Holes+o.Holes, m.Fixings+o.Fixings
	m.Deviation, m.Kerf = math.Max(m.Deviation, o.Deviation), o.Kerf
	for _, n := range o.Notes {
		if !slices.Contains(m.Notes, n) {
			m.Notes = append(m.Notes, n)
		}
	}
}
