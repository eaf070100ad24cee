package overlay

import (
	"math"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

func rect(x0, y0, x1, y1 float64) orb.MultiPolygon { return frameOf(x0, y0, x1, y1) }

func hole(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x0, y1}, {x1, y1}, {x1, y0}, {x0, y0}}
}

func diamond(x, y, r float64) orb.MultiPolygon {
	return orb.MultiPolygon{{{{x - r, y}, {x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}}}}
}

func countHoles(mp orb.MultiPolygon) int {
	n := 0
	for _, p := range mp {
		n += len(p) - 1
	}
	return n
}

var plate = orb.MultiPolygon{{rect(0, 0, 10, 10)[0][0], hole(3, 3, 7, 7)}}

func scaled(mp orb.MultiPolygon, k float64) orb.MultiPolygon {
	out := mp.Clone()
	for _, p := range out {
		for _, r := range p {
			for i := range r {
				r[i] = orb.Point{k * r[i][0], k * r[i][1]}
			}
		}
	}
	return out
}

func TestPositive(t *testing.T) {
	for _, c := range []struct {
		name            string
		rings           []orb.Ring
		area            float64
		polygons, holes int
	}{
		{"no rings", nil, 0, 0, 0},
		{"an empty ring, a point and a line", []orb.Ring{{}, {{1, 1}, {1, 1}}, {{0, 0}, {5, 5}, {0, 0}}}, 0, 0, 0},
		{"a figure of eight: only the loop that runs counter-clockwise",
			[]orb.Ring{{{0, 0}, {2, 2}, {2, 0}, {0, 2}, {0, 0}}}, 1, 1, 0},
		{"two loops on one corner", []orb.Ring{{{0, 0}, {2, 0}, {2, 2}, {4, 2}, {4, 4}, {2, 4}, {2, 2}, {0, 2},
			{0, 0}}}, 8, 2, 0},
		{"a hole on the shell's corner, drawn in one go",
			[]orb.Ring{{{0, 0}, {9, 0}, {9, 9}, {0, 9}, {0, 0}, {1, 2}, {2, 1}, {0, 0}}}, 81 - 1.5, 1, 1},
		{"twice round", []orb.Ring{{{0, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}}, 4, 1, 0},
		{"not closed", []orb.Ring{{{0, 0}, {2, 0}, {2, 2}, {0, 2}}}, 4, 1, 0},
		{"clockwise", []orb.Ring{hole(0, 0, 3, 3)}, 0, 0, 0},
		{"a spike without width", []orb.Ring{{{0, 0}, {2, 0}, {5, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}}, 4, 1, 0},
		{"a hole thinner than anything meant, left of another", []orb.Ring{
			rect(0, 0, 100, 100)[0][0], {{1, 50}, {91, 50 + 1.5e-8}, {91, 50}, {1, 50}}, hole(95, 95, 97, 97)},
			10000 - 4, 1, 1},
		{"thinner than anything meant, right of others",
			[]orb.Ring{rect(0, 0, 4, 4)[0][0], {{9, 5}, {99, 5}, {99, 5 + 1.5e-8}, {9, 5}}}, 16, 1, 0},
		{"thinner than anything meant", []orb.Ring{{{0, 0}, {90, 0}, {90, 1e-8}, {0, 0}}}, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Positive(c.rings)
			if err != nil {
				t.Errorf("%v", err)
				return
			}
			if a := geometry.Area(got); math.Abs(a-c.area) > 1e-9 || len(got) != c.polygons ||
				countHoles(got) != c.holes {
				t.Errorf("area %g, %d polygons, %d holes; want %g, %d, %d", a, len(got), countHoles(got),
					c.area, c.polygons, c.holes)
			}
			if f := geostest.Fault(got); f != "" {
				t.Errorf("%s", f)
			}
		})
	}
}

func TestNest(t *testing.T) {
	ccw := func(x0, y0, x1, y1 float64) orb.Ring { return rect(x0, y0, x1, y1)[0][0] }
	for _, c := range []struct {
		name            string
		rings           []orb.Ring
		area            float64
		polygons, holes int
	}{
		{"nothing", nil, 0, 0, 0},
		{"a clockwise ring becomes an outer one", []orb.Ring{hole(0, 0, 2, 2)}, 4, 1, 0},
		{"four deep, in any order and direction", []orb.Ring{ccw(3, 3, 7, 7), hole(0, 0, 10, 10), ccw(1, 1, 9, 9),
			ccw(4, 4, 5, 5)}, 100 - 64 + 16 - 1, 2, 2},
		{"a hole whose middle of a side is the shell's corner", []orb.Ring{
			{{0, 0}, {10, 0}, {10, 10}, {5, 5}, {0, 10}, {0, 0}}, {{6, 5}, {4, 5}, {4, 3}, {6, 3}, {6, 5}}}, 75 - 4, 1,
			1},
		{"the same from below", []orb.Ring{
			{{0, 0}, {5, 5}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}, {{4, 5}, {6, 5}, {6, 7}, {4, 7}, {4, 5}}}, 75 - 4, 1,
			1},
		{"the same from the left", []orb.Ring{
			{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {5, 5}, {0, 0}}, {{5, 6}, {5, 4}, {7, 4}, {7, 6}, {5, 6}}}, 75 - 4, 1,
			1},
		{"the same from the right", []orb.Ring{
			{{0, 0}, {10, 0}, {5, 5}, {10, 10}, {0, 10}, {0, 0}}, {{5, 4}, {5, 6}, {3, 6}, {3, 4}, {5, 4}}}, 75 - 4, 1,
			1},
		{"outside, the middle of a side on the shell's corner", []orb.Ring{
			{{0, 0}, {10, 0}, {5, 5}, {0, 0}}, {{6, 5}, {6, 7}, {4, 7}, {4, 5}, {6, 5}}}, 25 + 4, 2, 0},
		{"a hole on the shell's side by a corner", []orb.Ring{ccw(0, 0, 10, 10), {{0, 5}, {3, 4}, {3, 6}, {0, 5}}}, 97,
			1, 1},
		{"side by side", []orb.Ring{ccw(0, 0, 1, 1), ccw(5, 0, 8, 1)}, 4, 2, 0},
		{"useless rings", []orb.Ring{{}, {{0, 0}, {1, 1}}, {{0, 0}, {1, 1}, {2, 2}, {0, 0}},
			{{math.NaN(), 0}, {1, 0}, {1, 1}, {math.NaN(), 0}}}, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Nest(c.rings)
			if a := geometry.Area(got); a != c.area || len(got) != c.polygons || countHoles(got) != c.holes {
				t.Errorf("area %g, %d polygons, %d holes; want %g, %d, %d", a, len(got), countHoles(got),
					c.area, c.polygons, c.holes)
			}
			if f := geostest.Fault(got); f != "" {
				t.Errorf("%s", f)
			}
		})
	}
}

// TestGridIsKept holds that the draft's coordinates come back to the last bit.
func TestGridIsKept(t *testing.T) {
	a := orb.MultiPolygon{{{{0.1, 0.2}, {123.4567, 0.0003}, {1200.0001, 999.9999}, {-77.7777, 350.1234}, {0.1, 0.2}}}}
	got, err := Union(a, a)
	if err != nil || len(got) != 1 || len(got[0]) != 1 {
		t.Fatalf("%v %v", got, err)
	}
	want := map[orb.Point]bool{}
	for _, p := range a[0][0] {
		want[p] = true
	}
	for _, p := range got[0][0] {
		if !want[p] {
			t.Errorf("%v was not among the points", p)
		}
	}
}

func TestOrderOfResult(t *testing.T) {
	got, err := Union(rect(50, 0, 51, 1), rect(0, 5, 3, 8), rect(0, 0, 3, 3), rect(20, 0, 29, 9), rect(21, 1, 22, 2))
	if err != nil {
		t.Fatal(err)
	}
	var at []orb.Point
	for _, p := range got {
		at = append(at, p.Bound().Min)
	}
	for i, want := range []orb.Point{{20, 0}, {0, 0}, {0, 5}, {50, 0}} {
		if at[i] != want {
			t.Errorf("polygon %d begins at %v, want %v", i, at[i], want)
		}
	}
}

func TestErrorsNameThePlace(t *testing.T) {
	nan, far := rect(0, 0, 2, 2), rect(0, 0, 2, 2)
	nan[0][0][2][1] = math.NaN()
	far[0][0][1][0] = 3e6
	for _, c := range []struct {
		name string
		do   func() error
		want []string
	}{
		{"not a number", func() error { _, err := Union(rect(0, 0, 1, 1), nan); return err },
			[]string{"union", "shape 1", "polygon 0", "ring 0", "point 2", "not a finite number"}},
		{"too far", func() error { _, err := Difference(rect(0, 0, 1, 1), far); return err },
			[]string{"difference", "second shape", "point 1", "1e+06 mm"}},
		{"in a loose ring", func() error { _, err := Positive(nan[0]); return err }, []string{"ring 0", "point 2"}},
		{"checked alone", func() error { return Check(far) }, []string{"polygon 0", "ring 0", "point 1"}},
		{"no attempt succeeds", func() error {
			_, err := outlineIn(nil, "union", rect(0, 0, 1, 1)[0], rect(5, 5, 6, 7)[0],
				func(_, _ int32) bool { return true })
			return err
		}, []string{"between (0.0000, 0.0000) and (6.0000, 7.0000) mm"}},
		{"a fault inside is caught", func() error {
			_, err := outlineOf("union", rect(0, 0, 1, 1)[0], nil, func(_, _ int32) bool { panic("broken") })
			return err
		}, []string{"broken", "(1.0000, 1.0000)"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := c.do()
			if err == nil {
				t.Errorf("no error")
				return
			}
			for _, w := range c.want {
				if !strings.Contains(err.Error(), w) {
					t.Errorf("%q does not say %q", err, w)
				}
			}
		})
	}
}

// TestInputIsLeftAlone holds that arguments are not written to.
func TestInputIsLeftAlone(t *testing.T) {
	a := orb.MultiPolygon{{hole(0, 0, 9, 9), rect(2, 2, 3, 3)[0][0]}} // both rings the wrong way round
	b := rect(1, 1, 20, 4)
	ca, cb := a.Clone(), b.Clone()
	for _, op := range []string{"union", "difference", "intersection"} {
		if _, err := operate(op, two(a, b)); err != nil {
			t.Fatal(err)
		}
	}
	if !a.Equal(ca) || !b.Equal(cb) {
		t.Error("an argument was changed")
	}
}
