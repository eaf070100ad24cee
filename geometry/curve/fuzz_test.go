package curve

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/geometry/overlay/geostest"
)

// FuzzPromises fits curves to a ring made of bytes, as it comes and made valid. As it comes: no panic, and numbers
// only. Valid: the deviation told is within the tolerance and not less than what is measured, the area is kept, nothing
// crosses.
func FuzzPromises(f *testing.F) {
	f.Add(byte(0), byte(20), []byte{0, 0, 80, 0, 80, 80, 0, 80})
	f.Add(byte(2), byte(20), []byte{100, 150, 100, 150, 90, 160})
	f.Add(byte(3), byte(1), []byte{100, 150, 100, 150, 90, 160, 10})
	f.Add(byte(255), byte(200), []byte{0, 0, 80, 0, 80, 80, 40, 10, 0, 80})
	f.Fuzz(func(t *testing.T, mode, fine byte, data []byte) {
		r := geostest.FromBytes(mode, data)
		tolerance := 0.002 + 0.2*float64(fine)/255
		raw, err := overlay.Positive([]orb.Ring{r})
		if err != nil {
			t.Fatal(err)
		}
		valid := geometry.SnapOutline(raw)
		for _, kind := range []Kind{Cubic, Arc} {
			if len(r) > 0 {
				p, dev, ok := Ring(r, Options{Kind: kind, Tolerance: tolerance})
				checkNumbers(t, p)
				if ok && !(dev <= tolerance) {
					t.Fatalf("kind %d: deviation %g told of a ring within %g", kind, dev, tolerance)
				}
			}
			if geometry.CheckOutline(valid) != nil {
				continue // the grid made it so, or there is none
			}
			got, err := Outline(valid, Options{Kind: kind, Tolerance: tolerance})
			if err != nil {
				t.Fatal(err)
			}
			checkFitted(t, valid, got, tolerance)
		}
	})
}

func checkNumbers(t *testing.T, p Path) {
	t.Helper()
	for _, q := range p.Pieces {
		for _, v := range []float64{q.C1[0], q.C1[1], q.C2[0], q.C2[1], q.To[0], q.To[1], q.Bulge} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("a piece %+v holds what is no number", q)
			}
		}
	}
}

func checkFitted(t *testing.T, mp orb.MultiPolygon, got Approximation, tolerance float64) {
	t.Helper()
	if !(got.Deviation <= tolerance) {
		t.Fatalf("deviation %g told, %g asked", got.Deviation, tolerance)
	}
	chord := tolerance / 10
	flat := make(orb.MultiPolygon, len(mp))
	for i, p := range mp {
		for j, r := range p {
			path := got.Paths[i][j]
			checkNumbers(t, path)
			if !path.Closed() {
				t.Fatal("a path is open")
			}
			way := distinct(path.Flatten(chord))
			flat[i] = append(flat[i], way)
			if d := max(sampledFar(r, way), sampledFar(way, r)); d > got.Deviation+chord+1e-9 {
				t.Fatalf("%g mm off, %g told", d, got.Deviation)
			}
			if a, b := path.Area(), geometry.RingArea(r); math.Abs(a-b) > AreaSlack*math.Abs(b)+1e-9 {
				t.Fatalf("area %g, the polygon has %g", a, b)
			}
		}
	}
	if err := geometry.CheckOutline(flat); err != nil {
		t.Fatal(err)
	}
}

// sampledFar returns the greatest distance of some hundreds of points of a ring from another.
func sampledFar(a, b orb.Ring) float64 {
	worst := 0.0
	shape := geometry.NewShape(orb.MultiPolygon{{b}})
	spacing := geometry.Length(orb.MultiPolygon{{a}}) / 300
	for i := 0; i+1 < len(a); i++ {
		n := 1 + int(distance(a[i], a[i+1])/spacing)
		for k := range n {
			worst = max(worst, shape.DistanceTo(geometry.Lerp(a[i], a[i+1], float64(k)/float64(n)), math.Inf(1)).D)
		}
	}
	return worst
}
