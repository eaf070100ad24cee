package study

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"github.com/fogleman/gg"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// Small draws the draft's motifs as they would lie in another plane group, on a transparent ground, in the colours of
// the paint, or in black where it has none. The cell takes the
// shape that choosing the group would give it, and is opened or closed so that each copy keeps the room it has now:
// else groups of many operations would show a heap. Width and height in px.
func Small(d draft.Draft, group string, width, height int, cache *pattern.Shapes) (image.Image, error) {
	if err := smallEnough(width, height); err != nil {
		return nil, err
	}
	room, err := cellPerOp(d)
	if err != nil {
		return nil, err
	}
	d, err = pattern.Apply(d, pattern.Command{Name: "group", Text: group})
	if err != nil {
		return nil, err
	}
	if d, err = roomy(d, room); err != nil {
		return nil, err
	}
	return field(d, width, height, cache, 12)
}

// Coloured draws the draft's field as it is, on a transparent ground, over so much of it that each colour of a
// perfect colouring can show several times. Width and height in px.
func Coloured(d draft.Draft, width, height int, cache *pattern.Shapes) (image.Image, error) {
	if err := smallEnough(width, height); err != nil {
		return nil, err
	}
	return field(d, width, height, cache, max(12, 5*len(d.PaintOf().Colours)))
}

func smallEnough(width, height int) error {
	if width < 8 || height < 8 || width > 1000 || height > 1000 {
		return fmt.Errorf("a small picture is from 8 to 1000 px wide and high, not %d × %d", width, height)
	}
	return nil
}

// field draws the field round the middle of a cell: a cell and a half, or as many as hold about so many copies.
func field(d draft.Draft, width, height int, cache *pattern.Shapes, copies int) (image.Image, error) {
	l, err := pattern.NewLayout(d, cache)
	if err != nil {
		return nil, err
	}
	c := gg.NewContext(width, height)
	c.SetFillRuleEvenOdd()
	scale := math.Sqrt(float64(width*height) / shownArea(l, copies))
	middle := l.Cell.Basis().Apply(orb.Point{0.5, 0.5})
	toPX := geometry.Map{A: scale, D: -scale, X: float64(width)/2 - scale*middle[0], Y: float64(height)/2 +
		scale*middle[1]}
	half := orb.Point{float64(width) / 2 / scale, float64(height) / 2 / scale}
	window := orb.Bound{Min: orb.Point{middle[0] - half[0], middle[1] - half[1]},
		Max: orb.Point{middle[0] + half[0], middle[1] + half[1]}}
	drawn, palette := 0, appearance.PaletteOf(d, appearance.Plain)
	for _, o := range l.Orbits {
		for _, i := range o.Images {
			l.Cells(window, i.Bound(), func(m, n int) bool {
				c.SetColor(palette.Of(l.ColourOf(o.Motif, i.Op, m, n), color.RGBA{A: 0xff}))
				trace(c, o.Shape, toPX.After(l.Op(i.Op, m, n)).After(o.Place))
				c.Fill()
				drawn++
				return drawn < maxDrawn
			})
		}
	}
	return c.Image(), nil
}

// maxDrawn bounds the copies in one small picture.
const maxDrawn = 600

// cellPerOp returns the area of the draft's cell for each operation of its group, in mm².
func cellPerOp(d draft.Draft) (float64, error) {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return 0, err
	}
	return d.Repeat.Cell().Area() / float64(len(g.Ops)), nil
}

// roomy gives the cell the area per operation in mm², in its own proportion.
func roomy(d draft.Draft, perOp float64) (draft.Draft, error) {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return d, err
	}
	f := math.Sqrt(perOp * float64(len(g.Ops)) / d.Repeat.Cell().Area())
	return pattern.Apply(d, pattern.Command{Name: "cell",
		Values: map[string]float64{"a": d.Repeat.A * f, "b": d.Repeat.B * f}})
}

// shownArea is how much of the field a small picture shows, in mm²: one cell and a half, or as many as hold so many
// copies.
func shownArea(l *pattern.Layout, copies int) float64 {
	return l.Cell.Area() * math.Max(1.5, float64(copies)/math.Max(1, float64(l.InCell())))
}
