package overlay

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// field lays k × k copies of a blob of n points on a square lattice of 50 mm; at radius 24 they keep clear of one
// another, at more they overlap.
func field(k, n int, radius float64) []orb.MultiPolygon {
	rng := rand.New(rand.NewPCG(1, 1))
	a := orb.MultiPolygon{{geostest.Blob(rng, orb.Point{}, radius, 0.3, n, false)}}
	var out []orb.MultiPolygon
	for i := range k * k {
		out = append(out, isometry{turn: float64(i%6) * math.Pi / 3, mirrored: i%2 == 1,
			shift: orb.Point{50 * float64(i%k), 50 * float64(i/k)}}.shape(a))
	}
	return out
}

func joined(shapes []orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, s := range shapes {
		out = append(out, s...)
	}
	return out
}

func frameOf(x0, y0, x1, y1 float64) orb.MultiPolygon {
	return orb.MultiPolygon{{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}}}
}

func BenchmarkUnion(b *testing.B) {
	for _, c := range []struct {
		name   string
		shapes []orb.MultiPolygon
	}{
		{"two of 300 points", field(2, 300, 30)[:2]},
		{"400 apart of 300", field(20, 300, 24)},
		{"4096 apart of 300", field(64, 300, 24)},
		{"400 overlapping of 300", field(20, 300, 30)},
		{"4096 overlapping of 300", field(64, 300, 30)},
		{"rosette of 12 of 500",
			about(orb.MultiPolygon{{geostest.Blob(rand.New(rand.NewPCG(1, 1)), orb.Point{}, 20, 0.4, 500, false)}},
				orb.Point{12, 3}, 6, true)},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Union(c.shapes...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkDifference(b *testing.B) {
	for _, k := range []int{20, 64} {
		openings := joined(field(k, 300, 24))
		sheet := frameOf(-30, -30, float64(50*k), float64(50*k))
		b.Run(fmt.Sprintf("a sheet less %d openings", k*k), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Difference(sheet, openings); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkIntersection(b *testing.B) {
	for _, k := range []int{20, 64} {
		copies := joined(field(k, 300, 24))
		panel := frameOf(0, 0, float64(50*k-60), float64(50*k-60))
		b.Run(fmt.Sprintf("%d copies cropped", k*k), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Intersection(copies, panel); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
