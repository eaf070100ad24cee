package svgin

import (
	"math"
	"strings"
)

// transform reads a list of transforms, as the attribute has it or, with styled, as a style has it: there numbers have
// units, and parts of v are in per cent (CSS Transforms 1, chapter 12). Of a list that is in error nothing is taken: ok
// is false.
func transform(s string, styled bool, v viewport) (m matrix, ok bool) {
	m = unity
	n := numbers{s}
	if styled && strings.EqualFold(strings.TrimSpace(s), "none") {
		return m, true
	}

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
		if styled {
			name = cssName(name)
		}
		args, ok := arguments(inner, name, styled, v)
		if !ok {
			return unity, false
		}
		next, ok := oneTransform(name, args)
		if !ok {
			return unity, false
		}
		m = m.after(next)
	}
}

// arguments reads the numbers of one transform.
func arguments(s, name string, styled bool, v viewport) (out []float64, ok bool) {
	n := numbers{s}
	for len(out) <= 6 {
		x, ok := n.number()
		if !ok {
			break
		}
		if styled {
			unit, rest := word(n.s)
			if strings.HasPrefix(n.s, "%") {
				unit, rest = "%", n.s[1:]
			}
			n.s = rest
			if x, ok = withUnit(x, strings.ToLower(unit), name, len(out), v); !ok {
				return nil, false
			}
		}
		out = append(out, x)
	}
	n.space()
	return out, n.s == ""
}

// withUnit turns an angle to degrees and a length to user units. k is which argument of a transform it is.
func withUnit(x float64, unit, name string, k int, v viewport) (float64, bool) {
	switch unit {
	case "", "deg", "px":
		return x, true
	case "rad":
		return x * 180 / math.Pi, true
	case "grad":
		return x * 0.9, true
	case "turn":
		return x * 360, true
	case "%":
		switch {
		case strings.HasPrefix(strings.ToLower(name), "scale"):
			return x / 100, true
		case k == 1 || name == "translateY":
			return x / 100 * v.height, true
		}
		return x / 100 * v.width, true
	}

	if per, ok := emPer[unit]; ok {
		return x * per * v.em, true
	}
	per, ok := pxPer[unit]
	return x * per, ok
}

// cssName returns the name of a transform, however its letters are written.
func cssName(name string) string {
	for _, known := range []string{"matrix", "translate", "translateX", "translateY", "scale", "scaleX", "scaleY",
		"rotate", "skew",
		"skewX", "skewY"} {
		if strings.EqualFold(name, known) {
			return known
		}
	}
	return name
}

// about returns the map m taken about an origin: two words or lengths, of a box with its corner at x, y.
func about(m matrix, origin string, x, y float64, v viewport) matrix {
	at := [2]float64{v.width / 2, v.height / 2}
	words := strings.Fields(origin)
	if len(words) == 2 && (words[0] == "top" || words[0] == "bottom" || words[1] == "left" || words[1] == "right") {
		words[0], words[1] = words[1], words[0]
	}
	if len(words) == 1 && (words[0] == "top" || words[0] == "bottom") {
		words = []string{"center", words[0]}
	}

	for k, w := range words {
		if k > 1 {
			break
		}
		whole := []float64{v.width, v.height}[k]
		switch w {
		case "left", "top":
			at[k] = 0
		case "right", "bottom":
			at[k] = whole
		case "center":
		default:
			if l, ok := length(w, whole, v.em); ok {
				at[k] = l
			}
		}
	}

	x, y = x+at[0], y+at[1]
	return matrix{1, 0, 0, 1, x, y}.after(m).after(matrix{1, 0, 0, 1, -x, -y})
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
	case name == "translateX" && len(v) == 1:
		return matrix{1, 0, 0, 1, v[0], 0}, true
	case name == "translateY" && len(v) == 1:
		return matrix{1, 0, 0, 1, 0, v[0]}, true
	case name == "scaleX" && len(v) == 1:
		return matrix{v[0], 0, 0, 1, 0, 0}, true
	case name == "scaleY" && len(v) == 1:
		return matrix{1, 0, 0, v[0], 0, 0}, true
	case name == "skew" && (len(v) == 1 || len(v) == 2):
		m := matrix{1, 0, math.Tan(v[0] * rad), 1, 0, 0}
		if len(v) == 2 {
			m.b = math.Tan(v[1] * rad)
		}
		return m, true
	case name == "skewX" && len(v) == 1:
		return matrix{1, 0, math.Tan(v[0] * rad), 1, 0, 0}, true
	case name == "skewY" && len(v) == 1:
		return matrix{1, math.Tan(v[0] * rad), 0, 1, 0, 0}, true
	}
	return unity, false
}
