package offset

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

func BenchmarkOffset(b *testing.B) {
	for _, f := range families {
		s := f.make(rand.New(rand.NewPCG(seed, 1)))
		for _, d := range []float64{0.1, -0.1, 1.5, -1.5, 10} {
			b.Run(fmt.Sprintf("%s by %g", f.name, d), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := Offset(s, d, 0.01); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
