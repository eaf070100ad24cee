// Package plantest holds drafts that the tests of cutting share.
package plantest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// RandomDrafts returns n drafts over all groups; one in four without kerf, one in four with the widest.
func RandomDrafts(t *testing.T, seed uint64, n int) []draft.Draft {
	t.Helper()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	groups := symmetry.Groups()
	var out []draft.Draft
	for i := range n {
		d := patterntest.Draft(r, groups[i%len(groups)].Symbol)
		d.Title = fmt.Sprintf("%s %d & <Größe> (ü)", d.Title, i)
		d.Sheet.Kerf = []float64{0.2, 0, 0.1, 0.4}[r.IntN(4)]
		out = append(out, d)
	}
	return out
}

// Rings is a draft of large rings with small discs inside what drops out of them.
func Rings() draft.Draft {
	round := func(r float64, n int) orb.Ring {
		var out orb.Ring
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			out = append(out, orb.Point{r * c, r * s})
		}
		return append(out, out[0])
	}

	hole := round(14, 60)
	for i, k := 0, len(hole)-1; i < k; i, k = i+1, k-1 {
		hole[i], hole[k] = hole[k], hole[i]
	}
	d := draft.Default()
	d.Panel = draft.Panel{Width: 220, Height: 180}
	d.Field.Origin = [2]float64{110, 90}
	d.Field.Edge = draft.Whole
	d.Repeat = draft.Repeat{Group: "p1", A: 45, B: 45, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "ring", Outline: orb.MultiPolygon{{round(18, 80), hole}}},
		{ID: "disc", Outline: orb.MultiPolygon{{round(4, 24)}}}}
	d.Motifs = []draft.Motif{{ID: "a", Silhouette: "ring", Scale: 1},
		{ID: "b", Silhouette: "disc", At: [2]float64{6, 0}, Scale: 1},
		{ID: "c", Silhouette: "disc", At: [2]float64{-6, 1}, Scale: 1}}
	return d
}

// Many returns a draft of some 2,000 copies of a silhouette of 300 points.
func Many() draft.Draft {
	r := rand.New(rand.NewPCG(11, 1))
	d := draft.Default()
	d.Panel = draft.Panel{Width: 1200, Height: 900}
	d.Field.Origin = [2]float64{600, 450}
	d.Repeat = draft.Repeat{Group: "p2gg", A: 44, B: 45, Gamma: 90}
	d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: "s", Outline: patterntest.Smooth(r, 7, 300)})
	d.Motifs = append(d.Motifs, draft.Motif{ID: "m", Silhouette: "s", At: [2]float64{11, 11}, Scale: 1})
	return d
}
