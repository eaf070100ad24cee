// Package letters knows the plain letter behind a Latin letter with marks, for writing that lacks the marked one.
package letters

import "unicode"

// marked are the letters with marks of Latin-1 and Latin Extended-A, by their plain capital.
var marked = map[rune]string{
	'A': "ÀÁÂÃÄÅĀĂĄ", 'C': "ÇĆĈĊČ", 'D': "Ď", 'E': "ÈÉÊËĒĔĖĘĚ", 'G': "ĜĞĠĢ", 'H': "ĤĦ", 'I': "ÌÍÎÏĨĪĬĮİ", 'J': "Ĵ",
	'K': "Ķ",
	'L': "ĹĻĽĿ", 'N': "ÑŃŅŇ", 'O': "ÒÓÔÕÖŌŎŐ", 'R': "ŔŖŘ", 'S': "ŚŜŞŠ", 'T': "ŢŤŦ", 'U': "ÙÚÛÜŨŪŬŮŰŲ", 'W': "Ŵ",
	'Y': "ÝŶŸ",
	'Z': "ŹŻŽ",
}

var capitals = func() map[rune]rune {
	m := map[rune]rune{}
	for plain, all := range marked {
		for _, r := range all {
			m[r] = plain
		}
	}
	return m
}()

// Plain returns the letter without its marks, a small one for a small one; false for what is no letter with marks.
func Plain(r rune) (rune, bool) {
	if plain, ok := capitals[r]; ok {
		return plain, true
	}
	if plain, ok := capitals[unicode.ToUpper(r)]; ok {
		return unicode.ToLower(plain), true
	}
	return r, false
}
