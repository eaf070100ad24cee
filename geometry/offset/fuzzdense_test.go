package offset

import (
	"math"
	"testing"

	"openwork/geometry"
	"openwork/geometry/grow"
	"openwork/geometry/overlay"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// FuzzWays holds the three ways of offsetting against each other on rings of short edges.
func FuzzWays(f *testing.F) {
	f.Add(0.5, byte(0), []byte{0, 0, 80, 0, 80, 80, 0, 80})
	f.Add(-0.7, byte(1), []byte{0, 0, 80, 0, 80, 80, 40, 10, 0, 80})
	f.Add(2.0, byte(2), []byte{100, 150, 100, 150, 90, 160})
	f.Add(-0.1, byte(255), []byte{100, 150, 100, 150, 90, 160, 10})
	f.Fuzz(func(t *testing.T, distance float64, mode byte, data []byte) {
		if !(math.Abs(distance) < 20) || distance == 0 {
			return
		}
		const tolerance = 0.01
		s, err := overlay.Positive([]orb.Ring{geostest.FromBytes(mode, data)})
		if err != nil {
			t.Fatal(err)
		}
		if s = geometry.SnapOutline(s); geometry.CheckOutline(s) != nil {
			return // the grid made it so, or there is none
		}
		checkWays(t, s, beside{distance: distance, step: grow.Step(math.Abs(distance), tolerance)})
	})
}
