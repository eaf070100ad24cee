package pattern

import "strings"

// Sentence makes an error's words a sentence to show: a capital at the start and a full stop at the end. A first word
// that holds a dot is a file's name or a place in a draft, and stays as it is.
func Sentence(s string) string {
	if s == "" {
		return s
	}
	first, _, _ := strings.Cut(s, " ")
	if !strings.Contains(first, ".") && !strings.Contains(first, "[") {
		s = strings.ToUpper(s[:1]) + s[1:]
	}
	if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "?") && !strings.HasSuffix(s, "!") {
		s += "."
	}
	return s
}
