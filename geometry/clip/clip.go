// Package clip cuts an outline to a rectangle, side by side, without an overlay: fast enough for every frame.
package clip

import (
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// minThickness in mm: what is left thinner than this on the mean is dropped, as the overlay drops it.
const minThickness = 2e-8

// ToRect returns the part of a valid outline that lies in the rectangle, one polygon for each connected piece, outer
// rings counter-clockwise and holes clockwise. A side of the rectangle may be infinitely far away. Points on a side
// count as outside, so that pieces which only touch a side from outside give nothing, and pieces that touch each other
// at a point of a side come as two. New points lie on a side to the rounding of one division. An outline that no side
// cuts comes back as it is.
func ToRect(mp orb.MultiPolygon, rect orb.Bound) orb.MultiPolygon {
	b := mp.Bound()
	sides := []side{{0, rect.Min[0], 1}, {0, rect.Max[0], -1}, {1, rect.Min[1], 1}, {1, rect.Max[1], -1}}
	cutting := func(s side) bool { return s.depth(b.Min) <= 0 || s.depth(b.Max) <= 0 }
	if !slices.ContainsFunc(sides, cutting) {
		return mp
	}

	var out orb.MultiPolygon
	for _, p := range geometry.Orient(mp) {
		pieces := orb.MultiPolygon{p}
		for _, s := range sides {
			if !cutting(s) {
				continue
			}
			var rest orb.MultiPolygon
			for _, q := range pieces {
				rest = append(rest, s.cut(q)...)
			}
			pieces = rest
		}
		out = append(out, pieces...)
	}
	return out
}

// side is a line across an axis; what lies on the far side of at, towards sign, is kept.
type side struct {
	axis int
	at   float64
	sign float64
}

// depth returns how far inside a point lies.
func (s side) depth(p orb.Point) float64 { return (p[s.axis] - s.at) * s.sign }

// along returns where a point lies along the side, growing in the direction in which the boundary of what is kept runs.
func (s side) along(p orb.Point) float64 {
	if s.axis == 0 {
		return -p[1] * s.sign
	}
	return p[0] * s.sign
}

// chain is a stretch of a ring inside, from where it enters to where it leaves.
type chain struct {
	points orb.Ring
	next   int // the chain that follows along the side
}

// cut returns what lies inside of one polygon.
func (s side) cut(p orb.Polygon) orb.MultiPolygon {
	var chains []chain
	var rings []orb.Ring // whole
	for _, ring := range p {
		in := 0
		for _, v := range ring[1:] {
			if s.depth(v) > 0 {
				in++
			}
		}
		switch in {
		case 0:
		case len(ring) - 1:
			rings = append(rings, ring)
		default:
			chains = append(chains, s.chains(ring)...)
		}
	}
	rings = append(rings, s.joined(chains)...)
	return nested(rings)
}

// chains returns the stretches of a ring that lie inside. The ring has points on both sides.
func (s side) chains(ring orb.Ring) (out []chain) {
	n := len(ring) - 1
	start := 0
	for !(s.depth(ring[start]) <= 0 && s.depth(ring[start+1]) > 0) {
		start++
	}
	var current orb.Ring
	for k := range n {
		a, b := ring[(start+k)%n], ring[(start+k+1)%n]
		da, db := s.depth(a), s.depth(b)
		switch {
		case da <= 0 && db > 0:
			current = orb.Ring{s.crossing(a, b, da, db)}
			current = appended(current, b)
		case da > 0 && db > 0:
			current = appended(current, b)
		case da > 0:
			out = append(out, chain{points: appended(current, s.crossing(a, b, da, db))})
		}
	}
	return out
}

func (s side) crossing(a, b orb.Point, da, db float64) orb.Point {
	other := 1 - s.axis
	t := da / (da - db)
	p := orb.Point{}
	p[s.axis], p[other] = s.at, a[other]+t*(b[other]-a[other])
	return p
}

func appended(r orb.Ring, p orb.Point) orb.Ring {
	if r[len(r)-1] == p {
		return r
	}
	return append(r, p)
}

// joined connects chains along the side. In the order along it a chain's end and another's beginning take turns; where
// rounding or touching brings two to one place the turn decides.
func (s side) joined(chains []chain) (out []orb.Ring) {
	type end struct {
		at     float64
		chain  int
		leaves bool
	}
	var ends []end
	for k, c := range chains {
		ends = append(ends, end{s.along(c.points[0]), k, false}, end{s.along(c.points[len(c.points)-1]), k, true})
	}
	sort.SliceStable(ends, func(x, y int) bool { return ends[x].at < ends[y].at })

	for k := range ends {
		if want := k%2 == 0; ends[k].leaves != want {
			for j := k + 1; j < len(ends); j++ {
				if ends[j].leaves == want {
					ends[k], ends[j] = ends[j], ends[k]
					break
				}
			}
		}
		if k%2 == 1 {
			chains[ends[k-1].chain].next = ends[k].chain
		}
	}

	done := make([]bool, len(chains))
	for k := range chains {
		if done[k] {
			continue
		}
		var ring orb.Ring
		for i := k; !done[i]; i = chains[i].next {
			done[i] = true
			for _, p := range chains[i].points {
				if len(ring) == 0 || ring[len(ring)-1] != p {
					ring = append(ring, p)
				}
			}
		}
		if ring[0] != ring[len(ring)-1] {
			ring = append(ring, ring[0])
		}
		out = append(out, ring)
	}
	return out
}

// nested makes polygons of rings: each clockwise ring is a hole of the counter-clockwise one round it.
func nested(rings []orb.Ring) (out orb.MultiPolygon) {
	var holes []orb.Ring
	for _, r := range rings {
		area := geometry.RingArea(r)
		switch {
		case len(r) < 4 || abs(area) <= minThickness*geometry.Length(orb.MultiPolygon{{r}})/2:
		case area > 0:
			out = append(out, orb.Polygon{r})
		default:
			holes = append(holes, r)
		}
	}
	for _, h := range holes {
		for k := range out {
			if len(out) == 1 || geometry.Contains(orb.MultiPolygon{out[k][:1]}, inside(h)) {
				out[k] = append(out[k], h)
				break
			}
		}
	}
	return out
}

// inside returns a point within a ring, which no outer ring passes through.
func inside(r orb.Ring) orb.Point { return geometry.InnerPoint(orb.Polygon{r}) }

func abs(v float64) float64 { return max(v, -v) }
