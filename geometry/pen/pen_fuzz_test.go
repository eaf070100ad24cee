package pen

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
)

var drawings = flag.Int("drawings", 40, "how many random drawings TestRandomDrawings makes")

// strokeOf reads a stroke off the stream: a walk, a round, a straight line, one place again and again, or any numbers.
func strokeOf(s *geometrytest.Stream) []orb.Point {
	var out []orb.Point
	at := orb.Point{float64(s.Pick(64) - 32), float64(s.Pick(64) - 32)}
	step := [...]float64{1, 0.1, 3, 1e-6, 20}[s.Pick(5)]
	kind, n := s.Pick(8), s.Pick(120)
	turn, bend := float64(s.Pick(64))/10, float64(s.Pick(64)-32)/100
	for i := range n {
		switch kind {
		case 0:
			out = append(out, orb.Point{s.Number(), s.Number()})
		case 1: // one place
			out = append(out, at)
		case 2: // a straight line, there and back
			out = append(out, orb.Point{at[0] + step*math.Abs(float64(i-n/2)), at[1]})
		case 3: // a round
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			out = append(out, orb.Point{at[0] + 10*step*cos, at[1] + 10*step*sin})
		default: // a walk that bends, with a corner now and then
			if s.Pick(16) == 0 {
				turn += float64(s.Pick(64)) / 10
			}
			turn += bend
			sin, cos := math.Sincos(turn)
			at = orb.Point{at[0] + step*cos, at[1] + step*sin}
			out = append(out, at)
		}
	}
	return out
}

func jitterOf(s *geometrytest.Stream) float64 {
	if s.Pick(16) == 0 {
		return s.Number()
	}
	return float64(1+s.Pick(40)) / 40
}

func fromSegment2(p, a, b orb.Point) float64 {
	f, l := 0.0, geometry.Sub(b, a)
	if n := geometry.Dot(l, l); n > 0 {
		f = max(0, min(1, geometry.Dot(geometry.Sub(p, a), l)/n))
	}
	d := geometry.Sub(p, geometry.Add(a, geometry.Times(l, f)))
	return geometry.Dot(d, d)
}

// ringOf draws a ring: by a stroke, by points that are set, or as a half. It is nil where nothing was drawn.
func ringOf(t *testing.T, s *geometrytest.Stream) *Ring {
	stroke := strokeOf(s)
	switch s.Pick(4) {
	case 0: // points set one by one
		var points []Point
		for _, p := range stroke[:min(len(stroke), 12)] {
			points = append(points, Point{p, s.Flag()})
		}
		if len(points) < 2 || !finite(stroke) {
			return nil
		}
		whole(t, "a line through points", Through(points, false))
		return &Ring{Nodes: Through(points, true)}
	case 1:
		axis := float64(s.Pick(64) - 32)
		r, err := HalfStroke(stroke, jitterOf(s), axis)
		if err != nil {
			return nil
		}
		whole(t, "a half", r.Nodes)
		b := orb.Ring(Line(r.Nodes, true)).Bound()
		if off := math.Abs(b.Min[0] + b.Max[0] - 2*axis); off > 2*FlattenSlack {
			t.Fatalf("the half and its image differ by %g mm about %g: %+v", off, axis, r.Nodes)
		}
		return &r
	case 2: // an open line
		jitter := jitterOf(s)
		nodes, err := Freed(stroke, jitter, true)
		if err == nil {
			whole(t, "an open line", nodes)
			if n := len(nodes) - 1; nodes[0].At != stroke[0] || nodes[n].At != stroke[len(stroke)-1] {
				t.Fatalf("the held ends %v and %v are at %v and %v", stroke[0], stroke[len(stroke)-1], nodes[0].At,
					nodes[n].At)
			}
		}
		if pts, err := Smooth(stroke, jitter, s.Flag()); err == nil && !finite(pts) {
			t.Fatalf("a smooth line of %v", pts)
		}
		return nil
	}
	r, err := Stroke(stroke, jitterOf(s))
	if err != nil {
		return nil
	}
	return &r
}

// edited makes one edit of the editor's to a ring.
func edited(t *testing.T, s *geometrytest.Stream, r Ring) Ring {
	n := len(r.Nodes)
	at := Stretch{s.Pick(n), s.Pick(n)}
	within := float64(1+s.Pick(40)) / 40
	var err error
	next, what := r, ""
	switch s.Pick(11) {
	case 0:
		what, next = "moved", r.Moved(at, orb.Point{float64(s.Pick(64)-32) / 4, float64(s.Pick(64)-32) / 4})
	case 1:
		what, next = "sharpened", r.Sharpened(at)
	case 2:
		what, next = "rounded", r.Rounded(at)
	case 3:
		what, next = "straightened", r.Straightened(at)
	case 4:
		what, next = "curved", r.Curved(at)
	case 5:
		what, next = "bent", r.Bent(at.From, float64(s.Pick(32))/31,
			orb.Point{float64(s.Pick(64) - 32), float64(s.Pick(64) - 32)})
	case 6:
		what = "inserted"
		was := r.clone().Polygon()
		next, _ = r.Inserted(at.From, 0.05+float64(s.Pick(32))/36)
		line := next.Polygon()
		for i := 0; len(was) > 1 && i < len(line); i += 1 + len(line)*len(was)/maxCompared { // the line stays as it was
			p := line[i]
			if d := fromRing(p, was); d > 2*FlattenSlack+2*geometry.Grid {
				t.Fatalf("setting a point moves the line by %.4f mm: %+v", d, r.Nodes)
			}
		}
	case 7:
		what = "removed"
		next, err = r.Removed(at)
	case 8:
		what = "smoothed"
		next, err = r.Smoothed(at, within)
	case 9:
		what = "simplified"
		next, err = r.Simplified(at, within)
	case 10:
		what, next = "mirrored", r.Mirrored(float64(s.Pick(64)-32))
	}
	if err != nil {
		return r
	}
	if len(next.Nodes) == 0 {
		t.Fatalf("%s: nothing is left of %+v", what, r.Nodes)
	}
	flattened(t, what, next)
	if p, q, d := next.Nearest(next.Nodes[0].At); p < 0 || p >= len(next.Nodes) || !(q >= 0 && q <= 1) || d > 1e-6 {
		t.Fatalf("%s: a point of the ring lies %g from it, on piece %d at %g", what, d, p, q)
	}
	return next
}

func fromRing(p orb.Point, r orb.Ring) float64 {
	d := math.Inf(1)
	for j := 0; j+1 < len(r); j++ {
		d = min(d, fromSegment2(p, r[j], r[j+1]))
	}
	return math.Sqrt(d)
}

// draws makes a drawing that the bytes stand for: rings drawn, edited, joined on and cut away, with areas that add up.
func draws(t *testing.T, data []byte, limit int) {
	s := geometrytest.NewStream(data)
	var shape Shape
	for steps := 0; !s.Done() && steps < limit; steps++ {
		r := ringOf(t, s)
		if r == nil {
			continue
		}
		flattened(t, "drawn", *r)
		for range s.Pick(4) {
			next := edited(t, s, *r)
			r = &next
		}
		shape = used(t, s, shape, *r)
	}
}

// used joins a ring to the shape or cuts it away, and returns what came of it.
func used(t *testing.T, s *geometrytest.Stream, shape Shape, r Ring) Shape {
	b, err := Enclosed(r)
	if err != nil {
		return shape
	}
	a := shape.Outline()
	if len(shape) == 0 || s.Pick(3) > 0 {
		joined, err := shape.Joined(r)
		if err != nil {
			return shape
		}
		good(t, "joined", joined)
		if len(shape) > 0 {
			addUp(t, "joined", geometry.Area(joined.Outline())+common(t, a, b), geometry.Area(a)+geometry.Area(b), a, b,
				joined.Outline())
		}
		return joined
	}
	cut, err := shape.CutAway(r)
	if err != nil {
		return shape
	}
	good(t, "cut", cut)
	addUp(t, "cut", geometry.Area(cut.Outline())+common(t, a, b), geometry.Area(a), a, b, cut.Outline())
	return cut
}

func TestRandomDrawings(t *testing.T) {
	const seed = 66
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for n := range *drawings {
		data := make([]byte, 20+r.IntN(300))
		for i := range data {
			data[i] = byte(r.Uint32())
		}
		draws(t, data, len(data))
		if t.Failed() {
			t.Fatalf("drawing %d of seed %d", n, seed)
		}
	}
}

func FuzzDraw(f *testing.F) {
	r := rand.New(rand.NewPCG(67, 0))
	for range 40 {
		data := make([]byte, 10+r.IntN(120))
		for i := range data {
			data[i] = byte(r.Uint32())
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) { draws(t, data, 4) })
}
