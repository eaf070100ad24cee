package jobsheet

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern/cutplan"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/qr"
	"openwork/pattern/study/pages"
)

// cautions are those of the trade that a cut stencil asks for, whoever holds the sheet.
var cautions = []string{
	"Never laser PVC, vinyl or anything with chlorine in it: it gives off hydrogen chloride. Polycarbonate, ABS and " +
		"unknown plastics are not for the laser either.",
	"Fumes need extraction; a running laser is never left alone. The shop's own material list and the maker's safety " +
		"data sheet decide.",
	"Sanding acrylic, gesso and pigment makes dust: wet-sand or extract, and wear a fitted respirator; some pigments " +
		"are toxic.",
	"Knives and freshly cut edges: cut away from the hand, against a guard.",
	"All of these defer to local rules and to the people licensed to run the machine.",
}

// maxHoles and maxPlaces are how many registration holes and positions are named one by one.
const maxHoles, maxPlaces = 8, 12

// second is the page of the hand: how the sheet is laid, what to beware of, and the draft itself.
func (j *job) second(code *qr.Code, why string) {
	j.begin(6.5, 1)
	wide := j.right() - margin
	j.head(margin, wide, "How to lay it")
	for _, s := range j.laying() {
		j.text(pages.Ink, margin, wide, s)
	}
	j.y -= 2
	j.head(margin, wide, "Registration")
	j.text(pages.Ink, margin, wide, j.registration())
	j.y -= 2
	j.head(margin, wide, "Cautions")
	for _, s := range cautions {
		j.text(pages.Ink, margin, wide, s)
	}
	j.y -= 2
	j.head(margin, wide, "The draft")
	if code == nil {
		j.text(pages.Ink, margin, wide, why)
		return
	}
	j.draw(code, wide)
}

// laying says how the sheet is laid, step by step.
func (j *job) laying() []string {
	d := j.l.Draft
	out := []string{fmt.Sprintf("The panel is %s × %s\u00a0mm. Places are measured from its lower left corner: first "+
		"to the right, then upward.",
		length(d.Panel.Width), length(d.Panel.Height))}
	side := "Side up as drawn"
	if j.o.Cut.Label.Height > 0 {
		side = "Side up: the label reads the right way round, and its arrow points to the panel's upper edge"
	}
	if len(j.o.Chosen) > 0 {
		out = append(out, j.o.Chosen...)
	} else if n := len(j.made.Positions); n == 1 {
		p := j.made.Positions[0]
		out = append(out, fmt.Sprintf("Lay the sheet with its middle on the panel's middle, (%s, %s)\u00a0mm. It "+
			"covers the panel and is laid once.", length(p.Middle[0]), length(p.Middle[1])))
	} else {
		var places []string
		for k, p := range j.made.Positions {
			if k == maxPlaces {
				places = append(places, fmt.Sprintf("and %d more", n-k))
				break
			}
			at := fmt.Sprintf("%d: (%s, %s)\u00a0mm", k+1, length(p.Middle[0]), length(p.Middle[1]))
			if p.Turn != 0 {
				at += fmt.Sprintf(" turned by %s°", length(p.Turn))
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
	return fmt.Sprintf("%s of %s\u00a0mm are at %s, measured as above. Prick them through onto the panel, or onto "+
		"strips of tape beside it: a mask or a second sheet goes back on the same points.",
		what, length(j.o.Cut.Holes.Diameter), named(j.made.Holes))
}

// named lists places.
func named(at []orb.Point) string {
	var out []string
	for k, p := range at {
		if k == maxHoles {
			out = append(out, fmt.Sprintf("and %d more", len(at)-k))
			break
		}
		out = append(out, fmt.Sprintf("(%s, %s)", length(p[0]), length(p[1])))
	}
	return strings.Join(out, ", ") + "\u00a0mm"
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
	j.text(pages.Faint, x, room, "Outlines in it are kept to 0.01\u00a0mm, everything else exactly.")
}
