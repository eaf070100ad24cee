package pen

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

var (
	errFew     = errors.New("a closed line needs two points at least; take the whole line out instead")
	errBetween = errors.New("there is no point between the two ends of this stretch to take out")
)

// Moved returns the ring with the nodes of a stretch moved, and with them how the line passes through them.
func (r Ring) Moved(s Stretch, by orb.Point) Ring {
	out := r.clone()
	for _, i := range r.indexes(s) {
		v := &out.Nodes[i]
		v.At, v.In, v.Out = geometry.Add(v.At, by), geometry.Add(v.In, by), geometry.Add(v.Out, by)
	}
	return out
}

// Inserted returns the ring with a node set on piece i at the parameter t in (0, 1), and its index. The line stays as
// it was.
func (r Ring) Inserted(i int, t float64) (Ring, int) {
	next := r.after(i)
	v, w := r.Nodes[i], r.Nodes[next]
	out := Ring{}
	out.Nodes = append(out.Nodes, r.Nodes[:i+1]...)
	var node Node
	if r.Straight(i) {
		node = Corner(geometry.Lerp(v.At, w.At, t))
	} else { // de Casteljau
		a, b, c := geometry.Lerp(v.At, v.Out, t), geometry.Lerp(v.Out, w.In, t), geometry.Lerp(w.In, w.At, t)
		d, e := geometry.Lerp(a, b, t), geometry.Lerp(b, c, t)
		node = Node{At: geometry.Lerp(d, e, t), In: d, Out: e, Round: true}
		v.Out, w.In = a, c
	}

	out.Nodes[i] = v
	out.Nodes = append(out.Nodes, node)
	out.Nodes = append(out.Nodes, r.Nodes[i+1:]...)
	if next != 0 {
		next++
	}
	out.Nodes[next] = w
	if next == i { // a single node is both ends
		out.Nodes[i].In, out.Nodes[i].Out = w.In, v.Out
	}
	return out, i + 1
}

// Removed returns the ring without a node, or without those strictly between the ends of a stretch. The neighbours are
// joined by one piece that follows what was there as well as one piece can; straight pieces by a straight one.
func (r Ring) Removed(s Stretch) (Ring, error) {
	list := r.indexes(s)
	if len(list) == 1 {
		list = []int{r.before(list[0]), list[0], r.after(list[0])}
	}
	gone := len(list) - 2
	if gone < 1 {
		return r, errBetween
	}
	if len(r.Nodes)-gone < 2 {
		return r, errFew
	}
	first, last := list[0], list[len(list)-1]
	straight := true
	for _, i := range list[:len(list)-1] {
		straight = straight && r.Straight(i)
	}
	v, w := r.Nodes[first], r.Nodes[last]
	if straight {
		v.Out, w.In = v.At, w.At
	} else {
		pts := r.Stretch(Stretch{first, last})
		b := single(pts, leaving(pts, v.Out, v.At), leaving(reversed(pts), w.In, w.At))
		v.Out, w.In = b[1], b[2]
	}
	out := Ring{}
	drop := map[int]bool{}
	for _, i := range list[1 : len(list)-1] {
		drop[i] = true
	}

	for i, n := range r.Nodes {
		switch {
		case drop[i]:
			continue
		case i == first:
			n = v
		case i == last:
			n = w
		}
		out.Nodes = append(out.Nodes, n)
	}
	return out, nil
}

// leaving returns the direction in which a line leaves its first point.
func leaving(pts []orb.Point, control, at orb.Point) orb.Point {
	if control != at {
		return geometry.Unit(geometry.Sub(control, at))
	}
	if len(pts) < 2 {
		return orb.Point{}
	}
	return geometry.Unit(geometry.Sub(pts[1], pts[0]))
}

// Sharpened returns the ring with the nodes of a stretch made corners.
func (r Ring) Sharpened(s Stretch) Ring {
	out := r.clone()
	for _, i := range r.indexes(s) {
		v, before, after := &out.Nodes[i], out.Nodes[r.before(i)], out.Nodes[r.after(i)]
		if v.Round {
			if v.In != v.At || before.Out != before.At {
				v.In = geometry.Lerp(v.At, before.At, 1.0/3)
			}
			if v.Out != v.At || after.In != after.At {
				v.Out = geometry.Lerp(v.At, after.At, 1.0/3)
			}
		}
		v.Round = false
	}
	return out
}

// Rounded returns the ring with the nodes of a stretch made round: the line passes each along the circle through it and
// its neighbours.
func (r Ring) Rounded(s Stretch) Ring {
	out := r.clone()
	list := r.indexes(s)
	for _, i := range list {
		out.Nodes[i].Round = true
	}
	for _, i := range list {
		v := &out.Nodes[i]
		before, after := &out.Nodes[r.before(i)], &out.Nodes[r.after(i)]
		dir := tangent(before.At, v.At, after.At)
		plain0, plain1 := r.Straight(r.before(i)), r.Straight(i)
		v.In = geometry.Add(v.At, geometry.Times(dir, -handle(before.At, v.At, dir)))
		v.Out = geometry.Add(v.At, geometry.Times(dir, handle(v.At, after.At, dir)))
		if plain0 {
			before.Out = opposite(*before, before.In, v.At, v.In)
		}
		if plain1 {
			after.In = opposite(*after, after.Out, v.At, v.Out)
		}
	}
	return out
}

// opposite returns the control point at the far end of a piece that was straight: going on from the line there where
// that node is round, else so that the piece is an arc.
func opposite(end Node, other, at, control orb.Point) orb.Point {
	if end.Round && other != end.At {
		dir := geometry.Unit(geometry.Sub(end.At, other))
		return geometry.Add(end.At, geometry.Times(dir, handle(end.At, at, dir)))
	}
	// The control point reflected in the line that halves the chord.
	axis := geometry.Unit(geometry.Sub(at, end.At))
	v := geometry.Sub(control, at)
	return geometry.Add(end.At, geometry.Sub(v, geometry.Times(axis, 2*geometry.Dot(v, axis))))
}

// tangent returns the direction of the circle through three points in the middle one; of three in one line, that of the
// line.
func tangent(a, p, b orb.Point) orb.Point {
	u, v := geometry.Sub(p, a), geometry.Sub(b, p)
	lu, lv := geometry.Dot(u, u), geometry.Dot(v, v)
	if lu == 0 || lv == 0 {
		return geometry.Unit(geometry.Sub(b, a))
	}
	t := geometry.Unit(geometry.Add(geometry.Times(u, 1/lu), geometry.Times(v, 1/lv)))
	if t == (orb.Point{}) {
		return geometry.Unit(orb.Point{-u[1], u[0]})
	}
	return t
}

// handle returns how far from its end the control point of a circular arc lies, that has the direction dir at one end
// of the chord: a third of the chord over the squared cosine of a quarter of the angle turned, up to a quarter turn of
// dir.
func handle(p, q, dir orb.Point) float64 {
	chord := geometry.PointDistance(p, q)
	if chord == 0 {
		return 0
	}
	a := math.Acos(math.Max(0, math.Min(1, math.Abs(geometry.Dot(geometry.Sub(q, p), dir))/chord)))
	c := math.Cos(a / 2)
	return chord / (3 * c * c)
}

// Nearest returns the piece of the ring nearest to a point, the parameter there, and how far it is.
func (r Ring) Nearest(p orb.Point) (piece int, t, d float64) {
	d = math.Inf(1)
	const parts = 24 // a piece turns by 140° at most: a chord is then nearly the curve
	for i, v := range r.Nodes {
		w := r.Nodes[r.after(i)]
		b := [4]orb.Point{v.At, v.Out, w.In, w.At}
		if r.Straight(i) {
			b[1], b[2] = geometry.Lerp(v.At, w.At, 1.0/3), geometry.Lerp(v.At, w.At, 2.0/3)
		}
		from := b[0]
		for k := 1; k <= parts; k++ {
			to := bezier(b, float64(k)/parts)
			f, l := 0.0, geometry.Sub(to, from)
			if n := geometry.Dot(l, l); n > 0 {
				f = math.Max(0, math.Min(1, geometry.Dot(geometry.Sub(p, from), l)/n))
			}
			if e := geometry.PointDistance(p, geometry.Add(from, geometry.Times(l, f))); e < d {
				piece, t, d = i, (float64(k-1)+f)/parts, e
			}
			from = to
		}
	}
	return piece, t, d
}
