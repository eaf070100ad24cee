// Package appearance says how colours look: how light they are, in greys of so many steps, and to people with one of
// the three kinds of colour blindness.
package appearance

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"strconv"
	"strings"

	"openwork/pattern/draft"
)

// View is a way of looking at the panel.
type View string

// The ways. Values are CIE L*; those in steps show the nearest of so many greys, evenly apart in L* from black to
// white.
const (
	Plain  View = ""
	Values View = "values"
	Two    View = "2"
	Three  View = "3"
	Five   View = "5"
	Nine   View = "9"
	Protan View = "protan" // without cones for long waves
	Deutan View = "deutan" // for middle ones
	Tritan View = "tritan" // for short ones
)

// Check returns an error where there is no such view.
func (v View) Check() error {
	switch v {
	case Plain, Values, Two, Three, Five, Nine, Protan, Deutan, Tritan:
		return nil
	}
	return fmt.Errorf("%.20q is not a way to look at colours; the ways are %s, %s, %s, %s and %s for values, and %s, "+
		"%s and %s", string(v), Values, Two, Three, Five, Nine, Protan, Deutan, Tritan)
}

// Of returns a colour as the view shows it.
func (v View) Of(c color.RGBA) color.RGBA {
	switch v {
	case Values:
		return Grey(Value(c))
	case Two, Three, Five, Nine:
		steps, _ := strconv.ParseFloat(string(v), 64)
		return Grey(math.Round(Value(c)/100*(steps-1)) / (steps - 1) * 100)
	case Protan, Deutan, Tritan:
		return blind(v, c)
	}
	return c
}

// Parse reads sRGB written as #rrggbb; what is not that is black.
func Parse(hex string) color.RGBA {
	n, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 24)
	if err != nil {
		n = 0
	}
	return color.RGBA{uint8(n >> 16), uint8(n >> 8), uint8(n), 0xff}
}

// Hex writes a colour as #rrggbb.
func Hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Value returns how light a colour is as CIE L*, from 0 to 100, under the white that sRGB has (D65). Sources: IEC
// 61966-2-1 for sRGB, CIE 15 for L*.
func Value(c color.RGBA) float64 {
	y := 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	if y > 216.0/24389 {
		return 116*math.Cbrt(y) - 16
	}
	return y * 24389 / 27
}

// Grey returns the grey of an L*.
func Grey(value float64) color.RGBA {
	y := value * 27 / 24389
	if value > 8 {
		y = math.Pow((value+16)/116, 3)
	}
	g := encoded(y)
	return color.RGBA{g, g, g, 0xff}
}

// Light returns the light of each channel of sRGB, from 0 to 1.
func Light(c color.RGBA) [3]float64 { return [3]float64{linear(c.R), linear(c.G), linear(c.B)} }

// OfLight returns the sRGB colour of light in each channel; what lies outside 0 to 1 is cut off.
func OfLight(light [3]float64) color.RGBA {
	return color.RGBA{encoded(light[0]), encoded(light[1]), encoded(light[2]), 0xff}
}

// linear returns the light that a channel of sRGB stands for, from 0 to 1.
func linear(channel uint8) float64 {
	v := float64(channel) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// encoded returns the channel of sRGB for some light; what lies outside 0 to 1 is cut off.
func encoded(light float64) uint8 {
	light = math.Max(0, math.Min(1, light))
	if light <= 0.0031308 {
		return uint8(math.Round(255 * 12.92 * light))
	}
	return uint8(math.Round(255 * (1.055*math.Pow(light, 1/2.4) - 0.055)))
}

// blindness holds, for linear sRGB, what light of each channel looks like. Source: G. M. Machado, M. M. Oliveira, L. A.
// F. Fernandes, "A Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE Transactions on
// Visualization and Computer Graphics 15 (2009), the matrices that the authors publish for severity 1.
var blindness = map[View][3][3]float64{
	Protan: {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	Deutan: {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	Tritan: {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

func blind(v View, c color.RGBA) color.RGBA {
	light := Light(c)
	var out [3]float64
	for i, row := range blindness[v] {
		out[i] = row[0]*light[0] + row[1]*light[1] + row[2]*light[2]
	}
	return OfLight(out)
}

// Palette is the colours of a draft's paint as a view shows them.
type Palette struct {
	Ground    color.RGBA
	HasGround bool         // a ground is named
	Colours   []color.RGBA // by number
}

// PaletteOf returns the palette of a draft.
func PaletteOf(d draft.Draft, v View) Palette {
	var out Palette
	if d.Paint == nil {
		return out
	}
	if s, ok := d.Swatch(d.Paint.Ground); ok {
		out.Ground, out.HasGround = v.Of(Parse(s.Colour)), true
	}
	for _, id := range d.Paint.Colours {
		s, _ := d.Swatch(id)
		out.Colours = append(out.Colours, v.Of(Parse(s.Colour)))
	}
	return out
}

// Of returns the colour of a number, or the usual one where the paint has none.
func (p Palette) Of(number int, usual color.RGBA) color.RGBA {
	if number < 0 || number >= len(p.Colours) {
		return usual
	}
	return p.Colours[number]
}

// SubjectColour is what subjects are drawn in, as a draft has no swatch for them.
const SubjectColour = "#3b363a"

// Close is two swatches that lie near each other in value, or a swatch and the subjects.
type Close struct {
	One, Other string // ids; Other is "" for the subjects
	Apart      float64
}

// Text says it in words.
func (c Close) Text(d draft.Draft) string {
	one, _ := d.Swatch(c.One)
	name := "the subject"
	if len(d.Subjects) > 1 {
		name = "the subjects"
	}
	if other, ok := d.Swatch(c.Other); ok {
		name = other.Name
	}
	text := fmt.Sprintf("%s and %s lie %.1f apart in value (L*): from across the room they run together.", one.Name,
		name, c.Apart)
	if c.Other == "" {
		text += fmt.Sprintf(" The subject counts as it is drawn here, at L* %.0f.", Value(Parse(SubjectColour)))
	}
	return text
}

// CloseBy is how near in L* two colours can hardly be told apart by value: a tenth of the scale, as painters' scales of
// nine to eleven steps have it (common practice).
const CloseBy = 10

// CloseOf returns the pairs among the ground and the colours of a draft, and the subjects as they are drawn, that lie
// within CloseBy of each other.
func CloseOf(d draft.Draft) []Close {
	if d.Paint == nil {
		return nil
	}
	ids := append([]string{}, d.Paint.Colours...)
	if g := d.Paint.Ground; g != "" && !slices.Contains(ids, g) {
		ids = append([]string{g}, ids...)
	}
	var out []Close
	for i, one := range ids {
		for _, other := range ids[i+1:] {
			a, _ := d.Swatch(one)
			b, _ := d.Swatch(other)
			if apart := math.Abs(Value(Parse(a.Colour)) - Value(Parse(b.Colour))); apart < CloseBy {
				out = append(out, Close{one, other, apart})
			}
		}
	}
	if len(d.Subjects) == 0 {
		return out
	}
	for _, id := range ids {
		s, _ := d.Swatch(id)
		if apart := math.Abs(Value(Parse(s.Colour)) - Value(Parse(SubjectColour))); apart < CloseBy {
			out = append(out, Close{One: id, Apart: apart})
		}
	}
	return out
}
