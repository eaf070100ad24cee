package patterntest

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
)

// Regular returns a regular polygon of n corners, the first at (r, 0).
func Regular(n int, r float64) orb.MultiPolygon {
	var ring orb.Ring
	for i := range n + 1 {
		a := 2 * math.Pi * float64(i%n) / float64(n)
		ring = append(ring, orb.Point{r * math.Cos(a), r * math.Sin(a)})
	}
	return orb.MultiPolygon{{ring}}
}

// One returns a draft with one silhouette, placed once.
func One(repeat draft.Repeat, outline orb.MultiPolygon) draft.Draft {
	d := draft.Default()
	d.Repeat = repeat
	d.Silhouettes = []draft.Silhouette{{ID: "s1", Name: "s1", Outline: outline}}
	d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "s1", Scale: 1, At: [2]float64{17.3, 11.9}}}
	return d
}
