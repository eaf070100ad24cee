package pattern

import (
	"fmt"
	"strings"
)

// refused lists words in a stock's name that keep it from the laser, with the reason. Common practice of cutting shops
// and the materials' safety data sheets; the shop's own list decides.
var refused = []struct {
	words  []string
	reason string
}{
	{[]string{"pvc", "vinyl", "chlor"},
		"it holds chlorine, and under a laser it gives off hydrogen chloride"},
	{[]string{"polycarbonate", "abs", "acrylonitrile"},
		"it is not for the laser: it melts and burns instead of cutting clean"},
}

// RefuseStock says why a stock must not meet a laser; nil when nothing is known against it. A stock it does not know is
// not thereby safe: the shop's material list and the maker's safety data sheet decide.
func RefuseStock(stock string) error {
	name := strings.ToLower(stock)
	for _, r := range refused {
		for _, w := range r.words {
			if hasWord(name, w) {
				return fmt.Errorf("no cut file for %q: %s; ask the shop for a stock it cuts", stock, r.reason)
			}
		}
	}
	return nil
}

// hasWord reports whether the name holds the word: short ones only standing alone, so that "abs" is not found in
// "absorbent card".
func hasWord(name, word string) bool {
	if len(word) > 4 {
		return strings.Contains(name, word)
	}
	for _, f := range strings.FieldsFunc(name, func(r rune) bool {
		return (r < 'a' || r > 'z') &&
			(r < '0' || r > '9')
	}) {
		if f == word || (len(word) == 4 && strings.HasPrefix(f, word)) {
			return true
		}
	}
	return false
}
