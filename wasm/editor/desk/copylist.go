package desk

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/wasm/editor/desk/copies"
)

// mostListed is the longest page of the list of copies.
const mostListed = 100

// CopyList is one page of the list of the copies on the panel.
type CopyList struct {
	Total int       `json:"total"` // of all copies on the panel
	From  int       `json:"from"`  // the page's first, from 0
	Rows  []CopyRow `json:"rows"`
}

// CopyRow is a copy in the list: its name, which copy it is in words, where it lies in panel mm, and whether the margin
// or a subject's room cuts it.
type CopyRow struct {
	Copy  copyName `json:"copy"`
	Name  string   `json:"name"`
	Which string   `json:"which"`
	X     float64  `json:"x"`
	Y     float64  `json:"y"`
	Cut   bool     `json:"cut"`
	Held  bool     `json:"held"` // it is in hand
}

// listed is the list of all copies as it was last made.
type listed struct {
	revision int
	copies   []pattern.Copy
}

// Copies returns a page of the copies on the panel: motif by motif, cell by cell from the top and from the left, so
// that copies keep their order while they are moved. A page that begins beyond the end is the last one; one from −1 on
// is that of the copy in hand, or the first.
func (k *Desk) Copies(from, count int) CopyList {
	out := CopyList{Rows: []CopyRow{}}
	l := k.Session.layout
	if l == nil {
		return out
	}
	if k.listed.revision != k.Session.revision || k.listed.copies == nil {
		all, _ := l.Copies() // too many is said elsewhere
		slices.SortStableFunc(all, func(a, b pattern.Copy) int {
			return cmp.Or(cmp.Compare(a.Motif, b.Motif), cmp.Compare(b.Cell[1], a.Cell[1]),
				cmp.Compare(a.Cell[0], b.Cell[0]), cmp.Compare(a.Op, b.Op))
		})
		k.listed = listed{k.Session.revision, all}
	}

	all, motifs, sel := k.listed.copies, k.Session.motifStates(), k.Session.sel
	held := func(c pattern.Copy) bool {
		return sel.ID != "" && copies.Held{Motif: c.Motif, Op: c.Op, Cell: c.Cell} == sel.Held
	}
	count = max(1, min(count, mostListed))
	if from < 0 {
		from = max(0, slices.IndexFunc(all, held)) / count * count
	}
	if from >= len(all) {
		from = max(0, len(all)-1) / count * count
	}
	out.Total, out.From = len(all), from
	for _, c := range all[from:min(from+count, len(all))] {
		m := k.Session.Draft().Motifs[c.Motif]
		at := copies.Held{Motif: c.Motif, Op: c.Op, Cell: c.Cell}.Map(l).Apply(m.At)
		out.Rows = append(out.Rows, CopyRow{Copy: copyName{m.ID, c.Op, c.Cell}, Name: motifs[c.Motif].Name,
			Which: carriedTo(l, c.Motif, c.Op), X: at[0], Y: at[1],
			Cut: c.Cut || c.Place == geometry.Across, Held: held(c)})
	}
	return out
}

// HoldCopy takes a copy up and brings it into sight.
func (k *Desk) HoldCopy(motif string, op int, cell [2]int) error {
	i, l := k.Session.Draft().Motif(motif), k.Session.layout
	if i < 0 || l == nil || i >= len(l.Orbits) {
		return fmt.Errorf("no motif is called %.40q", motif)
	}
	known := slices.ContainsFunc(l.Orbits[i].Images, func(image pattern.Image) bool { return image.Op == op })
	if !known {
		return fmt.Errorf("%.40s has no such copy any more; choose another", motif)
	}

	k.Select(motif)
	held := copies.Held{Motif: i, Op: op, Cell: cell}
	k.Session.HoldCopy(held)
	at := held.Map(l).Apply(k.Session.Draft().Motifs[i].At)
	if !k.View.Window().Contains(orb.Point{at[0], at[1]}) {
		k.View.LookAt(at)
	}
	k.Session.Touch()
	return nil
}
