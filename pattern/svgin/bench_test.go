package svgin

import (
	"openwork/pattern/outline"

	"fmt"
	"math/rand"
	"strings"
	"testing"
)

// BenchmarkSVG reads an illustration of 5,000 paths of three kinds: filled ones, strokes, and filled ones half of which
// are white and cover what lies under them.
func BenchmarkSVG(b *testing.B) {
	for _, kind := range []struct{ name, odd, even string }{
		{"filled", "", ""},
		{"strokes", `fill="none" stroke="black"`, `fill="none" stroke="black"`},
		{"white over black", `fill="white"`, ""},
	} {
		rng := rand.New(rand.NewSource(1))
		var s strings.Builder
		s.WriteString(`<svg viewBox="0 0 1000 1000" width="200mm" height="200mm">`)
		for k := range 5000 {
			how := kind.even
			if k%2 == 1 {
				how = kind.odd
			}
			w := 2 + 6*rng.Float64()
			fmt.Fprintf(&s, `<path %s d="M%.2f %.2fc%.2f 0 %.2f %.2f 0 %.2fs%.2f 0 0-%.2fz"/>`, how, 1000*rng.Float64(),
				1000*rng.Float64(), w, w, w, w, -w, w)
		}
		s.WriteString(`</svg>`)
		data := []byte(s.String())
		b.Run(kind.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Read(data, "", outline.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
