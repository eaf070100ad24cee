package stepping

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// slot is one opening of the stepping sheet: of the translates of a kind by the steps, one must be on it.
type slot struct {
	kind int
	cell cell // where the chosen one stands, in cells of the fine lattice
}

// chooser looks for the translates that give the smallest sheet, in the sheet's frame.
type chooser struct {
	l     lattice // turned as the sheet is
	s     steps
	boxes []orb.Bound // of the kinds in cell 0
	bed   draft.Bed   // what the openings' box may measure; zero: no limit
	slots []slot
	now   []orb.Bound
}

// choose returns one opening of each kind for each cell of the steps, so that the box round them is small, and that
// box. Many starts are made, each with the openings nearest to some point, and from each the openings that reach
// furthest out are exchanged for translates as long as the box gets smaller. The least of all boxes found is not proven
// to be the least there is. The frame turns the field to the sheet.
func (f *field) choose(s steps, frame geometry.Map, bed draft.Bed) ([]slot, orb.Bound) {
	c := &chooser{l: f.fine.turned(frame), s: s, bed: bed}
	for _, k := range f.kinds {
		b := k.bound()
		if frame != geometry.Identity {
			b = k.shape.Place(frame.After(geometry.Translate(k.at[0], k.at[1])), nil).Bound()
		}
		c.boxes = append(c.boxes, b)
	}
	for i := range s.a {
		for j := range s.d {
			for k := range f.kinds {
				c.slots = append(c.slots, slot{k, cell{i, j}})
			}
		}
	}
	c.now = make([]orb.Bound, len(c.slots))
	n := max(minSeeds, min(maxSeeds, seedWork/(len(c.slots)*9)))
	side := max(1, int(math.Sqrt(float64(n)/2)))
	best, lowest := []slot(nil), math.Inf(1)
	var box orb.Bound
	for i := range side {
		for j := range side {
			for _, gather := range []func(x, y float64){c.nearest, c.within} {
				gather((float64(i)+0.5)/float64(side), (float64(j)+0.5)/float64(side))
				b := c.descend()
				if v := c.cost(b); v < lowest-1e-9 {
					best, lowest, box = append([]slot(nil), c.slots...), v, b
				}
			}
		}
	}
	return best, box
}

// put sets a slot's opening.
func (c *chooser) put(k int, at cell) {
	c.slots[k].cell = at
	c.now[k] = moved(c.boxes[c.slots[k].kind], c.l.at(at))
}

// inSteps returns a vector of the sheet's frame in steps along u and v.
func (c *chooser) inSteps(p orb.Point) (x, y float64) {
	return lattice{c.l.at(c.s.u), c.l.at(c.s.v)}.of(p)
}

// nearest takes the translates whose boxes' middles lie nearest to a point, given in parts of the steps.
func (c *chooser) nearest(x, y float64) {
	u, v := c.l.at(c.s.u), c.l.at(c.s.v)
	at := orb.Point{x*u[0] + y*v[0], x*u[1] + y*v[1]}
	for k := range c.slots {
		p := geometry.Sub(at, geometry.Add(c.boxes[c.slots[k].kind].Center(), c.l.at(c.slots[k].cell)))
		sx, sy := c.inSteps(p)
		best, lowest := c.slots[k].cell, math.Inf(1)
		for i := -1; i <= 1; i++ {
			for j := -1; j <= 1; j++ {
				to := c.s.to(cell{int(math.Round(sx)) + i, int(math.Round(sy)) + j})
				w := geometry.Sub(p, c.l.at(to))
				if d := w[0]*w[0] + w[1]*w[1]; d < lowest-1e-9 {
					best, lowest = c.slots[k].cell.plus(to), d
				}
			}
		}
		c.put(k, best)
	}
}

// within takes the translates whose boxes' middles lie in the steps' parallelogram from a point on.
func (c *chooser) within(x, y float64) {
	for k := range c.slots {
		sx, sy := c.inSteps(geometry.Add(c.boxes[c.slots[k].kind].Center(), c.l.at(c.slots[k].cell)))
		to := c.s.to(cell{-int(math.Floor(sx - x)), -int(math.Floor(sy - y))})
		c.put(k, c.slots[k].cell.plus(to))
	}
}

// cost of a box: its area, and far above that by how much it is too large for the bed.
func (c *chooser) cost(b orb.Bound) float64 {
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	cost := w * h
	if c.bed.Width > 0 {
		over := func(x, y float64) float64 { return math.Max(0, w-x) + math.Max(0, h-y) }
		cost += 1e6 * math.Min(over(c.bed.Width, c.bed.Height), over(c.bed.Height, c.bed.Width))
	}
	return cost
}

// descend exchanges openings at the sides of the box as long as it gets smaller, and returns it.
func (c *chooser) descend() orb.Bound {
	box := boxOf(c.now)
	for range maxDescent {
		better := false
		for side := range 4 {
			if b, ok := c.pull(side, box); ok {
				box, better = b, true
			}
		}
		if !better {
			break
		}
	}
	return box
}

func boxOf(bs []orb.Bound) orb.Bound {
	out := bs[0]
	for _, b := range bs[1:] {
		out = out.Union(b)
	}
	return out
}

// pull moves all openings that reach one side of the box, if that makes the box smaller.
func (c *chooser) pull(side int, box orb.Bound) (orb.Bound, bool) {
	at := func(b orb.Bound) float64 { return [4]float64{b.Min[0], b.Min[1], -b.Max[0], -b.Max[1]}[side] }
	var out []int
	rest, some := orb.Bound{}, false
	for k, b := range c.now {
		switch {
		case at(b) <= at(box)+sideSlack:
			out = append(out, k)
		case some:
			rest = rest.Union(b)
		default:
			rest, some = b, true
		}
	}

	if !some {
		return box, false
	}
	was := make([]cell, len(out))
	for n, k := range out {
		was[n] = c.slots[k].cell
		best, lowest := was[n], math.Inf(1)
		for i := -2; i <= 2; i++ {
			for j := -2; j <= 2; j++ {
				to := was[n].plus(c.s.to(cell{i, j}))
				b := moved(c.boxes[c.slots[k].kind], c.l.at(to))
				if at(b) <= at(box)+sideSlack {
					continue
				}
				if v := c.cost(rest.Union(b)); v < lowest {
					best, lowest = to, v
				}
			}
		}
		c.put(k, best)
		rest = rest.Union(c.now[k])
	}

	if c.cost(rest) < c.cost(box)-1e-9 {
		return rest, true
	}
	for n, k := range out {
		c.put(k, was[n])
	}
	return box, false
}
