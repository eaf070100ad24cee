package joined

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// BenchmarkLarge parts sheets of fifteen copies of one outline with many corners: the time should grow with their
// number.
func BenchmarkLarge(b *testing.B) {
	for _, n := range []int{1000, 8000, 64000, 200000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var r orb.Ring
			for i := range n {
				a := 2 * math.Pi * float64(i) / float64(n)
				d := 50 + 5*math.Sin(5*a)
				p := orb.Point{geometry.Snap(d * math.Cos(a)), geometry.Snap(d * math.Sin(a))}
				if len(r) == 0 || r[len(r)-1] != p {
					r = append(r, p)
				}
			}
			d := draft.Default()
			d.Panel = draft.Panel{Width: 640, Height: 400}
			d.Field.Margin, d.Field.Origin = 20, [2]float64{20, 20}
			d.Repeat = draft.Repeat{Group: "p1", A: 120, B: 120, Gamma: 90}
			d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: orb.MultiPolygon{{append(r, r[0])}}}}
			d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{60, 60}, Scale: 1}}
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Join(l, Options{Bed: &draft.Bed{Width: 300, Height: 450}}, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
