package offset

import (
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

// Sharp joins take a little more than round ones: what they take lies within the excess told, and corners told of stay
// one point.
func TestSharpAgainstRound(t *testing.T) {
	t.Logf("seed %d", seed)
	for _, f := range geometrytest.Share(t, families, len(families)/2) {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(seed, 9))
			for range 3 {
				s := f.make(rng)
				round, err := Offset(s, -0.1, 1e-5)
				if err != nil {
					t.Fatal(err)
				}
				sharp, excess, err := Sharp(s, -0.1, 1e-5, Joins{Beyond: 0.003})
				if err != nil {
					t.Fatal(err)
				}
				if excess.Beyond > 0.003+1e-9 {
					t.Errorf("%g mm beyond, 0.003 allowed", excess.Beyond)
				}
				lost, more := geometry.Area(round)-geometry.Area(sharp), 1e-4*geometry.Length(round)
				if lost < -more || lost > excess.Area+more {
					t.Errorf("%g mm² less than with round joins, %g told", lost, excess.Area)
				}
				outside, err := overlay.Difference(sharp, round)
				if err != nil {
					t.Fatal(err)
				}
				if a := geometry.Area(outside); a > more {
					t.Errorf("%g mm² of it lie outside", a)
				}
				if n, m := geometry.Points(sharp), geometry.Points(round); n > m {
					t.Errorf("%d points, with round joins %d", n, m)
				}
			}
		})
	}
}

// Corners stay one point where a join may reach that far.
func TestSharpAtCorners(t *testing.T) {
	s := geometry.RectOutline(orb.Bound{Max: orb.Point{12, 12}})
	grown, excess, err := Sharp(s, 0.1, 1e-4, Joins{Beyond: 0.001, AtCorner: 0.05,
		Corners: func(r []orb.Point) []bool { return []bool{true, true, true, true} }})
	if err != nil || len(grown) != 1 || len(grown[0][0]) != 5 || excess.Beyond != 0 {
		t.Fatalf("%v, %+v, %v", grown, excess, err)
	}
	if want := math.Pow(12.2, 2); math.Abs(geometry.Area(grown)-want) > 1e-6 {
		t.Errorf("area %g, want %g", geometry.Area(grown), want)
	}
}
