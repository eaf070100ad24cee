package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// vertex is a corner of the polygon that is fitted: one of the ring's, or the place where the two edges beside a very
// short one would meet.
type vertex struct {
	at     orb.Point
	lo, hi int     // the ring's points that it stands for; lo = hi but for one that was mended
	turn   float64 // radians, positive to the left
	corner bool
}

// open returns the points of a closed ring without the last, and without points nearer than minLength to the one
// before.
func open(r orb.Ring) []orb.Point {
	out := make([]orb.Point, 0, len(r))
	for _, p := range r {
		if len(out) == 0 || distance(out[len(out)-1], p) > minLength {
			out = append(out, p)
		}
	}
	for len(out) > 1 && distance(out[0], out[len(out)-1]) <= minLength {
		out = out[:len(out)-1]
	}
	return out
}

// Corners says which points of an open ring (the last is not the first again) are corners; see judge for what is one.
func Corners(pts []orb.Point) []bool { return corners(pts) }

// corners is Corners.
func corners(pts []orb.Point) []bool {
	vs := make([]vertex, len(pts))
	for i, p := range pts {
		vs[i] = vertex{at: p, lo: i, hi: i}
	}
	judge(vs)
	out := make([]bool, len(pts))
	for i, v := range vs {
		out[i] = v.corner
	}
	return out
}

// vertices returns the ring's vertices, short edges across round joins mended where the tolerance is not 0, with their
// turns, and marks the corners.
func vertices(pts []orb.Point, tolerance float64) []vertex {
	n := len(pts)
	turn := make([]float64, n)
	for i := range pts {
		turn[i] = turnOf(pts[(i+n-1)%n], pts[i], pts[(i+1)%n])
	}

	// mended[i] says that the edge from point i to the next is replaced by the vertex where its neighbours meet.
	mended := make([]bool, n)
	meet := make([]orb.Point, n)
	for i := range pts {
		if tolerance == 0 || mended[(i+n-1)%n] || mended[(i+1)%n] || n < 6 {
			continue
		}
		meet[i], mended[i] = mend(pts, turn, i, tolerance)
	}
	var vs []vertex
	for i := range pts {
		switch {
		case mended[(i+n-1)%n]:
		case mended[i]:
			vs = append(vs, vertex{at: meet[i], lo: i, hi: i + 1})
		default:
			vs = append(vs, vertex{at: pts[i], lo: i, hi: i})
		}
	}

	if mended[n-1] { // its vertex stands at the end of the list, for points n−1 and 0
		vs = append(vs[len(vs)-1:], vs[:len(vs)-1]...)
		vs[0].lo, vs[0].hi = -1, 0
	}
	judge(vs)

	// A corner keeps the ring's own points.
	var out []vertex
	for _, v := range vs {
		if v.corner && v.lo != v.hi {
			a, b := v, v
			a.hi, b.lo = a.lo, b.hi
			a.at, b.at = pts[(v.lo+n)%n], pts[v.hi%n]
			a.turn, b.turn = v.turn/2, v.turn/2
			out = append(out, a, b)
			continue
		}
		out = append(out, v)
	}
	return out
}

// mend returns the place where the edges before and after edge i meet, when that edge cuts off no more than the tip of
// a round join.
func mend(pts []orb.Point, turn []float64, i int, tolerance float64) (orb.Point, bool) {
	n := len(pts)
	a, p, q, b := pts[(i+n-1)%n], pts[i], pts[(i+1)%n], pts[(i+2)%n]
	s, t := turn[i], turn[(i+1)%n]
	l := distance(p, q)
	if s*t <= 0 || math.Abs(s+t) > mendTurn || l >= distance(a, p) || l >= distance(q, b) {
		return orb.Point{}, false
	}
	// In the triangle over the edge the angles are the turns.
	reach := l * math.Sin(math.Abs(t)) / math.Sin(math.Abs(s+t))
	at := geometry.Add(p, geometry.Times(geometry.Unit(geometry.Sub(p, a)), reach))
	if reach*math.Sin(math.Abs(s)) > mendShare*tolerance {
		return orb.Point{}, false
	}
	return at, true
}

// turnOf returns the angle in radians by which the way a, p, b turns at p, positive to the left.
func turnOf(a, p, b orb.Point) float64 {
	u, v := geometry.Sub(p, a), geometry.Sub(b, p)
	return math.Atan2(geometry.Cross(u, v), geometry.Dot(u, v))
}

// judge sets the turns of the vertices and says which are corners: those that turn by more than sharpTurn, and those
// that turn by more than minCorner and more than explainedTimes what the neighbours' curvature explains. Along the edge
// to a neighbour the outline is taken to bend as it does at the neighbour, by its turn to each length of the shorter of
// its edges; half of each edge belongs to the vertex. A neighbour that turns the other way, or is a corner by its turn
// alone, explains nothing.
func judge(vs []vertex) {
	n := len(vs)
	length := make([]float64, n) // of the edge from vertex i on
	for i := range vs {
		length[i] = distance(vs[i].at, vs[(i+1)%n].at)
	}
	for i := range vs {
		vs[i].turn = turnOf(vs[(i+n-1)%n].at, vs[i].at, vs[(i+1)%n].at)
	}
	explained := func(i, j int, edge float64) float64 {
		t, u := vs[i].turn, vs[j].turn
		if t*u <= 0 || math.Abs(u) > sharpTurn {
			return 0
		}
		return math.Abs(u) / max(min(length[(j+n-1)%n], length[j]), minLength) * edge / 2
	}
	for i := range vs {
		before, after := length[(i+n-1)%n], length[i]
		t := math.Abs(vs[i].turn)
		vs[i].corner = t > sharpTurn || t > minCorner &&
			t > explainedTimes*(explained(i, (i+n-1)%n, before)+explained(i, (i+1)%n, after))
	}
}
