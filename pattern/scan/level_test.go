package scan

import (
	"math"
	"testing"

	"openwork/geometry"
	"openwork/geometry/contour"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
)

// What is passed over for lying clear of the ink's edge changes nothing: smoothing everything brings the same lines,
// with every kernel.
func TestPlainBlocksLieClearOfTheEdge(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Circle(30, 28, 18), geometry.Reversed(outlinetest.Circle(34, 30, 6))},
		{outlinetest.Box(-1, 50, 9, 12)}, {outlinetest.Box(52, 50, 0.6, 0.6)}}
	for _, c := range []struct {
		grain float64
		k     kernel
	}{{0, kernelFine}, {6, kernelMiddle}, {20, kernelCoarse}, {35, kernelHeavy}} {
		p := outlinetest.SheetOf(mp, 60, 61, 200, 230, 60, c.grain)
		for k, v := range p.Pix {
			p.Pix[k] = uint8(float64(v) * (1 - 0.4*float64(k%p.Stride)/float64(p.Stride)))
		}
		b := p.Bounds()
		g := toGrey(p, placingOf(b.Dx(), b.Dy(), 1, 0), [4]int{0, 0, b.Dx(), b.Dy()}, 1)
		l, ok := findLight(g, false, nil)
		if !ok {
			t.Fatal("no light found")
		}
		const level = (paperLevel + inkLevel) / 2
		got := levelled(g, l, c.k, level, nil)
		plain := 0
		for _, p := range got.Plain {
			if p {
				plain++
			}
		}
		v := levelling{g: g, k: c.k, level: level, columns: (g.width + levelStep - 1) / levelStep,
			rows: (g.height + levelStep - 1) / levelStep}
		v.grid = contour.Grid[uint16]{Width: g.width, Height: g.height, Values: make([]uint16, len(g.v)),
			Outside: paperLevel}
		v.knots(l)
		for r := range v.rows {
			v.row(r, make([]uint8, v.columns))
		}
		points := func(g contour.Grid[uint16]) (n int, sum float64) {
			if err := contour.Walk(g, level, func(r orb.Ring, area float64) bool {
				n, sum = n+len(r), sum+area*float64(len(r))
				return true
			}); err != nil {
				t.Fatal(err)
			}
			return n, sum
		}
		n, sum := points(got)
		if wantN, wantSum := points(v.grid); n != wantN || math.Abs(sum-wantSum) > 1e-6*math.Abs(wantSum) {
			t.Errorf("grain %g: %d points, sum %g, not %d, %g", c.grain, n, sum, wantN, wantSum)
		}
		t.Logf("grain %g: %d of %d blocks are plain", c.grain, plain, len(got.Plain))
		if c.grain < 10 && plain < len(got.Plain)/2 {
			t.Errorf("grain %g: only %d of %d blocks are plain", c.grain, plain, len(got.Plain))
		}
	}
}
