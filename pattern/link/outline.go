package link

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// maxBits is how many bits the distance of a coordinate from where it is expected may have: twice MaxCoordinate in the
// finest steps takes 38, and a predicted change of step three times that.
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
				// Whole numbers over a power of ten are the float64s nearest to decimals, and come back from them the
				// same.
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

// chooseStep chooses the step for a silhouette whose motifs are enlarged up to scale times, and returns the outline
// rounded to it: the coarsest that fits.
func chooseStep(mp orb.MultiPolygon, scale float64) (int, orb.MultiPolygon) {
	first := 0
	for first < exact && scale/perMM[first] > maxRise {
		first++
	}
	for k := first; k < exact; k++ {
		if out, ok := fits(mp, first, k); ok {
			return k, out
		}
	}
	return exact, mp
}

// fits rounds the outline to step k and says whether that leaves a valid outline, and one that no coarser step fits in
// its turn: so that what a link opens to has the same link again. It goes no deeper than there are steps.
func fits(mp orb.MultiPolygon, first, k int) (orb.MultiPolygon, bool) {
	out := rounded(mp, perMM[k])
	if geometry.CheckOutline(out) != nil {
		return nil, false
	}
	for coarse := first; coarse < k; coarse++ {
		if _, ok := fits(out, first, coarse); ok {
			return nil, false
		}
	}
	return out, true
}

// outline codes an outline. A reader has counted the points so far in points.
func (c *codec) outline(mp *orb.MultiPolygon, scale float64, points *int) {
	k := 0
	if c.writing {
		k, *mp = chooseStep(*mp, scale)
	}
	if k = c.tree(c.model.steps[:], 3, k); k > exact {
		c.bad("it rounds an outline to a step that is none")
		return
	}
	polygons := len(*mp)
	c.count(sizeCount, &polygons, draft.MaxPoints, "polygons")
	if !c.writing {
		*mp = nil
	}

	for i := range polygons {
		var p orb.Polygon
		if c.writing {
			p = (*mp)[i]
		}
		rings := len(p)
		c.count(sizeCount, &rings, draft.MaxPoints, "rings")
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
	c.count(sizeCount, &n, draft.MaxPoints, "points")
	if *points += n; *points > draft.MaxPoints {
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
