package residue

import (
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// gap is a line of boundary that no disc touches, from one touch on to another; a whole ring when from and to are nil.
type gap []orb.Point

// loop is a closed line round a piece of residue, the piece on its left: gaps, and after each the contact that leads
// back from its end to the beginning of the next. A ring that no disc touches is a loop with one gap and no contact.
type loop struct {
	gaps     []gap
	contacts []orb.Point // centres
	area     float64     // with the contacts as straight lines
}

// event is one end of a contact on the boundary.
type event struct {
	touch
	contact int32
	start   bool // the disc rolls on from here
}

// loops follows the parts of the boundary that no disc of radius r touches. ok is false where the contacts do not fit
// together, at the place returned.
func (b *boundary) loops(s *geometry.Shape, r, slack float64) (out []loop, at orb.Point, ok bool) {
	found := b.contacts(s, r, slack)
	events := make([][]event, len(b.rings))
	for i, d := range found {
		x, y := b.edges[d.from.edge].ring, b.edges[d.to.edge].ring
		events[x] = append(events[x], event{d.from, int32(i), false})
		events[y] = append(events[y], event{d.to, int32(i), true})
	}
	type end struct{ ring, index int }
	begins := make([]end, len(found)) // of the gap that begins where a contact's disc stops
	for k, ev := range events {
		sort.Slice(ev, func(i, j int) bool { return ev[i].before(ev[j].touch) })
		for i := range ev { // with an odd number of ends two alike follow each other somewhere
			if ev[i].start == ev[(i+1)%len(ev)].start {
				return nil, ev[i].p, false
			}
			if !ev[i].start {
				begins[ev[i].contact] = end{k, i}
			}
		}
		if len(ev) == 0 && b.untouched(s, k, r) {
			l := loop{gaps: []gap{b.wholeRing(k)}}
			l.area = area(l.gaps[0])
			out = append(out, l)
		}
	}

	seen := make([]bool, len(found))
	for first := range found {
		if seen[first] {
			continue
		}
		var l loop
		var chords []orb.Point
		for d := first; !seen[d]; { // each contact is passed once
			seen[d] = true
			at := begins[d]
			ev := events[at.ring]
			from, to := ev[at.index], ev[(at.index+1)%len(ev)]
			g := b.line(from.touch, to.touch)
			l.gaps, l.contacts = append(l.gaps, g), append(l.contacts, found[to.contact].c)
			chords = append(chords, g...)
			d = int(to.contact)
		}
		l.area = area(chords)
		out = append(out, l)
	}
	return out, at, true
}

// untouched reports whether a disc beside a ring's first edges is not clear. No disc jumps on this ring, so that all or
// none are.
func (b *boundary) untouched(s *geometry.Shape, ring int, r float64) bool {
	e := b.edges[b.rings[ring][0]]
	m := geometry.Midpoint(e.a, e.b)
	return s.Nearer(along(m, e.n, r), r-clearSlack)
}

func (b *boundary) wholeRing(ring int) gap {
	var g gap
	for i := b.rings[ring][0]; i < b.rings[ring][1]; i++ {
		g = append(g, b.edges[i].a)
	}
	return append(g, g[0])
}

// line returns the boundary from one touch on to another of the same ring.
func (b *boundary) line(from, to touch) gap {
	g := gap{from.p}
	e := from.edge
	if e == to.edge && from.before(to) {
		return append(g, to.p)
	}
	for { // once round the ring at most
		e = b.edges[e].next
		if a := b.edges[e].a; a != g[len(g)-1] {
			g = append(g, a)
		}
		if e == to.edge {
			break
		}
	}
	if to.p != g[len(g)-1] || len(g) == 1 {
		g = append(g, to.p)
	}
	return g
}
