package whole

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
)

// found is what lies within one piece, each place as seen from its copy's shift.
type found = sheet.Found

// within reports narrow places, lost openings and islands of openings of one piece.
func (c *look) within() {
	for k := range c.images {
		m := &c.images[k]
		c.wholeOnes(m)
		for i := m.from; i < m.to; i++ {
			if c.kept[i].cut != nil {
				c.cutOne(m, i)
			}
		}
	}
}

// wholeOnes reports what the whole copies of an image show.
func (c *look) wholeOnes(m *image) {
	if m.whole == 0 {
		return
	}
	first := &c.copies[m.from]
	scale := c.l.Draft.Motifs[first.Motif].Scale
	here := func(p orb.Point) orb.Point { return geometry.Sub(first.Map.Apply(p), first.Shift) }
	f := c.w.Within.Look(m.orbit.Shape, scale, c.need)
	every := func(p sheet.Place, report func(i int) bool) {
		for i := m.from; i < m.to; i++ {
			if c.kept[i].cut == nil && c.alone(c.kept[i].first+p.Part) && !report(i) {
				return
			}
		}
	}
	for _, list := range []struct {
		places []sheet.Place
		kind   sheet.Kind
	}{{f.Necks, sheet.Bridge}, {f.Narrow, sheet.Opening}, {f.Lost, sheet.Opening}} {
		for _, p := range list.places {
			p.P, p.Q = here(p.P), here(p.Q)
			p.Width *= scale
			across := list.kind == sheet.Bridge && c.mayCross(m, p)
			every(p, func(i int) bool {
				if !across || !c.crossed(m, i, p) {
					c.place(i, p, list.kind)
				}
				return true
			})
		}
	}

	for _, h := range f.Holes {
		shape := h.Shape.Place(first.Map.Moved(-first.Shift[0], -first.Shift[1]), nil)
		p := h.Place
		p.P = here(p.P)
		every(p, func(i int) bool {
			c.island(m, i, p, shape)
			return true
		})
	}
}

// cutOne reports what a copy that the field's edge cuts shows. Where the frame has no time left it is passed over.
func (c *look) cutOne(m *image, i int) {
	k := c.kept[i].cut
	for x := range k.parts {
		if !c.alone(c.kept[i].first + x) {
			continue
		}
		if k.found[x] == nil && !c.lookInto(k, x) {
			continue
		}
		f := k.found[x]
		for _, p := range f.Necks {
			if p.Part = x; !c.crossed(m, i, p) {
				c.place(i, p, sheet.Bridge)
			}
		}
		for _, p := range f.Narrow {
			c.place(i, p, sheet.Opening)
		}
		for _, p := range f.Lost {
			c.place(i, p, sheet.Opening)
		}
		for _, h := range f.Holes {
			p := h.Place
			p.Part = x
			c.island(m, i, p, h.Shape)
		}
	}
}

// lookInto finds the narrow places of a piece that was cut; false where the frame has no time left.
func (c *look) lookInto(k *cut, x int) bool {
	if c.points <= 0 {
		c.unsureWithin()
		return false
	}
	f, work := sheet.InsidePiece(k.parts[x].Shape, c.need)
	c.points -= work
	k.found[x] = &f
	return true
}

// place reports a narrow place or a lost opening of a copy.
func (c *look) place(i int, p sheet.Place, kind sheet.Kind) {
	severity, required := sheet.Fault, c.need.Opening
	if kind == sheet.Bridge {
		required = c.need.Bridge
	}
	if p.Hangs {
		severity = sheet.Warning
		if kind == sheet.Bridge {
			kind = sheet.Tip
		}
	}
	if p.Lost == sheet.LostToSheet {
		kind, severity = sheet.Release, sheet.Warning
	}
	if !c.listing.Wants(kind, severity, p.Width) {
		c.listing.Count(kind, severity, 1, true)
		return
	}
	at := c.copies[i].Shift
	a, b := geometry.Add(p.P, at), geometry.Add(p.Q, at)
	if p.Lost != "" {
		out := sheet.LostProblem(p.Lost, c.need, a)
		out.Between = between(i, i)
		c.listing.Add(out)
		return
	}
	c.listing.Add(sheet.Problem{Kind: kind, Severity: severity, At: geometry.Midpoint(a, b), Measured: p.Width,
		Required: required,
		Between:  between(i, i), Ends: &[2][2]float64{a, b}})
}

// lies reports whether a piece moved by shift lies across a narrow place.
func lies(p sheet.Part, shift orb.Point, place sheet.Place) bool {
	a, b := geometry.Sub(place.P, shift), geometry.Sub(place.Q, shift)
	box, s := orb.Bound{Min: a, Max: a}.Extend(b), p.Shape.Bound()
	if !box.Intersects(s) {
		return false
	}
	return p.Shape.Crosses(a, b) || p.Shape.Contains(geometry.Midpoint(a, b))
}

// mayCross reports whether anything could lie across a narrow place of an image's whole copies.
func (c *look) mayCross(m *image, place sheet.Place) bool {
	for x, p := range m.parts {
		if x != place.Part && lies(p, orb.Point{}, place) {
			return true
		}
	}
	for _, n := range m.meets {
		for _, p := range c.images[n.image].parts {
			if lies(p, n.shift, place) {
				return true
			}
		}
	}
	return false
}

// crossed reports whether another opening lies across a narrow place of a copy.
func (c *look) crossed(m *image, i int, place sheet.Place) bool {
	return !c.others(m, i, place.Part, func(p sheet.Part, shift orb.Point) bool { return !lies(p, shift, place) })
}

// others calls visit for the other pieces of a copy, and for those of all copies whose boxes meet its own; false when
// visit ended it.
func (c *look) others(m *image, i, part int, visit func(p sheet.Part, shift orb.Point) bool) bool {
	for x, p := range c.kept[i].parts {
		if x != part && !visit(p, orb.Point{}) {
			return false
		}
	}
	cell := c.copies[i].Cell
	for _, n := range m.meets {
		j := c.images[n.image].find(cell[0]+n.cell[0], cell[1]+n.cell[1])
		if j < 0 {
			continue
		}
		for _, p := range c.kept[j].parts {
			if !visit(p, n.shift) {
				return false
			}
		}
	}
	return true
}

// island reports a hole of a copy, less the openings that stand directly in it.
func (c *look) island(m *image, i int, place sheet.Place, hole *geometry.Shape) {
	at, b, box := c.copies[i].Shift, hole.Bound(), c.l.Draft.SheetBound()
	low, high := geometry.Add(b.Min, at), geometry.Add(b.Max, at)
	if low[0] <= box.Min[0] || low[1] <= box.Min[1] || high[0] >= box.Max[0] || high[1] >= box.Max[1] {
		return
	}
	type inner struct {
		sheet.Part
		shift orb.Point
	}
	var standing []inner
	c.others(m, i, place.Part, func(p sheet.Part, shift orb.Point) bool {
		o := p.Shape.Bound()
		if b.Contains(geometry.Add(o.Min, shift)) && b.Contains(geometry.Add(o.Max, shift)) &&
			hole.Contains(geometry.Add(p.First, shift)) {
			standing = append(standing, inner{p, shift})
		}
		return true
	})

	area := place.Area
	for x, a := range standing {
		direct := true
		for y, o := range standing {
			if x != y && o.Outer > a.Outer && o.Encloses(geometry.Sub(geometry.Add(a.First, a.shift), o.shift)) {
				direct = false
				break
			}
		}
		if direct {
			area -= a.Outer
		}
	}

	c.report.Counts.Islands++
	p := geometry.Add(place.P, at)
	c.listing.Add(sheet.Problem{Kind: sheet.Island, Severity: sheet.Fault, At: p, Measured: area,
		Between: between(i, i),
		Ends:    &[2][2]float64{low, high}})
}
