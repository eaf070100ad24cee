package overlay

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// piece is one polygon of an input, in mm.
type piece struct {
	rings   orb.Polygon // closed, outer ring counter-clockwise, holes clockwise
	set     int
	covered bool // lies inside a polygon of the other set without touching it
	box     box
	edges   [][2]point // made when first needed, with the tree over them
	tree    *tree
}

// newPiece checks and orients a polygon. It returns nil for one without area.
func newPiece(p orb.Polygon, set int) (*piece, error) {
	q := &piece{set: set}
	for i, r := range p {
		if err := checkRing(r); err != nil {
			return nil, fmt.Errorf("ring %d, %w", i, err)
		}
		area := ringArea(r)
		if area == 0 {
			if i == 0 {
				return nil, nil
			}
			continue
		}
		if r[0] != r[len(r)-1] {
			r = append(slices.Clone(r), r[0])
		}
		if (area > 0) != (i == 0) {
			r = slices.Clone(r)
			slices.Reverse(r)
		}
		q.rings = append(q.rings, r)
	}

	if len(q.rings) == 0 {
		return nil, nil
	}
	q.box = ringBox(q.rings[0])
	return q, nil
}

func ringBox(r orb.Ring) box {
	b := r.Bound()
	return box{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
}

// ringArea returns the signed area of a ring, closed or not.
func ringArea(r orb.Ring) float64 {
	if len(r) < 3 {
		return 0
	}
	o, sum := r[0], 0.0
	for i := 1; i+1 < len(r); i++ {
		sum += (r[i][0]-o[0])*(r[i+1][1]-o[1]) - (r[i][1]-o[1])*(r[i+1][0]-o[0])
	}
	return sum / 2
}

func (p *piece) index() {
	if p.tree != nil {
		return
	}
	n := 0
	for _, r := range p.rings {
		n += len(r)
	}
	p.edges = make([][2]point, 0, n)
	for _, r := range p.rings {
		for i := 0; i+1 < len(r); i++ {
			p.edges = append(p.edges, [2]point{{r[i][0], r[i][1]}, {r[i+1][0], r[i+1][1]}})
		}
	}
	p.tree = newTree(len(p.edges), func(i int32) box { return boxOf(p.edges[i][0], p.edges[i][1]) }, nil)
}

// touches reports whether the outlines of p and q come within contactReach of one another.
func (p *piece) touches(q *piece) bool {
	p.index()
	q.index()
	return p.tree.meets(q.tree, contactReach, func(lo, hi, lo2, hi2 int32) bool {
		for _, e := range p.edges[lo:hi] {
			for _, f := range q.edges[lo2:hi2] {
				if boxOf(e[0], e[1]).near(boxOf(f[0], f[1]), contactReach) && linesMeet(e, f) {
					return true
				}
			}
		}
		return false
	})
}

// linesMeet reports whether two lines cross or an end of one comes within contactReach of the other.
func linesMeet(e, f [2]point) bool {
	if nearLine(e, f[0]) || nearLine(e, f[1]) || nearLine(f, e[0]) || nearLine(f, e[1]) {
		return true
	}
	// No end is near, so that the signs are beyond doubt.
	return (side(e, f[0]) > 0) != (side(e, f[1]) > 0) && (side(f, e[0]) > 0) != (side(f, e[1]) > 0)
}

func side(e [2]point, p point) float64 {
	return (e[1].x-e[0].x)*(p.y-e[0].y) - (e[1].y-e[0].y)*(p.x-e[0].x)
}

func nearLine(e [2]point, p point) bool { return distanceToLine(e, p) <= contactReach }

func distanceToLine(e [2]point, p point) float64 {
	dx, dy := e[1].x-e[0].x, e[1].y-e[0].y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = max(0, min(1, ((p.x-e[0].x)*dx+(p.y-e[0].y)*dy)/l))
	}
	return math.Hypot(p.x-e[0].x-t*dx, p.y-e[0].y-t*dy)
}

// liesIn reports whether the outer ring of p, which does not touch q, lies inside q.
func (p *piece) liesIn(q *piece) bool { return p.box.within(q.box) && q.holds(p.rings[0][0]) }

// surroundsHole reports whether a hole of q, which does not touch p, lies inside p.
func (p *piece) surroundsHole(q *piece) bool {
	return slices.ContainsFunc(q.rings[1:], func(h orb.Ring) bool { return ringBox(h).within(p.box) && p.holds(h[0]) })
}

// holds reports whether v, which is not on the outline, lies inside p.
func (p *piece) holds(v orb.Point) bool {
	at, in := point{v[0], v[1]}, false
	p.tree.below(at, func(i int32) float64 {
		e := p.edges[i]
		if e[1].less(e[0]) {
			e[0], e[1] = e[1], e[0]
		}
		if e[0].x < at.x && at.x <= e[1].x && side(e, at) > 0 {
			in = !in
		}
		return math.Inf(-1)
	})
	return in
}

// gather returns the polygons that have to be computed together, in order of their first one.
func gather(op operation, pieces []*piece) [][]*piece {
	byPlace(pieces)
	sets := geometry.NewSets(len(pieces))
	linked := make([]bool, len(pieces))
	link := func(i, j int32) {
		linked[i], linked[j] = true, true
		a, b := sets.Root(i), sets.Root(j)
		sets.Join(min(a, b), max(a, b))
	}
	type cover struct{ inner, outer int32 }
	var covers []cover
	hold := func(i, j int32) {
		p, q := pieces[i], pieces[j]
		if !p.box.near(q.box, contactReach) || sets.Root(i) == sets.Root(j) {
			return
		}
		switch {
		case p.touches(q):
			link(i, j)
			return
		case q.liesIn(p):
			i, j = j, i
		case !p.liesIn(q):
			return
		}
		if p.set == q.set || op.within(pieces[i].set, pieces[j].set) || pieces[i].surroundsHole(pieces[j]) {
			link(i, j)
		} else {
			pieces[i].covered = true
			covers = append(covers, cover{i, j})
		}
	}

	t := newTree(len(pieces), func(i int32) box { return pieces[i].box }, nil)
	t.pairs(contactReach, func(lo, hi, lo2, hi2 int32) {
		for i := lo; i < hi; i++ {
			for j := lo2; j < hi2; j++ {
				if lo != lo2 || i < j {
					hold(i, j)
				}
			}
		}
	})

	// A covered polygon that touches something else must be computed, with what covers it.
	for again := true; again; {
		again = false
		for _, c := range covers {
			if linked[c.inner] && sets.Root(c.inner) != sets.Root(c.outer) {
				link(c.inner, c.outer)
				again = true
			}
		}
	}

	index := make(map[int32]int)
	var out [][]*piece
	for i, p := range pieces {
		p.edges, p.tree = nil, nil
		r := sets.Root(int32(i))
		k, ok := index[r]
		if !ok {
			k = len(out)
			index[r] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], p)
	}
	return out
}

// byPlace sorts pieces into strips of about as many as there are in each, so that neighbours in the row are neighbours
// in the plane.
func byPlace(pieces []*piece) {
	slices.SortStableFunc(pieces, func(p, q *piece) int {
		return cmp.Or(cmp.Compare(p.box.minX, q.box.minX), cmp.Compare(p.box.minY, q.box.minY))
	})
	strip := int(math.Ceil(math.Sqrt(float64(len(pieces)))))
	for lo := 0; lo < len(pieces); lo += strip {
		slices.SortStableFunc(pieces[lo:min(lo+strip, len(pieces))], func(p, q *piece) int {
			return cmp.Or(cmp.Compare(p.box.minY, q.box.minY), cmp.Compare(p.box.minX, q.box.minX))
		})
	}
}
