package mends

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/sheet"
)

const (
	// fillCorners bounds the checks of the panel that filling holes and closing gaps may take, beside maxCorners: these
	// stand beside ties, and must not take their place. The first is always made.
	fillCorners = 75e3
	// maxSingles holes and gaps are offered each by itself, the smallest holes and the narrowest gaps.
	maxSingles = 3
)

// filled tries what takes a middle that nothing holds, or hardly anything, into the opening: holes of silhouettes are
// filled, and gaps that are narrower than a bridge are closed. Of what a closed gap closes in nothing is left, for it
// would drop out.
func (s *search) filled() {
	copies, err := s.l.Copies()
	if err != nil {
		return
	}
	left := float64(fillCorners)
	for i, c := range slices.Concat(s.holes(copies), s.gaps(copies)) {
		next, err := pattern.Apply(s.l.Draft, c)
		if err != nil {
			continue
		}
		l, err := pattern.NewLayout(next, s.l.Shapes)
		if err != nil {
			continue
		}
		n := float64(s.corners(l))
		if n == 0 || n > left && i > 0 {
			continue
		}
		left -= n
		if r, err := s.check(l); err == nil {
			if m, ok := s.mend(c, l, r); ok {
				s.out = append(s.out, m)
			}
		}
	}
}

// hole is a hole of a silhouette whose middle would drop out.
type hole struct {
	polygon, ring int
	area          float64 // mm², in the silhouette's frame
}

// holes returns the commands that fill holes whose middles the report has as islands: of each silhouette all of them,
// and the smallest by itself.
func (s *search) holes(copies []pattern.Copy) []pattern.Command {
	found := map[string][]hole{}
	for _, p := range s.report.Problems {
		if p.Kind != sheet.Island || p.Severity != sheet.Fault {
			continue
		}
		for _, c := range copies {
			at, ok := within(c, p.At)
			if !ok {
				continue
			}
			id := s.l.Draft.Motifs[c.Motif].Silhouette
			silhouette, _ := s.l.Draft.Silhouette(id)
			if h, ok := holeAt(silhouette.Outline, at); ok && !slices.Contains(found[id], h) {
				found[id] = append(found[id], h)
			}
		}
	}

	var all, single []pattern.Command
	for _, one := range s.l.Draft.Silhouettes {
		list := found[one.ID]
		if len(list) == 0 {
			continue
		}
		slices.SortFunc(list, func(a, b hole) int { return cmp.Compare(a.area, b.area) })
		all = append(all, pattern.Command{Name: "redraw", ID: one.ID, Text: pattern.Filled,
			Outline: fillHoles(one.Outline, list)})
		if len(list) == 1 {
			continue
		}
		for _, h := range list[:min(len(list), maxSingles)] {
			single = append(single, pattern.Command{Name: "redraw", ID: one.ID, Text: pattern.Filled,
				Outline: fillHoles(one.Outline, []hole{h})})
		}
	}
	return append(all, single[:min(len(single), maxSingles)]...)
}

// within returns a panel point in the frame of a copy's silhouette; false when it lies outside the copy's box.
func within(c pattern.Copy, at orb.Point) (orb.Point, bool) {
	b := c.Image.Bound()
	if !b.Contains(geometry.Sub(at, c.Shift)) {
		return at, false
	}
	back, ok := c.Map.Inverse()
	return back.Apply(at), ok
}

// holeAt returns the smallest hole of an outline that a point lies in.
func holeAt(mp orb.MultiPolygon, at orb.Point) (best hole, ok bool) {
	for i, polygon := range mp {
		for j := 1; j < len(polygon); j++ {
			area := math.Abs(geometry.RingArea(polygon[j]))
			if geometry.InRing(polygon[j], at) && (!ok || area < best.area) {
				best, ok = hole{i, j, area}, true
			}
		}
	}
	return best, ok
}

// fillHoles returns an outline without some of its holes, and without what lay in them.
func fillHoles(mp orb.MultiPolygon, holes []hole) orb.MultiPolygon {
	var out orb.MultiPolygon
	for i, polygon := range mp {
		inside := slices.ContainsFunc(holes, func(h hole) bool {
			return h.polygon != i && geometry.InRing(mp[h.polygon][h.ring], geometry.InnerPoint(polygon))
		})
		if inside {
			continue
		}
		var kept orb.Polygon
		for j, ring := range polygon {
			if !slices.ContainsFunc(holes, func(h hole) bool { return h.polygon == i && h.ring == j }) {
				kept = append(kept, ring)
			}
		}
		out = append(out, kept)
	}
	return out
}

// gap is a strip of sheet between two parts of one silhouette, in its frame.
type gap struct {
	at    orb.Point
	width float64
}

// gaps returns the commands that close gaps of silhouettes which are narrower than a bridge, the narrowest by
// themselves.
func (s *search) gaps(copies []pattern.Copy) []pattern.Command {
	found := map[string][]gap{}
	reach := map[string]float64{} // half a bridge, in the silhouette's frame
	need := s.l.Draft.Sheet.Bridge
	for _, p := range s.report.Problems {
		if p.Kind != sheet.Bridge || p.Severity != sheet.Fault || p.Between == nil || p.Between[0] != p.Between[1] ||
			p.Between[0] >= len(copies) {
			continue
		}
		c := copies[p.Between[0]]
		back, ok := c.Map.Inverse()
		if !ok {
			continue
		}
		m := s.l.Draft.Motifs[c.Motif]
		g := gap{back.Apply(p.At), p.Measured}
		reach[m.Silhouette] = math.Max(reach[m.Silhouette], need/m.Scale/2)
		known := slices.ContainsFunc(found[m.Silhouette], func(o gap) bool {
			return geometry.PointDistance(o.at, g.at) < roundTolerance
		})
		if !known {
			found[m.Silhouette] = append(found[m.Silhouette], g)
		}
	}

	var out []pattern.Command
	for _, one := range s.l.Draft.Silhouettes {
		list := found[one.ID]
		slices.SortFunc(list, func(a, b gap) int { return cmp.Compare(a.width, b.width) })
		for _, g := range list[:min(len(list), maxSingles)] {
			if mp, ok := closeGap(one.Outline, g.at, reach[one.ID]); ok {
				out = append(out, pattern.Command{Name: "redraw", ID: one.ID, Text: pattern.Closed, Outline: mp})
			}
		}
	}
	return out
}

// closeGap joins the parts of an outline on both sides of a place: what a disc of the given radius cannot reach from
// outside there becomes part of it, and what that closes in. False when nothing of the kind is there.
func closeGap(mp orb.MultiPolygon, at orb.Point, radius float64) (orb.MultiPolygon, bool) {
	closed, err := through(mp, []float64{radius, -radius})
	if err != nil {
		return nil, false
	}
	gained, err := overlay.Difference(closed, mp)
	if err != nil {
		return nil, false
	}
	for _, piece := range gained {
		if !geometry.Contains(orb.MultiPolygon{piece}, at) {
			continue
		}
		// A hair more on all sides, so that the piece and the outline are one.
		patch, err := offset.Offset(orb.MultiPolygon{piece}, roundTolerance, roundTolerance)
		if err != nil {
			return nil, false
		}
		out, err := overlay.Union(mp, patch)
		if err != nil {
			return nil, false
		}
		out = geometry.SnapOutline(fillHoles(out, closedIn(mp, out)))
		return out, len(out) > 0 && geometry.CheckOutline(out) == nil
	}
	return nil, false
}

// closedIn returns the holes of an outline that lay open to the outside before.
func closedIn(before, after orb.MultiPolygon) []hole {
	var out []hole
	for i, polygon := range after {
		for j := 1; j < len(polygon); j++ {
			inner := geometry.InnerPoint(geometry.Orient(orb.MultiPolygon{{polygon[j]}})[0])
			if _, was := holeAt(before, inner); !was {
				out = append(out, hole{i, j, math.Abs(geometry.RingArea(polygon[j]))})
			}
		}
	}
	return out
}
