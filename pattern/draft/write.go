package draft

import (
	"strconv"

	"github.com/paulmach/orb"
)

// Encode returns the draft as its file's text: JSON, a line for each member, motif and ring, numbers in the fewest
// digits that bring back the same float64. The same draft gives the same text, and a draft that passes Check comes back
// the same from Decode. A number that is none is written as it is, NaN or Inf, which Decode refuses by its place.
func (d Draft) Encode() []byte {
	w := &writer{}
	w.object(Schema, &d, "  ")
	return w.raw("\n").out
}

// object writes an object. Where its members stand on lines of their own, indent comes before each.
func (w *writer) object(of *Object, owner any, indent string) {
	w.raw("{")
	n := 0
	for _, m := range of.Members {
		if m.leftOut(owner) {
			continue
		}
		switch {
		case of.Lines:
			w.item(n, indent)
		case n > 0:
			w.raw(", ")
		}
		n++
		w.raw("\""+m.Key+"\": ").value(m, owner, indent)
	}
	if of.Lines {
		w.raw("\n" + indent[2:])
	}
	w.raw("}")
}

// leftOut reports whether a member is not said in the file.
func (m *Member) leftOut(owner any) bool {
	if m.Usual {
		return *m.at(owner).(*float64) == m.Default
	}
	if !m.Optional {
		return false
	}
	if m.Type == List {
		return m.count(owner) == 0
	}
	switch v := m.at(owner).(type) {
	case nil:
		return true
	case *float64:
		return *v == 0
	case *string:
		return !m.Required && *v == "" || m.Type == Choice && *v == m.Choices[0]
	case *[]string:
		return len(*v) == 0
	case *map[string]int:
		return len(*v) == 0
	}
	return false
}

// Says reports whether a member says anything in its owner's file.
func (m *Member) Says(owner any) bool { return !m.leftOut(owner) }

func (w *writer) value(m *Member, owner any, indent string) *writer {
	if m.Type == List {
		w.raw("[")
		n := m.count(owner)
		for i := range n {
			w.item(i, indent+"  ").object(m.Of, m.item(owner, i), indent)
		}
		return w.end(n, indent).raw("]")
	}

	switch v := m.at(owner).(type) {
	case *float64:
		w.number(*v)
	case *int:
		w.number(float64(*v))
	case *bool:
		w.raw(strconv.FormatBool(*v))
	case *[2]float64:
		w.point(*v)
	case *string:
		if m.Type == Ref && *v == "" {
			w.raw("null")
		} else {
			w.text(*v)
		}
	case *orb.MultiPolygon:
		w.raw("[").outline(*v)
		w.end(len(*v), "    ").raw("]")
	case *[2]int:
		w.row(v[:])
	case *[]int:
		w.row(*v)
	case *[][]int:
		w.rows(*v)
	case *[]string:
		w.texts(*v)
	case *map[string]int:
		w.numbers(*v)
	default:
		w.object(m.Of, v, indent)
	}
	return w
}

// writer appends JSON; its methods give it back for the next.
type writer struct{ out []byte }

func (w *writer) raw(s string) *writer {
	w.out = append(w.out, s...)
	return w
}

// item begins list item i on a line of its own.
func (w *writer) item(i int, indent string) *writer {
	if i > 0 {
		w.raw(",")
	}
	return w.raw("\n").raw(indent)
}

// end puts the bracket after a list of n items on its own line; an empty list stays on one.
func (w *writer) end(n int, indent string) *writer {
	if n > 0 {
		w.raw("\n").raw(indent)
	}
	return w
}

func (w *writer) outline(mp orb.MultiPolygon) {
	for i, p := range mp {
		w.item(i, "      ").raw("[")
		for j, r := range p {
			w.item(j, "        ").raw("[")
			for k, v := range r {
				if k > 0 {
					w.raw(", ")
				}
				w.point(v)
			}
			w.raw("]")
		}
		w.end(len(p), "      ").raw("]")
	}
}

func (w *writer) point(p [2]float64) *writer {
	return w.raw("[").number(p[0]).raw(", ").number(p[1]).raw("]")
}

// number writes the fewest digits that read back as v; a zero has no sign.
func (w *writer) number(v float64) *writer {
	format := byte('f')
	if size := max(v, -v); size != 0 && (size < 1e-6 || size >= 1e21) {
		format = 'e'
	}
	w.out = strconv.AppendFloat(w.out, v+0, format, -1, 64)
	return w
}

// text writes a JSON string. Bytes that are not UTF-8 become the replacement character.
func (w *writer) text(s string) *writer {
	const hex = "0123456789abcdef"
	w.out = append(w.out, '"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			w.out = append(w.out, '\\', byte(c))
		case c == '\n':
			w.raw(`\n`)
		case c == '\t':
			w.raw(`\t`)
		case c < ' ':
			w.out = append(w.out, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
		default:
			w.raw(string(c))
		}
	}
	w.out = append(w.out, '"')
	return w
}
