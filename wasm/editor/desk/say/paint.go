package say

import (
	"fmt"
	"strings"

	"openwork/pattern"
	"openwork/pattern/appearance"
)

// Paint says what the painter should know of the colours: motifs whose copies should have two at once, colours that no
// copy on the panel has, and pairs that lie near each other in value. counted is how many of the copies on the panel
// have each colour.
func (w Words) Paint(torn []int, copies int, counted map[int]int) []string {
	out := []string{}
	d := w.Draft
	for _, i := range torn {
		s, _ := d.Silhouette(d.Motifs[i].Silhouette)
		out = append(out, fmt.Sprintf("%s stands on a mirror or a rotation point that carries its colour into "+
			"another; move it off, or each copy there has only the first.", s.Name))
	}

	var missing []string
	for i, id := range d.Paint.Colours {
		if counted[i] == 0 {
			s, _ := d.Swatch(id)
			missing = append(missing, s.Name)
		}
	}
	if n := len(missing); n > 0 && copies > 0 {
		held := fmt.Sprintf("%d copies", copies)
		if copies == 1 {
			held = "1 copy"
		}
		out = append(out, fmt.Sprintf("The panel holds %s, and none in %s: make the cell smaller, or take fewer "+
			"colours.", held, listed(missing, "or")))
	}

	for _, c := range appearance.CloseOf(d) {
		out = append(out, c.Text(d))
	}
	return out
}

// listed writes names as a list, the first few.
func listed(names []string, and string) string {
	const few = 3
	if n := len(names) - few; n > 1 {
		names = append(names[:few:few], fmt.Sprintf("%d more", n))
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " " + and + " " + names[last]
}

// paint is what the closed step says.
func (w Words) paint() string {
	p := w.Draft.PaintOf()
	n := len(p.Colours)
	text := "One colour"
	switch {
	case n == 0 && p.Ground == "":
		return "One colour, none named"
	case n == 1:
		s, _ := w.Draft.Swatch(p.Colours[0])
		text = s.Name
	case n > 1 && p.Perms != nil:
		text = fmt.Sprintf("%d colours by symmetry", len(p.Perms.A))
		if more := n - len(p.Perms.A); more > 0 {
			text += fmt.Sprintf(" and %d more", more)
		}
	case n > 1:
		text = fmt.Sprintf("%d colours", n)
	}
	if s, ok := w.Draft.Swatch(p.Ground); ok {
		text += " on " + strings.ToLower(s.Name)
	}
	return strings.TrimSuffix(pattern.Sentence(text), ".")
}
