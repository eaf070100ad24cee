package draft

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Whole numbers, lists of them and lists of IDs, as a file has them.

// whole reads a whole number.
func (r *reader) whole() int { return r.wholeOf(r.number()) }

// wholeOf returns a number that was read as a whole one.
func (r *reader) wholeOf(v float64) int {
	const most = 1 << 31
	if v != math.Trunc(v) || math.Abs(v) >= most {
		r.fail("not a whole number, but %s", strconv.FormatFloat(v, 'g', -1, 64))
		return 0
	}
	return int(v)
}

// row reads a list of whole numbers.
func (r *reader) row(m *Member) (out []int) {
	r.list(int(m.Max), "numbers", func() { out = append(out, r.whole()) })
	return out
}

// numbers reads whole numbers by the IDs of a list.
func (r *reader) numbers(m *Member) map[string]int {
	out := map[string]int{}
	if !r.open('{', "an object in braces") {
		return nil
	}
	for n := 0; r.more('}', n); n++ {
		if n == int(m.Max) {
			r.fail("there are more than %d", n)
			return nil
		}
		if r.peek() != '"' {
			r.broken("an id in quotes belongs here, not " + r.here())
			return nil
		}
		id := r.quoted()
		if r.err == nil && r.peek() != ':' {
			r.broken("a colon belongs after " + strconv.Quote(id))
		}
		r.pos++
		r.path = append(r.path, crumb{key: fmt.Sprintf("%.70q", id)})
		if _, twice := out[id]; twice {
			r.fail("the id is there twice")
		}
		out[id] = r.whole()
		if r.err != nil {
			return nil
		}
		r.path = r.path[:len(r.path)-1]
	}
	return out
}

func (w *writer) row(row []int) {
	w.raw("[")
	for i, v := range row {
		w.comma(i).number(float64(v))
	}
	w.raw("]")
}

func (w *writer) rows(rows [][]int) {
	w.raw("[")
	for i, row := range rows {
		w.comma(i).row(row)
	}
	w.raw("]")
}

func (w *writer) texts(texts []string) {
	w.raw("[")
	for i, s := range texts {
		w.comma(i).text(s)
	}
	w.raw("]")
}

// numbers writes whole numbers by ID, in the order of the IDs.
func (w *writer) numbers(by map[string]int) {
	w.raw("{")
	for i, id := range sortedIDs(by) {
		w.comma(i).text(id).raw(": ").number(float64(by[id]))
	}
	w.raw("}")
}

func sortedIDs(by map[string]int) []string {
	ids := make([]string, 0, len(by))
	for id := range by {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// comma separates item i of a list on one line from the one before.
func (w *writer) comma(i int) *writer {
	if i > 0 {
		w.raw(", ")
	}
	return w
}

// IsColour reports whether a text is sRGB as #rrggbb in small letters.
func IsColour(s string) bool {
	if len(s) != 7 || s[0] != '#' {
		return false
	}
	for _, c := range s[1:] {
		if !(c >= '0' && c <= '9' || c >= 'a' && c <= 'f') {
			return false
		}
	}
	return true
}
