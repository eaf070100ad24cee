package cutplan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/draft"
)

// What the ways of cutting ask for, in mm unless said. Common practice, from memory; every one can be set.
const (
	// usualOvercut: a knife cuts on past where it began, so that the corner there comes free.
	usualOvercut = 0.3
	// usualWeed: the waste of openings larger than that is cut into parts, so that it peels off without pulling at the
	// sheet.
	usualWeed = 100.0
	// usualTabs hold what drops out until it is broken out: under a waterjet it would tip into the jet, or fall into
	// the tank.
	usualTabs, usualTab = 2, 0.8
	// tabShare: the tabs together take at most that part of a contour.
	tabShare = 0.25

	maxTabs, minWeed = 100, 5.0

	// The kerfs that a waterjet and a laser have.
	minJet, maxJet, maxBeam = 0.8, 1.2, 0.5
)

// Tabs are bridges left in contours on purpose, so that what drops out stays in place until it is broken out.
type Tabs struct {
	Number int     `json:"number"` // of each contour; 0: two under a waterjet, and none otherwise; less than 0: none
	Width  float64 `json:"width"`  // mm of stock that stays; 0: 0.8
}

// byMethod gives the contours what the way of cutting asks for: overcut, tabs, lines that part the waste.
func (b *build) byMethod() {
	overcut, weed, tabs := b.o.Overcut, b.o.Weed, b.o.Tabs
	if b.How == draft.Knife {
		overcut, weed = orUsual(overcut, usualOvercut), orUsual(weed, usualWeed)
	}
	if b.How == draft.Waterjet && tabs.Number == 0 {
		tabs.Number = usualTabs
	}
	tabs.Width = orUsual(tabs.Width, usualTab)

	var out []Contour
	first := -1 // cut contour
	for _, c := range b.plan.Contours {
		if c.Layer == Cut && first < 0 {
			first = len(out)
		}
		switch dropsOut := c.Class == ClassOpening || c.Class == ClassIsland; {
		case c.Layer == Cut && dropsOut && tabs.Number > 0:
			out = append(out, tabbed(c, tabs, b.Kerf)...)
		case c.Layer == Cut && overcut > 0:
			out = append(out, overrun(c, overcut))
		default:
			out = append(out, c)
		}
	}
	if weed > 0 && first >= 0 {
		out = slices.Insert(out, first, b.weeding(weed)...)
	}
	b.plan.Contours = out
	if b.o.LeadIn > 0 && b.How != draft.Knife {
		b.leads(b.o.LeadIn)
	}
	b.noteKerf()
}

// orUsual returns a length, the usual one where it is 0, and none where it is less.
func orUsual(v, usual float64) float64 {
	if v == 0 {
		return usual
	}
	return max(0, v)
}

// noteKerf says where the kerf is none that the way of cutting has.
func (b *build) noteKerf() {
	switch {
	case b.How == draft.Waterjet && (b.Kerf < minJet || b.Kerf > maxJet):
		b.note("A kerf of %g mm is none that a waterjet has by common practice (%g to %g mm): ask the shop.", b.Kerf,
			minJet, maxJet)
	case b.How != draft.Waterjet && b.How != draft.Knife && b.Kerf > maxBeam:
		b.note("A kerf of %g mm is wider than a laser's by common practice (up to %g mm): ask the shop.", b.Kerf,
			maxBeam)
	}
}

// run returns the contour's pieces one after another, in panel mm, and their length.
func (c Contour) run() (start orb.Point, pieces []curve.Piece, long float64) {
	start, pieces = c.Pieces(nil)
	return start, pieces, curve.Path{Start: start, Pieces: pieces}.Length()
}

// overrun returns a closed contour that goes on past where it began, by a quarter of itself at most.
func overrun(c Contour, by float64) Contour {
	if !c.Path.Closed() {
		return c
	}
	start, pieces, long := c.run()
	p := curve.Section(start, append(pieces, pieces...), 0, long+min(by, long/4))
	c.Path, c.Map, c.Start = &p, geometry.Identity, 0
	return c
}

// tabbed returns a contour in parts with tabs between them; the first part begins beside a tab.
func tabbed(c Contour, t Tabs, kerf float64) []Contour {
	if !c.Path.Closed() {
		return []Contour{c}
	}
	start, pieces, long := c.run()
	gap := t.Width + kerf // the beam widens each end by half its kerf
	n := min(t.Number, int(tabShare*long/gap))
	if n == 0 {
		return []Contour{c}
	}
	var out []Contour
	for k := range n {
		from, to := long*float64(k)/float64(n)+gap/2, long*float64(k+1)/float64(n)-gap/2
		p := curve.Section(start, pieces, from, to)
		part := c
		part.Path, part.Map, part.Start = &p, geometry.Identity, 0
		out = append(out, part)
	}
	return out
}

// weeding returns straight cuts across the openings that are larger than a length, no further apart than that, from
// edge to edge of the opening.
func (b *build) weeding(apart float64) []Contour {
	var out []Contour
	for _, o := range b.Openings {
		outline := geometry.Transform(o.Shape.Outline(), geometry.Translate(o.Shift[0], o.Shift[1]))
		box := outline.Bound()
		for axis := range 2 {
			size := box.Max[axis] - box.Min[axis]
			n := int(math.Ceil(size/apart - 1e-9))
			for k := 1; k < n; k++ {
				at := box.Min[axis] + size*float64(k)/float64(n)
				for _, s := range across(outline, axis, at) {
					p := curve.Path{Start: s[0], Pieces: []curve.Piece{{Kind: curve.Line, To: s[1], Corner: true}}}
					out = append(out, Contour{Layer: Cut, Class: ClassWeeding, Path: &p, Map: geometry.Identity,
						unit: -1})
				}
			}
		}
	}
	return out
}

// across returns the stretches of a line along the other axis that lie in an outline, even–odd.
func across(outline orb.MultiPolygon, axis int, at float64) [][2]orb.Point {
	var places []float64
	for _, poly := range outline {
		for _, ring := range poly {
			for i := 1; i < len(ring); i++ {
				p, q := ring[i-1], ring[i]
				if (p[axis] <= at) != (q[axis] <= at) {
					places = append(places, p[1-axis]+(at-p[axis])*(q[1-axis]-p[1-axis])/(q[axis]-p[axis]))
				}
			}
		}
	}
	slices.Sort(places)

	var out [][2]orb.Point
	for k := 0; k+1 < len(places); k += 2 {
		var s [2]orb.Point
		for end := range s {
			s[end][axis], s[end][1-axis] = at, places[k+end]
		}
		if places[k+1]-places[k] > minSize {
			out = append(out, s)
		}
	}
	return out
}
