package desk

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/sentences"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/say"
)

// atRest is what the desk would say had the engine just answered for the field as it is, but for the narrowest bridge
// within an opening, which is not looked for while the hand moves.
func atRest(t *testing.T, k *Desk) Verdict {
	t.Helper()
	r, err := panel.Check(k.Session.Layout())
	if err != nil {
		t.Fatal(err)
	}
	r.NarrowestWithin = nil
	return k.Session.words().Verdict(r, say.WithoutStrips(say.Gather(r.Problems)), sentences.Scope{Frame: true})
}

// In every step of a drag the line at the foot is the one that the check of the whole panel makes, or says that it is
// not.
func TestTheLineInTheHandIsThePanels(t *testing.T) {
	const seed = 31
	t.Logf("seed %d", seed)
	whole, steps := 0, 0
	for i, g := range symmetry.Groups() {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		d := patterntest.Draft(r, g.Symbol)
		d.Repeat.A, d.Repeat.B = 1.5*d.Repeat.A, 1.5*d.Repeat.B
		d.Field.Edge = []draft.Edge{draft.Crop, draft.Whole, draft.Touching}[i%3]
		k := New(d)
		k.Resize(900, 700)
		copies := k.Session.Visible()
		if len(copies) == 0 {
			continue
		}
		p := centre(k, copies[r.IntN(len(copies))])
		k.Pointer("down", 1, p[0], p[1], 0, "mouse")
		for range 4 {
			p = orb.Point{p[0] + 8*r.Float64(), p[1] - 8*r.Float64()}
			k.Pointer("move", 1, p[0], p[1], 0, "mouse")
			steps++
			if k.Session.Seen() == nil || k.Session.Seen().Partial {
				if v := k.Session.verdict(); v.State == "holds" {
					t.Errorf("%s: not all was looked at, and the verdict is %+v", g.Symbol, v)
				}
				continue
			}
			whole++
			if v, want := k.Session.verdict(), atRest(t, k); v != want {
				t.Errorf("%s: in the hand the verdict is %+v, at rest %+v", g.Symbol, v, want)
			}
		}
		k.Pointer("up", 1, p[0], p[1], 0, "mouse")
	}
	if whole < steps/3 {
		t.Errorf("only %d of %d steps showed the whole panel", whole, steps)
	}
}
