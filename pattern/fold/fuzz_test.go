package fold

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/geometry/overlay/geostest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// FuzzOutline makes a silhouette of bytes symmetrical at a special place of a group. What comes out is valid and has
// every operation of the place, as nearly as a grid of 1e-4 mm allows.
func FuzzOutline(f *testing.F) {
	f.Add(byte(0), byte(5), byte(0), 10.0, 20.0, []byte{0, 0, 80, 0, 80, 80, 0, 70})
	f.Add(byte(2), byte(11), byte(1), 33.0, -20.0, []byte{100, 150, 100, 150, 90, 160})
	f.Add(byte(3), byte(16), byte(2), 0.0, 0.0, []byte{100, 150, 100, 150, 90, 160, 10})
	f.Add(byte(254), byte(8), byte(0), 47.0, 8.0, []byte{255, 150, 0, 150, 255, 160, 10})
	f.Fuzz(func(t *testing.T, mode, group, way byte, x, y float64, data []byte) {
		raw, err := overlay.Positive([]orb.Ring{geostest.FromBytes(mode, data)})
		if err != nil {
			t.Fatal(err)
		}
		if raw = geometry.SnapOutline(raw); geometry.CheckOutline(raw) != nil ||
			!(math.Abs(x) < 1e3 && math.Abs(y) < 1e3) {
			return
		}
		groups := symmetry.Groups()
		g := groups[int(group)%len(groups)]
		d := draft.Default()
		d.Repeat = draft.Repeat{Group: g.Symbol, A: 120, B: 100, Gamma: 90}
		switch g.System {
		case symmetry.Oblique:
			d.Repeat.Gamma = 75
		case symmetry.Square:
			d.Repeat.B = 120
		case symmetry.Hexagonal:
			d.Repeat.B, d.Repeat.Gamma = 120, 120
		}
		d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: raw}}
		d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{x, y}, Turn: float64(mode), Scale: 0.5 +
			float64(way)/255}}
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			return // the draft refuses it
		}
		heart := l.Orbits[0].Place.Apply(l.Orbits[0].Bare.Centroid())
		there, ok := l.Special(heart, 1000)
		if !ok {
			return
		}
		for i := range d.Motifs[0].At {
			d.Motifs[0].At[i] += there[i] - heart[i]
		}
		if l, err = pattern.NewLayout(d, nil); err != nil {
			return
		}

		got, err := Outline(l, 0, []string{Keep, Other, Gather}[way%3])
		if err != nil {
			return // there is a sentence for each reason
		}
		if err := geometry.CheckOutline(got); err != nil {
			t.Fatal(err)
		}
		placed := geometry.Transform(got, l.Orbits[0].Place)
		for _, op := range l.Site(0).Fixing {
			if far := farthest(geometry.Transform(placed, op), placed); !(far <= 6e-4) {
				t.Fatalf("%s: an image lies %g mm off", g.Symbol, far)
			}
		}
	})
}

// farthest returns the greatest distance of any corner of one outline from the other's boundary.
func farthest(a, b orb.MultiPolygon) float64 {
	worst := 0.0
	for _, p := range a {
		for _, r := range p {
			for _, v := range r {
				worst = math.Max(worst, geostest.DistanceTo(b, v))
			}
		}
	}
	return worst
}
