package recognise

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// field is the periodic set that is looked through.
type field struct {
	basis  basis   // of the finest lattice found so far
	pieces []piece // one of each, modulo the lattice
	index  index
	first  int // the piece that last told an isometry apart: looked for first
	looks  int
	known  map[question]bool
}

// dropTwins keeps one of pieces that coincide modulo the lattice, and brings all of them near the first.
func (f *field) dropTwins() {
	all := f.pieces
	f.pieces = nil
	f.index = newIndex(f.basis, len(all))
	for _, p := range all {
		p.at = geometry.Sub(p.at, f.basis.nearest(geometry.Sub(p.at, all[0].at)))
		f.pieces = append(f.pieces, p)
		last := len(f.pieces) - 1
		if _, _, twin := f.find(last, geometry.Identity, nil, false); twin {
			f.pieces = f.pieces[:last]
			continue
		}
		f.index.put(p.at, last)
	}
}

// keep goes on with some of the pieces and a finer lattice.
func (f *field) keep(b basis, pieces []piece) {
	f.basis, f.pieces, f.first = b, pieces, 0
	f.index = newIndex(b, len(pieces))
	for i := range pieces {
		pieces[i].at = geometry.Sub(pieces[i].at, b.nearest(geometry.Sub(pieces[i].at, pieces[0].at)))
		f.index.put(pieces[i].at, i)
	}
}

// find returns the piece that the isometry m carries piece i to, modulo the lattice, the one nearest by its centre, and
// how far that centre is from the image of the own one. Pieces already taken are passed over. A loose look takes alike
// pieces with centres up to looseSlack apart for the same and leaves their boundaries.
func (f *field) find(i int, m geometry.Map, taken []bool, loose bool) (j int, off orb.Point, ok bool) {
	f.looks++
	p := f.pieces[i]
	at, turn := m.Apply(p.at), linear(m).After(p.turn)
	best := centreSlack
	if loose {
		best = looseSlack
	}
	f.index.each(at, func(k int) {
		q := f.pieces[k]
		d := geometry.Sub(q.at, at)
		d = geometry.Sub(d, f.basis.nearest(d))
		back := q.turn.Rigid()
		h := math.Hypot(d[0], d[1])
		if h > best || (taken != nil && taken[k]) {
			return
		}
		if loose && p.form.alike(q.form) || !loose &&
			f.same(p.form, q.form, moved(back.After(turn), times(-1, back.Vector(d)))) {
			best, j, off, ok = h, k, d, true
		}
	})
	return j, off, ok
}

// carries reports whether the isometry m carries the set to itself, and which piece comes to which, one to one.
func (f *field) carries(m geometry.Map) (to []int, ok bool) {
	to, _, ok = f.match(m, false)
	return to, ok
}

// placed returns the isometry moved to where the centres of all pieces agree best with those they come to: their
// differences lie evenly about nothing. Where a piece is as far off as slack allows, m as found from that piece alone
// would leave none of it to the others. False when there is no way to match them, even loosely.
func (f *field) placed(m geometry.Map) (geometry.Map, bool) {
	_, offs, ok := f.match(m, true)
	return moved(m, offs.Center()), ok
}

// match looks for what each piece comes to, and returns the box of the differences between the centres.
func (f *field) match(m geometry.Map, loose bool) (to []int, offs orb.Bound, ok bool) {
	if f.looks > maxLooks {
		return nil, offs, false
	}
	if _, _, ok := f.find(f.first, m, nil, loose); !ok {
		return nil, offs, false
	}
	to = make([]int, len(f.pieces))
	taken := make([]bool, len(f.pieces))
	for i := range f.pieces {
		j, d, ok := f.find(i, m, taken, loose)
		if !ok {
			f.first = i
			return nil, offs, false
		}
		to[i], taken[j] = j, true
		if i == 0 {
			offs = d.Bound()
		}
		offs = offs.Extend(d)
	}
	return to, offs, true
}

// anchor returns a piece that few others are like, and those, itself among them: whatever carries the set to itself
// carries it to one of them.
func (f *field) anchor() (int, []int) {
	count, firsts := map[*form]int{}, map[*form]int{}
	var forms []*form
	longest := 0.0
	for i, p := range f.pieces {
		if count[p.form]++; count[p.form] == 1 {
			forms = append(forms, p.form)
			firsts[p.form] = i
			longest = max(longest, p.form.length)
		}
	}
	byArea := slices.Clone(forms)
	slices.SortStableFunc(byArea, func(a, b *form) int { return sign(a.area - b.area) })
	total := map[*form]int{}
	for i, a := range byArea {
		total[a] += count[a]
		for _, b := range byArea[i+1:] {
			if b.area-a.area > slack*(a.length+longest) {
				break
			}
			if a.alike(b) {
				total[a] += count[b]
				total[b] += count[a]
			}
		}
	}

	rarest := forms[0]
	for _, a := range forms {
		if total[a] < total[rarest] {
			rarest = a
		}
	}
	var like []int
	for i, p := range f.pieces {
		if p.form.alike(rarest) {
			like = append(like, i)
		}
	}
	return firsts[rarest], like
}
