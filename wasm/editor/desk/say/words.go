// Package say writes the editor's sentences: of what a check found, of the repeat, of a motif's place, of what would
// mend a fault. Its functions are pure: what they speak of they are handed.
package say

import (
	"strings"

	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
)

// Words writes sentences about one draft, in one unit.
type Words struct{ sentences.Words }

// About returns the words for a draft.
func About(d draft.Draft, u sheet.Unit) Words {
	return Words{sentences.Words{Words: sheet.Words{Unit: u, Draft: d}}}
}

// FileName returns a name for a draft's files, without an ending: the title's letters and digits joined by dashes.
func FileName(title string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r > 127:
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}

	if name := strings.Trim(b.String(), "-"); name != "" {
		return name
	}
	return "draft"
}
