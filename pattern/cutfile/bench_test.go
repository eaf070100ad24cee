package cutfile

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/patterntest"
)

// many returns a draft of some 2,000 copies of a silhouette of 300 points.
func many() pattern.Draft {
	r := rand.New(rand.NewPCG(11, 1))
	d := pattern.Default()
	d.Panel = pattern.Panel{Width: 1200, Height: 900}
	d.Field.Origin = [2]float64{600, 450}
	d.Repeat = pattern.Repeat{Group: "p2gg", A: 44, B: 45, Gamma: 90}
	d.Silhouettes = append(d.Silhouettes, pattern.Silhouette{ID: "s", Outline: patterntest.Smooth(r, 7, 300)})
	d.Motifs = append(d.Motifs, pattern.Motif{ID: "m", Silhouette: "s", At: [2]float64{11, 11}, Scale: 1})
	return d
}

func BenchmarkSVG(b *testing.B) {
	l, err := pattern.NewLayout(many(), pattern.NewShapes())
	if err != nil {
		b.Fatal(err)
	}
	var w bytes.Buffer
	for b.Loop() {
		w.Reset()
		made, err := SVG(l, &w)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(made.Openings), "openings")
		b.ReportMetric(float64(w.Len())/float64(made.Openings*300), "bytes/point")
	}
}
