package paint

import (
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"openwork/pattern/appearance"
)

// pairs are the 34 of G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes,
// Supplementary Test Data, and Mathematical Observations", Color Research and Application 30 (2005), 21–30, Table 1:
// L*, a*, b* of two colours, and how far they are apart.
var pairs = [34][7]float64{
	{50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425}, {50, 3.1571, -77.2803, 50, 0, -82.7485, 2.8615},
	{50, 2.8361, -74.0200, 50, 0, -82.7485, 3.4412}, {50, -1.3802, -84.2814, 50, 0, -82.7485, 1},
	{50, -1.1848, -84.8006, 50, 0, -82.7485, 1}, {50, -0.9009, -85.5211, 50, 0, -82.7485, 1},
	{50, 0, 0, 50, -1, 2, 2.3669}, {50, -1, 2, 50, 0, 0, 2.3669}, {50, 2.49, -0.001, 50, -2.49, 0.0009, 7.1792},
	{50, 2.49, -0.001, 50, -2.49, 0.001, 7.1792}, {50, 2.49, -0.001, 50, -2.49, 0.0011, 7.2195},
	{50, 2.49, -0.001, 50, -2.49, 0.0012, 7.2195}, {50, -0.001, 2.49, 50, 0.0009, -2.49, 4.8045},
	{50, -0.001, 2.49, 50, 0.001, -2.49, 4.8045}, {50, -0.001, 2.49, 50, 0.0011, -2.49, 4.7461},
	{50, 2.5, 0, 50, 0, -2.5, 4.3065}, {50, 2.5, 0, 73, 25, -18, 27.1492}, {50, 2.5, 0, 61, -5, 29, 22.8977},
	{50, 2.5, 0, 56, -27, -3, 31.9030}, {50, 2.5, 0, 58, 24, 15, 19.4535}, {50, 2.5, 0, 50, 3.1736, 0.5854, 1},
	{50, 2.5, 0, 50, 3.2972, 0, 1}, {50, 2.5, 0, 50, 1.8634, 0.5757, 1}, {50, 2.5, 0, 50, 3.2592, 0.3350, 1},
	{60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644},
	{63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.2630},
	{61.2901, 3.7196, -5.3901, 61.4292, 2.2480, -4.9620, 1.8731},
	{35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645},
	{22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373},
	{36.4612, 47.8580, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146},
	{90.8027, -2.0831, 1.4410, 91.1528, -1.6435, 0.0447, 1.4441},
	{90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381},
	{6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377},
	{2.0776, 0.0795, -1.1350, 0.9033, -0.0636, -0.5514, 0.9082},
}

func TestDifferenceAgainstThePublishedPairs(t *testing.T) {
	for i, p := range pairs {
		a, b := Lab{p[0], p[1], p[2]}, Lab{p[3], p[4], p[5]}
		for _, got := range []float64{Difference(a, b), Difference(b, a)} {
			if math.Abs(got-p[6]) > 0.5e-4 {
				t.Errorf("pair %d is %.5f apart, published %.4f", i+1, got, p[6])
			}
		}
	}
}

// The library's difference, which knows colours on a screen alone, agrees on those; so does its L* with what the canvas
// reckons.
func TestDifferenceAgainstTheLibrary(t *testing.T) {
	const seed = 171
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	screen := func() (color.RGBA, colorful.Color) {
		c := color.RGBA{uint8(r.IntN(256)), uint8(r.IntN(256)), uint8(r.IntN(256)), 255}
		return c, colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}
	}
	for range 20000 {
		a, libA := screen()
		b, libB := screen()
		if got, want := Difference(LabOf(a), LabOf(b)), 100*libA.DistanceCIEDE2000(libB); math.Abs(got-want) > 1e-6 {
			t.Fatalf("%v and %v are %.7f apart, by the library %.7f", a, b, got, want)
		}
		if got, want := appearance.Value(a), LabOf(a).L; math.Abs(got-want) > 0.02 {
			t.Fatalf("%v has L* %.3f, by the library %.3f", a, got, want)
		}
	}
}
