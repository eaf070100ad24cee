package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// spindly returns a silhouette of long thin arms, which easily comes to lie across its own image.
func spindly(rng *rand.Rand) orb.MultiPolygon {
	arms := 3 + rng.IntN(4)
	var ring orb.Ring
	for k := range arms {
		a := 2 * math.Pi * (float64(k) + 0.6*rng.Float64()) / float64(arms)
		long, thick := 20+40*rng.Float64(), 0.04+0.05*rng.Float64()
		for _, p := range [][2]float64{{8, a - 0.15}, {long, a - thick}, {long, a + thick}, {8, a + 0.15}} {
			ring = append(ring, orb.Point{p[0] * math.Cos(p[1]), p[0] * math.Sin(p[1])})
		}
	}
	return orb.MultiPolygon{{append(ring, ring[0])}}
}

// A silhouette small beside its cell can always be kept apart from its images: every group has a fit, found in a few
// rounds, for the demonstration's heron and for a silhouette of long thin arms too.
func TestEveryGroupHasAFit(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 9))
	outlines := []orb.MultiPolygon{patterntest.Demo(t).Silhouettes[0].Outline, spindly(rng)}
	for i, outline := range outlines {
		for _, g := range geometrytest.Share(t, symmetry.Groups(), 6) {
			for _, find := range []Find{Tightest, Largest} {
				if find == Largest && i > 0 {
					continue
				}
				d := draftWith(g.Symbol, 3, outline)
				answers, err := Fit(&Question{Draft: d, Find: find, Leave: true, Effort: 3, Seed: seed}, nil)
				if err != nil {
					t.Errorf("silhouette %d, %s %s: %v", i, find, g.Symbol, err)
					continue
				}
				narrowest, cut, _, err := judge(answers[0].Draft, everyMotif, pattern.NewShapes())
				if err != nil || cut || narrowest.D < 3 {
					t.Errorf("silhouette %d, %s %s: copies cut %v, narrowest %.4f (%v)", i, find, g.Symbol, cut,
						narrowest.D, err)
				}
			}
		}
	}
}
