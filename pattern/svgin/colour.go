package svgin

import (
	"math"
	"strconv"
	"strings"

	"golang.org/x/image/colornames"
)

// paint is what a fill or a stroke comes to.
type paint int

const (
	noPaint paint = iota
	ink
	paper    // as light as paper, or with Options.Invert as dark as its reverse
	gradient // a gradient or pattern: it has a shape, but no one colour
)

// paintOf reads a fill or stroke. Opacity only matters where nothing is left.
func (d *drawing) paintOf(s style, value string, alpha float64) paint {
	if alpha*s.opacity <= 0 {
		return noPaint
	}
	value = strings.TrimSpace(value)
	if id, rest, ok := urlOf(value); ok {
		if e := d.ids[strings.TrimPrefix(id, "#")]; e != nil {
			switch e.name {
			case "linearGradient", "radialGradient", "pattern":
				return gradient
			}
		}
		if rest = strings.TrimSpace(rest); rest == "" {
			return noPaint
		}
		value = rest
	}

	if strings.EqualFold(value, "currentcolor") {
		value = s.color
	}
	light, alpha, ok := colour(value)
	switch {
	case strings.EqualFold(value, "none"), alpha <= 0:
		return noPaint
	case ok && !d.invert && light >= paperLight, ok && d.invert && light <= 1-paperLight:
		return paper
	}
	return ink
}

// urlOf reads url(…) and what stands after it.
func urlOf(value string) (url, rest string, ok bool) {
	if len(value) < 5 || !strings.EqualFold(value[:4], "url(") {
		return "", "", false
	}
	shut := strings.IndexByte(value, ')')
	if shut < 0 {
		return "", "", false
	}
	return strings.Trim(strings.TrimSpace(value[4:shut]), `"'`), value[shut+1:], true
}

// validPaint says whether a value, in small letters, is a paint at all: one that is not leaves what was there before.
func validPaint(s string) bool {
	switch s {
	case "none", "currentcolor", "context-fill", "context-stroke", "canvastext", "windowtext", "buttontext", "canvas":
		return true
	}
	if strings.HasPrefix(s, "url(") {
		return true
	}
	_, _, ok := colour(s)
	return ok
}

// colour returns how light a colour is, from 0 to 1, and how opaque; ok is false for what is no colour. Colours in
// spaces that are not known here are taken as dark.
func colour(s string) (light, alpha float64, ok bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	if s == "transparent" {
		return 0, 0, true
	}
	if c, ok := colornames.Map[s]; ok {
		return lightness(float64(c.R)/255, float64(c.G)/255, float64(c.B)/255), 1, true
	}
	if strings.HasPrefix(s, "#") {
		s, _, _ = strings.Cut(s[1:], " ")
		return hexColour(s)
	}
	name, inner, _ := strings.Cut(s, "(")
	switch name {
	case "rgb", "rgba":
		c, ok := components(inner, [4]float64{255, 255, 255, 1})
		return lightness(c[0], c[1], c[2]), c[3], ok
	case "hsl", "hsla":
		c, ok := components(inner, [4]float64{360, 100, 100, 1})
		at := func(n float64) float64 { // CSS Color 4, section 7.1
			k := math.Mod(math.Mod(n+c[0]*12, 12)+12, 12)
			return c[2] - c[1]*math.Min(c[2], 1-c[2])*math.Max(-1, math.Min(math.Min(k-3, 9-k), 1))
		}
		return lightness(at(0), at(8), at(4)), c[3], ok
	case "hwb", "lab", "lch", "oklab", "oklch", "color", "color-mix", "device-cmyk":
		return 0, 1, inner != ""
	case "canvastext", "windowtext", "buttontext", "context-fill", "context-stroke":
		return 0, 1, true
	case "canvas":
		return 1, 1, true
	}
	return 0, 1, false
}

// lightness returns how light red, green and blue from 0 to 1 are together (ITU-R BT.601).
func lightness(r, g, b float64) float64 { return 0.299*r + 0.587*g + 0.114*b }

// hexColour reads three, four, six or eight hexadecimal digits.
func hexColour(s string) (light, alpha float64, ok bool) {
	digits := 1
	switch len(s) {
	case 3, 4:
	case 6, 8:
		digits = 2
	default:
		return 0, 1, false
	}
	c := [4]float64{3: 1}
	for k := 0; k*digits < len(s); k++ {
		v, err := strconv.ParseUint(s[k*digits:(k+1)*digits], 16, 8)
		if err != nil {
			return 0, 1, false
		}
		c[k] = float64(v) / []float64{15, 255}[digits-1]
	}
	return lightness(c[0], c[1], c[2]), c[3], true
}

// components reads three or four numbers, each divided by what is whole, or by 100 if it is in per cent. Colours are
// held within 0 and 1, but for an angle.
func components(s string, whole [4]float64) (c [4]float64, ok bool) {
	c[3] = 1
	n := numbers{s}
	for k := range c {
		n.s = strings.TrimLeft(n.s, " ,/\t\r\n")
		v, some := n.number()
		if !some {
			return c, k == 3 && strings.HasPrefix(n.s, ")") || k == 3 && n.s == ""
		}
		per := whole[k]
		switch {
		case strings.HasPrefix(n.s, "%"):
			n.s, per = n.s[1:], 100
		case strings.HasPrefix(n.s, "deg"):
			n.s = n.s[3:]
		case strings.HasPrefix(n.s, "turn"):
			n.s, per = n.s[4:], 1
		}
		if c[k] = v / per; whole[k] != 360 {
			c[k] = math.Max(0, math.Min(1, c[k]))
		}
	}
	return c, true
}
