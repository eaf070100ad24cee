package residue

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Where boxes of the centre's line meet is every jump there is: all pairs of edges give the same.
func TestContactsAmongAllPairs(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	compared := 0
	for k := range 400 {
		var mp orb.MultiPolygon
		switch k % 4 {
		case 0:
			mp = blob(r, 20, 5+r.IntN(60))
		case 1:
			mp = wavy(r, 20, 5+r.IntN(90))
		case 2:
			mp = star(3+r.IntN(20), 20, 1+18*r.Float64())
		default:
			mp = comb(2+r.IntN(8), 0.5+3*r.Float64(), 0.5+3*r.Float64(), 1+20*r.Float64())
		}
		for _, inside := range []bool{false, true} {
			b, taken := newBoundary(mp, inside)
			s := geometry.NewShape(taken)
			x := newSearch(b, s, 0.1+4*r.Float64(), clearSlack)
			for i := range b.edges {
				for j := i + 1; j < len(b.edges); j++ {
					x.pair(int32(i), int32(j))
				}
			}
			has := func(all []contact, d contact) bool {
				for _, o := range all {
					if near(d.c, o.c) && near(d.from.p, o.from.p) && near(d.to.p, o.to.p) {
						return true
					}
				}
				return false
			}
			got := b.contacts(s, x.r, x.slack)
			for _, d := range x.found {
				if compared++; !has(got, d) {
					t.Errorf("shape %d, inside %v, radius %g: the jump about %v is missing", k, inside, x.r, d.c)
				}
			}
			for _, d := range got {
				if !has(x.found, d) {
					t.Errorf("shape %d, inside %v, radius %g: there is no jump about %v", k, inside, x.r, d.c)
				}
			}
		}
	}
	if compared < 3000 {
		t.Errorf("only %d jumps were compared", compared)
	}
	t.Logf("%d jumps", compared)
}
