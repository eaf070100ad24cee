package cutfile

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"openwork/geometry/curve"
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

// The figures asked of 2,000 copies of 300 points: curve pieces at most a third of the polygon's points at the same tolerance, for
// cubics and for arcs, and a way between cuts of at most 60 % of that in the order of the layout.
func TestPiecesAndTravelOfManyCopies(t *testing.T) {
	l, err := pattern.NewLayout(many(), nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	was, at := 0.0, l.Draft.SheetBound().Min
	for _, c := range copies {
		p := c.Shape().Bound().Center()
		was += far(at, p)
		at = p
	}
	for _, kind := range []curve.Kind{curve.Cubic, curve.Arc} {
		j, err := Build(l, Options{}, kind)
		if err != nil {
			t.Fatal(err)
		}
		pieces, travel := float64(j.Made.Pieces)/float64(j.Made.Points), j.Made.Travel/was
		t.Logf("kind %d: %.3f pieces to a point, travel %.2f of the copies' order", kind, pieces, travel)
		if pieces > 1./3 || travel > 0.6 || j.Made.Deviation > curve.DefaultTolerance {
			t.Errorf("kind %d: %.3f pieces to a point, travel %.2f, deviation %g", kind, pieces, travel, j.Made.Deviation)
		}
	}
}
