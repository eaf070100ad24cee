package outline

import (
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

// viewport is what lengths in per cent refer to, in user units.
type viewport struct{ width, height float64 }

// pxPer is how many CSS pixels a unit has (CSS Values and Units, section 6.2). A letter is taken to be 16 px high.
var pxPer = map[string]float64{"": 1, "px": 1, "mm": 96 / mmPerInch, "cm": 960 / mmPerInch, "q": 24 / mmPerInch,
	"in": 96, "pt": 96. / 72, "pc": 16, "em": 16, "rem": 16, "ex": 8, "ch": 8}

// length reads a length in user units. Per cent are of whole. ok is false where there is none.
func length(s string, whole float64) (v float64, ok bool) {
	n := numbers{s}
	v, ok = n.number()
	if !ok {
		return 0, false
	}
	unit := strings.ToLower(strings.TrimSpace(n.s))
	if unit == "%" {
		return v / 100 * whole, true
	}
	per, ok := pxPer[unit]
	return v * per, ok
}

// transform reads a list of transforms. Of a list that is in error nothing is taken: ok is false.
func transform(s string) (m matrix, ok bool) {
	m = unity
	n := numbers{s}
	for {
		n.space()
		if n.s == "" {
			return m, true
		}
		name, rest, ok := strings.Cut(n.s, "(")
		if !ok {
			return unity, false
		}
		inner, rest, _ := strings.Cut(rest, ")") // the last one may be missing
		name, n.s = strings.TrimSpace(name), rest
		args := numbers{inner}
		var v []float64
		for len(v) <= 6 {
			x, ok := args.number()
			if !ok {
				break
			}
			v = append(v, x)
		}
		next, ok := oneTransform(name, v)
		if args.space(); !ok || args.s != "" {
			return unity, false
		}
		m = m.after(next)
	}
}

func oneTransform(name string, v []float64) (matrix, bool) {
	rad := math.Pi / 180
	switch {
	case name == "matrix" && len(v) == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case name == "translate" && len(v) == 1:
		return matrix{1, 0, 0, 1, v[0], 0}, true
	case name == "translate" && len(v) == 2:
		return matrix{1, 0, 0, 1, v[0], v[1]}, true
	case name == "scale" && len(v) == 1:
		return matrix{v[0], 0, 0, v[0], 0, 0}, true
	case name == "scale" && len(v) == 2:
		return matrix{v[0], 0, 0, v[1], 0, 0}, true
	case name == "rotate" && (len(v) == 1 || len(v) == 3):
		s, c := math.Sincos(v[0] * rad)
		m := matrix{c, s, -s, c, 0, 0}
		if len(v) == 3 {
			m = matrix{1, 0, 0, 1, v[1], v[2]}.after(m).after(matrix{1, 0, 0, 1, -v[1], -v[2]})
		}
		return m, true
	case name == "skewX" && len(v) == 1:
		return matrix{1, 0, math.Tan(v[0] * rad), 1, 0, 0}, true
	case name == "skewY" && len(v) == 1:
		return matrix{1, math.Tan(v[0] * rad), 0, 1, 0, 0}, true
	}
	return unity, false
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
	words := strings.Fields(aspect)
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
	place := func(min, max string) float64 {
		switch {
		case strings.Contains(align, min):
			return 0
		case strings.Contains(align, max):
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
