package pattern_test

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// BenchmarkCopies lays 4,000 copies on a panel of 2,400 × 1,200 mm: three motifs of 300 points each in p6mm.
func BenchmarkCopies(b *testing.B) {
	r := rand.New(rand.NewPCG(11, 1))
	d := draft.Default()
	d.Panel = draft.Panel{Width: 2400, Height: 1200}
	d.Field.Origin = [2]float64{1200, 600}
	// 36 copies in a cell and 2,360 × 1,160 mm of field: cells of 24,638 mm² give 4,000.
	d.Repeat = draft.Repeat{Group: "p6mm", A: 169, B: 169, Gamma: 120}
	for i, id := range []string{"r", "s", "t"} {
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Outline: patterntest.Smooth(r, 7, 300)})
		at := d.Repeat.Cell().Basis().Apply(orb.Point{0.12 + 0.15*float64(i), 0.05})
		d.Motifs = append(d.Motifs, draft.Motif{ID: "m" + id, Silhouette: id, At: at, Scale: 1})
	}
	shapes := pattern.NewShapes()
	n := 0
	for b.Loop() {
		l, err := pattern.NewLayout(d, shapes)
		if err != nil {
			b.Fatal(err)
		}
		copies, err := l.Copies()
		if err != nil {
			b.Fatal(err)
		}
		n = len(copies)
	}
	if n < 4000 || n > 4600 {
		b.Fatalf("%d copies", n)
	}
}
