package subject

import (
	"image/color"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
)

// values are those of the ground and of what copies are filled with.
type values struct {
	ground, paste float64
	colours       []float64
}

func valuesOf(l *pattern.Layout) values {
	palette := appearance.PaletteOf(l.Draft, appearance.Plain)
	v := values{ground: appearance.Value(appearance.Parse(usualGround)),
		paste: appearance.Value(appearance.Parse(usualPaste))}
	if palette.HasGround {
		v.ground = appearance.Value(palette.Ground)
	}
	for _, c := range palette.Colours {
		v.colours = append(v.colours, appearance.Value(color.RGBA(c)))
	}
	return v
}

// of returns the value of a copy's paste.
func (v values) of(number int) float64 {
	if number < 0 || number >= len(v.colours) {
		return v.paste
	}
	return v.colours[number]
}

// contrast compares the subject's value with that of the field just outside its edge.
func (f *field) contrast(i int, r *Reading) {
	rings, _ := f.subjects[i].OwnRings()
	var differ []float64
	sumOf := 0.0
	for _, ring := range rings {
		length := geometry.Length(orb.MultiPolygon{{ring}})
		for n := range int(length / everyMM) {
			at := (float64(n) + 0.5) * everyMM
			p, q := pointAt(ring, at-everyMM/4), pointAt(ring, at+everyMM/4)
			u := geometry.Unit(geometry.Sub(q, p))
			for _, side := range [2]float64{1, -1} {
				out := orb.Point{(p[0]+q[0])/2 + side*besideEdge*u[1], (p[1]+q[1])/2 - side*besideEdge*u[0]}
				if !f.box.Contains(out) || f.hidden(out, -1) {
					continue
				}
				v := f.valueAt(out)
				sumOf += v
				differ = append(differ, math.Abs(v-r.Value))
				break
			}
		}
	}
	if len(differ) == 0 {
		return
	}
	slices.Sort(differ)
	for _, d := range differ {
		r.Contrast += d / float64(len(differ))
		if d < appearance.CloseBy {
			r.Lost += everyMM
		}
	}
	r.Field, r.Least = sumOf/float64(len(differ)), differ[len(differ)/20]
}

// valueAt returns the value of what is seen at a place outside the subjects.
func (f *field) valueAt(p orb.Point) float64 {
	for k := range f.openings {
		if o := &f.openings[k]; o.bound.Contains(p) && o.shape.Contains(p) {
			for _, piece := range f.survey.Pieces[k] {
				if piece.Shape.Contains(geometry.Sub(p, piece.Shift)) {
					return f.values.of(f.survey.Copies[piece.Copy].Colour)
				}
			}
			return f.values.of(f.survey.Copies[o.copy].Colour)
		}
	}
	return f.values.ground
}
