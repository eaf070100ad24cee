package whole

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
)

const (
	// touchSlack in mm: pieces nearer than this are one opening, as in the check of the panel.
	touchSlack = 1e-7

	// noArea in mm²: an overlap up to this is the rounding of its own sum, as in the check of the panel.
	noArea = 1e-9
)

// relation is a pair of images, the second some cells on.
type relation struct {
	a, b  int
	cell  [2]int
	shift orb.Point // from a to b, panel mm
	gap   float64   // between their boxes
}

// distance is the shortest way between two pieces, as seen from the first.
type distance struct {
	geometry.Near
	area  float64
	limit float64 // below which it was looked for
}

// joins reports whether the two pieces touch or run into each other.
func (w distance) joins() bool { return w.area > 0 || (w.Found && w.D <= touchSlack) }

type distanceKey struct {
	a, b  *geometry.Shape
	shift orb.Point
}

// meeting is a pair of pieces that meet or are too near each other; P and Q on the panel.
type meeting struct {
	i, j int // copies
	p, q int // their parts
	distance
}

// relations lists the pairs of images whose boxes are nearer than reach mm, or meet.
func (c *look) relations(reach float64) (out []relation) {
	field := c.l.Draft.FieldMap()
	for a := range c.images {
		m := &c.images[a]
		window := m.bound.Pad(reach)
		for b := a; b < len(c.images); b++ {
			o := &c.images[b]
			c.l.Cells(window, o.bound, func(x, y int) bool {
				if a == b && (y < 0 || (y == 0 && x <= 0)) {
					return true
				}
				v := c.l.Lattice(x, y)
				if gap := gapOf(m.bound, o.bound, v); gap < reach {
					d := orb.Point{o.At[0] + v[0] - m.At[0], o.At[1] + v[1] - m.At[1]}
					out = append(out, relation{a, b, [2]int{x, y}, field.Vector(d), gap})
				}
				return true
			})
		}
	}
	return out
}

// gapOf returns the distance between the boxes a and b + v.
func gapOf(a, b orb.Bound, v orb.Point) float64 {
	dx := math.Max(0, math.Max(a.Min[0]-b.Max[0]-v[0], b.Min[0]+v[0]-a.Max[0]))
	dy := math.Max(0, math.Max(a.Min[1]-b.Max[1]-v[1], b.Min[1]+v[1]-a.Max[1]))
	return math.Hypot(dx, dy)
}

// between measures two pieces, the second moved by shift, as far as limit mm.
func (c *look) between(a, b *geometry.Shape, shift orb.Point, limit float64) distance {
	key := distanceKey{a, b, orb.Point{onGrid(shift[0]), onGrid(shift[1])}}
	if w, ok := c.w.distances.get(key); ok && (w.Found || w.area > 0 || w.limit >= limit) {
		return w
	}
	w := distance{Near: geometry.Distance(a, b, key.shift, limit), limit: limit}
	if (w.Found && w.D <= touchSlack) || (boxesMeet(a, b, key.shift) && geometry.Inside(a, b, key.shift)) {
		if w.area = geometry.OverlapArea(a, b, key.shift); w.area < noArea {
			w.area = 0
		}
		if !w.Found {
			w.Near = geometry.Distance(a, b, key.shift, math.Inf(1))
		}
	}
	c.w.distances.put(key, w)
	return w
}

func boxesMeet(a, b *geometry.Shape, v orb.Point) bool { return gapOf(a.Bound(), b.Bound(), v) == 0 }

// pairs calls visit for every two copies that lie as the relation says; visit returning false ends it.
func (c *look) pairs(r *relation, visit func(i, j int) bool) {
	a, b := &c.images[r.a], &c.images[r.b]
	for i := a.from; i < a.to; i++ {
		cell := c.copies[i].Cell
		if j := b.find(cell[0]+r.cell[0], cell[1]+r.cell[1]); j >= 0 && !visit(i, j) {
			return
		}
	}
}

// nearer reports whether two images have parts nearer than limit, or that meet.
func (c *look) nearer(r *relation, limit float64) bool {
	for _, p := range c.images[r.a].parts {
		for _, q := range c.images[r.b].parts {
			if w := c.between(p.Shape, q.Shape, r.shift, limit); w.joins() || (w.Found && w.D < limit) {
				return true
			}
		}
	}
	return false
}

// shift returns what leads from one copy to another: that of their relation where both are whole.
func (c *look) shift(r *relation, i, j int) orb.Point {
	if r != nil && c.kept[i].cut == nil && c.kept[j].cut == nil {
		return r.shift
	}
	a, b := c.copies[i].Shift, c.copies[j].Shift
	return orb.Point{b[0] - a[0], b[1] - a[1]}
}

// meet finds the pieces that meet or are nearer than the bridge; false when they are too many.
func (c *look) meet() bool {
	c.near = c.relations(c.reach)
	for k := range c.near {
		r := &c.near[k]
		if r.gap == 0 {
			a, b := &c.images[r.a], &c.images[r.b]
			a.meets = append(a.meets, neighbour{r.b, r.cell, r.shift})
			b.meets = append(b.meets, neighbour{r.a, [2]int{-r.cell[0], -r.cell[1]},
				orb.Point{-r.shift[0], -r.shift[1]}})
		}
		if !c.nearer(r, c.reach) {
			continue // what the edge leaves of them is no nearer
		}
		c.pairs(r, func(i, j int) bool {
			c.measure(i, j, c.shift(r, i, j))
			return len(c.met) <= maxMeetings
		})
	}

	for i := range c.kept {
		if len(c.kept[i].parts) > 1 {
			c.measure(i, i, orb.Point{})
		}
	}
	if len(c.met) > maxMeetings {
		return false
	}
	sort.SliceStable(c.met, func(x, y int) bool {
		a, b := between(c.met[x].i, c.met[x].j), between(c.met[y].i, c.met[y].j)
		return a[0] < b[0] || (a[0] == b[0] && a[1] < b[1])
	})
	return true
}

// measure looks at every piece of one copy against every piece of another, or of the same.
func (c *look) measure(i, j int, shift orb.Point) {
	at := c.copies[i].Shift
	for p, a := range c.kept[i].parts {
		for q, b := range c.kept[j].parts {
			if i == j && q <= p {
				continue
			}
			w := c.between(a.Shape, b.Shape, shift, c.reach)
			if !w.joins() && !(w.Found && w.D < c.reach) {
				continue
			}
			w.P, w.Q = geometry.Add(w.P, at), geometry.Add(w.Q, at)
			c.met = append(c.met, meeting{i, j, p, q, w})
		}
	}
}

// overlaps reports pairs of copies whose common area is over the limit.
func (c *look) overlaps() {
	for from := 0; from < len(c.met); {
		to, area := from, 0.0
		at := -1
		for to < len(c.met) && c.met[to].i == c.met[from].i && c.met[to].j == c.met[from].j {
			if m := c.met[to]; m.area > 0 && m.i != m.j {
				area += m.area
				if at < 0 {
					at = to
				}
			}
			to++
		}
		if area > sheet.OverlapFrom {
			m := c.met[at]
			c.listing.Add(sheet.Problem{Kind: sheet.Overlap, Severity: sheet.Fault, At: geometry.Midpoint(m.P, m.Q),
				Measured: area,
				Between:  between(m.i, m.j)})
		}
		from = to
	}
}

// bridges reports every pair of pieces of different openings nearer than the required bridge.
func (c *look) bridges() {
	for _, m := range c.met {
		if m.D >= c.need.Bridge || !c.different(m.i, m.p, m.j, m.q) {
			continue
		}
		if !c.listing.Wants(sheet.Bridge, sheet.Fault, m.D) {
			c.listing.Count(sheet.Bridge, sheet.Fault, 1, true)
			continue
		}
		c.listing.Add(sheet.Problem{Kind: sheet.Bridge, Severity: sheet.Fault, At: geometry.Midpoint(m.P, m.Q),
			Measured: m.D,
			Required: c.need.Bridge, Between: between(m.i, m.j), Ends: &[2][2]float64{m.P, m.Q}})
	}
}

func between(i, j int) *[2]int { return &[2]int{min(i, j), max(i, j)} }
