package panel

import (
	"image"
	"math"
	"slices"
	"testing"

	"github.com/fogleman/gg"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// rasterPX is how many px the raster oracle gives a millimetre.
const rasterPX = 20

// raster is the sheet drawn in px: open says what is cut away. It shares nothing with the check but the copies'
// outlines.
type raster struct {
	w, h int
	open []bool
}

func drawn(t *testing.T, l *pattern.Layout) raster {
	t.Helper()
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	box := l.Draft.SheetBound()
	w, h := int(math.Ceil((box.Max[0]-box.Min[0])*rasterPX)), int(math.Ceil((box.Max[1]-box.Min[1])*rasterPX))
	c := gg.NewContext(w, h)
	if f := l.Draft.FieldBound(); l.Draft.Field.Edge == draft.Crop {
		c.DrawRectangle((f.Min[0]-box.Min[0])*rasterPX, (f.Min[1]-box.Min[1])*rasterPX, (f.Max[0]-f.Min[0])*rasterPX,
			(f.Max[1]-f.Min[1])*rasterPX)
		c.Clip()
	}
	c.SetRGB(1, 1, 1)
	c.SetFillRuleEvenOdd()
	for _, o := range copies {
		for _, poly := range geometry.Transform(l.Orbits[o.Motif].Shape.Outline(), o.Map) {
			for _, ring := range poly {
				for i, p := range ring[:len(ring)-1] {
					x, y := (p[0]-box.Min[0])*rasterPX, (p[1]-box.Min[1])*rasterPX
					if i == 0 {
						c.MoveTo(x, y)
					} else {
						c.LineTo(x, y)
					}
				}
				c.ClosePath()
			}
		}
		c.Fill()
	}
	img := c.Image().(*image.RGBA)
	r := raster{w: w, h: h, open: make([]bool, w*h)}
	for i := range r.open {
		r.open[i] = img.Pix[4*i+3] > 127
	}
	return r
}

// label floods the connected parts of what is open, or of what is not, and returns each px's part (−1 for none) and the
// parts' sizes in px. diagonal joins px that meet at a corner.
func (r raster) label(open, diagonal bool) (of []int32, sizes []int) {
	of = make([]int32, len(r.open))
	for i := range of {
		of[i] = -1
	}
	var stack []int
	for start := range of {
		if of[start] >= 0 || r.open[start] != open {
			continue
		}
		n := int32(len(sizes))
		sizes = append(sizes, 0)
		of[start] = n
		stack = append(stack[:0], start)
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			sizes[n]++
			x, y := i%r.w, i/r.w
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					u, v := x+dx, y+dy
					if u < 0 || v < 0 || u >= r.w || v >= r.h || (dx == 0 && dy == 0) ||
						(!diagonal && dx != 0 && dy != 0) {
						continue
					}
					if j := v*r.w + u; of[j] < 0 && r.open[j] == open {
						of[j] = n
						stack = append(stack, j)
					}
				}
			}
		}
	}
	return of, sizes
}

// islands returns the areas in mm² of the parts of the sheet that do not reach its edge, of at least leastPX px.
func (r raster) islands(leastPX int) []float64 {
	of, sizes := r.label(false, false)
	edge := map[int32]bool{}
	for x := range r.w {
		edge[of[x]], edge[of[(r.h-1)*r.w+x]] = true, true
	}
	for y := range r.h {
		edge[of[y*r.w]], edge[of[y*r.w+r.w-1]] = true, true
	}
	var out []float64
	for i, n := range sizes {
		if !edge[int32(i)] && n >= leastPX {
			out = append(out, float64(n)/rasterPX/rasterPX)
		}
	}
	slices.Sort(out)
	return out
}

// narrowest returns the least distance in mm between px of two different openings, by carrying the nearest open px
// across the sheet (P. E. Danielsson, "Euclidean distance mapping", 1980: off by a fraction of a px at most); infinite
// when there is one opening only. Crumbs of fewer than leastPX px are no openings.
func (r raster) narrowest(leastPX int) float64 {
	of, sizes := r.label(true, true)
	from := make([]int32, len(r.open)) // the nearest open px
	for i := range from {
		from[i] = -1
		if r.open[i] && sizes[of[i]] >= leastPX {
			from[i] = int32(i)
		}
	}
	across, down := make([]int32, len(r.open)), make([]int32, len(r.open)) // where each px is
	for i := range across {
		across[i], down[i] = int32(i%r.w), int32(i/r.w)
	}
	square := func(i int, s int32) int32 { // of the distance
		if s < 0 {
			return math.MaxInt32
		}
		dx, dy := across[i]-across[s], down[i]-down[s]
		return dx*dx + dy*dy
	}
	take := func(i, j int) {
		if from[i] != from[j] && square(i, from[j]) < square(i, from[i]) {
			from[i] = from[j]
		}
	}
	for range 2 {
		for y := range r.h {
			for x := range r.w {
				i := y*r.w + x
				for _, d := range [][2]int{{-1, 0}, {0, -1}, {-1, -1}, {1, -1}} {
					if u, v := x+d[0], y+d[1]; u >= 0 && v >= 0 && u < r.w {
						take(i, v*r.w+u)
					}
				}
			}
		}
		for y := r.h - 1; y >= 0; y-- {
			for x := r.w - 1; x >= 0; x-- {
				i := y*r.w + x
				for _, d := range [][2]int{{1, 0}, {0, 1}, {1, 1}, {-1, 1}} {
					if u, v := x+d[0], y+d[1]; u >= 0 && u < r.w && v < r.h {
						take(i, v*r.w+u)
					}
				}
			}
		}
	}
	best := math.Inf(1)
	for y := range r.h {
		for x := range r.w {
			i := y*r.w + x
			for _, j := range []int{i + 1, i + r.w} {
				if (j == i+1 && x+1 == r.w) || j >= len(from) || from[i] < 0 || from[j] < 0 ||
					of[from[i]] == of[from[j]] {
					continue
				}
				// From the px's edges, not their middles.
				best = math.Min(best, math.Sqrt(float64(square(int(from[i]), from[j])))-1)
			}
		}
	}
	return best / rasterPX
}

// compareRaster holds the check's islands and narrowest bridge between openings against the raster's.
func compareRaster(t *testing.T, name string, d draft.Draft) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	report, err := Check(l)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	r := drawn(t, l)
	// Islands under a few px across may or may not show.
	const least = 40
	got := []float64{}
	for _, p := range report.Problems {
		if p.Kind == "island" && p.Measured*rasterPX*rasterPX > 2*least {
			got = append(got, p.Measured)
		}
	}
	slices.Sort(got)
	want := r.islands(2 * least)
	// An island held by a thread of less than a px, or closed in by a hair of opening, is one in one of the two only.
	if len(got) != len(want) {
		t.Errorf("%s: %d islands, the raster shows %d (%.2f; %.2f mm²)", name, len(got), len(want), got, want)
	} else {
		for i := range got {
			if slack := 0.1*math.Sqrt(want[i])*4 + 0.05; math.Abs(got[i]-want[i]) > slack {
				t.Errorf("%s: an island of %.2f mm², the raster shows %.2f", name, got[i], want[i])
			}
		}
	}
	near := r.narrowest(2)
	switch {
	case report.NarrowestBetween == nil:
		if near < 0.5 {
			t.Errorf("%s: no bridge between openings; the raster shows %.2f mm", name, near)
		}
	case *report.NarrowestBetween < 2.0/rasterPX: // openings this near are one in the raster
	case math.Abs(*report.NarrowestBetween-near) > 1.5/rasterPX: // a px, and half of one for the distance map
		t.Errorf("%s: narrowest bridge %.3f mm, the raster shows %.3f", name, *report.NarrowestBetween, near)
	}
}
