package pattern_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// ellipse returns an outline of n corners with half axes of a and b mm.
func ellipse(a, b float64, n int) orb.MultiPolygon {
	var ring orb.Ring
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring = append(ring, orb.Point{geometry.Snap(a * cos), geometry.Snap(b * sin)})
	}
	return orb.MultiPolygon{{append(ring, ring[0])}}
}

// onOnePlace returns a draft of so many motifs on one place, each turned on by a little, in the group of most
// operations.
func onOnePlace(outline orb.MultiPolygon, motifs int) draft.Draft {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p6mm", A: 300, B: 300, Gamma: 120}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Ellipse", Outline: outline}}
	for i := range motifs {
		d.Motifs = append(d.Motifs, draft.Motif{ID: fmt.Sprint(i), Silhouette: "s", At: [2]float64{30, 17},
			Turn: 0.3 * float64(i), Scale: 1})
	}
	return d
}

// The drafts that cost a layout most: many motifs on one place, which must be told apart or found the same.
func BenchmarkLayoutOnOnePlace(b *testing.B) {
	for _, c := range []struct {
		name  string
		draft draft.Draft
	}{
		{"500 ellipses of 800 points", onOnePlace(ellipse(20, 10, 800), 500)},
		{"500 of 800 points, nearly round", onOnePlace(ellipse(20, 19.9, 800), 500)},
		{"20 of 20000 points, nearly round", onOnePlace(ellipse(20, 19.99, 20000), 20)},
		{"1 of 199000 points", onOnePlace(ellipse(20, 10, 199000), 1)},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				l, err := pattern.NewLayout(c.draft, nil)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(l.InCell()), "copies")
			}
		})
	}
}
