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
