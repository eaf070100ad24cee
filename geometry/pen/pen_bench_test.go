package pen

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
)

// waves is a ring of n points that winds in and out.
func waves(n int) orb.MultiPolygon {
	var r orb.Ring
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		l := 100 + 12*math.Sin(23*2*math.Pi*float64(i)/float64(n))
		r = append(r, orb.Point{l * c, l * s})
	}
	return cleared(orb.MultiPolygon{{append(r, r[0])}})
}

func BenchmarkRead(b *testing.B) {
	for name, n := range map[string]int{"300": 300, "5000": 5000} {
		mp := waves(n)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Read(mp); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkStroke(b *testing.B) {
	stroke := waves(1500)[0][0]
	for b.Loop() {
		if _, err := Stroke(stroke, 0.4); err != nil {
			b.Fatal(err)
		}
	}
}
