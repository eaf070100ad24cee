package panel

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"openwork/pattern/patterntest"
)

// Colours are no part of the sheet: the check of a coloured draft is that of the draft without them, problem for
// problem.
func TestColoursChangeNothing(t *testing.T) {
	const seed = 4021
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for _, group := range []string{"p1", "p2mg", "p4gm", "p31m", "c2mm"} {
		bare := patterntest.Draft(r, group)
		coloured := patterntest.Coloured(r, bare)
		if !coloured.CutsAs(bare) {
			t.Errorf("%s: the coloured draft is taken to be cut otherwise", group)
		}
		if !reflect.DeepEqual(checked(t, bare), checked(t, coloured)) {
			t.Errorf("%s: the reports differ", group)
		}
	}
}
