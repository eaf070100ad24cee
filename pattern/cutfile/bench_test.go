package cutfile

import (
	"bytes"
	"testing"

	"openwork/pattern"
	"openwork/pattern/cutplan/plantest"
)

func BenchmarkSVG(b *testing.B) {
	l, err := pattern.NewLayout(plantest.Many(), pattern.NewShapes())
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
