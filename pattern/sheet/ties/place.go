package ties

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet/panel"
)

// place is a point of an island's edge, panel mm, and the direction that leads out of the island there.
type place struct{ at, out orb.Point }

// places returns where ties are tried on a ring that runs counter-clockwise: evenly along it, at corners, straight away
// from the middle of a tiny one, and where mirrors of the island cross it. Out is square to the chord over about a
// tie's width, so that a rough edge does not turn it.
func places(r orb.Ring, mirrors [][2]orb.Point, wide float64) []place {
	n := len(r) - 1
	if n < 3 {
		return nil
	}
	sums := make([]float64, n+1)
	for i := range n {
		sums[i+1] = sums[i] + math.Hypot(r[i+1][0]-r[i][0], r[i+1][1]-r[i][1])
	}
	length := sums[n]
	if length == 0 {
		return nil
	}
	t := trail{r, sums}
	half := math.Min(wide/2, length/12)
	var out []place
	add := func(s float64) {
		a, b := t.at(s-half), t.at(s+half)
		if u := unit(a, b); u != (orb.Point{}) {
			out = append(out, place{t.at(s), orb.Point{u[1], -u[0]}})
		}
	}
	for k := range samples {
		add((float64(k) + 0.5) / samples * length)
	}
	step := max(1, n/samples)
	for i := 0; i < n; i += step {
		add(sums[i])
	}
	if long, _ := extents(r); long <= tinyUpTo*wide {
		heart := geometry.Centroid(orb.MultiPolygon{{r}})
		for k := range samples / 2 {
			s, c := math.Sincos(4 * math.Pi * float64(k) / samples)
			u, far := orb.Point{c, s}, math.Inf(-1)
			for i := range n {
				if m := meets(heart, u, line{a: r[i], b: r[i+1]}); m > far {
					far = m
				}
			}
			if !math.IsInf(far, -1) {
				out = append(out, place{at(heart, u, far), u})
			}
		}
	}

	for _, m := range mirrors {
		for i := range n {
			d := orb.Point{m[1][0], m[1][1]}
			t0, t1 := across(m[0], d, r[i]), across(m[0], d, r[i+1])
			if (t0 > 0) == (t1 > 0) {
				continue
			}
			s := t0 / (t0 - t1)
			p := orb.Point{r[i][0] + s*(r[i+1][0]-r[i][0]), r[i][1] + s*(r[i+1][1]-r[i][1])}

			// Along the mirror, the way that leads out over this edge.
			e := unit(r[i], r[i+1])
			if e[1]*d[0]-e[0]*d[1] < 0 {
				d = orb.Point{-d[0], -d[1]}
			}
			out = append(out, place{p, d})
		}
	}
	return out
}

// trail is a ring and how long it is up to each corner.
type trail struct {
	r    orb.Ring
	sums []float64
}

// at returns the point of the ring s mm along it, round and round.
func (t trail) at(s float64) orb.Point {
	n := len(t.sums) - 1
	s = math.Mod(math.Mod(s, t.sums[n])+t.sums[n], t.sums[n])
	lo, hi := 0, n
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; t.sums[mid] <= s {
			lo = mid
		} else {
			hi = mid
		}
	}
	f := 0.0
	if l := t.sums[lo+1] - t.sums[lo]; l > 0 {
		f = (s - t.sums[lo]) / l
	}
	return orb.Point{t.r[lo][0] + f*(t.r[lo+1][0]-t.r[lo][0]), t.r[lo][1] + f*(t.r[lo+1][1]-t.r[lo][1])}
}

// howMany returns how many ties an island of this outline gets from ties of a width: see the tolerances.
func howMany(p orb.Polygon, wide float64) int {
	long, short := extents(p[0])
	switch l := long / wide; {
	case l <= tinyUpTo && long < TwoFrom:
		return 1
	case l <= smallUpTo || (long >= slender*short && l <= longUpTo):
		return 2
	default:
		return min(maxTies, 3+int((l-smallUpTo)/moreEvery))
	}
}

// extents returns a ring's size along its longest way, from the farthest two corners (found by going from the farthest
// of one to the farthest of that), and square to it.
func extents(r orb.Ring) (long, short float64) {
	farthest := func(p orb.Point) orb.Point {
		best, q := -1.0, p
		for _, v := range r {
			if d := math.Hypot(v[0]-p[0], v[1]-p[1]); d > best {
				best, q = d, v
			}
		}
		return q
	}
	a := farthest(r[0])
	for range 4 {
		a = farthest(a)
	}
	b := farthest(a)
	u := unit(a, b)
	lo, hi := 0.0, 0.0
	for _, v := range r {
		t := across(a, u, v)
		lo, hi = math.Min(lo, t), math.Max(hi, t)
	}
	return math.Hypot(b[0]-a[0], b[1]-a[1]), hi - lo
}

// mirrors returns the mirrors of the group that leave an island in its place, as a point and a direction on the panel.
func (sc *scene) mirrors(island int) [][2]orb.Point {
	toPanel := sc.l.Draft.FieldMap()
	heart := geometry.Centroid(orb.MultiPolygon{sc.s.Islands[island].Ring})
	p := toPanel.Rigid().Apply(heart)
	var out [][2]orb.Point
	for op := range sc.l.Group.Ops {
		m := sc.l.Op(op, 0, 0)
		if m.Det() > 0 {
			continue
		}
		q := m.Apply(p)
		v := sc.l.NearestLattice(orb.Point{p[0] - q[0], p[1] - q[1]})
		if math.Hypot(q[0]+v[0]-p[0], q[1]+v[1]-p[1]) > pattern.SameSlack {
			continue
		}
		// The linear part of a mirror whose line has the angle a is cos 2a, sin 2a; sin 2a, −cos 2a.
		a := math.Atan2(m.C, m.A) / 2
		out = append(out, [2]orb.Point{heart, toPanel.Vector(orb.Point{math.Cos(a), math.Sin(a)})})
	}
	return out
}

// ownPiece returns the piece whose hole an island is.
func (sc *scene) ownPiece(island int) (panel.Piece, bool) {
	i := sc.s.Islands[island]
	for _, p := range sc.s.Pieces[i.Opening] {
		if !p.Whole {
			continue
		}
		for k, r := range sc.ringsOf(p.Shape) {
			if k > 0 && sameRing(r, p.Shift, i) {
				return p, true
			}
		}
	}
	return panel.Piece{}, false
}

// onOthers reports whether a tie lies on openings of other copies than the one whose hole the island is: then the
// silhouette cannot have it, for they would go on filling it.
func (sc *scene) onOthers(island int, w candidate) bool {
	own, ok := sc.ownPiece(island)
	if !ok {
		return true
	}
	members := sc.s.Pieces[sc.s.Islands[island].Opening]
	if len(members) == 1 {
		return false
	}
	rect := draft.Tie{From: w.from, To: w.to, Width: w.width}.Rect()
	shape, b := geometry.NewShape(orb.MultiPolygon{rect}), rect.Bound()
	for _, p := range members {
		o := panel.Opening{Shape: p.Shape, Shift: p.Shift}
		if p == own || !o.Bound().Intersects(b) {
			continue
		}
		if geometry.Distance(shape, p.Shape, p.Shift, onEdge).Found || geometry.Inside(shape, p.Shape, p.Shift) {
			return true
		}
	}
	return false
}

// tieOf returns a candidate's tie, on the draft's grid: its silhouette's where it can be, else the field's. false when
// rounding leaves nothing of it.
func (sc *scene) tieOf(w candidate, island int) (draft.Tie, bool) {
	back := sc.l.Draft.FieldMap().Rigid()
	t := draft.Tie{}
	wide := math.Ceil(w.width/geometry.Grid) * geometry.Grid
	if w.own {
		own, ok := sc.ownPiece(island)
		if !ok {
			return t, false
		}
		c := sc.s.Copies[own.Copy]
		if back, ok = c.Map.Inverse(); !ok {
			return t, false
		}
		t.Silhouette = sc.l.Draft.Motifs[c.Motif].Silhouette
		wide = inSilhouette(sc.wide, sc.smallest(t.Silhouette))
	}
	t.Width = geometry.Snap(wide)
	p, q := back.Apply(w.from), back.Apply(w.to)
	t.From = [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])}
	t.To = [2]float64{geometry.Snap(q[0]), geometry.Snap(q[1])}
	return t, t.Length() >= draft.MinTie
}
