package cutplan

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/cutplan/leadin"
)

// maxLead in mm of a lead-in.
const maxLead = 50.0

// leads gives the contours of openings a lead-in from inside the waste, which lies to their left: openings run
// counter-clockwise, what drops out of them clockwise. The sheet's outline and holes have none. Where there is no room
// in the waste there is none, and it is told.
func (b *build) leads(length float64) {
	type key struct {
		path  *curve.Path
		start int
	}
	known := map[key]*curve.Path{}
	waste := map[*curve.Path]*geometry.Shape{}
	none := 0
	for i := range b.plan.Contours {
		c := &b.plan.Contours[i]
		if c.Layer != Cut || c.Class != ClassOpening && c.Class != ClassIsland {
			continue
		}
		unit := b.cuts[b.units[c.unit].first:b.units[c.unit].last]
		var path *curve.Path
		if c.Path.Closed() {
			// Copies share their paths, and contours of an opening its move.
			first, k := unit[0].Path, key{c.Path, c.Start}
			if waste[first] == nil {
				waste[first] = wasteOf(unit, false)
			}
			if _, ok := known[k]; !ok {
				known[k] = leadOf(Contour{Path: c.Path, Map: geometry.Identity, Start: c.Start}, waste[first], length)
			}
			path = known[k]
		} else {
			path = leadOf(*c, wasteOf(unit, true), length)
		}
		if path == nil {
			none++
			continue
		}
		c.Path, c.Start = path, 0
	}
	if none > 0 {
		b.note("%d contours have no lead-in: there is no room in the waste for one of %g mm or half of that.", none,
			length)
	}
}

// wasteOf returns what drops out of an opening, at its place or in the frame of its paths.
func wasteOf(unit []Contour, placed bool) *geometry.Shape {
	var mp orb.MultiPolygon
	var holes []orb.Ring
	for _, c := range unit {
		ring := c.Path.Flatten(leadin.Near / 10)
		if placed {
			ring = c.Path.Under(c.Map).Flatten(leadin.Near / 10)
		}
		if c.Class == ClassIsland {
			holes = append(holes, ring)
		} else {
			mp = append(mp, orb.Polygon{ring})
		}
	}
	// Even–odd says the same in whichever outer ring a hole stands.
	for _, h := range holes {
		mp[0] = append(mp[0], h)
	}
	return geometry.NewShape(mp)
}

// leadOf returns a contour's path with its lead-in, nil where there is no room.
func leadOf(c Contour, waste *geometry.Shape, length float64) *curve.Path {
	start, pieces := c.Pieces(nil)
	return leadin.Into(start, pieces, c.Path.Closed(), waste, length)
}
