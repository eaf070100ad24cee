package evenness

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// maxHarmonic bounds the reciprocal vectors looked at: finer stripes are not seen as stripes.
const maxHarmonic = 2

// Stripe returns the contrast of the strongest stripe of a field, 2|F(G)| ÷ F(0) where F is the Fourier transform of
// one cell's openings, and the direction across which it runs, G, in 1/mm. A periodic field has power at reciprocal
// vectors alone, and a field that were one dark and one light stripe of half a period each would have 4/π.
func Stripe(l *pattern.Layout) (contrast float64, across orb.Point) {
	whole := 0.0
	for _, o := range l.Orbits {
		for _, image := range o.Images {
			whole += image.Shape.Area()
		}
	}
	if whole == 0 {
		return 0, across
	}
	area := l.Cell.Area()
	// The reciprocal basis: across the other side, as long as one over the distance of the rows.
	ra := orb.Point{l.B[1] / area, -l.B[0] / area}
	rb := orb.Point{-l.A[1] / area, l.A[0] / area}
	for m := 0; m <= maxHarmonic; m++ {
		for n := -maxHarmonic; n <= maxHarmonic; n++ {
			if m == 0 && n <= 0 {
				continue
			}
			g := geometry.Add(geometry.Times(ra, float64(m)), geometry.Times(rb, float64(n)))
			re, im := 0.0, 0.0
			for _, o := range l.Orbits {
				for _, image := range o.Images {
					r, i := harmonic(image, geometry.Times(g, 2*math.Pi))
					re, im = re+r, im+i
				}
			}
			if c := 2 * math.Sqrt(re*re+im*im) / whole; c > contrast {
				contrast, across = c, g
			}
		}
	}
	return contrast, across
}

// Crest returns where along a reciprocal vector a stripe's openings lie densest, as a part of its period: the phase of
// F(G), turned round.
func Crest(l *pattern.Layout, g orb.Point) float64 {
	re, im := 0.0, 0.0
	for _, o := range l.Orbits {
		for _, image := range o.Images {
			r, i := harmonic(image, geometry.Times(g, 2*math.Pi))
			re, im = re+r, im+i
		}
	}
	return -math.Atan2(im, re) / (2 * math.Pi)
}

// harmonic returns the integral of exp(−i g·x) over an image's openings, by the divergence theorem as a sum over
// edges: an edge from p to q with middle m gives i (g × (q − p)) ÷ |g|² · exp(−i g·m) · sinc(g·(q − p) ÷ 2).
func harmonic(image pattern.Image, g orb.Point) (re, im float64) {
	g2 := geometry.Dot(g, g)
	for _, ring := range geometry.Rings(image.Shape.Outline()) {
		for k := 1; k < len(ring); k++ {
			p, q := geometry.Add(ring[k-1], image.At), geometry.Add(ring[k], image.At)
			d := geometry.Sub(q, p)
			half := geometry.Dot(g, d) / 2
			sinc := 1.0
			if math.Abs(half) > 1e-8 {
				sinc = math.Sin(half) / half
			}
			f := geometry.Cross(g, d) / g2 * sinc
			sin, cos := math.Sincos(geometry.Dot(g, geometry.Midpoint(p, q)))
			re += f * sin
			im += f * cos
		}
	}
	return re, im
}
