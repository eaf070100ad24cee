package jobsheet

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/measure"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/qr"
	"openwork/pattern/sheet"
	"openwork/pattern/study/pages"
)

// cautions are those of the trade that a cut stencil asks for, by how it is cut.
func cautions(how draft.How) []string {
	var out []string
	switch how {
	case draft.Laser:
		out = append(out, "Never laser PVC, vinyl or anything with chlorine in it: it gives off hydrogen chloride. "+
			"Polycarbonate, polystyrene, ABS and unknown plastics are not for the laser either.",
			"Thin film and card can ignite: keep the air on, clear the drop-outs first, and have the means to put a "+
				"fire out at hand.",
			"Fumes need extraction; a running laser is never left alone. The shop's own material list and the maker's "+
				"safety data sheet decide.")
	case draft.Waterjet:
		out = append(out, "The jet cuts whatever is under it: hands stay away while the pump is on. Card, paper and "+
			"wood take up water; clear the drop-outs first. The shop's own material list decides.")
	case draft.Knife:
		out = append(out, "The blade is as sharp as a scalpel: take it out before the machine is cleaned, and clear "+
			"the drop-outs first. The shop's own material list decides.")
	}
	return append(out, "Sanding acrylic, gesso and pigment makes dust: wet-sand or extract, and wear a fitted "+
		"respirator; some pigments are toxic.",
		"Knives and freshly cut edges: cut away from the hand, against a guard.",
		"All of these defer to local rules and to the people licensed to run the machine.")
}

// maxHoles and maxPlaces are how many registration holes and positions are named one by one.
const maxHoles, maxPlaces = 8, 12

// second is the page of the shop's questions: what it asks, what to beware of, and the draft itself.
func (j *job) second(code *qr.Code, why string) {
	j.begin(6.5, 1)
	wide := j.right() - margin
	if len(j.o.Chosen) > 0 {
		j.head(margin, wide, "What is cut")
		for _, s := range j.o.Chosen {
			j.text(pages.Ink, margin, wide, s)
		}
		j.y -= 2
	}
	j.head(margin, wide, "What the shop asks")
	for _, r := range j.questions() {
		j.row(margin, wide, r)
		j.y -= 0.25 * lead
	}
	j.y -= 2
	for _, g := range j.later {
		j.room(j.high(wide, g.rows))
		j.group(margin, wide, g)
	}
	j.room(16 * lead)
	j.head(margin, wide, "Cautions")
	for _, s := range cautions(j.l.Draft.Sheet.How()) {
		j.text(pages.Ink, margin, wide, s)
	}
	j.y -= 2
	if j.o.Head.Approval {
		j.room(6 * lead)
		j.approval()
	}
	j.room(leastCode)
	j.head(margin, wide, "The draft")
	if code == nil {
		j.text(pages.Ink, margin, wide, why)
		return
	}
	j.draw(code, wide)
}

// leastCode in mm is left for the code with what stands beside it.
const leastCode = 58.0

// room begins a new page where less than so many mm are left on this one.
func (j *job) room(need float64) {
	if j.y-need < margin*0.6 {
		j.begin(6.5, 1)
	}
}

// third is the page of the hand that lays the sheet.
func (j *job) third() {
	j.begin(6.5, 1)
	wide := j.right() - margin
	j.head(margin, wide, "How to lay it")
	for _, s := range j.laying() {
		j.text(pages.Ink, margin, wide, s)
	}
	j.y -= 2
	j.head(margin, wide, "Registration")
	j.text(pages.Ink, margin, wide, j.registration())
	if j.warn {
		j.y -= 2
		j.list(toLookAt, pages.Ink, j.made.Warnings)
	}
}

// laying says how the sheet is laid, step by step.
func (j *job) laying() []string {
	d, u := j.l.Draft, j.o.unit()
	place := func(p orb.Point) string {
		return fmt.Sprintf("(%s, %s)\u00a0%s", u.Figure(p[0]), u.Figure(p[1]), u.Sign())
	}
	out := []string{fmt.Sprintf("The panel is %s × %s. Places are measured from its lower left corner: first "+
		"to the right, then upward.",
		u.Figure(d.Panel.Width), u.Exact(d.Panel.Height))}
	side := "Side up as drawn"
	if j.o.Cut.Label.Height > 0 {
		side = "Side up: the label reads the right way round, and its arrow points to the panel's upper edge"
	}
	if len(j.o.Chosen) > 0 {
		out = append(out, j.o.Chosen...)
	} else if n := len(j.made.Positions); n == 1 {
		p := j.made.Positions[0]
		out = append(out, fmt.Sprintf("Lay the sheet with its middle on the panel's middle, %s. It "+
			"covers the panel and is laid once.", place(p.Middle)))
	} else {
		var places []string
		for k, p := range j.made.Positions {
			if k == maxPlaces {
				places = append(places, fmt.Sprintf("and %d more", n-k))
				break
			}
			at := fmt.Sprintf("%d: %s", k+1, place(p.Middle))
			if p.Turn != 0 {
				at += fmt.Sprintf(" turned by %s°", sheet.Trim(p.Turn, 2))
			}
			places = append(places, at)
		}
		out = append(out, fmt.Sprintf("Lay the sheet %d times, in this order, with its middle on: %s.", n,
			strings.Join(places, "; ")))
	}

	return append(out, side+". Hold it down flat before the paste goes over it, and peel it off in one go while the "+
		"paste is still soft.")
}

// registration says where the marks or holes are.
func (j *job) registration() string {
	what := "Registration marks"
	if j.o.Cut.Holes.Layer == cutplan.Cut {
		what = "Registration holes"
	}
	if len(j.made.Holes) == 0 {
		return "The cut file has no registration marks: measure the sheet's edges against the panel's."
	}
	return fmt.Sprintf("%s of %s are at %s, measured as above. Prick them through onto the panel, or onto "+
		"strips of tape beside it: a mask or a second sheet goes back on the same points.",
		what, j.o.unit().Exact(j.o.Cut.Holes.Diameter), named(j.o.unit(), j.made.Holes))
}

// named lists places.
func named(u measure.Unit, at []orb.Point) string {
	var out []string
	for k, p := range at {
		if k == maxHoles {
			out = append(out, fmt.Sprintf("and %d more", len(at)-k))
			break
		}
		out = append(out, fmt.Sprintf("(%s, %s)", u.Figure(p[0]), u.Figure(p[1])))
	}
	return strings.Join(out, ", ") + "\u00a0" + u.Sign()
}

// Sizes of the QR code, in mm: of a module at least and at most, and of the whole where it can be.
const (
	minModule, maxModule = 0.45, 1.0
	codeSide             = 55.0
)

// draw draws the QR code with what it is beside it. The quiet zone of four modules is paper.
func (j *job) draw(code *qr.Code, wide float64) {
	module := min(max(codeSide/float64(code.Size), minModule), maxModule)
	// Whatever stands above, the code stays on the page; no paper is so low that it would be unreadable.
	if room := (j.y - margin*0.6) / float64(code.Size+4); module > room {
		module = room
	}
	side := module * float64(code.Size)
	top := j.y + lead - 4*module
	c := &j.page.Content
	c.Ink(pages.Ink)
	x0 := margin
	for y := range code.Size {
		for x := 0; x < code.Size; {
			run := x
			for run < code.Size && code.Dark(run, y) {
				run++
			}
			if run > x {
				c.Rect(orb.Bound{Min: orb.Point{x0 + float64(x)*module, top - float64(y+1)*module},
					Max: orb.Point{x0 + float64(run)*module, top - float64(y)*module}})
				x = run
			}
			x++
		}
	}

	c.Fill()
	x := x0 + side + max(8*module, 6)
	j.y = top - body
	room := wide - (x - x0)
	if j.o.Address != "" {
		j.text(pages.Ink, x, room, "The code opens this draft, to look at, to check and to change, at")
		j.text(pages.Green, x, room, pdf.Fit(pdf.Sans, body, 3*room, j.o.Address))
	} else {
		j.text(pages.Ink, x, room,
			"The code holds this draft as a link from # on: it opens the draft behind the address of the page.")
	}
	if j.o.File != "" {
		j.text(pages.Faint, x, room, "The draft's file is "+pdf.Fit(pdf.Sans, body, 2*room, j.o.File)+".")
	}
	kept := "0.01\u00a0mm"
	if j.o.unit().Inches {
		kept = "0.0004\u00a0in"
	}
	j.text(pages.Faint, x, room, "Outlines in it are kept to "+kept+", everything else exactly.")
}
