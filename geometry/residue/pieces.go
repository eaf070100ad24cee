package residue

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// measure makes pieces of loops.
type measure struct {
	b         *boundary
	s         *geometry.Shape
	r, half   float64 // the disc's radius, and half the asked width
	tolerance float64
	inside    bool
	necks     *geometry.NeckFinder // once asked for
}

// pieces puts loops round the same piece together, leaves out what does not count, and measures the rest.
func (m *measure) pieces(loops []loop) []Piece {
	var outer, inner []loop
	for _, l := range loops {
		if l.area < 0 {
			inner = append(inner, l)
		} else {
			outer = append(outer, l)
		}
	}
	holes := make([][]loop, len(outer))
	if len(inner) > 0 {
		m.nest(outer, inner, holes)
	}
	var out []Piece
	for i, l := range outer {
		all := append([]loop{l}, holes[i]...)
		stretches := 0
		for _, l := range all {
			stretches += len(l.contacts)
		}
		if stretches == 1 && !m.reaches(all) {
			continue
		}
		out = append(out, m.piece(all, stretches))
	}
	return out
}

// nest gives every inner loop to the smallest outer one round it.
func (m *measure) nest(outer, inner []loop, holes [][]loop) {
	order := make([]int, len(outer))
	rings, bounds := make([]orb.MultiPolygon, len(outer)), make([]orb.Bound, len(outer))
	for i := range outer {
		order[i] = i
		rings[i] = orb.MultiPolygon{{m.ring(outer[i])}}
		bounds[i] = rings[i].Bound()
	}
	sort.SliceStable(order, func(x, y int) bool { return outer[order[x]].area < outer[order[y]].area })
	for _, l := range inner {
		p := geometry.Midpoint(l.gaps[0][0], l.gaps[0][1])
		for _, i := range order {
			if bounds[i].Contains(p) && geometry.Contains(rings[i], p) {
				holes[i] = append(holes[i], l)
				break
			}
		}
	}
}

// reaches reports whether some corner lies further than half the width from the only stretch. The distance from a disc
// grows towards one end or the other of every edge, so that corners are enough.
func (m *measure) reaches(all []loop) bool {
	var c orb.Point
	for _, l := range all {
		if len(l.contacts) > 0 {
			c = l.contacts[0]
		}
	}
	limit := m.r + m.half + reachSlack
	for _, l := range all {
		for _, g := range l.gaps {
			for _, p := range g {
				if dist2(p, c) > limit*limit {
					return true
				}
			}
		}
	}
	return false
}

func (m *measure) piece(all []loop, stretches int) Piece {
	p := Piece{Stretches: stretches}
	var sides []gap
	var centres []orb.Point
	for _, l := range all {
		p.Outline = append(p.Outline, m.ring(l))
		sides = append(sides, l.gaps...)
		centres = append(centres, l.contacts...)
	}
	m.reach(&p, sides, centres)
	if len(sides) > 1 {
		m.across(&p, sides)
	} else {
		m.hanging(&p, sides[0])
	}
	p.Length = p.Reach
	if stretches > 1 {
		p.Length = 0
		for _, g := range sides {
			p.Length += g.length() / float64(len(sides))
		}
	}
	return p
}

// reach finds the place of the sides that is farthest from the nearest disc: a corner, or a place on an edge as far
// from one disc as from another.
func (m *measure) reach(p *Piece, sides []gap, centres []orb.Point) {
	if len(centres) == 0 {
		p.Far = sides[0][0]
		return
	}
	best, last := -1.0, 0

	// Neighbours along the side are near to the same discs: the search begins with the disc that ended the one before,
	// and ends as soon as one is near enough.
	look := func(q orb.Point) {
		d := dist2(q, centres[last])
		for i := 0; i < len(centres) && d > best; i++ {
			if e := dist2(q, centres[i]); e < d {
				d, last = e, i
			}
		}
		if d > best {
			best, p.Far = d, q
		}
	}

	for _, g := range sides {
		for i, q := range g {
			look(q)
			if i == 0 || len(centres) > maxStretches {
				continue
			}
			o := g[i-1]
			for k, c := range centres {
				for _, d := range centres[:k] {
					// |o + t(q−o) − c|² = |o + t(q−o) − d|² is linear in t.
					e := geometry.Sub(q, o)
					if den := 2 * geometry.Dot(e, geometry.Sub(d, c)); den != 0 {
						if t := (dist2(o, d) - dist2(o, c)) / den; t > 0 && t < 1 {
							look(along(o, e, t))
						}
					}
				}
			}
		}
	}
	p.Reach = max(0, math.Sqrt(best)-m.r)
}

// across finds the shortest segment between two different sides that runs through the region; another may run through
// what lies between two parts of the boundary on its other side. Where rounding leaves none that is seen to do so, the
// shortest between two sides stands for it.
func (m *measure) across(p *Piece, sides []gap) {
	l := newLines(sides)
	for _, counts := range []func(p, q orb.Point) bool{m.through, func(p, q orb.Point) bool { return true }} {
		if d, q, w := l.nearest(counts); !math.IsInf(d, 1) {
			p.P, p.Q, p.Width = q, w, d
			return
		}
	}
}

// through reports whether the segment between two points of the boundary lies in the region. Two lines of boundary that
// touch at a corner have no segment there.
func (m *measure) through(p, q orb.Point) bool {
	return !isNear(p, q) && m.s.Contains(geometry.Midpoint(p, q)) == m.inside && !m.s.Crosses(p, q)
}

// hanging finds the shortest double normal in a piece with one side; where there is none, the width halfway along.
func (m *measure) hanging(p *Piece, side gap) {
	if m.necks == nil {
		m.necks = m.s.NeckFinder(m.inside)
	}
	in := orb.MultiPolygon{{p.Outline[0]}}
	if n, ok := m.necks.Narrowest(2*m.r, in.Bound(), func(n geometry.Neck) bool {
		return geometry.Contains(in, geometry.Midpoint(n.P, n.Q))
	}); ok {
		p.P, p.Q, p.Width = n.P, n.Q, n.Width
		return
	}
	p.Tapers = true
	one, two := side.cut(p.Far)
	p.Width = math.Inf(1)
	for _, pair := range [2][2]gap{{one, two}, {two, one}} {
		c := pair[0].halfway()
		for i := 0; i+1 < len(pair[1]); i++ {
			q := nearestOn(pair[1][i], pair[1][i+1], c)
			if d := geometry.PointDistance(c, q); d < p.Width*(1-tie) {
				p.P, p.Q, p.Width = c, q, d
			}
		}
	}

	// a ring as narrow as this that nothing holds, with its farthest corner at its beginning
	if math.IsInf(p.Width, 1) {
		p.P, p.Q, p.Width = p.Far, p.Far, 0
	}
}

// ring returns a loop as a closed ring, with the arcs of its contacts as chords.
func (m *measure) ring(l loop) orb.Ring {
	step := widestStep
	if m.tolerance < m.r {
		step = max(narrowestStep, min(widestStep, 2*math.Acos(1-m.tolerance/m.r)))
	}
	straight := false
	for i, c := range l.contacts {
		for k := 0; k < i && !straight; k++ {
			straight = dist2(c, l.contacts[k]) < 4*m.r*m.r
		}
	}
	var out orb.Ring
	for i, g := range l.gaps {
		out = append(out, g...)
		if straight || len(l.contacts) == 0 {
			continue
		}
		c, from, to := l.contacts[i], g[len(g)-1], l.gaps[(i+1)%len(l.gaps)][0]
		u := geometry.Sub(from, c)
		turn := math.Atan2(geometry.Cross(u, geometry.Sub(to, c)), geometry.Dot(u, geometry.Sub(to, c)))
		n := int(math.Ceil(math.Abs(turn) / step))
		for k := 1; k < n; k++ {
			s, co := math.Sincos(turn * float64(k) / float64(n))
			out = append(out, orb.Point{c[0] + co*u[0] - s*u[1], c[1] + s*u[0] + co*u[1]})
		}
	}

	if out[0] != out[len(out)-1] {
		out = append(out, out[0])
	}
	return out
}
