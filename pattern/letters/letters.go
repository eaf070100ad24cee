// Package letters knows the plain letter behind a Latin letter with marks, for writing that lacks the marked one.
package letters

import (
	"fmt"
	"strings"
	"unicode"
)

// marked are the letters with marks of Latin-1 and Latin Extended-A, and of Romanian and Vietnamese, by their plain
// capital.
var marked = []struct {
	plain rune
	with  string
}{
	{'A', "ÀÁÂÃÄÅĀĂĄǍẠẢẤẦẨẪẬẮẰẲẴẶ"}, {'C', "ÇĆĈĊČ"}, {'D', "Ď"}, {'E', "ÈÉÊËĒĔĖĘĚẸẺẼẾỀỂỄỆ"}, {'G', "ĜĞĠĢǦ"},
	{'H', "ĤĦ"}, {'I', "ÌÍÎÏĨĪĬĮİǏỈỊ"}, {'J', "Ĵ"}, {'K', "Ķ"}, {'L', "ĹĻĽĿ"}, {'N', "ÑŃŅŇ"},
	{'O', "ÒÓÔÕÖŌŎŐǑƠỌỎỐỒỔỖỘỚỜỞỠỢ"}, {'R', "ŔŖŘ"}, {'S', "ŚŜŞŠȘ"}, {'T', "ŢŤŦȚ"}, {'U', "ÙÚÛÜŨŪŬŮŰŲǓƯỤỦỨỪỬỮỰ"},
	{'W', "ŴẀẂẄ"}, {'Y', "ÝŶŸỲỴỶỸ"}, {'Z', "ŹŻŽ"},
}

// Plain returns the letter without its marks, a small one for a small one; false for what is no letter with marks.
func Plain(r rune) (rune, bool) {
	if r < 0x80 {
		return r, false
	}
	up := unicode.ToUpper(r)
	for _, m := range marked {
		switch {
		case !strings.ContainsRune(m.with, up):
		case strings.ContainsRune(m.with, r):
			return m.plain, true
		default:
			return unicode.ToLower(m.plain), true
		}
	}
	return r, false
}

// Named names letters that a writing lacks by their numbers in Unicode, which every writing has: "U+9DFA and U+9BC9".
func Named(lacks []rune) string {
	const most = 6
	out := ""
	for k, r := range lacks {
		switch {
		case k == most:
			return out + fmt.Sprintf(" and %d more", len(lacks)-k)
		case k > 0 && k == len(lacks)-1:
			out += " and "
		case k > 0:
			out += ", "
		}
		out += fmt.Sprintf("U+%04X", r)
	}
	return out
}
