// Package panel checks the whole panel as a sheet: every copy the edge rule keeps, cropped where it says so, openings
// that run into each other united, against the sheet's edge. It links the polygon overlay, so only the engine uses it.
package panel

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
)

// panelCheck is one run; each step adds its part to the report.
type panelCheck struct {
	united
	order    leftToRight // openings
	report   sheet.Report
	listing  sheet.Listing
	mend     *pattern.Command // opens the cell until copies clear each other
	progress progress.Func
}

// Check goes over the whole panel. It fails when the panel would need too many copies, or when the overlay cannot unite
// or crop openings; the error then names the place.
func Check(l *pattern.Layout) (sheet.Report, error) { return CheckWithProgress(l, nil) }

// CheckWithProgress is Check, and reports how far it has come.
func CheckWithProgress(l *pattern.Layout, onProgress progress.Func) (sheet.Report, error) {
	c := &panelCheck{united: united{l: l}, progress: onProgress.Within(0, 0.9)}
	if m, ok := sheet.OpenCell(l); ok {
		c.mend = &m
	}
	report, err := c.measure()
	if err == nil {
		if c.density == loose { // strips are reported of sheets that nearly hold
			report.Weak = c.weak()
		}
	}
	onProgress.At(1)
	return report, err
}

// Measure goes over the whole panel as Check does, without what only a person reads: the mend that opens the cell and
// the strips that bend. It is for whoever tries one draft after another.
func Measure(l *pattern.Layout) (sheet.Report, error) {
	return (&panelCheck{united: united{l: l}}).measure()
}

func (c *panelCheck) measure() (sheet.Report, error) {
	var err error
	if c.copies, err = c.l.Copies(); err != nil {
		return sheet.Report{}, err
	}
	return c.measureAs(densityOf(c.l, c.copies))
}

// measureAs is measure for a density that is known.
func (c *panelCheck) measureAs(d density) (sheet.Report, error) {
	met, err := c.uniteAs(d, c.l.Draft.Sheet.Bridge, c.progress.Within(0, 0.6))
	if err != nil {
		return sheet.Report{}, err
	}
	c.order = c.openingsByPlace()
	c.report = sheet.Report{Weak: []sheet.Strip{},
		Counts: sheet.Counts{Copies: len(c.copies), Openings: len(c.openings)}}
	c.plain()
	if c.density == dense {
		if err := c.countOverlaps(); err != nil {
			return sheet.Report{}, err
		}
		c.bridgesBetween()
	} else {
		c.overlaps(met)
		c.bridges(met)
		c.narrowest(met)
	}

	c.islands()
	c.progress.At(0.7)
	if err := c.within(); err != nil {
		return sheet.Report{}, err
	}
	c.edges()
	c.areas()
	c.report.Problems, c.report.Totals = c.listing.Result()
	faults, _ := c.report.Count(sheet.Fault)
	c.report.Sound = faults == 0
	return c.report, nil
}

func (c *panelCheck) add(p sheet.Problem) { c.listing.Add(p) }

// plain reports what is to be seen without measuring: motifs that coincide, a panel without an opening, a bed too
// small.
func (c *panelCheck) plain() {
	for _, p := range sheet.Plain(c.l, len(c.openings)) {
		c.add(p)
	}
}

// overlaps reports pairs of copies whose common area is over the limit. The parts of one copy, where a crop or its
// outline divides it, are summed.
func (c *panelCheck) overlaps(met []meeting) {
	type couple [2]int
	area := map[couple]float64{}
	at := map[couple]meeting{}
	var order []couple
	for _, m := range met {
		i, j := c.pieces[m.i].copy, c.pieces[m.j].copy
		if m.area == 0 || i == j {
			continue
		}
		k := couple{min(i, j), max(i, j)}
		if _, ok := area[k]; !ok {
			order = append(order, k)
			at[k] = m
		}
		area[k] += m.area
	}

	for _, k := range order {
		if area[k] <= sheet.OverlapFrom {
			continue
		}
		m := at[k]
		p := [2]float64{(m.P[0] + m.Q[0]) / 2, (m.P[1] + m.Q[1]) / 2}
		c.add(c.overlap(p, k[0], k[1], area[k]))
	}
}

func (c *panelCheck) overlap(at [2]float64, i, j int, area float64) sheet.Problem {
	return sheet.Problem{Kind: sheet.Overlap, Severity: sheet.Fault, At: at, Measured: area,
		Between: &[2]int{min(i, j), max(i, j)}, Mend: c.mend,
		Text: fmt.Sprintf("Two silhouettes run into each other over %s mm².", short(area))}
}

// bridges reports every pair of pieces of different openings nearer than the required bridge.
func (c *panelCheck) bridges(met []meeting) {
	need := c.l.Draft.Sheet.Bridge
	for _, m := range met {
		if c.of[m.i] == c.of[m.j] || m.D >= need {
			continue
		}
		c.add(c.bridge(m.Near, c.pieces[m.i].copy, c.pieces[m.j].copy))
	}
}

func (c *panelCheck) bridge(n geometry.Near, i, j int) sheet.Problem {
	need := c.l.Draft.Sheet.Bridge
	return sheet.Problem{Kind: sheet.Bridge, Severity: sheet.Fault,
		At:       [2]float64{(n.P[0] + n.Q[0]) / 2, (n.P[1] + n.Q[1]) / 2},
		Measured: n.D, Required: need, Between: &[2]int{min(i, j), max(i, j)}, Ends: &[2][2]float64{n.P, n.Q},
		Mend: c.mend,
		Text: fmt.Sprintf("The bridge between two openings is %s mm wide; this sheet needs %s.", short(n.D),
			short(need))}
}

// narrowest finds the shortest way between two different openings, looking further out until there is one.
func (c *panelCheck) narrowest(met []meeting) {
	if len(c.openings) < 2 {
		return
	}
	all := orb.Bound{Min: c.pieces[0].bound.Min, Max: c.pieces[0].bound.Max}
	for _, p := range c.pieces {
		all = all.Union(p.bound)
	}
	far := math.Hypot(all.Max[0]-all.Min[0], all.Max[1]-all.Min[1]) + 1
	for reach := math.Max(c.l.Draft.Sheet.Bridge, 1); ; reach *= 2 {
		best := meeting{Near: geometry.Near{D: math.Inf(1)}}
		for _, m := range met {
			if c.of[m.i] != c.of[m.j] && m.D < best.D {
				best = m
			}
		}
		if best.D < math.Inf(1) {
			d := best.D
			c.report.NarrowestBetween = &d
			c.report.BetweenEnds = &[2][2]float64{best.P, best.Q}
			return
		}
		if reach > far {
			return
		}
		met = c.meetings.within(reach)
	}
}

// islands reports the parts of the sheet that nothing holds: what an opening closes in, inside the sheet, less the
// openings that stand in it.
func (c *panelCheck) islands() {
	sheetBox := c.l.Draft.SheetBound()
	for i := range c.openings {
		for _, h := range c.openings[i].holes {
			if !h.dropsFrom(sheetBox) {
				continue
			}
			b := h.bound
			area := h.area - c.standingIn(i, h)
			c.report.Counts.Islands++
			at := geometry.InnerPoint(h.ring)
			copyOf := c.copyOf(i)
			c.add(sheet.Problem{Kind: sheet.Island, Severity: sheet.Fault, At: at, Measured: area,
				Between: &[2]int{copyOf, copyOf},
				Ends:    &[2][2]float64{b.Min, b.Max},
				Text: fmt.Sprintf("A piece of sheet of %s mm² has nothing holding it and would drop out.",
					short(area))})
		}
	}
}

// standingIn returns the area of the openings that stand directly in a hole, each with all that it encloses.
func (c *panelCheck) standingIn(i int, h hole) float64 {
	shape := geometry.NewShape(orb.MultiPolygon{h.ring})
	type inner struct {
		ring  *geometry.Shape
		area  float64
		bound orb.Bound
	}
	var found []inner
	c.order.meeting(h.bound, func(j int, b orb.Bound) bool {
		if j == i || !boxWithin(b, h.bound) {
			return true
		}
		outer := orb.MultiPolygon{{c.openings[j].outline[0]}}
		if shape.Contains(outer[0][0][0]) {
			s := geometry.NewShape(outer)
			found = append(found, inner{s, s.Area(), b})
		}
		return true
	})

	sum := 0.0
	for x, a := range found {
		direct := true
		for y, o := range found {
			if x != y && o.area > a.area && o.ring.Contains(a.ring.Outline()[0][0][0]) {
				direct = false
				break
			}
		}
		if direct {
			sum += a.area
		}
	}
	return sum
}

// weak ranks the strips that bend most, each at its place nearest to the middle of the panel.
func (c *panelCheck) weak() []sheet.Strip {
	l := c.l
	toPanel := l.Draft.FieldMap()
	middle := toPanel.Rigid().Apply(l.Draft.PanelBound().Center())
	out := []sheet.Strip{}
	for _, s := range sheet.Strips(l) {
		v := l.NearestLattice(orb.Point{middle[0] - s.At[0], middle[1] - s.At[1]})
		carry := func(p [2]float64) [2]float64 { return toPanel.Apply(orb.Point{p[0] + v[0], p[1] + v[1]}) }
		s.At = carry(s.At)
		s.Ends = [2][2]float64{carry(s.Ends[0]), carry(s.Ends[1])}
		out = append(out, s)
	}
	return out
}

// areas sums what is cut away and what is left of the sheet.
func (c *panelCheck) areas() {
	box := c.l.Draft.SheetBound()
	rect := geometry.RectShape(box)
	within := 0.0
	for i := range c.openings {
		o := &c.openings[i]
		c.report.OpenArea += o.area
		if o.shape.InRect(box, o.shift) == geometry.Within {
			within += o.area
		} else {
			within += geometry.OverlapArea(rect, o.shape, o.shift)
		}
	}
	c.report.SheetArea = (box.Max[0]-box.Min[0])*(box.Max[1]-box.Min[1]) - within
}
