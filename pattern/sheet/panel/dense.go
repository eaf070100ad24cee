package panel

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// How a panel is gone through depends on how often its copies run into each other.
const (
	// crowdedFrom is how many pairs of copies run into each other before openings are united block by block. Below it
	// they are united cluster by cluster, which keeps the shapes that openings share.
	crowdedFrom = 1000

	// denseFrom is the number of such pairs from which pairs that are translates of each other are counted and not gone
	// through one by one: what is cropped at the field's edge is then left out of the count of overlaps.
	denseFrom = 40000

	// maxCropped is how many copies may be cropped one by one when the field is crowded.
	maxCropped = 1500

	// maxRelations bounds the kinds of pair that are measured for the count of overlaps: about a second.
	maxRelations = 20000
)

// density is how often the copies of a panel run into each other.
type density int

const (
	loose   density = iota
	crowded         // openings are united block by block
	dense           // and overlaps are counted by kind of pair
)

// pairKind is one kind of pair: a copy of class a and the copy of class b that stands d cells on.
type pairKind struct {
	a, b  int
	d     [2]int
	count int // pairs of this kind on the panel
	whole int // those of which neither is cropped
}

// crowd finds the kinds of pair that run into each other, and how many pairs there are of each.
type crowd struct {
	t      *lattice
	shapes []*geometry.Shape // of the classes
	places []map[[2]int]int  // of each class: cell → copy
	whole  func(copyOf int) bool
}

func newCrowd(t *lattice, whole func(int) bool) *crowd {
	c := &crowd{t: t, whole: whole}
	for _, k := range t.classes {
		at := make(map[[2]int]int, len(k.copies))
		for _, i := range k.copies {
			at[t.copies[i].Cell] = i
		}
		c.shapes = append(c.shapes, geometry.NewShape(k.outline))
		c.places = append(c.places, at)
	}
	return c
}

// meeting calls do for every kind of pair that touches or runs into each other, until it returns false.
func (c *crowd) meeting(do func(pairKind) bool) {
	for a, sa := range c.shapes {
		for b := a; b < len(c.shapes); b++ {
			sb := c.shapes[b]
			whole := c.t.near(sa.Bound(), sb.Bound(), func(d [2]int, v orb.Point) bool {
				if a == b && (d[1] < 0 || (d[1] == 0 && d[0] <= 0)) {
					return true
				}
				if !geometry.Distance(sa, sb, v, touchSlack).Found && !geometry.Inside(sa, sb, v) {
					return true
				}
				r := pairKind{a: a, b: b, d: d}
				for cell, i := range c.places[a] {
					j, ok := c.places[b][[2]int{cell[0] + d[0], cell[1] + d[1]}]
					if !ok {
						continue
					}
					r.count++
					if c.whole(i) && c.whole(j) {
						r.whole++
					}
				}
				return r.count == 0 || do(r)
			})
			if !whole {
				return
			}
		}
	}
}

// near calls do for the vectors of the lattice by which box b can be moved so that it meets box a, until it returns
// false; then it reports false.
func (t *lattice) near(a, b orb.Bound, do func(d [2]int, v orb.Point) bool) bool {
	window := orb.Bound{Min: orb.Point{a.Min[0] - b.Max[0], a.Min[1] - b.Max[1]},
		Max: orb.Point{a.Max[0] - b.Min[0], a.Max[1] - b.Min[1]}}
	det := t.a[0]*t.b[1] - t.a[1]*t.b[0]
	low := [2]float64{math.Inf(1), math.Inf(1)}
	high := [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, p := range window.ToRing() {
		in := [2]float64{(p[0]*t.b[1] - p[1]*t.b[0]) / det, (t.a[0]*p[1] - t.a[1]*p[0]) / det}
		for i := range 2 {
			low[i], high[i] = min(low[i], in[i]), max(high[i], in[i])
		}
	}
	for n := int(math.Ceil(low[1])); float64(n) <= high[1]; n++ {
		for m := int(math.Ceil(low[0])); float64(m) <= high[0]; m++ {
			d := [2]int{m, n}
			if v := t.vector(d); window.Contains(v) && !do(d, v) {
				return false
			}
		}
	}
	return true
}

// densityOf says how often the copies of a panel run into each other.
func densityOf(l *pattern.Layout, copies []pattern.Copy) density {
	if n := len(copies); n*(n-1)/2 <= crowdedFrom {
		return loose
	}
	pairs := 0
	everyone := func(int) bool { return true }
	newCrowd(newLattice(l, copies), everyone).meeting(func(r pairKind) bool {
		pairs += r.count
		return pairs <= denseFrom
	})
	cropped := 0
	for _, c := range copies {
		if isCropped(l, c) {
			cropped++
		}
	}
	switch {
	case pairs <= crowdedFrom:
		return loose
	case pairs <= denseFrom && cropped <= maxCropped:
		return crowded
	}
	return dense
}

// isCropped reports whether the field's edge or a room cuts a copy.
func isCropped(l *pattern.Layout, c pattern.Copy) bool { return c.Cut || atEdge(l, c) }

// atEdge reports whether the field's edge cuts a copy.
func atEdge(l *pattern.Layout, c pattern.Copy) bool {
	return c.Place == geometry.Across && l.Draft.Field.Edge == draft.Crop
}

// countOverlaps counts the pairs that run into each other by kind of pair. Pairs of which one is cropped are not looked
// at; where there are such, there are at least as many overlaps as are counted.
func (c *panelCheck) countOverlaps() error {
	t := newLattice(c.l, c.copies)
	if err := t.takeTies(c.l); err != nil {
		return err
	}
	w := newCrowd(t, func(i int) bool { return !isCropped(c.l, c.copies[i]) })
	measured, exact := 0, true
	w.meeting(func(r pairKind) bool {
		exact = exact && r.whole == r.count
		if r.whole == 0 {
			return true
		}
		if measured++; measured > maxRelations {
			exact = false
			return false
		}
		sa, sb, v := w.shapes[r.a], w.shapes[r.b], t.vector(r.d)
		area := geometry.OverlapArea(sa, sb, v)
		if area <= sheet.OverlapFrom {
			return true
		}
		left := r.whole
		if c.listing.Wants(sheet.Overlap, sheet.Fault, area) {
			left -= c.listOverlaps(w, r, area)
		}
		c.listing.Count(sheet.Overlap, sheet.Fault, left, true)
		return true
	})

	c.listing.Count(sheet.Overlap, sheet.Fault, 0, exact)
	return nil
}

// listOverlaps lists pairs of one kind while they are wanted, and returns how many it listed.
func (c *panelCheck) listOverlaps(w *crowd, r pairKind, area float64) (listed int) {
	near := geometry.Distance(w.shapes[r.a], w.shapes[r.b], w.t.vector(r.d), math.Inf(1))
	for _, i := range w.t.classes[r.a].copies {
		cell := w.t.copies[i].Cell
		j, ok := w.places[r.b][[2]int{cell[0] + r.d[0], cell[1] + r.d[1]}]
		if !ok || !w.whole(i) || !w.whole(j) {
			continue
		}
		if !c.listing.Wants(sheet.Overlap, sheet.Fault, area) {
			break
		}
		v := w.t.vector(cell)
		at := [2]float64{(near.P[0]+near.Q[0])/2 + v[0], (near.P[1]+near.Q[1])/2 + v[1]}
		c.add(c.overlap(at, i, j, area))
		listed++
	}
	return listed
}

// bridgesBetween reports every pair of openings nearer than the required bridge, and finds the narrowest way between
// two.
func (c *panelCheck) bridgesBetween() {
	need := c.l.Draft.Sheet.Bridge
	if len(c.openings) < 2 {
		return
	}
	all := c.order.bounds[0]
	for _, b := range c.order.bounds {
		all = all.Union(b)
	}
	far := math.Hypot(all.Max[0]-all.Min[0], all.Max[1]-all.Min[1]) + 1
	for reach, first := math.Max(need, 1), true; ; reach, first = 2*reach, false {
		best := geometry.Near{D: math.Inf(1)}
		c.nearOpenings(reach, func(i, j int, near geometry.Near) {
			if near.D < best.D {
				best = near
			}
			if first && near.D < need {
				c.add(c.bridge(near, c.copyOf(i), c.copyOf(j)))
			}
		})
		if best.D < math.Inf(1) {
			d := best.D
			c.report.NarrowestBetween, c.report.BetweenEnds = &d, &[2][2]float64{best.P, best.Q}
			return
		}
		if reach > far {
			return
		}
	}
}

// nearOpenings calls do for every pair of openings nearer than reach mm.
func (c *panelCheck) nearOpenings(reach float64, do func(i, j int, near geometry.Near)) {
	for x, i := range c.order.of {
		a, o := c.order.bounds[x], &c.openings[i]
		for y := x + 1; y < len(c.order.of) && c.order.bounds[y].Min[0] <= a.Max[0]+reach; y++ {
			b := c.order.bounds[y]
			if b.Min[1] > a.Max[1]+reach || a.Min[1] > b.Max[1]+reach {
				continue
			}
			p := &c.openings[c.order.of[y]]
			v := orb.Point{p.shift[0] - o.shift[0], p.shift[1] - o.shift[1]}
			near := geometry.Distance(o.shape, p.shape, v, reach)
			if !near.Found {
				continue
			}
			near.P, near.Q = c.move(i, near.P), c.move(i, near.Q)
			do(i, c.order.of[y], near)
		}
	}
}
