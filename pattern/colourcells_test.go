package pattern_test

import (
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// Colours repeat after the cells that are said, wherever one looks.
func TestColoursRepeat(t *testing.T) {
	const seed = 171
	r := rand.New(rand.NewPCG(seed, 0))
	many := 0
	for i := range 170 {
		d := patterntest.Coloured(r, patterntest.Draft(r, symmetry.Groups()[i%17].Symbol))
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		cells := l.ColourCells()
		if cells[0]*cells[1] > 1 {
			many++
		}
		for range 200 {
			motif, op := r.IntN(len(d.Motifs)), r.IntN(len(l.Group.Ops))
			m, n := r.IntN(101)-50, r.IntN(101)-50
			u, v := cells[0]*(r.IntN(5)-2), cells[1]*(r.IntN(5)-2)
			if a, b := l.ColourOf(motif, op, m, n), l.ColourOf(motif, op, m+u, n+v); a != b {
				t.Fatalf("seed %d, draft %d: moved by %d and %d cells, where colours repeat after %v, %d becomes %d",
					seed, i, u, v, cells, a, b)
			}
		}
	}
	if many < 50 {
		t.Errorf("seed %d: only %d drafts have colours that change from cell to cell", seed, many)
	}
}
