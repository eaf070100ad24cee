package evenness

import (
	"math"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// Discs of radius r on lattices of spacing d: the alley of the square one is d − 2r wide; the ratio of the largest
// disc between points to the distance of neighbours is √2 for the square lattice and 2/√3 for the hexagonal one
// (covering over packing radius).
func TestEvennessOfLatticesOfDiscs(t *testing.T) {
	const d = 40.0
	for _, c := range []struct {
		name  string
		gamma float64
		ratio float64
	}{{"square", 90, math.Sqrt2}, {"hexagonal", 120, 2 / math.Sqrt(3)}} {
		t.Run(c.name, func(t *testing.T) {
			for _, r := range []float64{0.5, 5, 12} {
				dr := patterntest.One(draft.Repeat{Group: "p1", A: 150, B: 120, Gamma: 90}, patterntest.Regular(360, r))
				dr.Repeat.A, dr.Repeat.B, dr.Repeat.Gamma = d, d, c.gamma
				l, err := pattern.NewLayout(dr, nil)
				if err != nil {
					t.Fatal(err)
				}
				e := Of(l, d-2*r)
				if want := c.ratio*d - 2*r; math.Abs(e.Widest-want) > 0.01 {
					t.Errorf("r %g: the largest disc is %.4f mm wide, want %.4f", r, e.Widest, want)
				}
				alley := d - 2*r
				if c.gamma == 120 {
					alley = d*math.Sqrt(3)/2 - 2*r
				}
				if e.Alley == nil || math.Abs(*e.Alley-alley) > 0.01 {
					t.Errorf("r %g: alley %v, want %.4f", r, e.Alley, alley)
				}
				if s, street := *e.Alley, e.Street; math.Abs(street.To-street.From-s) > 1e-9 {
					t.Errorf("r %g: the street is %v, the alley %g", r, street, s)
				}
			}
		})
	}
}

// The harmonics of rectangles are known: of bars as long as the cell, as wide as a part p of it, 2 sin(πp)/(πp)
// across and nothing along.
func TestStripeOfBars(t *testing.T) {
	for _, p := range []float64{0.1, 0.5, 0.9} {
		bar := geometry.RectOutline(patterntest.Regular(4, 1).Bound())
		bar = geometry.Transform(bar, geometry.Map{A: 50 * p, D: 49.9999})
		d := patterntest.One(draft.Repeat{Group: "p1", A: 150, B: 120, Gamma: 90}, bar)
		d.Repeat.A, d.Repeat.B, d.Repeat.Gamma = 100, 100, 90
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		contrast, across := Stripe(l)
		if want := 2 * math.Sin(math.Pi*p) / (math.Pi * p); math.Abs(contrast-math.Abs(want)) > 1e-4 {
			t.Errorf("bars of %g: contrast %.6f, want %.6f", p, contrast, want)
		}
		if math.Abs(across[1]) > 1e-9 || math.Abs(math.Abs(across[0])-0.01) > 1e-9 {
			t.Errorf("bars of %g: the stripe runs across %v", p, across)
		}
	}
}
