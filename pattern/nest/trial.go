package nest

import (
	"cmp"
	"math"
	"slices"
)

// box is a rectangle by its lower left and its upper right corner.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) within(c box) bool {
	return b.x0 >= c.x0-slack && b.y0 >= c.y0-slack && b.x1 <= c.x1+slack && b.y1 <= c.y1+slack
}

func (b box) meets(c box) bool {
	return b.x0 < c.x1-slack && b.x1 > c.x0+slack && b.y0 < c.y1-slack && b.y1 > c.y0+slack
}

// sheet is a sheet of stock begun: what lies on it and, where boxes are laid, its free rectangles, none within another.
type sheet struct {
	placed []Placed
	free   []box
	ground *ground // where pieces are laid by their outlines, what they cover
}

// way says how a piece is to lie in a trial.
type way int

const (
	either way = iota
	upright
	turned
	ways = 3
)

// item is one piece to be laid.
type item struct {
	piece int
	lies  way
}

// trial is one way of laying the pieces.
type trial struct {
	order  []item
	sheets []*sheet
	unlaid int
	last   float64 // area laid on the emptiest sheet
}

// better reports whether a trial lays more pieces than another, or as many on fewer sheets, or leaves more of the
// emptiest of them free.
func (t trial) better(o trial) bool {
	switch {
	case t.sheets == nil || o.sheets == nil:
		return t.sheets != nil
	case t.unlaid != o.unlaid:
		return t.unlaid < o.unlaid
	case len(t.sheets) != len(o.sheets):
		return len(t.sheets) < len(o.sheets)
	}
	return t.last < o.last-slack
}

// done reports whether a trial lays all pieces on no more sheets than there must be.
func (t trial) done(bound int) bool {
	return t.sheets != nil && t.unlaid == 0 && len(t.sheets) <= bound
}

// rules of which free rectangle a piece is laid in: the one whose shorter side it leaves least of, the one of the least
// area, and the lowest, leftmost place.
const rules = 3

// score returns how well a piece of a size lies in a free rectangle by a rule; less is better.
func score(rule int, f box, w, h float64) (first, second float64) {
	restX, restY := f.x1-f.x0-w, f.y1-f.y0-h
	switch rule {
	case 0:
		return math.Min(restX, restY), math.Max(restX, restY)
	case 1:
		return (f.x1 - f.x0) * (f.y1 - f.y0), math.Min(restX, restY)
	}
	return f.y0 + h, f.x0
}

// lay lays the pieces in an order by a rule.
func (p *packer) lay(order []item, rule int) trial {
	t := trial{order: order, last: math.Inf(1)}
	for _, i := range order {
		if p.put(&t, i, rule) {
			continue
		}
		if p.most > 0 && len(t.sheets) == p.most {
			t.unlaid++
			continue
		}
		t.sheets = append(t.sheets, &sheet{free: []box{{0, 0, p.wide, p.high}}})
		if !p.put(&t, i, rule) {
			t.unlaid++ // not met: each piece fits an empty sheet
		}
	}
	for _, s := range t.sheets {
		area := 0.0
		for _, q := range s.placed {
			area += q.Width * q.Height
		}
		t.last = math.Min(t.last, area)
	}
	return t
}

// put lays a piece where it lies best on the sheets begun; false where it fits none.
func (p *packer) put(t *trial, i item, rule int) bool {
	q := p.pieces[i.piece]
	best, second := math.Inf(1), math.Inf(1)
	var on *sheet
	var at box
	turnedIt := false
	for _, s := range t.sheets {
		for _, f := range s.free {
			for _, lies := range []way{upright, turned} {
				w, h := q.Width+p.space, q.Height+p.space
				if i.lies != either && i.lies != lies && p.choice(q) {
					continue
				}
				if lies == turned {
					if q.Upright || q.Width == q.Height {
						continue
					}
					w, h = h, w
				}
				if w > f.x1-f.x0+slack || h > f.y1-f.y0+slack {
					continue
				}
				a, b := score(rule, f, w, h)
				if a < best-slack || a <= best+slack && b < second-slack {
					best, second, on, at, turnedIt = a, b, s, box{f.x0, f.y0, f.x0 + w, f.y0 + h}, lies == turned
				}
			}
		}
	}
	if on == nil {
		return false
	}
	w, h := q.Width, q.Height
	if turnedIt {
		w, h = h, w
	}
	on.placed = append(on.placed, Placed{Piece: i.piece, At: [2]float64{p.edge + at.x0, p.edge + at.y0},
		Turned: turnedIt, Width: w, Height: h})
	on.take(at)
	return true
}

// choice reports whether a piece may lie either way on stock.
func (p *packer) choice(q Piece) bool {
	w, h := q.Width+p.space, q.Height+p.space
	return !q.Upright && q.Width != q.Height && w <= p.wide+slack && h <= p.high+slack && h <= p.wide+slack &&
		w <= p.high+slack
}

// take takes a rectangle off the free ones: what is left of each are up to four that overlap, and those that lie within
// others are dropped.
func (s *sheet) take(b box) {
	var cut []box
	keep := s.free[:0]
	for _, f := range s.free {
		if !f.meets(b) {
			keep = append(keep, f)
			continue
		}
		for _, r := range []box{{f.x0, f.y0, b.x0, f.y1}, {b.x1, f.y0, f.x1, f.y1}, {f.x0, f.y0, f.x1, b.y0},
			{f.x0, b.y1, f.x1, f.y1}} {
			if r.x1-r.x0 > slack && r.y1-r.y0 > slack {
				cut = append(cut, r)
			}
		}
	}

	// A new one may lie within another new one or an old one; an old one lies within none, for it is a largest one.
	slices.SortFunc(cut, func(a, b box) int {
		return cmp.Compare((b.x1-b.x0)*(b.y1-b.y0), (a.x1-a.x0)*(a.y1-a.y0))
	})
	for _, r := range cut {
		if !slices.ContainsFunc(keep, r.within) {
			keep = append(keep, r)
		}
	}
	s.free = keep
}
