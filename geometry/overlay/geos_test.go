package overlay

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

const seed = 20250801

var more = flag.Int("more", 1, "multiplies the number of random cases")

// ask holds results against GEOS: valid, the same area, next to nothing in one result only, and as many polygons and
// holes unless the family says why not.
func ask(t *testing.T, cases []geostest.Case, loose []string) {
	t.Helper()
	bad, skipped := 0, 0
	for i, a := range geostest.Ask(t, cases) {
		c := cases[i]
		if a.Input != "" {
			skipped++
			t.Logf("%s: %s", c.Name, a.Input)
			continue
		}
		// Snapping moves a line by no more than 1e-8 mm at a time, now and then by a few of them.
		slack := 4 * snapSteps * gridStep * perimeter(c.Shapes)
		fault := ""
		switch {
		case a.Invalid != "":
			fault = "not valid: " + a.Invalid
		case math.Abs(a.Area-a.OurArea) > slack:
			fault = fmt.Sprintf("area %.12g, GEOS %.12g", a.OurArea, a.Area)
		case a.Difference > slack:
			fault = fmt.Sprintf("differs from GEOS in %.3g mm² of %.6g", a.Difference, a.Area)
		case loose[i] == "" && (a.Polygons != a.OurPolygons || a.Holes != a.OurHoles):
			fault = fmt.Sprintf("%d polygons and %d holes, GEOS %d and %d", a.OurPolygons, a.OurHoles, a.Polygons,
				a.Holes)
		}
		if fault != "" {
			if bad++; bad <= 10 {
				t.Errorf("%s (seed %d): %s", c.Name, seed, fault)
			}
		}
	}
	t.Logf("%d cases, %d wrong, %d not asked", len(cases), bad, skipped)
	if skipped > len(cases)/50 {
		t.Errorf("%d of %d cases could not be asked", skipped, len(cases))
	}
}

// input is what one of the operations is asked of.
type input struct {
	number int
	shapes []orb.MultiPolygon
}

// inputs returns about half of n random inputs of a family, or all of n times as many as -more says.
func inputs(t *testing.T, f family, stream uint64, n int) []input {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, stream))
	var all []input
	for k := range n * *more {
		all = append(all, input{k, f.make(rng)})
	}
	if *more > 1 {
		return all
	}
	return geometrytest.Share(t, all, (n+1)/2)
}

func TestPairsAgainstGEOS(t *testing.T) {
	var cases []geostest.Case
	var loose []string
	for _, f := range pairFamilies {
		for _, input := range inputs(t, f, 1, 25) {
			k, s := input.number, input.shapes
			for _, op := range []string{"union", "difference", "intersection"} {
				c := geostest.Case{Name: fmt.Sprintf("%s %d %s", f.name, k, op), Op: op, Shapes: s,
					Sliver: sliverWidth * gridStep}
				var err error
				switch op {
				case "union":
					c.Result, err = Union(s...)
				case "difference":
					c.Result, err = Difference(s[0], s[1])
				case "intersection":
					c.Result, err = Intersection(s[0], s[1])
				}
				if err != nil {
					t.Errorf("%s: %v", c.Name, err)
					continue
				}
				cases, loose = append(cases, c), append(loose, f.loose)
			}
		}
	}
	ask(t, cases, loose)
}

func TestUnionOfManyAgainstGEOS(t *testing.T) {
	var cases []geostest.Case
	var loose []string
	for _, f := range manyFamilies {
		for _, input := range inputs(t, f, 2, 20) {
			k, s := input.number, input.shapes
			mp, err := Union(s...)
			if err != nil {
				t.Errorf("%s %d: %v", f.name, k, err)
				continue
			}
			cases = append(cases, geostest.Case{Name: fmt.Sprintf("%s %d", f.name, k), Op: "union", Shapes: s,
				Result: mp, Sliver: sliverWidth * gridStep})
			loose = append(loose, f.loose)
		}
	}
	ask(t, cases, loose)
}

func perimeter(shapes []orb.MultiPolygon) float64 {
	sum := 0.0
	for _, s := range shapes {
		sum += geometry.Length(s)
	}
	return sum
}
