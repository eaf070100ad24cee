package draft

import (
	"strconv"
	"strings"
)

// quoted reads a string whose opening quote stands here.
func (r *reader) quoted() string {
	start := r.pos + 1
	for r.pos = start; r.pos < len(r.data); r.pos++ {
		switch c := r.data[r.pos]; {
		case c == '"':
			s := string(r.data[start:r.pos])
			r.pos++
			return r.valid(s)
		case c == '\\':
			return r.escaped(start)
		case c < ' ':
			r.broken("a control character stands in a text; write it as \\u and four digits")
			return ""
		}
	}
	r.broken("a text has no closing quote")
	return ""
}

// valid returns s when it is UTF-8.
func (r *reader) valid(s string) string {
	if strings.ToValidUTF8(s, "") != s {
		r.broken("a text is not valid UTF-8")
	}
	return s
}

// escaped goes on reading a string that began at start, from its first backslash.
func (r *reader) escaped(start int) string {
	out := append([]byte(nil), r.data[start:r.pos]...)
	for r.pos < len(r.data) {
		c := r.data[r.pos]
		r.pos++
		switch {
		case c == '"':
			return r.valid(string(out))
		case c < ' ':
			r.pos--
			r.broken("a control character stands in a text; write it as \\u and four digits")
			return ""
		case c != '\\':
			out = append(out, c)
		case r.pos >= len(r.data):
		case r.data[r.pos] == 'u':
			s, ok := r.codePoint()
			if !ok {
				r.broken("\\u needs four hexadecimal digits, and a high surrogate a low one after it")
				return ""
			}
			out = append(out, s...)
		default:
			k := strings.IndexByte(`"\/bfnrt`, r.data[r.pos])
			if k < 0 {
				r.broken("a backslash stands before a character that needs none")
				return ""
			}
			out = append(out, "\"\\/\b\f\n\r\t"[k])
			r.pos++
		}
	}

	r.broken("a text has no closing quote")
	return ""
}

// codePoint reads \u escapes from the u on: one, or two that make a pair of surrogates.
func (r *reader) codePoint() (string, bool) {
	unit := func() (rune, bool) {
		if r.pos+5 > len(r.data) || r.data[r.pos] != 'u' {
			return 0, false
		}
		v, err := strconv.ParseUint(string(r.data[r.pos+1:r.pos+5]), 16, 32)
		r.pos += 5
		return rune(v), err == nil
	}

	high, ok := unit()
	if !ok || high >= 0xDC00 && high < 0xE000 {
		return "", false
	}
	if high < 0xD800 || high >= 0xE000 {
		return string(high), true
	}
	if r.pos >= len(r.data) || r.data[r.pos] != '\\' {
		return "", false
	}
	r.pos++
	low, ok := unit()
	if !ok || low < 0xDC00 || low >= 0xE000 {
		return "", false
	}
	return string((high-0xD800)<<10 + (low - 0xDC00) + 0x10000), true
}
