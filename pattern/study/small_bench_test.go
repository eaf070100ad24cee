package study

import (
	"bytes"
	"image/png"
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// BenchmarkSeventeen draws the seventeen pictures of two silhouettes of 300 points, 56 px each way as the page shows
// them, and writes them as the engine hands them over.
func BenchmarkSeventeen(b *testing.B) {
	r := rand.New(rand.NewPCG(3, 1))
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "pg", A: 150, B: 108, Gamma: 90}
	for i, id := range []string{"r", "s"} {
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Outline: patterntest.Smooth(r, 35, 300)})
		d.Motifs = append(d.Motifs, draft.Motif{ID: "m" + id, Silhouette: id,
			At: [2]float64{75 * float64(i), 20 * float64(i)}, Scale: 1})
	}
	shapes := pattern.NewShapes()
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	for b.Loop() {
		var out bytes.Buffer
		for _, g := range symmetry.Groups() {
			img, err := Small(d, g.Symbol, 56, 56, shapes)
			if err != nil {
				b.Fatal(err)
			}
			if err := e.Encode(&out, img); err != nil {
				b.Fatal(err)
			}
		}
	}
}
