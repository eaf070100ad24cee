// Package whole looks at a whole panel anew in every frame of a drag: what symmetry answers is measured once and
// counted over the copies, and what the field's edge cuts is kept from one frame to the next. It tells what the check
// of the panel in package sheet/panel tells, which stays the authority, and says where it could not look: where
// openings run together, where ties of the field cut them, and where more pieces are new at the edge than one frame has
// time for.
package whole

import (
	"cmp"
	"math"
	"slices"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

const (
	// maxCopies bounds the panels looked at in one frame: three times what a frame has time for in a browser.
	maxCopies = 6000

	// maxImages bounds the different images of motifs in a cell, which are compared each with each.
	maxImages = 400

	// maxMeetings bounds the pairs of copies too near each other that are listed and counted.
	maxMeetings = 20000

	// framePoints is how many points of outlines newly cut at the edge one frame of a drag looks into for narrow
	// places, and restPoints how many when the hand rests.
	framePoints = 500
	restPoints  = 8000
)

// Panel keeps what one frame leaves to the next. The zero value is ready. It is not safe for use from two goroutines.
type Panel struct {
	Within    sheet.Within // what single silhouettes show
	distances store[distanceKey, distance]
	cuts      store[cutKey, *cut]
	need      draft.Sheet
	rooms     []pattern.Room // that cut what is kept
	points    int            // in place of framePoints and restPoints, for tests
}

// Report is what is to be seen of the panel. NarrowestWithin and Weak are not looked for.
type Report struct {
	sheet.Report
	// Partial is true where something was not looked at. Then Sound is false, every count stands for at least so many,
	// and figures may turn out worse.
	Partial bool
}

// Look goes over the panel; inHand is true while a hand moves something and will not wait. ok is false where that is
// not done in a frame: the field has too many copies, or ties of its own.
func (w *Panel) Look(l *pattern.Layout, inHand bool) (r Report, ok bool) {
	for _, t := range l.Draft.Ties {
		if t.Silhouette == "" {
			return Report{}, false
		}
	}
	copies, err := l.Copies()
	if err != nil || len(copies) > maxCopies || l.InCell() > maxImages {
		return Report{}, false
	}
	if w.need != l.Draft.Sheet {
		w.need, w.cuts = l.Draft.Sheet, store[cutKey, *cut]{}
	}
	if !slices.Equal(w.rooms, l.Rooms) {
		w.rooms, w.cuts = l.Rooms, store[cutKey, *cut]{}
	}
	defer w.distances.turn()
	defer w.cuts.turn()

	points := restPoints
	if inHand {
		points = framePoints
	}
	c := &look{w: w, l: l, need: l.Draft.Sheet, copies: copies, points: cmp.Or(w.points, points),
		reach: math.Max(l.Draft.Sheet.Bridge, 2*touchSlack)}
	c.gather()
	if !c.meet() {
		return Report{}, false
	}
	c.unite()
	c.plain()
	c.overlaps()
	c.bridges()
	c.narrowest()
	c.within()
	c.edges()
	c.areas()
	return c.finish(), true
}

// look is one frame.
type look struct {
	w        *Panel
	l        *pattern.Layout
	need     draft.Sheet
	copies   []pattern.Copy
	kept     []kept
	images   []image
	pieces   int
	near     []relation // whose boxes are nearer than the bridge, or meet
	met      []meeting
	joined   bool          // some pieces touch or run into each other
	openings geometry.Sets // of pieces, where joined
	size     []int         // pieces of each root's opening, where joined
	report   Report
	listing  sheet.Listing
	points   int     // left to this frame
	reach    float64 // the bridge, or what counts as touching
}

// kept is a copy's pieces: those of its image, or what the field's edge leaves of them.
type kept struct {
	first int // number of the first piece
	parts []sheet.Part
	cut   *cut // nil for a copy left whole
}

// unsure marks a row of the totals as a count of at least so many.
func (c *look) unsure(kind sheet.Kind, severity sheet.Severity) {
	c.report.Partial = true
	c.listing.Count(kind, severity, 0, false)
}

func (c *look) plain() {
	for _, p := range sheet.Plain(c.l, c.report.Counts.Openings) {
		c.listing.Add(p)
	}
}

func (c *look) finish() Report {
	c.report.Weak = []sheet.Strip{}
	c.report.Problems, c.report.Totals = c.listing.Result()
	faults, _ := c.report.Count(sheet.Fault)
	c.report.Sound = faults == 0 && !c.report.Partial
	return c.report
}

// areas sums what is cut away and what is left of the sheet, where no openings run together.
func (c *look) areas() {
	if c.joined {
		return
	}
	box := c.l.Draft.SheetBound()
	rect := geometry.RectShape(box)
	within := 0.0
	for i, k := range c.kept {
		shift := c.copies[i].Shift
		for _, p := range k.parts {
			c.report.OpenArea += p.Shape.Area()
			if p.Shape.InRect(box, shift) == geometry.Within {
				within += p.Shape.Area()
			} else {
				within += geometry.OverlapArea(rect, p.Shape, shift)
			}
		}
	}
	c.report.SheetArea = (box.Max[0]-box.Min[0])*(box.Max[1]-box.Min[1]) - within
}
