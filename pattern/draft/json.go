package draft

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// maxWord is how long a number may be in its file: the smallest float64 written in full takes 1,077 characters.
const maxWord = 1200

// reader reads JSON (RFC 8259) value by value, as the caller asks for them, and keeps the path to where it is. The
// first fault ends it: err is set, and everything asked for afterwards is zero. It never goes deeper than its caller
// does.
type reader struct {
	data   []byte
	pos    int
	path   []crumb
	points int
	err    error

	root    *Draft
	missing []func() // fill in what other members decide, when these are read
}

// fail notes a fault at the path's place, unless there was one before.
func (r *reader) fail(format string, args ...any) {
	if r.err == nil {
		r.err = &PlaceError{r.place(), fmt.Sprintf(format, args...)}
	}
}

// broken notes a fault in the writing itself, and says where in the text.
func (r *reader) broken(text string) {
	before := r.data[:min(r.pos, len(r.data))]
	line := bytes.Count(before, []byte("\n")) + 1
	column := len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:]))) + 1
	r.fail("%s (line %d, character %d)", text, line, column)
}

// peek passes over white space and returns the next byte, 0 at the end.
func (r *reader) peek() byte {
	for ; r.pos < len(r.data); r.pos++ {
		switch c := r.data[r.pos]; c {
		case ' ', '\t', '\n', '\r':
		default:
			return c
		}
	}
	return 0
}

// open reads the bracket that begins an object or a list.
func (r *reader) open(bracket byte, what string) bool {
	if r.err != nil {
		return false
	}
	if r.peek() != bracket {
		r.wrong(what)
		return false
	}
	r.pos++
	return true
}

// more reads what stands before item n of an object or a list: nothing or a comma, or the closing bracket, and then
// there is no item n.
func (r *reader) more(bracket byte, n int) bool {
	if r.err != nil {
		return false
	}
	c := r.peek()
	if c == bracket {
		r.pos++
		return false
	}
	if n == 0 {
		return true
	}
	if c != ',' {
		r.broken(fmt.Sprintf("a comma or %c belongs here, not %s", bracket, r.here()))
		return false
	}
	r.pos++
	if r.peek() == bracket {
		r.broken(fmt.Sprintf("a comma stands before %c with nothing between", bracket))
		return false
	}
	return true
}

// key reads an object's key and the colon after it.
func (r *reader) key() string {
	if r.peek() != '"' {
		r.broken("a key in quotes belongs here, not " + r.here())
		return ""
	}
	key := r.quoted()
	if r.err == nil && r.peek() != ':' {
		r.broken("a colon belongs after the key " + strconv.Quote(key))
	}
	r.pos++
	if !plainKey(key) {
		key = fmt.Sprintf("%.40q", key)
	}
	return key
}

func plainKey(key string) bool {
	for _, c := range key {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_') {
			return false
		}
	}
	return key != "" && len(key) <= 40
}

// end makes sure that nothing follows the draft.
func (r *reader) end() {
	if r.peek(); r.err == nil && r.pos < len(r.data) {
		r.broken("the draft ends before " + r.here() + "; nothing may follow it")
	}
}

// number reads a number, as JSON writes them, that fits a float64. A zero has no sign.
func (r *reader) number() float64 {
	if r.err != nil {
		return 0
	}
	r.peek()
	word := r.word()
	switch {
	case word == "" || word == "null" || word == "true" || word == "false":
		r.wrong("a number")
	case len(word) > maxWord:
		r.fail("not a number that can be kept: it is longer than %d characters", maxWord)
	case !isNumber(word):
		r.fail("not a number: %.40q", word)
	default:
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			r.fail("not a number that can be kept: %.40q is too large", word)
			return 0
		}
		r.pos += len(word)
		return v + 0
	}
	return 0
}

// isNumber reports whether a word is a number by JSON's grammar: -, whole part, fraction, exponent.
func isNumber(s string) bool {
	digits := func() bool {
		n := 0
		for n < len(s) && s[n] >= '0' && s[n] <= '9' {
			n++
		}
		s = s[n:]
		return n > 0
	}

	s = strings.TrimPrefix(s, "-")
	if zero := strings.HasPrefix(s, "0"); zero {
		s = s[1:]
	} else if !digits() {
		return false
	}
	if strings.HasPrefix(s, ".") {
		if s = s[1:]; !digits() {
			return false
		}
	}
	if s != "" && (s[0] == 'e' || s[0] == 'E') {
		if s = s[1:]; s != "" && (s[0] == '+' || s[0] == '-') {
			s = s[1:]
		}
		if !digits() {
			return false
		}
	}
	return s == ""
}

// flag reads true or false.
func (r *reader) flag() bool {
	if r.err != nil {
		return false
	}
	r.peek()
	word := r.word()
	if word != "true" && word != "false" {
		r.wrong("true or false")
	}
	r.pos += len(word)
	return word == "true"
}

// text reads a string.
func (r *reader) text() string {
	if r.err != nil {
		return ""
	}
	if r.peek() != '"' {
		r.wrong("a text in quotes")
		return ""
	}
	return r.quoted()
}

// wrong notes that what stands here is not what belongs here. For a number the sentence is the one a draft's reader
// looks for: "not a number".
func (r *reader) wrong(wanted string) {
	stands := r.here()
	if r.pos >= len(r.data) || strings.IndexByte("]}:,", r.data[r.pos]) >= 0 {
		r.broken(wanted + " belongs here, not " + stands)
		return
	}
	r.fail("not %s, but %s", wanted, stands)
}

// here says what stands at the reader's place.
func (r *reader) here() string {
	if r.pos >= len(r.data) {
		return "the end of the text"
	}
	switch c := r.data[r.pos]; c {
	case '"':
		return "a text in quotes"
	case '{':
		return "an object in braces"
	case '[':
		return "a list in brackets"
	default:
		if word := r.word(); word != "" {
			if isNumber(word) {
				return fmt.Sprintf("the number %.40s", word)
			}
			if word == "null" {
				return "null"
			}
			return fmt.Sprintf("%.40q", word)
		}
		return strconv.QuoteRune(rune(c))
	}
}

// word returns what stands at the reader's place up to white space or the next sign of JSON's.
func (r *reader) word() string {
	end, last := r.pos, min(len(r.data), r.pos+maxWord+1)
	for end < last && strings.IndexByte(" \t\r\n,:[]{}\"", r.data[end]) < 0 {
		end++
	}
	return string(r.data[r.pos:end])
}

// textOrNull reads a string that is not empty, or null, which gives the empty one.
func (r *reader) textOrNull() string {
	if r.err != nil {
		return ""
	}
	if r.peek(); strings.HasPrefix(string(r.data[r.pos:min(len(r.data), r.pos+5)]), "null") && r.word() == "null" {
		r.pos += len("null")
		return ""
	}
	s := r.text()
	if r.err == nil && s == "" {
		r.fail("an id must not be empty; null stands for the field")
	}
	return s
}
