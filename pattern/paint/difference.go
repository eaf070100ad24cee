// Package paint reckons what a panel is painted with: how much paste of each colour, which tubes come nearest to a
// swatch, and in which order the colours are laid. Only the engine links it.
package paint

import (
	"image/color"
	"math"

	"github.com/lucasb-eyer/go-colorful"
)

// Lab is a colour as CIE L*a*b*, under D65: L from 0 to 100.
type Lab struct{ L, A, B float64 }

// LabOf returns an sRGB colour as L*a*b*.
func LabOf(c color.RGBA) Lab {
	l, a, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.Lab()
	return Lab{100 * l, 100 * a, 100 * b} // go-colorful's run to 1
}

// Difference returns how far two colours look apart, by CIEDE2000 with the usual weights: 1 can just be told side by
// side, 10 cannot be overlooked (common practice). Source: the equations of G. Sharma, W. Wu, E. N. Dalal, Color
// Research and Application 30 (2005), 21–30, whose numbers the comments give.
func Difference(one, other Lab) float64 {
	// (2)–(7): a* is stretched where colours are dull.
	mean7 := math.Pow((math.Hypot(one.A, one.B)+math.Hypot(other.A, other.B))/2, 7)
	stretch := 1 + (1-math.Sqrt(mean7/(mean7+full7)))/2
	a1, a2 := stretch*one.A, stretch*other.A
	c1, c2 := math.Hypot(a1, one.B), math.Hypot(a2, other.B)
	h1, h2 := hue(a1, one.B), hue(a2, other.B)

	// (8)–(11). Whether hues lie more than half a circle apart is read off the sign of the sine of what lies between,
	// which is exact where angles are not: the formula jumps there.
	sine := a1*other.B - a2*one.B
	wide := h2 > h1 && sine < 0 || h1 > h2 && sine > 0
	turn := h2 - h1
	if wide {
		turn -= math.Copysign(2*math.Pi, turn)
	}
	dull := c1*c2 == 0
	if dull {
		turn = 0
	}
	dL, dC := other.L-one.L, c2-c1
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(turn/2)

	// (12)–(14)
	l, c, h := (one.L+other.L)/2, (c1+c2)/2, (h1+h2)/2
	switch {
	case dull:
		h = h1 + h2
	case wide && h1+h2 < 2*math.Pi:
		h += math.Pi
	case wide:
		h -= math.Pi
	}

	// (15)–(22)
	t := 1 - 0.17*math.Cos(h-degrees(30)) + 0.24*math.Cos(2*h) + 0.32*math.Cos(3*h+degrees(6)) -
		0.20*math.Cos(4*h-degrees(63))
	off := (h/degrees(1) - 275) / 25
	c7 := math.Pow(c, 7)
	rotation := -2 * math.Sqrt(c7/(c7+full7)) * math.Sin(degrees(60)*math.Exp(-off*off))
	sL := 1 + 0.015*(l-50)*(l-50)/math.Sqrt(20+(l-50)*(l-50))
	sC, sH := 1+0.045*c, 1+0.015*c*t
	x, y, z := dL/sL, dC/sC, dH/sH
	return math.Sqrt(math.Max(0, x*x+y*y+z*z+rotation*y*z))
}

// full7 is the chroma at which a* is hardly stretched, 25, to the seventh power.
const full7 = 25 * 25 * 25 * 25 * 25 * 25 * 25

func degrees(v float64) float64 { return v * math.Pi / 180 }

// hue returns the angle of a colour's hue from 0 to below 2π; 0 for a grey.
func hue(a, b float64) float64 {
	h := math.Atan2(b, a)
	if h < 0 {
		h += 2 * math.Pi
	}
	return h
}
