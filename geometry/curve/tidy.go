package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// knot is a corner of a tidied ring: it stands for the ring's points lo to hi, counted on over the ring's end.
type knot struct {
	at     orb.Point
	lo, hi int
	corner bool
	stray  float64 // mm that the way through it leaves the ring's, or the ring's it
	stuck  bool    // the short edge behind it stays
}

// tidied returns the ring's points with edges shorter than least mm drawn together, where that can be without ring and
// answer leaving each other by more than some part of the tolerance, or at last by more than most of it. Thoroughly is
// with more places to move points to.
func tidied(pts []orb.Point, least, tolerance float64, thoroughly bool) []knot {
	n := len(pts)
	short := false
	for i := range pts {
		short = short || distance(pts[i], pts[(i+1)%n]) < least
	}
	ks := knots(pts)
	if !short || n < 4 {
		return ks
	}
	for i, sharp := range corners(pts) {
		ks[i].corner = sharp
	}
	for _, share := range [...]float64{tidyShare, facetShare} {
		t := tidier{pts: pts, least: least, most: share * tolerance, thorough: thoroughly}
		for again := true; again && len(ks) > 3; {
			ks, again = t.pass(ks)
		}
		for i := range ks {
			ks[i].stuck = false
		}
	}
	return ks
}

// knots returns one for each point.
func knots(pts []orb.Point) []knot {
	ks := make([]knot, len(pts))
	for i, p := range pts {
		ks[i] = knot{at: p, lo: i, hi: i}
	}
	return ks
}

// moved returns by how much the tidied ring may be longer or shorter than the ring was, in mm.
func (g *ring) moved() float64 {
	sum := 0.0
	for _, k := range g.knots {
		sum += k.stray
	}
	return sum
}

type tidier struct {
	pts         []orb.Point
	least, most float64
	thorough    bool
}

// pass draws together short edges that are shorter than those beside them, no two neighbours at once, and reports
// whether there was one.
func (t *tidier) pass(ks []knot) ([]knot, bool) {
	n := len(ks)
	length := make([]float64, n)
	for i := range ks {
		length[i] = distance(ks[i].at, ks[(i+1)%n].at)
	}
	gone := make([]bool, n)
	left, again := n, false
	busy := make([]bool, n)
	for i := range ks {
		j := (i + 1) % n
		before, after := (i+n-1)%n, (j+1)%n
		if length[i] >= t.least || ks[i].stuck || left <= 3 || busy[before] || busy[i] || busy[j] || busy[after] {
			continue
		}
		// Of several as short the first; a stuck neighbour does not count.
		if length[before] < length[i] && !ks[before].stuck || length[j] < length[i] && !ks[j].stuck {
			again = true
			continue
		}
		k, ok := t.drawn(&ks[before], &ks[i], &ks[j], &ks[after])
		if !ok {
			ks[i].stuck = true
			if t.apart(&ks[before], &ks[i], &ks[j], &ks[after]) {
				busy[before], busy[i], busy[j], busy[after] = true, true, true, true
			}
			continue
		}
		ks[i], gone[j] = k, true
		busy[before], busy[i], busy[j], busy[after] = true, true, true, true
		left--
		again = true
	}

	if left == n {
		return ks, again
	}
	out := make([]knot, 0, left)
	for i := range ks {
		if !gone[i] {
			out = append(out, ks[i])
		}
	}
	// Beside what has changed another attempt may do.
	for i := range out {
		out[i].stuck = out[i].stuck && out[i].stray == 0 && out[(i+1)%len(out)].stray == 0
	}
	return out, true
}

// drawn returns the knot that takes the place of two: one of the two, their middle, or where the edges beside meet,
// moved so that the ring keeps its area, or else as it is, whichever leaves the ring least.
func (t *tidier) drawn(before, a, b, after *knot) (best knot, ok bool) {
	best = knot{lo: a.lo, hi: b.hi, corner: a.corner || b.corner, stray: math.Inf(1)}
	if best.hi < best.lo {
		best.hi += len(t.pts)
	}
	mid := geometry.Lerp(a.at, b.at, 0.5)
	places := []orb.Point{a.at, b.at, mid}
	switch p, ok := meeting(before.at, a.at, b.at, after.at); {
	case a.corner && !b.corner:
		places = places[:1]
	case b.corner && !a.corner:
		places = places[1:2]
	case ok:
		places = append(places, p, geometry.Lerp(mid, p, 0.5))
	}
	try := func(p orb.Point) {
		if s := t.stray(before, p, after); s < best.stray {
			best.at, best.stray = p, s
		}
	}

	chord := geometry.Sub(after.at, before.at)
	l := math.Hypot(chord[0], chord[1])
	area := t.area(before, after)
	for _, p := range places {
		// Beside the chord a triangle over it has half its length times the height.
		lacks := area - geometry.Cross(geometry.Sub(p, before.at), chord)/2
		if l > t.least && math.Abs(lacks) <= l*t.most {
			try(geometry.Add(p, geometry.Times(orb.Point{chord[1], -chord[0]}, 2*lacks/(l*l))))
		}
	}
	if best.stray <= t.most {
		return best, true
	}
	for _, p := range places {
		try(p)
	}
	return best, best.stray <= t.most
}

// area returns what the ring's way between two knots encloses with the chord from one to the other, in mm², positive on
// the right of the chord.
func (t *tidier) area(before, after *knot) float64 {
	n, sum := len(t.pts), 0.0
	last := orb.Point{}
	for k := before.hi % n; ; k++ {
		p := geometry.Sub(t.pts[k%n], before.at)
		sum += geometry.Cross(last, p) / 2
		last = p
		if k%n == after.lo%n {
			break
		}
	}
	return sum + geometry.Cross(last, geometry.Sub(after.at, before.at))/2
}

// apart moves two knots apart until they are no longer too near, the way by them leaving the ring least; it reports
// whether that can be. Each is moved by up to the limit, or back along the edge beside it.
func (t *tidier) apart(before, a, b, after *knot) bool {
	poly := []orb.Point{before.at}
	for k, n := before.hi, len(t.pts); ; k++ {
		poly = append(poly, t.pts[k%n])
		if k%n == after.lo%n {
			break
		}
	}
	poly = append(poly, after.at)
	from, to := t.around(a.at, before.at), t.around(b.at, after.at)
	was := 0.0
	for k := 1; k < len(poly); k++ {
		was += distance(poly[k-1], poly[k])
	}
	best, stray, ok := math.Inf(1), 0.0, false
	area := t.area(before, after)
	end := geometry.Sub(after.at, before.at)
	var p, q orb.Point
	for _, u := range from {
		if distance(before.at, u) < t.least {
			continue
		}
		for _, v := range to {
			if distance(u, v) < t.least || distance(v, after.at) < t.least {
				continue
			}
			d := deviation([]orb.Point{before.at, u, v, after.at}, poly, t.most)
			if d > t.most {
				continue
			}
			// What area and length change by counts as much as leaving the ring along a short edge.
			x, y := geometry.Sub(u, before.at), geometry.Sub(v, before.at)
			lacks := area - (geometry.Cross(x, y)+geometry.Cross(y, end))/2
			longer := distance(before.at, u) + distance(u, v) + distance(v, after.at) - was
			if score := d + math.Abs(lacks)/t.least + math.Abs(longer); score < best {
				best, stray, ok, p, q = score, d, true, u, v
			}
		}
	}
	if ok {
		a.at, b.at = p, q
		a.stray, b.stray = max(a.stray, stray), max(b.stray, stray)
	}
	return ok
}

// around returns places that a knot may be moved to: round it, by parts of the limit, and back towards the one beside
// it.
func (t *tidier) around(p, beside orb.Point) []orb.Point {
	directions, parts := 8, []float64{0.5, 0.95}
	if t.thorough {
		directions, parts = 16, []float64{0.4, 0.7, 0.97}
	}
	out := []orb.Point{p}
	for k := range directions {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(directions))
		for _, part := range parts {
			out = append(out, orb.Point{p[0] + part*t.most*c, p[1] + part*t.most*s})
		}
	}
	for _, d := range [...]float64{t.least / 4, t.least / 2, t.least} {
		if l := distance(p, beside); l > d {
			out = append(out, geometry.Lerp(p, beside, d/l))
		}
	}
	return out
}

// meeting returns where the line from a through p and that from b through q meet, when both are going there.
func meeting(a, p, q, b orb.Point) (orb.Point, bool) {
	u, v, w := geometry.Sub(p, a), geometry.Sub(q, b), geometry.Sub(q, p)
	d := geometry.Cross(u, v)
	if d == 0 {
		return orb.Point{}, false
	}
	s, r := geometry.Cross(w, v)/d, geometry.Cross(w, u)/d
	if s < 0 || r < 0 {
		return orb.Point{}, false
	}
	m := geometry.Add(p, geometry.Times(u, s))
	return m, distance(m, p) < 4*distance(p, q)
}

// stray returns how far the way from one knot by p to another and the ring's way between them leave each other, the
// ring's points before the one nearest to p held against the way to p, those behind it against the way on.
func (t *tidier) stray(before *knot, p orb.Point, after *knot) float64 {
	n := len(t.pts)
	lo, hi := before.hi%n, after.lo%n
	if hi < lo {
		hi += n
	}
	split, least, own := lo, math.Inf(1), math.Inf(1)
	for k := lo; k <= hi; k++ {
		v := t.pts[k%n]
		if d := distance(v, p); d < least {
			split, least = k, d
		}
		if k > lo {
			own = min(own, offSegment(t.pts[(k-1)%n], v, p))
		}
	}
	worst := max(min(least, own), before.stray, after.stray)
	for k := lo; k <= hi; k++ {
		v, off := t.pts[k%n], 0.0
		switch {
		case k < split:
			off = offSegment(before.at, p, v)
		case k > split:
			off = offSegment(p, after.at, v)
		default:
			off = min(offSegment(before.at, p, v), offSegment(p, after.at, v))
		}
		worst = max(worst, off)
	}
	return worst
}
