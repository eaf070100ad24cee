package ties_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/ties"
)

// A ring-shaped opening closes a disc of sheet in. From 6 mm across on the disc has two ties or more, at the usual
// width and at others, unless it is said that there is no room for a second; a smaller one of up to two widths has one.
func TestTwoTiesFromSixMillimetres(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 12))
	two, single := 0, 0
	for range 40 {
		across := 3 + 9*rng.Float64()
		if math.Abs(across-ties.TwoFrom) < 0.02 {
			continue // a polygon's longest way is a little less than the circle's
		}
		bridge := 1 + 4*rng.Float64()
		outer := across/2 + 4 + 4*rng.Float64()
		hole := slices.Clone(patterntest.Regular(60, across/2)[0][0])
		slices.Reverse(hole)
		ring := orb.MultiPolygon{{patterntest.Regular(60, outer)[0][0], hole}}
		side := 2*outer + 3*bridge + 10
		d := patterntest.One(draft.Repeat{Group: "p1", A: side, B: side, Gamma: 90}, ring)
		d.Panel, d.Field.Origin, d.Field.Edge = draft.Panel{Width: 150, Height: 150}, [2]float64{75, 75}, draft.Whole
		d.Sheet.Bridge = math.Round(bridge*10) / 10
		l, before := report(t, d)
		if before.Counts.Islands == 0 {
			t.Fatal("there is no island to tie")
		}
		p, err := ties.For(l, before, math.MaxInt)
		if err != nil {
			t.Fatal(err)
		}

		d.Ties = p.Ties
		tied, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		middle := tied.Draft.FieldMap().Apply(orb.Point(d.Motifs[0].At))
		held := 0
		for _, tie := range p.Ties {
			for _, image := range tied.TieImages(tie, orb.Bound{Min: middle, Max: middle}.Pad(outer+1)) {
				in := func(q [2]float64) bool { return math.Hypot(q[0]-middle[0], q[1]-middle[1]) < across/2 }
				if in(image.From) != in(image.To) {
					held++
				}
			}
		}
		switch {
		case held == 0:
			t.Errorf("%.2f mm across: no tie is held by the disc", across)
		case across >= ties.TwoFrom && held < 2 && p.Single != 1:
			t.Errorf("%.2f mm across, bridge %g: one tie, and %d are said to have one", across, d.Sheet.Bridge,
				p.Single)
		case (across < ties.TwoFrom || held >= 2) && p.Single != 0:
			t.Errorf("%.2f mm across, bridge %g: %d ties, and %d are said to have one", across, d.Sheet.Bridge, held,
				p.Single)
		case across < ties.TwoFrom && across < 2*d.Sheet.Bridge && held != 1:
			t.Errorf("%.2f mm across, bridge %g: %d ties for so small a disc", across, d.Sheet.Bridge, held)
		}
		if held > 1 {
			two++
		} else {
			single++
		}
	}
	if two < 5 || single < 2 {
		t.Errorf("%d discs with two ties, %d with one: too few of either to tell", two, single)
	}
}
