package geometry

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// ringOf closes a list of corners.
func ringOf(p ...orb.Point) orb.Ring { return append(orb.Ring(p), p[0]) }

// reversed returns the ring run the other way.
func reversed(r orb.Ring) orb.Ring {
	out := r.Clone()
	out.Reverse()
	return out
}

func box4(x0, y0, x1, y1 float64) orb.Ring {
	return ringOf(orb.Point{x0, y0}, orb.Point{x1, y0}, orb.Point{x1, y1}, orb.Point{x0, y1})
}

func hole4(x0, y0, x1, y1 float64) orb.Ring { return reversed(box4(x0, y0, x1, y1)) }

func TestCheckOutlineByName(t *testing.T) {
	big := box4(0, 0, 20, 20)
	for _, c := range []struct {
		name string
		mp   orb.MultiPolygon
		want string // path and a part of the reason; empty for a good outline
	}{
		{"square", orb.MultiPolygon{{big}}, ""},
		{"square with a hole", orb.MultiPolygon{{big, hole4(5, 5, 10, 10)}}, ""},
		{"two squares apart", orb.MultiPolygon{{big}, {box4(30, 0, 40, 10)}}, ""},
		{"two squares corner to corner", orb.MultiPolygon{{big}, {box4(20, 20, 40, 40)}}, ""},
		{"hole touching the outer ring in a corner",
			orb.MultiPolygon{{big, ringOf(orb.Point{0, 10}, orb.Point{10, 15}, orb.Point{10, 5})}}, ""},
		{"two holes corner to corner", orb.MultiPolygon{{big, hole4(2, 2, 5, 5), hole4(5, 5, 8, 8)}}, ""},
		{"a corner on another's side", orb.MultiPolygon{{big},
			{ringOf(orb.Point{20, 10}, orb.Point{30, 5}, orb.Point{30, 15})}}, ""},
		{"polygon in another's hole", orb.MultiPolygon{{big, hole4(5, 5, 15, 15)}, {box4(7, 7, 9, 9)}}, ""},
		{"polygon touching the hole it stands in", orb.MultiPolygon{{big, hole4(5, 5, 15, 15)},
			{ringOf(orb.Point{5, 10}, orb.Point{10, 5}, orb.Point{15, 10}, orb.Point{10, 15})}}, ""},
		{"two triangles tip to tip", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{4, -1}, orb.Point{4, 1})},
			{ringOf(orb.Point{0, 0}, orb.Point{-4, 1}, orb.Point{-4, -1})}}, ""},

		{"nothing", nil, ": the outline is empty"},
		{"a polygon of nothing", orb.MultiPolygon{{big}, {}}, "[1]: the polygon has no ring"},
		{"two points", orb.MultiPolygon{{orb.Ring{{0, 0}, {1, 1}}}}, "[0][0]: the ring has too few points, 2"},
		{"there and back", orb.MultiPolygon{{orb.Ring{{0, 0}, {1, 1}, {0, 0}}}},
			"[0][0]: the ring has too few points, 3"},
		{"there and back twice", orb.MultiPolygon{{orb.Ring{{0, 0}, {1, 1}, {0, 0}, {1, 1}, {0, 0}}}},
			"[0][0]: the ring"},
		{"open", orb.MultiPolygon{{big[:4]}}, "[0][0]: the ring is not closed"},
		{"a point twice", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{3, 0}, orb.Point{3, 0},
			orb.Point{3, 3})}}, "[0][0]: the ring has the same point twice running near (3, 0) mm"},
		{"not a number", orb.MultiPolygon{{big, ringOf(orb.Point{5, 5}, orb.Point{6, math.NaN()}, orb.Point{6, 6})}},
			"[0][1][1]: a coordinate is not a finite number"},
		{"infinite", orb.MultiPolygon{{ringOf(orb.Point{5, 5}, orb.Point{6, 1}, orb.Point{math.Inf(-1), 6})}},
			"[0][0][2]: a coordinate is not a finite number"},
		{"too far", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{1e5 + 1, 0}, orb.Point{0, 1})}},
			"[0][0][1]: a coordinate is over 100000 mm"},
		{"on a line", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{1, 1}, orb.Point{3, 3})}},
			"[0][0]: the ring "},
		{"a hair", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{100, 0}, orb.Point{50, 1e-11})}},
			"[0][0]: the ring has no area"},
		{"bow tie", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{10, 10}, orb.Point{10, 0}, orb.Point{0, 10})}},
			"[0][0]: the ring crosses itself near (5, 5) mm"},
		{"bow tie as a hole", orb.MultiPolygon{{big, ringOf(orb.Point{2, 2}, orb.Point{10, 10}, orb.Point{10, 2},
			orb.Point{2, 10})}}, "[0][1]: the ring crosses itself near (6, 6) mm"},
		{"bow tie with a corner at the crossing", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{5, 5},
			orb.Point{10, 10}, orb.Point{10, 0}, orb.Point{0, 10})}}, "[0][0]: the ring crosses itself near (5, 5) mm"},
		{"bow tie with two corners at the crossing",
			orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{5, 5}, orb.Point{10, 10}, orb.Point{10, 0},
				orb.Point{5, 5}, orb.Point{0, 10})}}, "[0][0]: the ring crosses itself near (5, 5) mm"},
		{"waist of no width", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{5, 5}, orb.Point{10, 0},
			orb.Point{10, 10}, orb.Point{5, 5}, orb.Point{0, 10})}}, "[0][0]: the ring touches itself near (5, 5) mm"},
		{"corner on its own side", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{10, 10},
			orb.Point{5, 0}, orb.Point{0, 10})}}, "[0][0]: the ring touches itself near (5, 0) mm"},
		{"spike outwards", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{15, 0},
			orb.Point{10, 0}, orb.Point{10, 10}, orb.Point{0, 10})}}, "[0][0]: the ring "},
		{"spike to the left",
			orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{10, 10}, orb.Point{0, 10},
				orb.Point{0, 5}, orb.Point{-5, 5}, orb.Point{0, 5})}},
			"[0][0]: the ring folds back on itself near (-5, 5) mm"},
		{"back along itself", orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{10, 5},
			orb.Point{4, 0}, orb.Point{2, 0}, orb.Point{0, 5})}}, "[0][0]: the ring "},
		{"two squares with a side in common", orb.MultiPolygon{{big}, {box4(20, 0, 40, 20)}},
			"[1][0]: the ring runs along ring [0][0]"},
		{"two squares with a part of a side in common", orb.MultiPolygon{{big}, {box4(20, 5, 40, 9)}},
			"[1][0]: the ring runs along ring [0][0]"},
		{"the same square twice", orb.MultiPolygon{{big}, {big}}, "[1][0]: the ring runs along ring [0][0]"},
		{"two squares that overlap", orb.MultiPolygon{{big}, {box4(10, 10, 30, 30)}},
			"[1][0]: the ring crosses ring [0][0] near ("},
		{"crossing through corners",
			orb.MultiPolygon{{ringOf(orb.Point{0, 0}, orb.Point{10, -10}, orb.Point{20, 0}, orb.Point{10, 10})},
				{ringOf(orb.Point{5, -5}, orb.Point{30, 0}, orb.Point{5, 5})}},
			"[1][0]: the ring crosses ring [0][0] near ("},
		{"a square over another", orb.MultiPolygon{{big}, {box4(5, 5, 9, 9)}},
			"[1][0]: the polygon lies over polygon [0] near (5, 5) mm"},
		{"a square over a later one", orb.MultiPolygon{{box4(5, 5, 9, 9)}, {big}},
			"[0][0]: the polygon lies over polygon [1]"},
		{"hole outside", orb.MultiPolygon{{big, hole4(25, 5, 30, 10)}},
			"[0][1]: the hole lies outside its outer ring [0][0]"},
		{"hole round its outer ring", orb.MultiPolygon{{big, hole4(-5, -5, 30, 30)}},
			"[0][1]: the hole lies outside its outer ring [0][0]"},
		{"hole in a hole", orb.MultiPolygon{{big, hole4(5, 5, 15, 15), hole4(7, 7, 9, 9)}},
			"[0][2]: the hole lies in another hole, ring [0][1]"},
		{"hole crossing out", orb.MultiPolygon{{big, hole4(15, 5, 25, 10)}}, "[0][1]: the ring crosses ring [0][0]"},
		{"holes that cross", orb.MultiPolygon{{big, hole4(5, 5, 10, 10), hole4(7, 7, 12, 12)}},
			"[0][2]: the ring crosses ring [0][1]"},
		{"a strange ring round the hole", orb.MultiPolygon{{big, hole4(7, 7, 9, 9)}, {box4(5, 5, 15, 15)}},
			"[0][1]: another ring, [1][0], lies between"},
		{"clockwise", orb.MultiPolygon{{reversed(big)}}, "[0][0]: the outer ring runs clockwise"},
		{"hole the wrong way", orb.MultiPolygon{{big, box4(5, 5, 10, 10)}}, "[0][1]: the hole runs counter-clockwise"},
	} {
		t.Run(c.name, func(t *testing.T) {
			checkNamed(t, c.name, c.mp, c.want)
		})
	}
}

func checkNamed(t *testing.T, name string, mp orb.MultiPolygon, want string) {
	t.Helper()
	err := CheckOutline(mp)
	if want == "" {
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		return
	}
	var e *OutlineError
	if !errors.As(err, &e) {
		t.Errorf("%s: got %v, want %q", name, err, want)
	} else if got := e.Path() + ": " + e.Text(); !strings.HasPrefix(got, want) {
		t.Errorf("%s: %q, want %q", name, got, want)
	}
}

// exactTurn is turnOf by rational numbers.
func exactTurn(a, b, c orb.Point) int {
	r := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	sub := func(x, y float64) *big.Rat { return new(big.Rat).Sub(r(x), r(y)) }
	l := new(big.Rat).Mul(sub(a[0], c[0]), sub(b[1], c[1]))
	return l.Cmp(new(big.Rat).Mul(sub(a[1], c[1]), sub(b[0], c[0])))
}

func TestTurnAgainstRationalNumbers(t *testing.T) {
	const seed = 41
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	zeros := 0
	for range 20000 {
		a := orb.Point{r.NormFloat64() * 100, r.NormFloat64() * 100}
		b := orb.Point{r.NormFloat64() * 100, r.NormFloat64() * 100}
		f := r.Float64()*3 - 1
		c := orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])}
		switch r.IntN(4) {
		case 0: // a hair off the line
			c[r.IntN(2)] *= 1 + float64(r.IntN(5)-2)*0x1p-52
		case 1: // on whole numbers, exactly on the line
			a, b = orb.Point{math.Round(a[0]), math.Round(a[1])}, orb.Point{math.Round(b[0]), math.Round(b[1])}
			c = orb.Point{3*b[0] - 2*a[0], 3*b[1] - 2*a[1]}
		case 2: // sizes far apart
			c[0] *= math.Pow(2, float64(r.IntN(60)-50))
		}
		want := exactTurn(a, b, c)
		if want == 0 {
			zeros++
		}
		if got := turnOf(a, b, c); got != want {
			t.Fatalf("turn of %v %v %v is %d, exactly %d", a, b, c, got, want)
		}
		if turnOf(b, c, a) != want || turnOf(b, a, c) != -want {
			t.Fatalf("turn of %v %v %v changes with the order", a, b, c)
		}
	}
	if zeros < 1000 {
		t.Fatalf("only %d of the cases lay on a line", zeros)
	}
}

func TestCheckOutlineTakesGoodOnes(t *testing.T) {
	const seed = 42
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 400 {
		mp := blob(r, orb.Point{r.NormFloat64(), r.NormFloat64()}, 10, 3+r.IntN(200), r.IntN(2) == 0)
		mp = append(mp, Transform(mp, Translate(30, r.Float64()))...)
		for range 4 {
			mp = Transform(mp, TurnDegrees(360*r.Float64()).After(MirrorX).After(Scale(0.5+r.Float64())))
			if err := CheckOutline(mp); err != nil {
				t.Fatalf("%v in %v", err, mp)
			}
		}
	}
}

// comb returns a ring with n long teeth side by side at 45 degrees, so that every tooth's box meets every other's.
func comb(n int) orb.MultiPolygon {
	var r orb.Ring
	for i := range n {
		x := float64(i)
		r = append(r, orb.Point{x, -x}, orb.Point{x + 0.25 + 2*float64(n), -x - 0.25 + 2*float64(n)},
			orb.Point{x + 0.5, -x - 0.5})
	}
	r = append(r, orb.Point{-5, -float64(n) - 5})
	return Orient(orb.MultiPolygon{{append(r, r[0])}})
}

func BenchmarkCheckOutline(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	for _, c := range []struct {
		name string
		mp   orb.MultiPolygon
	}{
		{"300 points", blob(r, orb.Point{}, 40, 300, false)},
		{"20000 points", blob(r, orb.Point{}, 400, 20000, false)},
		{"comb of 20000 points", comb(6666)},
		{"comb of 200000 points", Transform(comb(66666), Scale(0.2))},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if err := CheckOutline(c.mp); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
