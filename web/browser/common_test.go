package browser

import (
	"image"
	"strings"
)

// containsAll reports whether a text holds all words, in either case.
func containsAll(text string, words ...string) bool {
	for _, w := range words {
		if !strings.Contains(strings.ToLower(text), strings.ToLower(w)) {
			return false
		}
	}
	return true
}

// same reports whether two screenshots agree over the bench.
func same(a, b image.Image, s sight) bool {
	for y := int(s.bench.Y); y < int(s.bench.Y+s.bench.Height); y += 3 {
		for x := int(s.bench.X); x < int(s.bench.X+s.bench.Width); x += 3 {
			if a.At(x, y) != b.At(x, y) {
				return false
			}
		}
	}
	return true
}
