package pattern

import "strings"

// tie reads one tie. All its keys must be there; the silhouette is null for a tie of the field.
func (r *reader) tie() (t Tie) {
	r.object([]member{
		{"silhouette", true, func() { t.Silhouette = r.textOrNull() }},
		{"from", true, func() { t.From = r.point() }},
		{"to", true, func() { t.To = r.point() }},
		r.numberAt("width", true, &t.Width),
	})
	return t
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

// ties writes the ties, a line for each; nothing where there are none.
func (w *writer) ties(ties []Tie) {
	if len(ties) == 0 {
		return
	}
	w.raw(",\n  \"ties\": [")
	for i, t := range ties {
		w.item(i, "    ").raw("{\"silhouette\": ")
		if t.Silhouette == "" {
			w.raw("null")
		} else {
			w.text(t.Silhouette)
		}
		w.raw(", \"from\": ").point(t.From).raw(", \"to\": ").point(t.To).raw(", \"width\": ").number(t.Width).raw("}")
	}
	w.end(len(ties), "  ").raw("]")
}
