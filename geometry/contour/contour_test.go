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
