package jobsheet

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/pattern/paint"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/study/pages"
)

// patch is the side of a swatch on the page, in mm.
const patch = 9.0

// fourth is the page for the studio wall, of a draft that names colours or a ground: what is laid, in which order, with
// how much paste, and what dries between.
func (j *job) fourth() error {
	d := j.l.Draft
	p := d.PaintOf()
	if len(p.Colours) == 0 && p.Ground == "" {
		return nil
	}
	r, err := paint.Reckon(j.l, max(1, j.o.Panels), nil)
	if err != nil {
		return err
	}

	j.begin(6.5, 1)
	wide := j.right() - margin
	j.head(margin, wide, "What is laid, in this order")
	step := 0
	if s, ok := d.Swatch(p.Ground); ok {
		step++
		j.step(step, s, "Base coat: "+s.Name,
			[]string{"The whole panel. Let it dry through before a sheet lies on it."})
	}
	laying, err := paint.Order(j.l, j.o.Order)
	if err != nil {
		return err
	}
	rows := inOrder(d, r, laying)
	for k, row := range rows {
		step++
		s, named := d.Swatch(row.Swatch)
		head := s.Name
		if !named {
			s.Colour, head = "", "Paste"
		}
		if len(rows) > 1 {
			head = fmt.Sprintf("Plate %d: %s", row.plate, s.Name)
		}
		said := []string{j.taken(row.Row, r.Panels)}
		if k < len(rows)-1 {
			said = append(said, "Let it dry before the next plate lies on it.")
		}
		j.step(step, s, head, said)
	}
	j.y -= 2
	j.room(7 * lead)
	j.head(margin, wide, "How this was reckoned")
	u := j.o.unit()
	j.text(pages.Ink, margin, wide,
		fmt.Sprintf("Paste stands as thick as the sheet, %s; %.0f\u00a0%% more is laid and "+
			"taken off again, and a tub's paste keeps %.0f\u00a0%% of its volume when it dries. It weighs "+
			"%.3g\u00a0g/ml. "+
			"These are the painter's figures, or common practice; the maker of the paste states its own.",
			u.Fine(d.Sheet.Thickness), 100*p.Waste, 100*p.DryOfWet, p.Density))
	if len(rows) > 1 {
		for _, s := range j.why(laying) {
			j.text(pages.Ink, margin, wide, s)
		}
		j.text(pages.Ink, margin, wide, orders[j.o.Order]+" All plates have their registration at the same places: "+
			"prick it through once, with the first.")
	}
	if len(rows) > 1 && len(j.o.Chosen) == 0 { // those who step or join have a key of their own
		j.y -= 2
		j.room(5 * lead)
		j.head(margin, wide, "With one stencil for all")
		j.text(pages.Ink, margin, wide, pages.KeyWords(d)+" The study has the numbers in the openings.")
	}
	for _, c := range appearance.CloseOf(d) {
		j.text(pages.Ink, margin, wide, c.Text(d))
	}
	return nil
}

// orders says in which order plates are laid that do not lie on each other, by the option.
var orders = map[paint.By]string{
	paint.DarkFirst: "Plates are laid from dark to light, so that the lighter covers what ran over an edge (common " +
		"practice).",
	paint.LightFirst: "Plates are laid from light to dark.",
	paint.AsListed:   "Plates are laid as the painter's list has them.",
}

// laidRow is a row of the reckoning, and the number of its plate.
type laidRow struct {
	paint.Row
	plate int
}

// inOrder returns the rows of a reckoning as they are laid.
func inOrder(d draft.Draft, r *paint.Reckoning, laying paint.Laying) []laidRow {
	plates := map[string]laidRow{}
	for i, row := range r.Swatches {
		plates[row.Swatch] = laidRow{row, i + 1}
	}
	var out []laidRow
	for _, n := range laying.Order {
		id := ""
		if n >= 0 {
			id = d.Paint.Colours[n]
		}
		if row, ok := plates[id]; ok {
			out = append(out, row)
		}
	}
	return out
}

// why says of each pair of colours that lie on each other or touch which goes first, and why.
func (j *job) why(laying paint.Laying) (out []string) {
	d, u := j.l.Draft, j.o.unit()
	name := func(number int) string {
		s, _ := d.Swatch(d.Paint.Colours[number])
		return s.Name
	}
	for _, p := range laying.Pairs {
		first, then := name(p.First), name(p.Then)
		switch {
		case p.On == 0 && p.Under == 0:
			out = append(out, fmt.Sprintf("%s and %s touch: %s, laid later, covers what ran over their edge.", first,
				then, then))
		case p.Under > p.On:
			out = append(out, fmt.Sprintf("%s lies on %s over %s, and is laid before it all the same: what is seen "+
				"there is %s.", first, then, u.Surface(p.Under), then))
		case p.Under > 0:
			out = append(out, fmt.Sprintf("%s goes after %s: it lies on it over %s, and %s on it over %s only.", then,
				first, u.Surface(p.On), first, u.Surface(p.Under)))
		default:
			out = append(out, fmt.Sprintf("%s goes after %s: it lies on it over %s.", then, first, u.Surface(p.On)))
		}
	}
	return out
}

// taken says what a colour takes.
func (j *job) taken(r paint.Row, panels int) string {
	u := j.o.unit()
	tubs := fmt.Sprintf("%d tubs", r.All.Tubs)
	if r.All.Tubs == 1 {
		tubs = "1 tub"
	}
	openings := fmt.Sprintf("%d openings", r.Openings)
	if r.Openings == 1 {
		openings = "1 opening"
	}
	of := ""
	if panels > 1 {
		of = fmt.Sprintf(" for %d panels", panels)
	}
	return fmt.Sprintf("%s, %s; %s of wet paste%s, %s: %s of %s.", openings, u.Surface(r.Area), u.Volume(r.All.Wet), of,
		u.Weight(r.All.Grams), tubs, u.Volume(j.l.Draft.PaintOf().Tub))
}

// step writes one step of the laying, with its swatch beside it.
func (j *job) step(number int, s draft.Swatch, head string, said []string) {
	j.room(5 * lead)
	x, top := margin+patch+5, j.y
	if s.Colour != "" {
		c := appearance.Parse(s.Colour)
		j.page.Ink(pdf.RGB{R: c.R, G: c.G, B: c.B})
		box := orb.Bound{Min: orb.Point{margin, top + body - patch}, Max: orb.Point{margin + patch, top + body}}
		j.page.Rect(box)
		j.page.Fill()
		j.page.Line(hair, pages.Faint)
		j.page.Rect(box)
		j.page.Stroke()
		head += fmt.Sprintf(", L*\u00a0%.0f", paint.ValueOf(s))
	}
	wide := j.right() - x
	j.page.Ink(pages.Ink)
	j.page.Text(pdf.SansBold, body, x, j.y, pdf.Fit(pdf.SansBold, body, wide, fmt.Sprintf("%d.  %s", number, head)))
	j.y -= lead
	if s.Note != "" {
		j.text(pages.Faint, x, wide, s.Note)
	}
	j.text(pages.Ink, x, wide, strings.Join(said, " "))
	j.y = min(j.y, top-patch-1.5)
}
