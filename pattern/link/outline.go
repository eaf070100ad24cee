package link

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// maxBits is how many bits the distance of a coordinate from where it is expected may have: twice MaxCoordinate in the
// finest steps takes 38, and a foretold change of step three times that.
const maxBits = 40

// reach is how far from zero a coordinate can be, in steps.
const reach = int64(geometry.MaxCoordinate * 1e6)

// step is a vector or a point, in steps.
type step [2]int64

// rounded returns the outline in whole steps and as an outline of them, points that fall together kept once.
func rounded(mp orb.MultiPolygon, perMM float64) orb.MultiPolygon {
	out := make(orb.MultiPolygon, len(mp))
	for i, p := range mp {
		out[i] = make(orb.Polygon, len(p))
		for j, r := range p {
			ring := make(orb.Ring, 0, len(r))
			for _, v := range r {
				// Whole numbers over a power of ten are the float64s nearest to decimals, and come back from them the same.
				q := orb.Point{math.Round(v[0]*perMM) / perMM, math.Round(v[1]*perMM) / perMM}
				if len(ring) == 0 || ring[len(ring)-1] != q {
					ring = append(ring, q)
				}
			}
			out[i][j] = ring
		}
	}
	return out
}

// settle chooses the step for a silhouette whose motifs are enlarged up to scale times, and returns the outline rounded to
// it. It is the coarsest step that leaves a valid outline, and at which the rounded outline would not then itself pass
// with a coarser one: so that what a link opens to has the same link again.
func settle(mp orb.MultiPolygon, scale float64) (int, orb.MultiPolygon) {
	first := 0
	for first < exact && scale/perMM[first] > maxRise {
		first++
	}
	for k := first; k < exact; k++ {
		out := rounded(mp, perMM[k])
		if geometry.CheckOutline(out) != nil {
			continue
		}
		steady := true
		for coarse := first; coarse < k && steady; coarse++ {
			steady = geometry.CheckOutline(rounded(out, perMM[coarse])) != nil
		}
		if steady {
			return k, out
		}
	}
	return exact, mp
}

// outline codes an outline. A reader has counted the points so far in points.
func (c *codec) outline(mp *orb.MultiPolygon, scale float64, points *int) {
	k := 0
	if c.writing {
		k, *mp = settle(*mp, scale)
	}
	if k = c.tree(c.model.steps[:], 3, k); k > exact {
		c.bad("it rounds an outline to a step that is none")
		return
	}
	polygons := len(*mp)
	c.count(sizeCount, &polygons, pattern.MaxPoints, "polygons")
	if !c.writing {
		*mp = nil
	}
	for i := range polygons {
		var p orb.Polygon
		if c.writing {
			p = (*mp)[i]
		}
		rings := len(p)
		c.count(sizeCount, &rings, pattern.MaxPoints, "rings")
		for j := range rings {
			var r orb.Ring
			if c.writing {
				r = p[j]
			}
			c.ring(&r, k, points)
			if !c.writing {
				p = append(p, r)
			}
			if c.err != nil {
				return
			}
		}
		if !c.writing {
			*mp = append(*mp, p)
		}
		if c.err != nil {
			return
		}
	}
}

// ring codes a ring. The last point, which repeats the first, is left out.
func (c *codec) ring(r *orb.Ring, k int, points *int) {
	n := max(0, len(*r)-1)
	c.count(sizeCount, &n, pattern.MaxPoints, "points")
	if *points += n; *points > pattern.MaxPoints {
		c.bad("it asks for more points than a draft holds")
	}
	if n < 3 {
		c.bad("a ring has fewer than three points")
	}
	if c.err != nil {
		return
	}
	if k == exact {
		for i := range n {
			var p orb.Point
			if c.writing {
				p = (*r)[i]
			}
			for a := range p {
				p[a] = math.Float64frombits(c.raw(math.Float64bits(p[a]), 64))
			}
			if !c.writing {
				*r = append(*r, p)
			}
		}
	} else {
		c.steps(r, n, perMM[k])
	}
	if !c.writing && c.err == nil {
		*r = append(*r, (*r)[0])
	}
}

// Ways to foretell where a ring's next point lies.
const (
	evenly   = iota // one step like the last one further
	changing        // the step changes as it did last
	straight        // somewhere along the last step's direction
	ways
)

// steps codes a ring's n points in whole steps.
func (c *codec) steps(r *orb.Ring, n int, perMM float64) {
	pts := make([]step, n)
	way := evenly
	if c.writing {
		for i := range pts {
			v := (*r)[i]
			pts[i] = step{int64(math.Round(v[0] * perMM)), int64(math.Round(v[1] * perMM))}
		}
		way = c.cheapest(pts)
	}
	if way = c.tree(c.model.way[:], 2, way); way >= ways {
		c.bad("its points are foretold in a way that is none")
		return
	}
	c.walk(pts, way)
	if c.writing || c.err != nil {
		return
	}
	for _, p := range pts {
		*r = append(*r, orb.Point{float64(p[0]) / perMM, float64(p[1]) / perMM})
	}
}

// cheapest tries all ways and returns the one that takes the fewest bytes. Rings of a few points are not worth it.
func (c *codec) cheapest(pts []step) int {
	const few = 8
	if len(pts) < few {
		return evenly
	}
	best, least := 0, math.MaxInt
	for way := range ways {
		trial := *c
		trial.data = nil
		trial.walk(pts, way)
		if n := len(trial.data); n < least {
			best, least = way, n
		}
	}
	return best
}

// walk codes points one after the other.
func (c *codec) walk(pts []step, way int) {
	var at, last, before, miss step
	for i := range pts {
		s := step{pts[i][0] - at[0], pts[i][1] - at[1]}
		if way == straight {
			c.onward(&s, last, before, &miss)
		} else {
			want := last
			if way == changing {
				want = step{2*last[0] - before[0], 2*last[1] - before[1]}
			}
			c.beside(&s, want, &miss)
		}
		at[0], at[1] = at[0]+s[0], at[1]+s[1]
		if !c.writing {
			pts[i] = at
		}
		if abs(at[0]) > reach || abs(at[1]) > reach {
			c.bad("an outline leaves the plane of a draft")
		}
		if c.err != nil {
			return
		}
		last, before = s, last
	}
}

// beside codes a step by how far it misses the one expected, first in x, then in y.
func (c *codec) beside(s *step, want step, miss *step) {
	was := *miss
	near := abs(was[0]) + abs(was[1])
	miss[0] = s[0] - want[0]
	c.residue(&c.model.along, near, 0, was[0], &miss[0])
	miss[1] = s[1] - want[1]
	c.residue(&c.model.across, near/2+abs(miss[0]), 1, was[1], &miss[1])
	s[0], s[1] = want[0]+miss[0], want[1]+miss[1]
}

// onward codes a step that goes on about as the last one did: first how far along the axis that the last one was longer
// in, then how far that misses the last one's line. Outlines often bend the same way twice, so the miss is counted
// positive to the side that they last bent to.
func (c *codec) onward(s *step, last, before step, miss *step) {
	a := 0
	if abs(last[1]) > abs(last[0]) {
		a = 1
	}
	b := 1 - a
	way, bend := int64(1), int64(1)
	if last[a] < 0 {
		way = -1
	}
	if turn := last[0]*before[1] - last[1]*before[0]; (turn > 0) == (a == 0) == (way > 0) {
		bend = -1
	}
	was := *miss
	miss[0] = s[a] * way
	c.residue(&c.model.along, abs(was[0]), 0, was[0], &miss[0])
	s[a] = miss[0] * way
	want := int64(0)
	// The product of longer steps would overflow: they are not foretold.
	const long = 1 << 31
	if last[a] != 0 && abs(s[a]) < long && abs(last[b]) < long {
		want = divide(s[a]*last[b], last[a])
	}
	miss[1] = (s[b] - want) * bend
	c.residue(&c.model.across, abs(miss[0]), 1, was[1], &miss[1])
	s[b] = want + miss[1]*bend
}

// residue codes a whole number that is small more often than not, given how large another one near it was and the sign
// of the one before.
func (c *codec) residue(m *[12]residue, near int64, axis int, before int64, v *int64) {
	class := 0
	for ; near > 0 && class < len(m)-1; near >>= 1 {
		class++
	}
	size := uint64(abs(*v))
	c.size(m[class].bits[:], m[class].tops[:], &size, maxBits)
	negative := *v < 0
	if size > 0 {
		sign := 0
		if before > 0 {
			sign = 1
		} else if before < 0 {
			sign = 2
		}
		c.flag(&c.model.turns[axis][sign], &negative)
	}
	if *v = int64(size); negative {
		*v = -*v
	}
}

func abs(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}

// divide returns a/b rounded to the nearest whole number, halves away from zero.
func divide(a, b int64) int64 {
	if b < 0 {
		a, b = -a, -b
	}
	if a < 0 {
		return -((-a + b/2) / b)
	}
	return (a + b/2) / b
}
