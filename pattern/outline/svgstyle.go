package outline

import (
	"strconv"
	"strings"
)

// style is what of an element's style matters here. All but the last line are inherited.
type style struct {
	fill, stroke             string
	fillRule, clipRule       fillRule
	fillOpacity, strokeAlpha float64
	width                    string // of the stroke
	cap, join                string
	miter                    float64
	dashed, hidden           bool
	color                    string

	opacity            float64
	none               bool // display
	clip, mask, filter string
}

var initialStyle = style{fill: "black", stroke: "none", fillOpacity: 1, strokeAlpha: 1, width: "1", cap: "butt",
	join: "miter", miter: 4, color: "black", opacity: 1}

// inherited returns what a child begins with.
func (s style) inherited() style {
	s.opacity, s.none, s.clip, s.mask, s.filter = 1, false, "", "", ""
	return s
}

// set takes one property. What is not understood is passed over, as CSS wants it.
func (s *style) set(parent style, name, value string) {
	value = strings.TrimSpace(value)
	word := strings.ToLower(value)
	if word == "inherit" {
		s.inherit(parent, name)
		return
	}
	number := func(to *float64) {
		if v, ok := length(value, 1); ok {
			*to = v
		}
	}
	rule := func(to *fillRule) {
		switch word {
		case "nonzero":
			*to = nonZero
		case "evenodd":
			*to = evenOdd
		}
	}
	switch name {
	case "fill":
		s.fill = value
	case "stroke":
		s.stroke = value
	case "color":
		s.color = value
	case "fill-rule":
		rule(&s.fillRule)
	case "clip-rule":
		rule(&s.clipRule)
	case "fill-opacity":
		number(&s.fillOpacity)
	case "stroke-opacity":
		number(&s.strokeAlpha)
	case "opacity":
		number(&s.opacity)
	case "stroke-width":
		s.width = value
	case "stroke-linecap":
		s.cap = word
	case "stroke-linejoin":
		s.join = word
	case "stroke-miterlimit":
		number(&s.miter)
	case "stroke-dasharray":
		s.dashed = word != "none" && word != "0" && word != ""
	case "visibility":
		s.hidden = word == "hidden" || word == "collapse"
	case "display":
		s.none = word == "none"
	case "clip-path":
		s.clip = value
	case "mask":
		s.mask = value
	case "filter":
		s.filter = value
	}
}

// inherit takes one property from the parent.
func (s *style) inherit(parent style, name string) {
	switch name {
	case "fill":
		s.fill = parent.fill
	case "stroke":
		s.stroke = parent.stroke
	case "color":
		s.color = parent.color
	case "fill-rule":
		s.fillRule = parent.fillRule
	case "stroke-width":
		s.width = parent.width
	case "visibility":
		s.hidden = parent.hidden
	case "display":
		s.none = parent.none
	case "opacity":
		s.opacity = parent.opacity
	}
}

// styleOf returns an element's style: presentation attributes, then style rules, the more particular later, then the
// style attribute, then what is marked important.
func (d *drawing) styleOf(e *element, parent style) style {
	s := parent.inherited()
	for _, name := range presentation {
		if v, ok := e.attr[name]; ok {
			s.set(parent, name, v)
		}
	}
	rules := d.sheet.matching(e)
	own := declarations(e.attr["style"])
	for _, important := range []bool{false, true} {
		for _, r := range rules {
			for _, p := range r.set {
				if p.important == important {
					s.set(parent, p.name, p.value)
				}
			}
		}
		for _, p := range own {
			if p.important == important {
				s.set(parent, p.name, p.value)
			}
		}
	}
	return s
}

var presentation = []string{"fill", "stroke", "color", "fill-rule", "clip-rule", "fill-opacity", "stroke-opacity",
	"opacity", "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-miterlimit", "stroke-dasharray",
	"visibility", "display", "clip-path", "mask", "filter"}

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

// colour returns how light a colour is, from 0 to 1, and how opaque. Of named colours only those near black and white
// are known; ok is false for others.
func colour(s string) (light, alpha float64, ok bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	switch s {
	case "transparent":
		return 0, 0, true
	case "black":
		return 0, 1, true
	case "white", "snow", "ivory", "floralwhite", "ghostwhite", "whitesmoke", "mintcream", "azure":
		return 1, 1, true
	}
	var c [4]float64
	c[3] = 1
	switch {
	case strings.HasPrefix(s, "#") && (len(s) == 4 || len(s) == 5 || len(s) == 7 || len(s) == 9):
		digits := (len(s) - 1) / 3
		if len(s) == 5 {
			digits = 1
		}
		for k := 0; k*digits < len(s)-1; k++ {
			v, err := strconv.ParseUint(s[1+k*digits:1+(k+1)*digits], 16, 8)
			if err != nil {
				return 0, 1, false
			}
			c[k] = float64(v) / []float64{15, 255}[digits-1]
		}
	case strings.HasPrefix(s, "rgb"):
		n := numbers{s[strings.IndexByte(s+"(", '('):]}
		n.s = strings.TrimPrefix(n.s, "(")
		for k := range c {
			n.s = strings.TrimLeft(n.s, " ,/")
			v, some := n.number()
			if !some {
				if k < 3 {
					return 0, 1, false
				}
				break
			}
			per := []float64{255, 255, 255, 1}[k]
			if strings.HasPrefix(n.s, "%") {
				n.s, per = n.s[1:], 100
			}
			c[k] = v / per
		}
	default:
		return 0, 1, false
	}
	return 0.299*c[0] + 0.587*c[1] + 0.114*c[2], c[3], true
}
