package stepping

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// clearance returns how far a point, in field mm, is from every opening of the endless field, up to limit mm; 0 inside
// one.
func (f *field) clearance(p orb.Point, limit float64) float64 {
	for _, k := range f.kinds {
		window := orb.Bound{Min: p, Max: p}.Pad(limit)
		f.fine.meeting(window, k.bound(), func(c cell) {
			if limit > 0 {
				limit = roomAt(k.shape, geometry.Sub(geometry.Sub(p, k.at), f.fine.at(c)), limit)
			}
		})
	}
	return limit
}

// roomAt returns how far a point is from a shape, up to limit mm; 0 inside it.
func roomAt(s *geometry.Shape, p orb.Point, limit float64) float64 {
	if s.Contains(p) {
		return 0
	}
	if near := s.DistanceTo(p, limit); near.Found {
		return near.D
	}
	return limit
}

// registration is where the four holes of a sheet lie: at, and from there by one step, by the other and by both, field
// mm.
type registration struct {
	holes    []orb.Point
	diameter float64
	box      orb.Bound   // of the sheet with them, in its frame
	free     []orb.Point // where holes may be for the openings' sake, and translates of these by the lattice
}

// registrationIn returns holes that fall on each other's marks when the sheet is moved by a step. They lie in sheet
// that no place's openings reach, a bridge from the openings of the sheet itself; where there is a choice the sheet
// is small, and then the surround of the panel that the marks at the given places need. It gives the largest
// diameter, from the one asked for downward by halves to minHole, for which there is room.
func (f *field) registrationIn(sh *sheet, places []cell, margin, diameter float64, bed draft.Bed) (registration,
	bool) {
	for d := diameter; d >= minHole; d = math.Max(d/2, minHole) {
		if r, ok := f.holesOf(sh, places, margin, d, bed); ok {
			return r, true
		}
		if d == minHole {
			break
		}
	}
	return registration{}, false
}

// holesOf looks for holes of one diameter, closer when nothing is found.
func (f *field) holesOf(sh *sheet, places []cell, margin, d float64, bed draft.Bed) (registration, bool) {
	cellArea := math.Abs(f.fine.p[0]*f.fine.q[1] - f.fine.p[1]*f.fine.q[0])
	// A square round the hole must be clear, as the cut file asks for.
	reach := d / 2 * math.Sqrt2
	for _, step := range []float64{math.Max(math.Sqrt(cellArea/spots), firstSpot),
		math.Max(math.Sqrt(cellArea/(spots*finer)), minSpot)} {
		nx := int(math.Ceil(math.Hypot(f.fine.p[0], f.fine.p[1]) / step))
		ny := int(math.Ceil(math.Hypot(f.fine.q[0], f.fine.q[1]) / step))
		var free []orb.Point
		for i := range nx {
			for j := range ny {
				x, y := float64(i)/float64(nx), float64(j)/float64(ny)
				p := orb.Point{x*f.fine.p[0] + y*f.fine.q[0], x*f.fine.p[1] + y*f.fine.q[1]}
				if f.clearance(p, reach+markRoom) >= reach+markRoom {
					free = append(free, p)
				}
			}
		}
		if r, ok := f.fit(sh, places, free, margin, d, bed); ok {
			return r, true
		}
	}
	return registration{}, false
}

// fit returns the free spot, with its lattice vector, whose four holes make a small sheet: of those that make it little
// larger than the smallest, the one whose marks need the narrowest surround.
func (f *field) fit(sh *sheet, places []cell, free []orb.Point, margin, d float64, bed draft.Bed) (registration,
	bool) {
	u, v := f.fine.at(sh.steps.u), f.fine.at(sh.steps.v)
	four := func(p orb.Point) []orb.Point {
		return []orb.Point{p, geometry.Add(p, u), geometry.Add(p, v), geometry.Add(geometry.Add(p, u), v)}
	}
	room := f.roomOf(d)
	base := sh.box.Pad(margin)
	type candidate struct {
		p    orb.Point
		box  orb.Bound
		cost float64
		n    int // of like ones the first is taken

		surround float64
	}
	var all []candidate
	turned := f.fine.turned(sh.frame)
	for _, p := range free {
		var holes []orb.Bound
		for _, q := range four(p) {
			q = sh.frame.Vector(q)
			holes = append(holes, orb.Bound{Min: q, Max: q}.Pad(room))
		}
		own := boxOf(holes)
		turned.meeting(base, own, func(c cell) {
			box := base.Union(moved(own, turned.at(c)))
			if fits(box, bed) {
				all = append(all, candidate{p: geometry.Add(p, f.fine.at(c)), box: box, cost: math.Round(area(box)),
					n: len(all)})
			}
		})
	}

	slices.SortFunc(all, func(a, b candidate) int { return cmp.Or(cmp.Compare(a.cost, b.cost), a.n-b.n) })
	roomy := func(c candidate) bool {
		for _, h := range four(c.p) {
			if sh.clearance(h, room) < room {
				return false
			}
		}
		return true
	}
	first := slices.IndexFunc(all, roomy)
	if first < 0 {
		return registration{}, false
	}

	// The smallest comes first among those that need the same surround.
	last := first
	for last < len(all) && all[last].cost <= moreSheet*all[first].cost {
		last++
	}
	edge := f.edgeOf(sh, places)
	narrowest := func(some []candidate) (c candidate, ok bool) {
		for i := range some {
			some[i].surround = math.Ceil(edge.surround(four(some[i].p)) / 5) // no sheet is made larger for less
		}
		slices.SortStableFunc(some, func(a, b candidate) int { return cmp.Compare(a.surround, b.surround) })
		k := slices.IndexFunc(some, roomy)
		if k < 0 {
			return c, false
		}
		return some[k], true
	}
	c, _ := narrowest(all[first:last])
	if math.IsInf(c.surround, 1) {
		// A mark on the panel's very edge each time: of the larger sheets one may do.
		if other, ok := narrowest(all[last:]); ok && !math.IsInf(other.surround, 1) {
			c = other
		}
	}
	return registration{four(c.p), d, c.box, free}, true
}

// roomOf returns how far the middle of a hole stays from the sheet's openings and its edge.
func (f *field) roomOf(diameter float64) float64 {
	return diameter/2*math.Sqrt2 + math.Max(f.l.Draft.Sheet.Bridge, cutRoom)
}

// fits reports whether a box fits the bed either way round; a bed without size takes everything.
func fits(b orb.Bound, bed draft.Bed) bool {
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	return bed.Width == 0 || w <= bed.Width && h <= bed.Height || w <= bed.Height && h <= bed.Width
}
