package fill_test

import (
	"fmt"
	"math"
	"testing"

	"openwork/geometry"
	"openwork/geometry/fill"

	"github.com/paulmach/orb"
)

// star is a pentagram in one stroke, in a circle of radius 10 mm: its middle is wound about twice.
func star() orb.Ring {
	var r orb.Ring
	for k := range 6 {
		sin, cos := math.Sincos(4 * math.Pi / 5 * float64(k%5))
		r = append(r, orb.Point{10 * cos, 10 * sin})
	}
	return r
}

func ExampleRegion() {
	for _, rule := range []fill.Rule{fill.NonZero, fill.EvenOdd} {
		region, err := fill.Region([]orb.Ring{star()}, rule)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%d polygon(s), %.2f mm²\n", len(region), geometry.Area(region))
	}
	// Output:
	// 1 polygon(s), 112.26 mm²
	// 5 polygon(s), 77.57 mm²
}

// The pentagon in a pentagram of circumradius R has the circumradius R/φ², φ the golden ratio; the five points are
// triangles on its sides. Both rules against these areas, run either way and wound twice.
func TestRegionOfAPentagram(t *testing.T) {
	const golden = math.Phi
	inner := 5. / 2 * math.Pow(10/golden/golden, 2) * math.Sin(2*math.Pi/5)
	side := 2 * 10 / golden / golden * math.Sin(math.Pi/5)
	points := 5 * side * side / 4 * math.Tan(2*math.Pi/5)

	once := star()
	twice := append(star(), once[1:]...)
	for _, c := range []struct {
		name  string
		rings []orb.Ring
		rule  fill.Rule
		want  float64
	}{
		{"non-zero", []orb.Ring{once}, fill.NonZero, inner + points},
		{"non-zero, clockwise", []orb.Ring{geometry.Reversed(once)}, fill.NonZero, inner + points},
		{"even-odd", []orb.Ring{once}, fill.EvenOdd, points},
		{"even-odd, clockwise", []orb.Ring{geometry.Reversed(once)}, fill.EvenOdd, points},
		{"even-odd, wound twice", []orb.Ring{twice}, fill.EvenOdd, 0},
		{"non-zero, against itself", []orb.Ring{once, geometry.Reversed(once)}, fill.NonZero, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := fill.Region(c.rings, c.rule)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(geometry.Area(got)-c.want) > 1e-6 {
				t.Errorf("%.9f mm², not %.9f", geometry.Area(got), c.want)
			}
		})
	}
}
