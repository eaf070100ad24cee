package contour

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// grid reads rows of digits, the top row first; the digits are values.
func grid(rows ...string) Grid[uint8] {
	g := Grid[uint8]{Width: len(rows[0]), Height: len(rows)}
	for j := len(rows) - 1; j >= 0; j-- {
		for _, c := range rows[j] {
			g.Values = append(g.Values, uint8(c-'0'))
		}
	}
	return g
}

func all[T Sample](t *testing.T, g Grid[T], level float64) (rings []orb.Ring, areas []float64) {
	t.Helper()
	if err := Walk(g, level, func(r orb.Ring, area float64) bool {
		rings = append(rings, slices.Clone(r))
		areas = append(areas, area)
		return true
	}); err != nil {
		t.Fatal(err)
	}
	return rings, areas
}

func TestSmallGrids(t *testing.T) {
	for _, c := range []struct {
		name  string
		rows  []string
		areas string // of all rings, as they come
	}{
		{"nothing", []string{"000", "000"}, ""},
		{"no samples", []string{""}, ""},
		{"one sample", []string{"000", "010", "000"}, "0.50"},
		{"one sample and nothing around", []string{"1"}, "0.50"},
		{"all high, closed along the border", []string{"111", "111"}, "5.50"}, // 3 × 2 less four corners of 1/8
		{"a hole", []string{"111", "101", "111"}, "8.50 -0.50"},
		{"an island in a hole", []string{"11111", "10001", "10101", "10001", "11111"}, "24.50 -8.50 0.50"},
		{"two pieces", []string{"101"}, "0.50 0.50"},
		{"corners meet, the middle at the level: joined", []string{"10", "01"}, "1.50"},
		{"corners meet, other way", []string{"01", "10"}, "1.50"},
		{"holes in corners, the ink between them joined", []string{"1111", "1011", "1101", "1111"},
			"15.50 -0.50 -0.50"},
	} {
		t.Run(c.name, func(t *testing.T) {
			rings, areas := all(t, grid(c.rows...), 0.5)
			var got []string
			for _, a := range areas {
				got = append(got, fmt.Sprintf("%.2f", a))
			}
			if s := strings.Join(got, " "); s != c.areas {
				t.Errorf("areas %q, not %q; %v", s, c.areas, rings)
			}
		})
	}
}

// The middle of a saddle decides, whichever way the square is turned.
func TestSaddle(t *testing.T) {
	for turn := range 4 {
		for _, c := range []struct {
			a, b, c, d uint8
			pieces     int
		}{{9, 0, 9, 0, 2}, {9, 0, 9, 1, 2}, {9, 1, 9, 1, 1}, {9, 2, 8, 3, 1}, {6, 4, 6, 3, 2}} {
			t.Run(fmt.Sprintf("%v turned %d times", c, turn), func(t *testing.T) {
				v := []uint8{c.a, c.b, c.c, c.d}
				v = append(v[turn:], v[:turn]...)
				g := Grid[uint8]{Width: 2, Height: 2, Values: []uint8{v[0], v[1], v[3], v[2]}}
				if rings, _ := all(t, g, 5); len(rings) != c.pieces {
					t.Errorf("corners %v turned %d times: %d pieces, not %d", c, turn, len(rings), c.pieces)
				}
			})
		}
	}
}

// random returns a grid of blobs or of noise.
func random(rng *rand.Rand) Grid[float64] {
	w, h := 1+rng.Intn(24), 1+rng.Intn(24)
	g := Grid[float64]{Width: w, Height: h}
	blobs := rng.Intn(2) == 0
	ax, ay, p := rng.Float64()+0.2, rng.Float64()+0.2, 6*rng.Float64()
	for j := range h {
		for i := range w {
			v := rng.Float64()
			if blobs {
				v = 0.5 + 0.5*math.Sin(ax*float64(i)+p)*math.Cos(ay*float64(j)-p)
			} else if rng.Intn(3) == 0 {
				v = []float64{0, 0.5, 1}[rng.Intn(3)] // the level itself, and plateaus
			}
			g.Values = append(g.Values, v)
		}
	}
	return g
}

func winding(rings []orb.Ring, x, y float64) int {
	n := 0
	for _, r := range rings {
		for k := 0; k+1 < len(r); k++ {
			a, b := r[k], r[k+1]
			if (a[1] > y) != (b[1] > y) && x < a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
				if b[1] > a[1] {
					n++
				} else {
					n--
				}
			}
		}
	}
	return n
}

// On random grids: every sample is inside exactly when it is high, rings are closed and neither cross nor touch, their
// areas are what is said, and Nest agrees with counting what is around.
func TestRandomGrids(t *testing.T) {
	for seed := range int64(400) {
		rng := rand.New(rand.NewSource(seed))
		g := random(rng)
		const level = 0.5
		rings, areas := all(t, g, level)
		for j := range g.Height {
			for i := range g.Width {
				want := 0
				if g.Values[j*g.Width+i] >= level {
					want = 1
				}
				// The sample's own row is full of corners of the rings; a little above there are none.
				if got := winding(rings, float64(i), float64(j)+1e-7); got != want {
					t.Fatalf("seed %d: the rings wind %d times about sample (%d, %d), not %d", seed, got, i, j, want)
				}
			}
		}
		for k, r := range rings {
			if len(r) < 5 || r[0] != r[len(r)-1] {
				t.Fatalf("seed %d: ring %d is not closed", seed, k)
			}
			sum := 0.0
			for i := 0; i+1 < len(r); i++ {
				sum += r[i][0]*r[i+1][1] - r[i][1]*r[i+1][0]
			}
			if math.Abs(sum/2-areas[k]) > 1e-9 {
				t.Fatalf("seed %d: ring %d has area %g, not %g", seed, k, sum/2, areas[k])
			}
		}
		apart(t, seed, rings)
		parents := Nest(rings)
		for k, r := range rings {
			depth, at := 0, parents[k]
			for ; at >= 0 && depth < len(rings); depth++ {
				if math.Abs(areas[at]) <= math.Abs(areas[k]) || (areas[at] > 0) == (areas[k] > 0) && parents[k] == at {
					t.Fatalf("seed %d: ring %d cannot lie in %d", seed, k, at)
				}
				if winding(rings[at:at+1], r[0][0], r[0][1]) == 0 {
					t.Fatalf("seed %d: ring %d does not lie in %d", seed, k, at)
				}
				at = parents[at]
			}
			around := 0
			for m := range rings {
				if m != k && winding(rings[m:m+1], r[0][0], r[0][1]) != 0 {
					around++
				}
			}
			if around != depth {
				t.Fatalf("seed %d: %d rings lie around ring %d, Nest says %d", seed, around, k, depth)
			}
		}
	}
}

// apart fails the test if two edges that do not follow each other have a point in common: brute force.
func apart(t *testing.T, seed int64, rings []orb.Ring) {
	type edge struct {
		a, b    orb.Point
		ring, k int
	}
	var edges []edge
	for n, r := range rings {
		for k := 0; k+1 < len(r); k++ {
			edges = append(edges, edge{r[k], r[k+1], n, k})
		}
	}
	side := func(a, b, c orb.Point) float64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }
	for i, e := range edges {
		for _, f := range edges[:i] {
			if e.ring == f.ring && (e.k-f.k == 1 || f.k == 0 && e.k == len(rings[e.ring])-2) {
				continue
			}
			if math.Max(e.a[0], e.b[0]) < math.Min(f.a[0], f.b[0]) ||
				math.Max(f.a[0], f.b[0]) < math.Min(e.a[0], e.b[0]) ||
				math.Max(e.a[1], e.b[1]) < math.Min(f.a[1], f.b[1]) ||
				math.Max(f.a[1], f.b[1]) < math.Min(e.a[1], e.b[1]) {
				continue
			}
			if side(e.a, e.b, f.a)*side(e.a, e.b, f.b) <= 0 && side(f.a, f.b, e.a)*side(f.a, f.b, e.b) <= 0 {
				t.Fatalf("seed %d: edges %v and %v meet", seed, e, f)
			}
		}
	}
}

// A grid and its mirror images have the same areas.
func TestMirroredGridsAgree(t *testing.T) {
	for seed := range int64(100) {
		g := random(rand.New(rand.NewSource(seed)))
		_, want := all(t, g, 0.5)
		slices.Sort(want)
		swapped := Grid[float64]{Width: g.Height, Height: g.Width}
		for i := range g.Width {
			for j := range g.Height {
				swapped.Values = append(swapped.Values, g.Values[j*g.Width+i])
			}
		}
		_, got := all(t, swapped, 0.5)
		slices.Sort(got)
		if len(got) != len(want) {
			t.Fatalf("seed %d: %d rings, mirrored %d", seed, len(want), len(got))
		}
		for k := range got {
			if math.Abs(got[k]-want[k]) > 1e-9 {
				t.Fatalf("seed %d: areas %v, mirrored %v", seed, want, got)
			}
		}
	}
}

// A line is where the values say: between the samples of a slope, and of a disc to a thousandth of its area.
func TestLinesLieBetweenSamples(t *testing.T) {
	slope := Grid[float64]{Width: 6, Height: 3, Outside: -100}
	for range 3 {
		for i := range 6 {
			slope.Values = append(slope.Values, 10-2*float64(i))
		}
	}
	rings, _ := all(t, slope, 4.5)
	found := 0
	for _, v := range rings[0] {
		if v[0] == 2.75 {
			found++
		}
	}
	if found != 3 {
		t.Errorf("the slope is 4.5 at x = 2.75 in three rows: %v", rings)
	}
	for _, radius := range []float64{5, 20, 100} {
		n := int(2*radius) + 8
		g := Grid[float32]{Width: n, Height: n, Outside: -100}
		for j := range n {
			for i := range n {
				g.Values = append(g.Values, float32(radius-math.Hypot(float64(i)-float64(n)/2+0.3,
					float64(j)-float64(n)/2+0.1)))
			}
		}
		_, areas := all(t, g, 0)
		if e := areas[0]/(math.Pi*radius*radius) - 1; len(areas) != 1 || math.Abs(e) > 0.25/(radius*radius) {
			t.Errorf("radius %g: %d rings, area off by %g", radius, len(areas), e)
		}
	}
}

func TestBadGrids(t *testing.T) {
	none := func(orb.Ring, float64) bool { return true }
	for name, err := range map[string]error{
		"short":        Walk(Grid[uint8]{Width: 3, Height: 3, Values: make([]uint8, 8)}, 1, none),
		"negative":     Walk(Grid[uint8]{Width: -3, Height: -3, Values: make([]uint8, 9)}, 1, none),
		"no level":     Walk(Grid[uint8]{}, math.NaN(), none),
		"high outside": Walk(Grid[uint8]{Outside: 5}, 5, none),
	} {
		t.Run(name, func(t *testing.T) {
			if err == nil {
				t.Errorf("no error")
			}
		})
	}
	calls := 0
	if err := Walk(grid("10101"), 0.5, func(orb.Ring, float64) bool { calls++; return calls < 2 }); err != nil ||
		calls != 2 {
		t.Errorf("%d calls (%v), not 2", calls, err)
	}
	// Values that are no numbers count as low; infinite ones end on the corner's clearance.
	g := Grid[float64]{Width: 3, Height: 3, Values: []float64{1, math.NaN(), 1, math.Inf(1), 1, math.Inf(-1), 1, 1, 1}}
	for _, r := range first(all(t, g, 0.5)) {
		for _, v := range r {
			if math.IsNaN(v[0]) || math.IsNaN(v[1]) {
				t.Errorf("a corner at %v", v)
			}
		}
	}
	if Nest(nil) == nil || len(Nest(nil)) != 0 {
		t.Error("nothing nests in nothing")
	}
}

func first(r []orb.Ring, _ []float64) []orb.Ring { return r }

func FuzzWalk(f *testing.F) {
	f.Add([]byte{0, 9, 0, 9, 0, 9}, 3, uint8(5))
	f.Add([]byte{9, 0, 0, 9}, 2, uint8(5))
	f.Fuzz(func(t *testing.T, values []byte, width int, level uint8) {
		if width < 1 || len(values) > 400 || level == 0 {
			return
		}
		values = values[:len(values)/width*width]
		g := Grid[byte]{Width: width, Height: len(values) / width, Values: values}
		rings, _ := all(t, g, float64(level))
		apart(t, 0, rings)
		Nest(rings)
	})
}

// BenchmarkWalk follows the lines of a large grid with few of them, and of one full of them.
func BenchmarkWalk(b *testing.B) {
	const n = 2000
	for _, c := range []struct {
		name  string
		value func(i, j int) uint16
	}{
		{"one ring", func(i, j int) uint16 {
			return uint16(max(0, 30000-int(30*math.Hypot(float64(i-n/2), float64(j-n/2)))))
		}},
		{"rings everywhere", func(i, j int) uint16 { return uint16((i*7919 ^ j*104729) % 50000) }},
	} {
		g := Grid[uint16]{Width: n, Height: n}
		for j := range n {
			for i := range n {
				g.Values = append(g.Values, c.value(i, j))
			}
		}
		b.Run(c.name, func(b *testing.B) {
			for range b.N {
				points := 0
				if err := Walk(g, 20000, func(r orb.Ring, _ float64) bool {
					points += len(r)
					return true
				}); err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(points), "points")
			}
		})
	}
}

// Blocks that no line comes near are passed over, and the lines stay the same.
func TestPlainBlocks(t *testing.T) {
	const seed, level = 8, 0.5
	rng := rand.New(rand.NewSource(seed))
	skipped := 0
	for trial := range 300 {
		g := random(rng)
		side := 1 + rng.Intn(5)
		columns, rows := (g.Width+side-1)/side, (g.Height+side-1)/side
		high := func(i, j int) bool {
			return i >= 0 && j >= 0 && i < g.Width && j < g.Height && g.Values[j*g.Width+i] >= level
		}
		want, areas := all(t, g, level)
		g.PlainSide = side
		for r := range rows {
			for c := range columns {
				plain := true
				for j := r*side - 1; j <= min((r+1)*side, g.Height); j++ {
					for i := c*side - 1; i <= min((c+1)*side, g.Width); i++ {
						plain = plain && high(i, j) == high(c*side, r*side)
					}
				}
				if plain {
					skipped++
				}
				g.Plain = append(g.Plain, plain)
			}
		}
		got, gotAreas := all(t, g, level)
		if !slices.Equal(areas, gotAreas) || !slices.EqualFunc(want, got,
			func(a, b orb.Ring) bool { return slices.Equal(a, b) }) {
			t.Fatalf("seed %d, trial %d: %d lines, not %d", seed, trial, len(got), len(want))
		}
	}
	if skipped < 1000 {
		t.Errorf("only %d blocks were plain", skipped)
	}
	if err := Walk(Grid[uint8]{Width: 3, Height: 1, Values: make([]uint8, 3), Plain: []bool{true}, PlainSide: 2}, 1,
		nil); err == nil {
		t.Error("too few plain blocks are taken without a word")
	}
}
