package pattern

import (
	"strconv"

	"github.com/paulmach/orb"
)

// Encode returns the draft as its file's text: JSON, a line for each member, motif and ring, numbers in the fewest digits
// that bring back the same float64. The same draft gives the same text, and a draft that passes Check comes back the same
// from Decode. A number that is none is written as it is, NaN or Inf, which Decode refuses by its place.
func (d Draft) Encode() []byte {
	w := &writer{}
	w.raw("{\n  \"openwork\": ").number(float64(d.Openwork))
	w.raw(",\n  \"title\": ").text(d.Title)
	w.raw(",\n  \"units\": ").text(d.Units)
	w.raw(",\n  \"panel\": {\"width\": ").number(d.Panel.Width).raw(", \"height\": ").number(d.Panel.Height)
	w.raw("},\n  \"field\": {\"margin\": ").number(d.Field.Margin).raw(", \"origin\": ").point(d.Field.Origin)
	w.raw(", \"turn\": ").number(d.Field.Turn).raw(", \"edge\": ").text(string(d.Field.Edge))
	w.raw("},\n  \"repeat\": {\"group\": ").text(d.Repeat.Group).raw(", \"a\": ").number(d.Repeat.A)
	w.raw(", \"b\": ").number(d.Repeat.B).raw(", \"gamma\": ").number(d.Repeat.Gamma)
	w.raw("},\n  \"silhouettes\": [")
	for i, s := range d.Silhouettes {
		w.item(i, "    ").raw("{\"id\": ").text(s.ID).raw(", \"name\": ").text(s.Name).raw(", \"outline\": [")
		w.outline(s.Outline)
		w.end(len(s.Outline), "    ").raw("]}")
	}
	w.end(len(d.Silhouettes), "  ").raw("],\n  \"motifs\": [")
	for i, m := range d.Motifs {
		w.item(i, "    ").raw("{\"id\": ").text(m.ID).raw(", \"silhouette\": ").text(m.Silhouette)
		w.raw(", \"at\": ").point(m.At).raw(", \"turn\": ").number(m.Turn).raw(", \"scale\": ").number(m.Scale)
		w.raw(", \"mirrored\": ").raw(strconv.FormatBool(m.Mirrored)).raw("}")
	}
	w.end(len(d.Motifs), "  ").raw("]")
	w.ties(d.Ties)
	w.raw(",\n  \"sheet\": {\"stock\": ").text(d.Sheet.Stock)
	w.raw(", \"thickness\": ").number(d.Sheet.Thickness).raw(", \"kerf\": ").number(d.Sheet.Kerf)
	w.raw(", \"bridge\": ").number(d.Sheet.Bridge).raw(", \"opening\": ").number(d.Sheet.Opening)
	if d.Sheet.Width != 0 {
		w.raw(", \"width\": ").number(d.Sheet.Width)
	}
	if d.Sheet.Height != 0 {
		w.raw(", \"height\": ").number(d.Sheet.Height)
	}
	if bed := d.Sheet.Bed; bed != nil {
		w.raw(", \"bed\": {\"width\": ").number(bed.Width).raw(", \"height\": ").number(bed.Height).raw("}")
	}
	return w.raw("}\n}\n").out
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
