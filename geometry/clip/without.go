package clip

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

const (
	// unsureWithin in mm: where a corner of one boundary lies this near the other, whether they cross is for rounding
	// to say, and the other outline is moved a little instead.
	unsureWithin = 1e-9

	// nudge in mm is by how much: far above unsureWithin, far below all that is measured.
	nudge = 1e-8
)

// nudges are the ways an outline is moved, in steps of nudge, until no corner lies on the other boundary.
var nudges = [...]orb.Point{{0, 0}, {0.61, 0.79}, {-0.87, 0.49}, {0.23, -0.97}, {-1.3, -1.1}, {2.9, 1.7}}

// Without returns the part of a shape that lies outside another one moved by shift, which stands still while the shape
// is cut: one polygon for each connected piece, outer rings counter-clockwise and holes clockwise. Both are valid
// outlines, the other one with outer rings counter-clockwise. Where corners lie on the other boundary the other one is
// moved by some 1e-8 mm first; ok is false where that does not help.
func Without(s, other *geometry.Shape, shift orb.Point) (out orb.MultiPolygon, ok bool) {
	for _, n := range nudges {
		moved := geometry.Add(shift, geometry.Times(n, nudge))
		if out, ok = without(s, other, moved); ok {
			return out, true
		}
	}
	return nil, false
}

// boundary is a shape's rings, outer ones counter-clockwise, and the crossings on each in their order along it.
type boundary struct {
	rings []orb.Ring
	on    [][]int // crossings of each ring, by place
	place []int   // of each crossing in its ring's list
}

// without is Without for outlines in general position.
func without(s, other *geometry.Shape, shift orb.Point) (orb.MultiPolygon, bool) {
	found, ok := geometry.Crossings(s, other, shift, unsureWithin)
	if !ok {
		return nil, false
	}

	own, _ := s.OwnRings()
	if len(own) > 0 && geometry.RingArea(own[0]) < 0 { // of an image that mirrors
		for i, r := range own {
			own[i] = geometry.Reversed(r)
		}
		for k := range found {
			c := &found[k]
			c.EdgeA, c.T, c.Side = len(own[c.RingA])-2-c.EdgeA, 1-c.T, -c.Side
		}
	}
	theirs, _ := other.OwnRings()

	a := boundary{rings: own}
	a.sort(len(found), func(k int) (ring int, at float64) {
		return found[k].RingA, float64(found[k].EdgeA) + found[k].T
	})
	b := boundary{rings: theirs}
	b.sort(len(found), func(k int) (ring int, at float64) {
		return found[k].RingB, float64(found[k].EdgeB) + found[k].U
	})
	if !a.takeTurns(found) || !b.takeTurns(found) {
		return nil, false
	}

	rings := keptWhole(s, other, shift, a, b)
	cut, ok := trace(found, a, b, shift)
	if !ok {
		return nil, false
	}
	return nested(append(rings, cut...)), true
}

// sort lists n crossings on their rings, by where they lie.
func (b *boundary) sort(n int, where func(k int) (ring int, at float64)) {
	b.on, b.place = make([][]int, len(b.rings)), make([]int, n)
	for k := range n {
		ring, _ := where(k)
		b.on[ring] = append(b.on[ring], k)
	}
	for _, list := range b.on {
		slices.SortFunc(list, func(x, y int) int {
			_, p := where(x)
			_, q := where(y)
			return cmp.Compare(p, q)
		})
		for i, k := range list {
			b.place[k] = i
		}
	}
}

// takeTurns reports whether along every ring crossings inward and outward take turns.
func (b *boundary) takeTurns(found []geometry.Crossing) bool {
	for _, list := range b.on {
		for i, k := range list {
			if next := list[(i+1)%len(list)]; (found[k].Side > 0) == (found[next].Side > 0) {
				return false
			}
		}
	}
	return true
}

// keptWhole returns the rings that no crossing lies on and that bound what is left: those of the shape outside the
// other, and those of the other, run backwards, inside the shape.
func keptWhole(s, other *geometry.Shape, shift orb.Point, a, b boundary) (out []orb.Ring) {
	for i, r := range a.rings {
		if len(a.on[i]) == 0 && !other.Contains(geometry.Sub(r[0], shift)) {
			out = append(out, r)
		}
	}
	for i, r := range b.rings {
		if len(b.on[i]) == 0 && s.Contains(geometry.Add(r[0], shift)) {
			hole := geometry.Reversed(r)
			for k := range hole {
				hole[k] = geometry.Add(hole[k], shift)
			}
			out = append(out, hole)
		}
	}
	return out
}

// trace returns the rings that crossings lie on: from where the shape's boundary leaves the other, along it to where it
// enters, and from there back along the other's boundary.
func trace(found []geometry.Crossing, a, b boundary, shift orb.Point) (out []orb.Ring, ok bool) {
	done := make([]bool, len(found))
	for start := range found {
		if found[start].Side > 0 || done[start] { // it enters
			continue
		}
		var ring orb.Ring
		for k := start; !done[k]; {
			if done[k] = true; found[k].Side > 0 {
				return nil, false
			}
			leaves, on := found[k], a.on[found[k].RingA]
			enters := on[(a.place[k]+1)%len(on)]
			ring = stretch(ring, a.rings[leaves.RingA], leaves.At, leaves.EdgeA, leaves.T, found[enters].EdgeA,
				found[enters].T, orb.Point{})

			back := b.on[found[enters].RingB]
			k = back[(b.place[enters]+len(back)-1)%len(back)]
			ring = backwards(ring, b.rings[found[enters].RingB], found[enters].At, found[enters].EdgeB, found[enters].U,
				found[k].EdgeB, found[k].U, shift)
		}
		if ring = append(ring, ring[0]); len(ring) > 3 {
			out = append(out, ring)
		}
	}
	return out, true
}

// stretch appends a place on a ring and the corners that follow up to another.
func stretch(out, ring orb.Ring, at orb.Point, edge int, t float64, to int, u float64, shift orb.Point) orb.Ring {
	out = append(out, at)
	n := len(ring) - 1
	if edge == to && u >= t {
		return out
	}
	for k := edge; ; {
		k = (k + 1) % n
		out = appended(out, geometry.Add(ring[k], shift))
		if k == to {
			return out
		}
	}
}

// backwards appends a place on a ring and the corners before it, as far back as another.
func backwards(out, ring orb.Ring, at orb.Point, edge int, t float64, to int, u float64, shift orb.Point) orb.Ring {
	out = append(out, at)
	n := len(ring) - 1
	if edge == to && u <= t {
		return out
	}
	for k := edge; ; {
		out = appended(out, geometry.Add(ring[k], shift))
		if k = (k + n - 1) % n; k == to {
			return out
		}
	}
}
