package mends

import (
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// dragged is the demonstration after the hand has moved a motif by x, y mm.
func dragged(tb testing.TB, motif int, x, y float64) draft.Draft {
	d := patterntest.Demo(tb)
	m := d.Motifs[motif]
	next, err := pattern.Apply(d, pattern.Command{Name: "place", ID: m.ID,
		Values: map[string]float64{"x": m.At[0] + x, "y": m.At[1] + y}})
	if err != nil {
		tb.Fatal(err)
	}
	return next
}

// BenchmarkOffer is what the page waits for after a drag of the demonstration, the panel's check being there.
func BenchmarkOffer(b *testing.B) {
	for _, drag := range []struct {
		name  string
		motif int
		x, y  float64
	}{{"near", 1, 3, 2}, {"overlap", 1, 12, -8}, {"far", 0, 25, 20}} {
		b.Run(drag.name, func(b *testing.B) {
			d := dragged(b, drag.motif, drag.x, drag.y)
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				b.Fatal(err)
			}
			report, err := panel.Check(l)
			if err != nil {
				b.Fatal(err)
			}
			b.ResetTimer()
			n := 0
			for b.Loop() {
				offered, err := Offer(l, report, nil)
				if err != nil {
					b.Fatal(err)
				}
				n = len(offered)
			}
			b.ReportMetric(float64(n), "offers")
		})
	}
}

func BenchmarkMeasure(b *testing.B) {
	l, err := pattern.NewLayout(dragged(b, 1, 3, 2), nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := panel.Measure(l); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMovesApart(b *testing.B) {
	l, err := pattern.NewLayout(dragged(b, 1, -15, 5), nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		sheet.MovesApart(l)
	}
}
