package offset

import (
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry/overlay"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// FuzzOffset makes a valid shape of bytes, offsets it and measures the result by brute force.
func FuzzOffset(f *testing.F) {
	f.Add(0.5, []byte{})
	f.Add(2.0, []byte{0, 0, 40, 0, 40, 40, 0, 40})
	f.Add(-0.7, []byte{0, 0, 40, 0, 40, 40, 20, 3, 0, 40, 10, 10, 9, 200, 77, 13})
	f.Add(-0.01, []byte{0, 0, 100, 1, 0, 2, 100, 3, 0, 4, 100, 5, 0, 6, 100, 90, 0, 90})
	f.Fuzz(func(t *testing.T, distance float64, data []byte) {
		var r orb.Ring
		for i := 0; i+1 < len(data) && i < 60; i += 2 {
			r = append(r, orb.Point{float64(int8(data[i])) / 4, float64(int8(data[i+1])) / 4})
		}
		// As it comes: no panic, and an error only for a distance that is no good.
		raw := orb.MultiPolygon{{r, r}}
		if _, err := Offset(raw, distance, 0.05); err != nil && math.Abs(distance) <= maxDistance {
			t.Fatal(err)
		}
		s, err := overlay.Positive([]orb.Ring{r})
		if err != nil {
			t.Fatal(err)
		}
		if !(math.Abs(distance) < 40) {
			return
		}
		got, err := Offset(s, distance, 0.05)
		if err != nil {
			t.Fatal(err)
		}
		if f := geostest.Fault(got); f != "" {
			t.Fatal(f)
		}
		if len(s) > 0 {
			checkDistance(t, "fuzz", rand.New(rand.NewPCG(1, 1)), s, got, distance, 0.05)
		}
	})
}
