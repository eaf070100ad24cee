package sheet

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

var cutPieces = flag.Int("pieces", 150,
	"random outlines in which narrow places are looked for in windows and in the whole")

// What is found in windows round where an outline faces itself is what is found in the whole outline, on outlines cut
// by a rectangle as the field's edge cuts them.
func TestWindowsFindWhatTheWholeOutlineShows(t *testing.T) {
	const seed = 4711
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	necks, narrow, free := 0, 0, 0
	for i := range *cutPieces {
		var mp orb.MultiPolygon
		switch i % 3 {
		case 0:
			mp = patterntest.Smooth(r, 6+14*r.Float64(), 60+r.IntN(160))
		case 1:
			mp = patterntest.Blob(r, 6+14*r.Float64(), 8+r.IntN(40), r.IntN(2) == 0)
		default: // a thin one
			thin := geometry.Map{A: 1, D: 0.1 + 0.2*r.Float64()}
			mp = geometry.Transform(patterntest.Smooth(r, 15, 60+r.IntN(100)), thin)
		}
		x, y := -12+20*r.Float64(), -12+20*r.Float64()
		need := draft.Sheet{Bridge: 0.3 + 3*r.Float64(), Opening: 0.3 + 1.5*r.Float64(), Kerf: 0.2}
		for _, p := range clip.ToRect(mp, orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + 25, y + 25}}) {
			got, _ := InsidePiece(geometry.NewShape(orb.MultiPolygon{p}), need)
			want := Inside(orb.MultiPolygon{p}, 1, need)
			samePlaces(t, i, "necks", got.Necks, want.Necks)
			samePlaces(t, i, "narrow places", got.Narrow, want.Narrow)
			if len(got.Lost) != len(want.Lost) || len(got.Holes) != len(want.Holes) {
				t.Errorf("%d: %d lost, %d holes, want %d and %d", i, len(got.Lost), len(got.Holes), len(want.Lost),
					len(want.Holes))
			}
			necks += len(want.Necks)
			narrow += len(want.Narrow)
			if len(want.Necks)+len(want.Narrow) == 0 {
				free++
			}
		}
	}
	if n := *cutPieces / 5; necks < n || narrow < n || free < n {
		t.Errorf("%d necks, %d narrow places, %d outlines without: the comparison says little", necks, narrow, free)
	}
}

func samePlaces(t *testing.T, i int, what string, got, want []Place) {
	t.Helper()
	order := func(a, b Place) int {
		return slices.Compare([]float64{a.Width, a.P[0] + a.Q[0], a.P[1]}, []float64{b.Width, b.P[0] + b.Q[0], b.P[1]})
	}
	slices.SortFunc(got, order)
	slices.SortFunc(want, order)
	if len(got) != len(want) {
		t.Errorf("%d: %d %s, want %d", i, len(got), what, len(want))
		return
	}
	for k := range got {
		if a, b := got[k], want[k]; math.Abs(a.Width-b.Width) > 1e-6 || a.Hangs != b.Hangs {
			t.Errorf("%d: %s %.9g (hangs %v), want %.9g (%v)", i, what, a.Width, a.Hangs, b.Width, b.Hangs)
		}
	}
}
