package draft

import (
	"fmt"
	"strconv"
	"strings"
)

// nouns name the lists that have IDs, one and several.
var nouns = map[Items]string{Silhouettes: "silhouette", Motifs: "motif", Swatches: "swatch"}

// has reports whether a list has an item with an ID.
func (d Draft) has(list Items, id string) bool {
	switch list {
	case Motifs:
		return d.Motif(id) >= 0
	case Swatches:
		return d.SwatchIndex(id) >= 0
	}
	_, ok := d.Silhouette(id)
	return ok
}

// IDs returns the IDs of a list, in its order.
func (d Draft) IDs(list Items) []string {
	var out []string
	switch list {
	case Motifs:
		for _, m := range d.Motifs {
			out = append(out, m.ID)
		}
	case Swatches:
		for _, s := range d.Swatches {
			out = append(out, s.ID)
		}
	default:
		for _, s := range d.Silhouettes {
			out = append(out, s.ID)
		}
	}
	return out
}

// unknown is the sentence for a name that no item of a list has, empty where one has it. It lists those that there are,
// the first few.
func (d Draft) unknown(list Items, id string) string {
	if d.has(list, id) {
		return ""
	}
	const few = 8
	ids := d.IDs(list)
	var names []string
	for _, id := range ids[:min(few, len(ids))] {
		names = append(names, strconv.Quote(id))
	}
	text := fmt.Sprintf("no %s is called %.40q; there ", nouns[list], id)
	switch n := len(ids); {
	case n == 0:
		return text + "is none"
	case n > few:
		return text + fmt.Sprintf("are %s and %d more", strings.Join(names, ", "), n-few)
	case n == 1:
		return text + "is " + names[0]
	}
	return text + "are " + strings.Join(names, ", ")
}
