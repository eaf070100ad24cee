package evenness

import (
	"fmt"
	"math"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// rasterOf lays out one silhouette in p1 and measures its sheet.
func rasterOf(t *testing.T, a, b, gamma float64, outline geometry.Map, pixels int) (*pattern.Layout, *Raster) {
	t.Helper()
	d := patterntest.One(draft.Repeat{Group: "p1", A: 150, B: 120, Gamma: 90},
		geometry.Transform(patterntest.Regular(360, 1), outline))
	d.Repeat.A, d.Repeat.B, d.Repeat.Gamma = a, b, gamma
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	r, ok := Thickness(l, pixels)
	if !ok {
		t.Fatal("there is an opening, and no raster")
	}
	return l, r
}

// Between discs of radius r on a lattice of spacing d the widest disc that is free is (covering radius − r) across:
// for the square one √2·d − 2r, for the hexagonal one 2d/√3 − 2r. The discs that lie free half way between two
// neighbours and t farther, towards the middle of a wide one, have the radius √(d²/4 + t²) − r. They cover the place
// half way while that is no less than t, up to t = (d²/4 − r²)/2r.
func TestThicknessBetweenDiscs(t *testing.T) {
	const d = 40.0
	for _, c := range []struct {
		name   string
		gamma  float64
		covers float64 // 2 × covering radius ÷ d
		away   float64 // of the middle of a gap from the nearest middle of a wide disc ÷ d
	}{
		{"square", 90, math.Sqrt2, 0.5},
		{"hexagonal", 120, 2 / math.Sqrt(3), 1 / math.Sqrt(12)},
	} {
		for _, radius := range []float64{4, 12, 18} {
			t.Run(fmt.Sprintf("%s, radius %g", c.name, radius), func(t *testing.T) {
				_, r := rasterOf(t, d, d, c.gamma, geometry.Scale(radius), 100000)
				px := math.Max(r.wide, r.high)
				widest, sheet := 0.0, 0
				for _, w := range r.Local {
					widest = max(widest, w)
					if w > 0 {
						sheet++
					}
				}
				if want := c.covers*d - 2*radius; math.Abs(widest-want) > 1.5*px {
					t.Errorf("the widest place is %.3f mm, want %.3f to a px and a half of %.3f", widest, want, px)
				}

				share := 1 - math.Pi*radius*radius/(d*d*math.Sin(c.gamma/180*math.Pi))
				if got := float64(sheet) / float64(len(r.Local)); math.Abs(got-share) > 0.01 {
					t.Errorf("%.3f of the cell is sheet, want %.3f", got, share)
				}

				// Half way along a from the silhouette's place, which is (17.3, 11.9).
				far := min((d*d/4-radius*radius)/(2*radius), c.away*d)
				want := 2 * (math.Hypot(d/2, far) - radius)
				got := r.At(int((17.3+d/2)/r.wide), int(11.9/r.high))
				if math.Abs(got-want) > 3*px { // the last disc that covers a place is met at a slant
					t.Errorf("between two neighbours it is %.3f mm, want %.3f", got, want)
				}
			})
		}
	}
}

// Between parallel bars that nearly meet end to end, the sheet is everywhere as wide as the gap.
func TestThicknessBetweenBars(t *testing.T) {
	for _, gap := range []float64{3, 10, 25} {
		for _, gamma := range []float64{90, 70} {
			t.Run(fmt.Sprintf("%g mm, gamma %g", gap, gamma), func(t *testing.T) {
				d := patterntest.One(draft.Repeat{Group: "p1", A: 150, B: 120, Gamma: 90},
					geometry.Transform(geometry.RectOutline(patterntest.Regular(4, 1).Bound()),
						geometry.Map{A: 29.9999, D: (50 - gap) / 2}))
				d.Repeat.A, d.Repeat.B, d.Repeat.Gamma = 60, 50/math.Sin(gamma/180*math.Pi), gamma
				l, err := pattern.NewLayout(d, nil)
				if err != nil {
					t.Fatal(err)
				}
				r, ok := Thickness(l, 90000)
				if !ok {
					t.Fatal("there are openings, and no raster")
				}
				sheet := 0
				for i, w := range r.Local {
					if w == 0 {
						continue
					}
					sheet++
					if math.Abs(w-gap) > 1.5*math.Max(r.wide, r.high) {
						t.Fatalf("px %d, %d is %.3f mm thick, want %g", i%r.Across, i/r.Across, w, gap)
					}
				}
				if share := float64(sheet) / float64(len(r.Local)); math.Abs(share-gap/50) > 0.01 {
					t.Errorf("%.3f of the cell is sheet, want %.3f", share, gap/50)
				}
			})
		}
	}
}

// By brute force: over all px whose disc covers a px, the widest. And the distances against the layout's own.
func TestThicknessByBruteForce(t *testing.T) {
	for _, c := range []struct{ a, b, gamma float64 }{{60, 40, 90}, {50, 50, 120}, {70, 45, 64}, {30, 90, 100}} {
		t.Run(fmt.Sprint(c), func(t *testing.T) {
			l, r := rasterOf(t, c.a, c.b, c.gamma, geometry.Turn(0.4).After(geometry.Map{A: 17, D: 5}), 1500)
			copies := around(l)
			distance := r.distances(r.openings(l))
			px := math.Max(r.wide, r.high)
			want := &Raster{Across: r.Across, Up: r.Up, Local: make([]float64, len(r.Local)), slip: r.slip}
			for i, got := range distance {
				x, y := i%r.Across, i/r.Across
				at := [2]float64{(float64(x) + 0.5) * r.wide, (float64(y) + 0.5) * r.high}
				exact := max(clearanceAt(copies, at, math.Inf(-1)), 0)
				if math.Abs(got-exact) > 1.3*px {
					t.Fatalf("px %d, %d: %.3f mm to the nearest opening, want %.3f", x, y, got, exact)
				}
				if got > 0 {
					want.Local[i] = widestOver(r, distance, x, y)
				}
			}

			// Discs that lie within others but for a little are not laid, and others a little wider: a disc may end a
			// px early or late.
			for i, got := range r.Local {
				low, high := math.Inf(1), 0.0
				for _, h := range [9][2]int{{}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
					if w := want.At(i%r.Across+h[0], i/r.Across+h[1]); w > 0 {
						low, high = min(low, w), max(high, w)
					}
				}
				if want.Local[i] == 0 && got != 0 || want.Local[i] > 0 && (got > high+1e-9 || got < low-1e-9) {
					t.Fatalf("px %d, %d: %.6f mm, want %.6f, or from %.6f to %.6f beside it", i%r.Across, i/r.Across,
						got,
						want.Local[i], low, high)
				}
			}
		})
	}
}

// widestOver returns the width of the widest disc over a px.
func widestOver(r *Raster, distance []float64, x, y int) float64 {
	widest := 0.0
	for v := -r.Up; v < 2*r.Up; v++ {
		for u := -2 * r.Across; u < 3*r.Across; u++ {
			d := distance[r.at(u, v)]
			dx, dy := float64(u-x)*r.wide, float64(v-y)*r.high
			if 2*d > widest && dx*dx+dy*dy <= d*d*(1+1e-12) {
				widest = 2 * d
			}
		}
	}
	return widest
}

func TestThicknessWithoutOpenings(t *testing.T) {
	d := draft.Default()
	d.Repeat.A, d.Repeat.B = 40, 40
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := Thickness(l, 1000); ok {
		t.Error("a field without openings has a raster")
	}
}

func BenchmarkThickness(b *testing.B) {
	d := patterntest.One(draft.Repeat{Group: "p1", A: 150, B: 120, Gamma: 90}, patterntest.Regular(360, 12))
	d.Repeat.A, d.Repeat.B, d.Repeat.Gamma = 180, 150, 90
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		Thickness(l, 200000)
	}
}
