package residue

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
)

// want is what one piece must be: "joins", "hangs" or "all" (nothing remains), its width and its reach; NaN where
// the figure is not asked for.
type want struct {
	kind         string
	width, reach float64
}

func ring(xy ...float64) orb.Ring {
	var r orb.Ring
	for i := 0; i+1 < len(xy); i += 2 {
		r = append(r, orb.Point{xy[i], xy[i+1]})
	}
	return append(r, r[0])
}

func polygon(rings ...orb.Ring) orb.MultiPolygon {
	return geometry.Orient(orb.MultiPolygon{orb.Polygon(rings)})
}

func circle(x, y, r float64, n int) orb.Ring {
	var out orb.Ring
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out = append(out, orb.Point{x + r*c, y + r*s})
	}
	return append(out, out[0])
}

// comb returns a back with teeth upward, each tooth and each gap as wide as given.
func comb(teeth int, tooth, gap, length float64) orb.MultiPolygon {
	r := orb.Ring{{0, 0}, {float64(teeth)*(tooth+gap) - gap, 0}}
	for k := teeth - 1; k >= 0; k-- {
		x := float64(k) * (tooth + gap)
		r = append(r, orb.Point{x + tooth, 10}, orb.Point{x + tooth, 10 + length}, orb.Point{x, 10 + length},
			orb.Point{x, 10})
	}
	// The first and last corners at the back are not corners.
	out := r[:2:2]
	for _, p := range r[2:] {
		if (p[0] == 0 || p[0] == r[1][0]) && p[1] == 10 {
			continue
		}
		out = append(out, p)
	}
	return polygon(append(out, r[0]))
}

// twoCombs returns two combs whose teeth lie in each other's gaps, joined by a bar at the right; gap is the sheet left
// between teeth, all round them.
func twoCombs(gap float64) orb.MultiPolygon {
	const tooth, length, teeth = 4.0, 20.0, 3
	pitch := 2 * (tooth + gap)
	right := pitch*teeth + 10
	r := orb.Ring{{0, -10}, {right, -10}, {right, length + gap + 10}, {0, length + gap + 10}, {0, length + gap}}
	for k := range teeth { // the upper comb's teeth hang down
		x := float64(k)*pitch + tooth + gap
		r = append(r, orb.Point{x, length + gap}, orb.Point{x, gap}, orb.Point{x + tooth, gap},
			orb.Point{x + tooth, length + gap})
	}
	end := float64(teeth-1)*pitch + 2*(tooth+gap)
	r = append(r, orb.Point{end, length + gap}, orb.Point{end, 0})
	for k := teeth - 1; k >= 0; k-- {
		x := float64(k) * pitch
		r = append(r, orb.Point{x + tooth, 0}, orb.Point{x + tooth, length}, orb.Point{x, length}, orb.Point{x, 0})
	}
	out := r[:1:1]
	for _, p := range r[1:] {
		if p != (orb.Point{0, 0}) || len(out) == 1 {
			out = append(out, p)
		}
	}
	return polygon(append(out, r[0]))
}

// fin returns a block with a deep bay, out of whose floor a fin of plane... of the given width and length juts.
func fin(width, length float64) orb.MultiPolygon {
	// The plane comes in from above through a wide bay; the fin is a slot of plane below the bay's floor.
	return polygon(ring(0, 0, 60, 0, 60, 60, 50, 60, 50, 40, 30+width/2, 40, 30+width/2, 40-length, 30-width/2,
		40-length, 30-width/2, 40, 10, 40, 10, 60, 0, 60))
}

// spiral returns a strip of the given width that winds inward squarely from a side of 80, with the plane slot wide
// between its turns. The last side is at least 20 from the one across.
func spiral(sides int, strip, slot float64) orb.MultiPolygon {
	path := []orb.Point{{0, 0}}
	length, dir := 80.0, orb.Point{1, 0}
	for i := range sides {
		p := path[len(path)-1]
		path = append(path, orb.Point{p[0] + length*dir[0], p[1] + length*dir[1]})
		dir = orb.Point{-dir[1], dir[0]}
		if i >= 2 && i%2 == 0 {
			length -= strip + slot
		}
	}
	var left, right orb.Ring
	for i, p := range path {
		before, after := max(0, i-1), min(len(path)-2, i)
		n := func(k int) orb.Point {
			d := geometry.Sub(path[k+1], path[k])
			l := math.Hypot(d[0], d[1])
			return orb.Point{-d[1] / l, d[0] / l}
		}
		m := n(before)
		if before != after {
			m = orb.Point{m[0] + n(after)[0], m[1] + n(after)[1]}
		}
		left, right = append(left, along(p, m, strip/2)), append(right, along(p, m, -strip/2))
	}
	slices.Reverse(left)
	return polygon(append(append(right, left...), right[0]))
}

// letterC returns a ring 10 wide with a mouth of the given width at the right.
func letterC(mouth float64) orb.MultiPolygon {
	h := mouth / 2
	return polygon(ring(0, 0, 40, 0, 40, 20-h, 30, 20-h, 30, 10, 10, 10, 10, 30, 30, 30, 30, 20+h, 40, 20+h, 40, 40, 0,
		40))
}

func koch(steps int, side float64) orb.MultiPolygon {
	pts := orb.Ring{{0, 0}, {side / 2, side * math.Sqrt(3) / 2}, {side, 0}, {0, 0}}
	for range steps {
		var next orb.Ring
		for i := 0; i+1 < len(pts); i++ {
			p, q := pts[i], pts[i+1]
			d := orb.Point{(q[0] - p[0]) / 3, (q[1] - p[1]) / 3}
			a, b := orb.Point{p[0] + d[0], p[1] + d[1]}, orb.Point{p[0] + 2*d[0], p[1] + 2*d[1]}
			m := orb.Point{(a[0]+b[0])/2 - d[1]*math.Sqrt(3)/2, (a[1]+b[1])/2 + d[0]*math.Sqrt(3)/2}
			next = append(next, p, a, m, b)
		}
		pts = append(next, pts[len(pts)-1])
	}
	return polygon(pts)
}

func star(points int, outer, inner float64) orb.MultiPolygon {
	var r orb.Ring
	for i := range 2 * points {
		d := outer
		if i%2 == 1 {
			d = inner
		}
		s, c := math.Sincos(math.Pi * float64(i) / float64(points))
		r = append(r, orb.Point{d * c, d * s})
	}
	return polygon(append(r, r[0]))
}

// wedge returns a house with upright walls, whose roof meets in the given angle in degrees.
func wedge(angle float64) orb.MultiPolygon {
	h := 60 * math.Tan(angle/2*math.Pi/180)
	return polygon(ring(-h, -50, h, -50, h, 0, 0, 60, -h, 0))
}

var nan = math.NaN()

// slotReach is how far a strip of width w with a square end, length mm long from the corners of its mouth, reaches from
// a disc of diameter d that sits in the mouth's corners: the disc's centre lies √(d²/4 − w²/4) before the mouth.
func slotReach(w, length, d float64) float64 {
	return math.Hypot(length+math.Sqrt(d*d-w*w)/2, w/2) - d/2
}

func TestKnownShapes(t *testing.T) {
	// A wedge reaches r/sin(half its angle) − r from the disc in it.
	taper := func(angle, w float64) float64 { return w / 2 * (1/math.Sin(angle/2*math.Pi/180) - 1) }
	for _, c := range []struct {
		name  string
		mp    orb.MultiPolygon
		plane bool // the plane round it
		width float64
		want  []want
	}{
		{"two combs, 2 between teeth", twoCombs(2), true, 3, []want{{"hangs", 2, nan}}},
		{"two combs, 4 between teeth", twoCombs(4), true, 3, nil},
		{"two combs, exactly what is asked", twoCombs(3), true, 3, nil},
		{"two combs, a hair under: room in every bend", twoCombs(2.9999), true, 3,
			append(slices.Repeat([]want{{"joins", 2.9999, nan}}, 11), want{"hangs", 2.9999, nan})},
		{"comb, gaps of 2", comb(4, 5, 2, 20), true, 3, []want{{"hangs", 2, slotReach(2, 20, 3)},
			{"hangs", 2, slotReach(2, 20, 3)}, {"hangs", 2, slotReach(2, 20, 3)}}},
		// A disc cannot come as near to an outer tooth: it touches the comb's side and the back beside the tooth.
		{"comb, teeth of 1", comb(4, 1, 5, 20), false, 3, []want{{"hangs", 1, math.Hypot(21.5, 1.5) - 1.5}, {"hangs", 1,
			slotReach(1, 20, 3)}, {"hangs", 1, slotReach(1, 20, 3)}, {"hangs", 1, math.Hypot(21.5, 1.5) - 1.5}}},
		{"spiral, 2 between turns", spiral(9, 6, 2), true, 3, []want{{"joins", 2, nan}}},
		{"spiral, 4 between turns", spiral(9, 6, 4), true, 3, nil},
		{"C, mouth of 1.5", letterC(1.5), true, 3, []want{{"joins", 1.5, nan}}},
		{"C, mouth of 3.5", letterC(3.5), true, 3, nil},
		{"keyhole: a bay behind a slot of 2", polygon(ring(0, 0, 40, 0, 40, 40, 21, 40, 21, 25, 28, 25, 28, 10, 12, 10,
			12, 25, 19, 25, 19, 40, 0, 40)), true, 3, []want{{"joins", 2, nan}}},
		{"keyhole with a bay too small", polygon(ring(0, 0, 40, 0, 40, 40, 21, 40, 21, 25, 21.4, 25, 21.4, 22.2, 18.6,
			22.2, 18.6, 25, 19, 25, 19, 40, 0, 40)), true, 3, []want{{"hangs", 2, nan}}},
		{"fin 1 wide, 6 long", fin(1, 6), true, 3, []want{{"hangs", 1, slotReach(1, 6, 3)}}},
		{"fin 2.5 wide, 9 long", fin(2.5, 9), true, 3, []want{{"hangs", 2.5, slotReach(2.5, 9, 3)}}},
		{"fin too short to count", fin(1, 0.5), true, 3, nil},
		{"corner of 61 degrees", wedge(61), false, 3, nil},
		{"corner of 60 degrees", wedge(60), false, 3, nil},
		{"corner of 59 degrees", wedge(59), false, 3, []want{{"hangs", nan, taper(59, 3)}}},
		{"corner of 20 degrees", wedge(20), false, 3, []want{{"hangs", nan, taper(20, 3)}}},
		{"the same from outside", wedge(20), true, 3, nil},
		{"right angles", polygon(ring(0, 0, 20, 0, 20, 20, 0, 20)), false, 3, nil},
		{"right angles from outside", polygon(ring(0, 0, 20, 0, 20, 20, 10, 20, 10, 10, 0, 10)), true, 3, nil},
		{"circle", polygon(circle(0, 0, 10, 90)), false, 3, nil},
		{"circle from outside", polygon(circle(0, 0, 10, 90)), true, 3, nil},
		{"circle just too small", polygon(circle(0, 0, 1.45, 90)), false, 3, []want{{"all", nan, 0}}},
		{"hexagonal star, its bays", star(6, 20, 20/math.Sqrt(3)), true, 3, nil},    // of 120 degrees
		{"hexagonal star, its points", star(6, 20, 20/math.Sqrt(3)), false, 3, nil}, // of 60 degrees
		// of about 46 degrees, six of them; filled in below
		{"sharp star, its points", star(6, 20, 8), false, 3, nil},
		{"hourglass of two edges that face each other", polygon(ring(0, 0, 20, 0, 20, 20, 12, 20, 12, 22, 20, 22, 20,
			42, 0, 42, 0, 22, 10.5, 22, 10.5, 20, 0, 20)), false, 3, []want{{"joins", 1.5, nan}}},
		// Its walls meet in a point 20/19 beyond the neck, at half an angle whose tangent is 9.5/20.
		{"hourglass of two funnels", polygon(ring(0, 0, 20, 0, 10.5, 20, 20, 40, 0, 40, 9.5, 20)), false, 3,
			[]want{{"joins", 1, math.Hypot(0.5, 1.5/math.Sin(math.Atan(9.5/20))-20.0/19) - 1.5}}},
		// The discs on either side overlap: there is no residue in the middle, and yet no way through.
		{"needles from either side", polygon(ring(0, 0, 20, 0, 20, 19.9, 10.5, 20, 20, 20.1, 20, 40, 0, 40, 0, 20.1,
			9.5, 20, 0, 19.9)), false, 3, []want{{"joins", 1, 0}}},
		{"ring of plane 1 wide round a stone", polygon(circle(0, 0, 10, 180), circle(0, 0, 6, 180)), false, 5,
			[]want{{"all", nan, 0}}},
		{"hole nearer to one side", polygon(ring(0, 0, 40, 0, 40, 40, 0, 40), ring(10, 2, 30, 2, 30, 20, 10, 20)),
			false, 3, []want{{"joins", 2, nan}}},
		{"hole of the plane as narrow as that", polygon(ring(0, 0, 40, 0, 40, 40, 0, 40),
			ring(10, 10, 30, 10, 30, 12, 10, 12)), true, 3, []want{{"all", nan, 0}}},
		{"Koch outline of side 27, bays", koch(2, 27), true, 1, nil}, // of 60 degrees and more: none reaches far enough
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.name == "sharp star, its points" {
				half := math.Atan2(8*math.Sin(math.Pi/6), 20-8*math.Cos(math.Pi/6)) * 180 / math.Pi
				for range 6 {
					c.want = append(c.want, want{"hangs", nan, taper(2*half, c.width)})
				}
			}
			for turn := range 5 {
				for _, mirrored := range []bool{false, true} {
					for _, scale := range []float64{1, 0.037, 23} {
						m := geometry.TurnDegrees(float64(turn) * 37).After(geometry.Scale(scale))
						if mirrored {
							m = geometry.MirrorX.After(m)
						}
						m = geometry.Translate(13.7, -311.9).After(m)
						mp := geometry.Transform(c.mp, m)
						name := fmt.Sprintf("turned %d, mirrored %v, scaled %g", turn, mirrored, scale)
						got, err := Of(mp, c.width*scale, 0.01)
						if c.plane {
							got, err = Around(mp, c.width*scale, 0.01)
						}
						if err != nil {
							t.Errorf("%s: %v", name, err)
							continue
						}
						compareKnown(t, name, got, c.want, scale)
					}
				}
			}
		})
	}
}

func kind(p Piece) string {
	switch {
	case p.Stretches == 0:
		return "all"
	case p.Joins():
		return "joins"
	}
	return "hangs"
}

func compareKnown(t *testing.T, name string, got []Piece, wanted []want, scale float64) {
	t.Helper()
	if len(got) != len(wanted) {
		t.Errorf("%s: %d pieces, want %d", name, len(got), len(wanted))
		for _, p := range got {
			t.Logf("  %s at %v, width %g, reach %g, %d stretches", kind(p), p.P, p.Width/scale, p.Reach/scale,
				p.Stretches)
		}
		return
	}
	// The order follows the outline, and that is mirrored too.
	got, wanted = slices.Clone(got), slices.Clone(wanted)
	slices.SortStableFunc(got, func(a, b Piece) int {
		return cmp.Or(cmp.Compare(kind(b), kind(a)),
			cmp.Compare(math.Round(1e4*a.Reach/scale), math.Round(1e4*b.Reach/scale)))
	})
	slices.SortStableFunc(wanted, func(a, b want) int {
		return cmp.Or(cmp.Compare(b.kind, a.kind), cmp.Compare(a.reach, b.reach))
	})
	for i, p := range got {
		w := wanted[i]
		if kind(p) != w.kind {
			t.Errorf("%s: %s, want %s", name, kind(p), w.kind)
		}
		if !math.IsNaN(w.width) && !(math.Abs(p.Width/scale-w.width) < 1e-6) {
			t.Errorf("%s: %g wide, want %g", name, p.Width/scale, w.width)
		}
		if !math.IsNaN(w.reach) && p.Reach/scale != w.reach && !(math.Abs(p.Reach/scale-w.reach) < 1e-4) {
			t.Errorf("%s: reaches %g, want %g", name, p.Reach/scale, w.reach)
		}
	}
}

// Any line of points at all gives pieces or an error, never a panic.
func TestAnyInput(t *testing.T) {
	const seed = 9
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var polygons []orb.Polygon
	for range 3000 {
		var p orb.Polygon
		for range 1 + r.IntN(3) {
			var q orb.Ring
			for range r.IntN(12) {
				q = append(q, orb.Point{float64(r.IntN(9)), float64(r.IntN(9))})
			}
			if len(q) > 0 && r.IntN(4) > 0 {
				q = append(q, q[0])
			}
			p = append(p, q)
		}
		polygons = append(polygons, p)
	}
	polygons = geometrytest.Share(t, polygons, 1200)
	failed := 0
	for _, p := range polygons {
		for _, w := range []float64{1e-9, 0.5, 1, 2, 7, 1e5} {
			if _, err := Of(orb.MultiPolygon{p}, w, 0.01); err != nil {
				failed++
			}
			if _, err := Around(orb.MultiPolygon{p}, w, 0.01); err != nil {
				failed++
			}
		}
	}
	t.Logf("%d of %d without an answer", failed, len(polygons)*12)
	for _, c := range []struct {
		width, tolerance, x float64
	}{{0, 1, 1}, {-1, 1, 1}, {nan, 1, 1}, {1, 0, 1}, {1, nan, 1}, {1, 1, nan}, {1, 1, math.Inf(1)}, {1, 1, 1e7},
		{math.Inf(1), 1, 1}} {
		t.Run(fmt.Sprintf("width %g, tolerance %g, x %g", c.width, c.tolerance, c.x), func(t *testing.T) {
			if _, err := Of(polygon(ring(0, 0, c.x, 0, 0, 1)), c.width, c.tolerance); err == nil {
				t.Errorf("%+v: no error", c)
			} else {
				t.Log(err)
			}
		})
	}
}
