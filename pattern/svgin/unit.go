package svgin

import (
	"openwork/pattern/outline"

	"math"
	"strings"
)

// matrix maps (x, y) to (a·x + c·y + e, b·x + d·y + f), as SVG writes it.
type matrix struct{ a, b, c, d, e, f float64 }

var unity = matrix{a: 1, d: 1}

// after returns the map that does n first and then m.
func (m matrix) after(n matrix) matrix {
	return matrix{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f}
}

func (m matrix) apply(p [2]float64) [2]float64 {
	return [2]float64{m.a*p[0] + m.c*p[1] + m.e, m.b*p[0] + m.d*p[1] + m.f}
}

// inverse returns the map back, of one that has an inverse.
func (m matrix) inverse() matrix {
	q := m.a*m.d - m.b*m.c
	return matrix{m.d / q, -m.b / q, -m.c / q, m.a / q, (m.c*m.f - m.d*m.e) / q, (m.b*m.e - m.a*m.f) / q}
}

// stretch returns the most that the map lengthens anything by.
func (m matrix) stretch() float64 {
	p, q := (m.a*m.a+m.b*m.b+m.c*m.c+m.d*m.d)/2, m.a*m.d-m.b*m.c
	return math.Sqrt(p + math.Sqrt(math.Max(0, p*p-q*q)))
}

// numbers reads what may be separated by spaces and commas, or by nothing where a sign or a point tells.
type numbers struct{ s string }

func (n *numbers) space() {
	n.s = strings.TrimLeft(n.s, " \t\r\n\f,")
}

// number reads one number; ok is false, and nothing is taken, where there is none.
func (n *numbers) number() (v float64, ok bool) {
	n.space()
	s, i := n.s, 0
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	digits := func() int {
		k := i
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			i++
		}
		return i - k
	}
	d := digits()
	if i < len(s) && s[i] == '.' {
		i++
		d += digits()
	}
	if d == 0 {
		return 0, false
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		k := i
		i++
		if i < len(s) && (s[i] == '+' || s[i] == '-') {
			i++
		}
		if digits() == 0 {
			i = k // the unit em, or the like
		}
	}

	v, ok = parseFloat(s[:i])
	n.s = s[i:]
	return v, ok
}

// flag reads one digit, 0 or 1, which may stand right before the next number.
func (n *numbers) flag() (v, ok bool) {
	n.space()
	if n.s == "" || n.s[0] != '0' && n.s[0] != '1' {
		return false, false
	}
	v, n.s = n.s[0] == '1', n.s[1:]
	return v, true
}

// viewport is what lengths in per cent refer to, and the letter height that em stands for, in user units.
type viewport struct{ width, height, em float64 }

func (v viewport) across(s string) (float64, bool)  { return length(s, v.width, v.em) }
func (v viewport) down(s string) (float64, bool)    { return length(s, v.height, v.em) }
func (v viewport) neither(s string) (float64, bool) { return length(s, v.diagonal(), v.em) }

// pxPer is how many CSS pixels a unit has (CSS Values and Units, section 6.2).
var pxPer = map[string]float64{"": 1, "px": 1, "mm": 96 / outline.MMPerInch, "cm": 960 / outline.MMPerInch,
	"q":  24 / outline.MMPerInch,
	"in": 96, "pt": 96. / 72, "pc": 16, "rem": initialFont}

// emPer is how many letter heights a unit has; where the letters are not known, half of one (section 6.1.1 there).
var emPer = map[string]float64{"em": 1, "ex": 0.5, "ch": 0.5}

// length reads a length in user units. Per cent are of whole, and em is a letter's height. ok is false where there is
// none.
func length(s string, whole, em float64) (v float64, ok bool) {
	n := numbers{s}
	v, ok = n.number()
	if !ok {
		return 0, false
	}
	unit := strings.ToLower(strings.TrimSpace(n.s))
	if unit == "%" {
		return v / 100 * whole, true
	}
	if per, ok := emPer[unit]; ok {
		return v * per * em, true
	}
	per, ok := pxPer[unit]
	return v * per, ok
}

// viewBox reads four numbers; ok is false where there are none, or no size.
func viewBox(s string) (box [4]float64, ok bool) {
	n := numbers{s}
	for k := range box {
		if box[k], ok = n.number(); !ok {
			return box, false
		}
	}
	n.space()
	return box, n.s == "" && box[2] > 0 && box[3] > 0
}

// fitBox returns the map that lays a viewBox into a viewport at the origin (SVG 2, section 8.2 and 8.6).
func fitBox(box [4]float64, width, height float64, aspect string) matrix {
	sx, sy := width/box[2], height/box[3]
	words := strings.Fields(strings.TrimPrefix(strings.TrimSpace(aspect), "defer")) // of old, without meaning here
	align := "xMidYMid"
	if len(words) > 0 {
		align = words[0]
	}
	if align == "none" {
		return matrix{sx, 0, 0, sy, -box[0] * sx, -box[1] * sy}
	}
	s := math.Min(sx, sy)
	if len(words) > 1 && words[1] == "slice" {
		s = math.Max(sx, sy)
	}
	place := func(low, high string) float64 {
		switch {
		case strings.Contains(align, low):
			return 0
		case strings.Contains(align, high):
			return 1
		}
		return 0.5
	}

	return matrix{s, 0, 0, s,
		-box[0]*s + place("xMin", "xMax")*(width-box[2]*s),
		-box[1]*s + place("YMin", "YMax")*(height-box[3]*s)}
}

// diagonal is what lengths refer to that are neither across nor down.
func (v viewport) diagonal() float64 { return math.Hypot(v.width, v.height) / math.Sqrt2 }
