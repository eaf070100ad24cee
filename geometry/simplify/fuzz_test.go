package simplify

import (
	"errors"
	"math"
	"testing"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// FuzzOutline simplifies a ring made of bytes, as it comes and made valid. As it comes: no panic, and numbers only.
// Valid: the answer is valid, and all of either outline within the tolerance of the other.
func FuzzOutline(f *testing.F) {
	f.Add(byte(0), byte(20), []byte{0, 0, 80, 0, 80, 80, 0, 80})
	f.Add(byte(2), byte(20), []byte{100, 150, 100, 150, 90, 160})
	f.Add(byte(3), byte(1), []byte{100, 150, 100, 150, 90, 160, 10})
	f.Add(byte(255), byte(200), []byte{0, 0, 80, 0, 80, 80, 40, 10, 0, 80})
	f.Fuzz(func(t *testing.T, mode, fine byte, data []byte) {
		r := geostest.FromBytes(mode, data)
		o := Options{Tolerance: 0.002 + 0.3*float64(fine)/255}
		blurred := o
		blurred.Blur = 0.1
		for _, as := range []Options{o, blurred} {
			got, err := Outline(orb.MultiPolygon{{r}}, as)
			if err != nil && !errors.Is(err, ErrCrossing) {
				t.Fatal(err)
			}
			checkNumbers(t, got)
		}

		raw, err := overlay.Positive([]orb.Ring{r})
		if err != nil {
			t.Fatal(err)
		}
		valid := geometry.SnapOutline(raw)
		if geometry.CheckOutline(valid) != nil {
			return // the grid made it so, or there is none
		}
		got, err := Outline(valid, o)
		if err != nil {
			t.Fatal(err)
		}
		checkNumbers(t, got)
		checkSimplified(t, valid, got, o.Tolerance)
	})
}

func checkNumbers(t *testing.T, mp orb.MultiPolygon) {
	t.Helper()
	for _, p := range mp {
		for _, r := range p {
			for _, v := range r {
				if math.IsNaN(v[0]+v[1]) || math.IsInf(v[0]+v[1], 0) {
					t.Fatalf("the answer holds %v", v)
				}
			}
		}
	}
}

// checkSimplified holds the rings of an answer to what is promised. Rings without area on the grid are dropped, so
// those that are left are looked for by what they lie near to.
func checkSimplified(t *testing.T, mp, got orb.MultiPolygon, tolerance float64) {
	t.Helper()
	if err := geometry.CheckOutline(got); err != nil && len(got) > 0 {
		t.Fatalf("of %v: %v", mp, err)
	}
	slack := tolerance + geometry.Grid
	for _, p := range got {
		for _, r := range p {
			if d := awayFromAll(r, mp); d > slack {
				t.Fatalf("the answer lies %g mm from the outline, %g asked", d, tolerance)
			}
		}
	}
	for _, p := range mp {
		for _, r := range p {
			if math.Abs(geometry.RingArea(r)) < geometry.Length(orb.MultiPolygon{{r}})*2*tolerance {
				continue // so thin that it may have gone
			}
			if d := awayFromAll(r, got); d > slack {
				t.Fatalf("the outline lies %g mm from the answer, %g asked", d, tolerance)
			}
		}
	}
}

// awayFromAll returns the greatest distance of any point of a ring, sampled, from the nearest ring of an outline.
func awayFromAll(r orb.Ring, mp orb.MultiPolygon) float64 {
	worst := 0.0
	shape := geometry.NewShape(mp)
	for _, v := range dense(r, geometry.Length(orb.MultiPolygon{{r}})/300) {
		worst = math.Max(worst, shape.DistanceTo(v, math.Inf(1)).D)
	}
	return worst
}
