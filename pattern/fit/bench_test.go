package fit

import (
	"math/rand/v2"
	"testing"

	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// One silhouette of 300 points: one group at the usual effort, and all seventeen.
func BenchmarkFit(b *testing.B) {
	mp := patterntest.Smooth(rand.New(rand.NewPCG(5, 5)), 40, 300)
	for _, c := range []struct {
		name   string
		groups []string
	}{{"p2gg", []string{"p2gg"}}, {"all", []string{"all"}}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				found, err := Fit(&Question{Draft: draftWith("p1", 3, mp), Groups: c.groups}, nil)
				if err != nil || c.name == "all" && len(found) != len(symmetry.Groups()) {
					b.Fatal(len(found), err)
				}
			}
		})
	}
}
