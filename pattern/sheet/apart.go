package sheet

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// maxCouples bounds the pairs of boxes that one search for a mend looks at. A usual field has some tens of pairs near
// each other, and a trial that fails ends at the first.
const maxCouples = 100000

// minReach in mm is how near copies are held to touch where the sheet asks for no bridge.
const minReach = 1e-6

// parting looks whether copies clear each other, for whoever tries one draft after another: only that, and no further
// than the first pair that does not. It counts what it has looked at.
type parting struct{ looked int }

// moved is a motif that stands elsewhere than a layout has it: by field mm. Its images follow by the operations.
type moved struct {
	motif int
	by    orb.Point
}

// none moves nothing.
var none = moved{motif: -1}

// place returns an image of a motif where it then stands.
func (m moved) place(l *pattern.Layout, motif int, i pattern.Image) pattern.Image {
	if motif == m.motif {
		v := l.Op(i.Op, 0, 0).Vector(m.by)
		i.At = orb.Point{i.At[0] + v[0], i.At[1] + v[1]}
	}
	return i
}

// spent reports whether the search has looked at all it may.
func (p *parting) spent() bool { return p.looked >= maxCouples }

// Apart reports whether no two copies run into each other or leave a bridge narrower than the sheet needs. Points that
// touch are a bridge of no width. It is false too where there are more pairs near each other than are looked at.
func Apart(l *pattern.Layout) bool { return new(parting).apart(l, none, nil) }

// apart is Apart with a motif moved, among the pairs of motifs for which counts holds; all of them when it is nil. It
// is what Check says in Overlaps and Bridges. Once the search is spent it is false.
func (p *parting) apart(l *pattern.Layout, to moved, counts func(i, j int) bool) bool {
	bridge := l.Draft.Sheet.Bridge
	return p.clearance(l, to, counts, math.Nextafter(bridge, -1)) >= bridge
}

// clearance is the least distance between two copies, in mm and no more than the sheet's bridge, or runInto where
// copies run into each other. The first pair that is no further apart than enough ends the search.
func (p *parting) clearance(l *pattern.Layout, to moved, counts func(i, j int) bool, enough float64) float64 {
	reach := math.Max(l.Draft.Sheet.Bridge, minReach)
	smallest := reach
	for i, a := range l.Orbits {
		if a.SameAs >= 0 {
			continue
		}
		first := to.place(l, i, a.Images[0])
		ab := first.Bound()
		window := ab.Pad(reach)
		for j := i; j < len(l.Orbits); j++ {
			if counts != nil && !counts(i, j) {
				continue
			}
			for _, b := range l.Orbits[j].Images {
				b = to.place(l, j, b)
				bb := b.Bound()
				l.Cells(window, bb, func(m, n int) bool {
					if i == j && !canonical(l, b.Op, m, n) {
						return true
					}
					if p.looked++; p.spent() {
						smallest = runInto
						return false
					}
					v := l.Lattice(m, n)
					if gap := gapOf(ab, bb, v); gap < smallest {
						smallest = math.Min(smallest, clearanceOf(l, first, b, v, reach, gap))
					}
					return smallest > enough
				})
				if smallest <= enough {
					return smallest
				}
			}
		}
	}
	return smallest
}

// runInto stands for the distance of copies that run into each other.
const runInto = -1

// clearanceOf is the clearance of two images, the second moved by v, whose boxes are gap mm apart; reach where they are
// as far apart as that.
func clearanceOf(l *pattern.Layout, a, b pattern.Image, v orb.Point, reach, gap float64) float64 {
	shift := geometry.Sub(geometry.Add(b.At, v), a.At)
	near := geometry.Distance(a.Shape, b.Shape, shift, reach)
	switch {
	case near.Found && near.D > 0:
		reach = near.D
		if near.D < l.Draft.Sheet.Bridge {
			return near.D
		}
	case near.Found && l.Draft.Sheet.Bridge > 0:
		return 0
	}
	if (near.Found && near.D == 0) || (gap == 0 && geometry.Inside(a.Shape, b.Shape, shift)) {
		if geometry.OverlapArea(a.Shape, b.Shape, shift) > OverlapFrom {
			return runInto
		}
	}
	return reach
}
