package grow_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/grow"
	"openwork/geometry/offset"
	"openwork/geometry/overlay"
)

// wavy is a star-shaped ring of n points about 60 mm from the middle, wavy with lobes of some 10 mm, and jagged by
// noise mm.
func wavy(r *rand.Rand, n int, noise float64) orb.MultiPolygon {
	var ring orb.Ring
	phase := 2 * math.Pi * r.Float64()
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := 60 + 20*math.Cos(3*a+phase) + 8*math.Cos(11*a) + noise*r.NormFloat64()
		ring = append(ring, orb.Point{d * math.Cos(a), d * math.Sin(a)})
	}
	return orb.MultiPolygon{{append(ring, ring[0])}}
}

// An outline grown here lies between two that the offset of cut files gives, the tolerance less and the tolerance more,
// also where edges are short against the distance and where there are holes and several polygons.
func TestGrownAsTheOffsetGrows(t *testing.T) {
	const seed, tolerance = 17, 0.02
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for i := range 40 {
		mp := wavy(r, 12+r.IntN(400), []float64{0, 0.3, 3}[i%3])
		if i%4 == 0 {
			hole := geometry.Transform(wavy(r, 30, 1), geometry.Scale(0.4))[0][0]
			mp[0] = append(mp[0], geometry.Reversed(hole))
		}
		if i%5 == 0 {
			mp = append(mp, geometry.Transform(wavy(r, 40, 0), geometry.Scale(0.3).Moved(130, 10))...)
		}
		if geometry.CheckOutline(mp) != nil {
			continue
		}
		distance := 25 * r.Float64()
		got, err := grow.Round(mp, distance, tolerance)
		if err != nil {
			t.Fatal(err)
		}
		if err := geometry.CheckOutline(got); err != nil {
			t.Errorf("outline %d grown by %g: %v", i, distance, err)
		}
		less, err := offset.Offset(mp, max(0, distance-tolerance), tolerance/10)
		if err != nil {
			t.Fatal(err)
		}
		more, err := offset.Offset(mp, distance+tolerance, tolerance/10)
		if err != nil {
			t.Fatal(err)
		}
		under, err := overlay.Difference(less, got)
		if err != nil {
			t.Fatal(err)
		}
		over, err := overlay.Difference(got, more)
		if err != nil {
			t.Fatal(err)
		}
		if geometry.Area(under) > 1e-6 || geometry.Area(over) > 1e-6 {
			t.Errorf("outline %d grown by %g: %g mm² too little, %g too much", i, distance, geometry.Area(under),
				geometry.Area(over))
		}
	}
}

// A disc of points grows to a disc: the area is known.
func TestADiscGrows(t *testing.T) {
	var ring orb.Ring
	for i := range 720 {
		a := 2 * math.Pi * float64(i) / 720
		ring = append(ring, orb.Point{30 * math.Cos(a), 30 * math.Sin(a)})
	}
	mp := orb.MultiPolygon{{append(ring, ring[0])}}
	for _, d := range []float64{0, 0.5, 12, 300} {
		got, err := grow.Round(mp, d, 0.001)
		if err != nil {
			t.Fatal(err)
		}
		if want := math.Pi * (30 + d) * (30 + d); math.Abs(geometry.Area(got)-want) > 2e-4*want {
			t.Errorf("grown by %g it has %g mm², not %g", d, geometry.Area(got), want)
		}
	}
	for _, d := range []float64{-1, math.NaN(), math.Inf(1)} {
		if _, err := grow.Round(mp, d, 0.01); err == nil {
			t.Errorf("it grows by %g", d)
		}
	}
}

func BenchmarkRound(b *testing.B) {
	r := rand.New(rand.NewPCG(3, 0))
	for _, c := range []struct {
		name  string
		n     int
		noise float64
	}{{"smooth-300", 300, 0}, {"smooth-1000", 1000, 0}, {"jagged-1000", 1000, 0.3}, {"jagged-3000", 3000, 0.1}} {
		mp := wavy(r, c.n, c.noise)
		b.Run(c.name, func(b *testing.B) {
			points := 0
			for b.Loop() {
				out, err := grow.Round(mp, 10, 0.02)
				if err != nil {
					b.Fatal(err)
				}
				points = geometry.Points(out)
			}
			b.ReportMetric(float64(points), "points")
		})
	}
}
