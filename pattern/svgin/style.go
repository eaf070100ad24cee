package svgin

import (
	"openwork/geometry/fill"

	"slices"
	"strings"
)

// style is what of an element's style matters here. What stands in the first part is inherited.
type style struct {
	fill, stroke             string
	fillRule, clipRule       fill.Rule
	fillOpacity, strokeAlpha float64
	width                    string // of the stroke
	cap, join                string
	miter                    float64
	dash, dashFrom           string
	strokeFirst              bool // paint-order
	hidden                   bool
	color                    string
	font                     float64 // letter height in user units, which em stands for
	marker                   bool

	opacity                float64
	none                   bool // display
	clip, mask, filter     string
	overflow               string
	unscaled               bool   // vector-effect: the stroke is as wide as if nothing were mapped
	transform, origin, box string // transform by style, its origin, and what that is measured by
	geometry               map[string]string
}

var initialStyle = style{fill: "black", stroke: "none", fillOpacity: 1, strokeAlpha: 1, width: "1", cap: "butt",
	join: "miter", miter: 4, color: "black", font: initialFont, opacity: 1}

// inherited returns what a child begins with.
func (s style) inherited() style {
	s.opacity, s.none, s.clip, s.mask, s.filter, s.overflow, s.unscaled = 1, false, "", "", "", "", false
	s.transform, s.origin, s.box, s.geometry = "", "", "", nil
	return s
}

// of returns what an element says about its geometry: by style, else by attribute (SVG 2, chapter 7).
func (s *style) of(e *element, name string) string {
	if v, ok := s.geometry[name]; ok {
		return v
	}
	return e.attr[name]
}

// geometryNames are the attributes that a style can set as well.
var geometryNames = []string{"x", "y", "width", "height", "cx", "cy", "r", "rx", "ry", "d"}

// notInherited are the properties that "unset" puts back instead of inheriting.
var notInherited = []string{"opacity", "display", "clip-path", "mask", "filter", "overflow", "vector-effect",
	"transform",
	"transform-origin", "transform-box"}

// set takes one property. What is not understood is passed over, as CSS wants it.
func (s *style) set(parent style, name, value string) {
	value = strings.TrimSpace(value)
	word := strings.ToLower(value)
	switch {
	case word == "inherit", (word == "unset" || word == "revert") && !slices.Contains(notInherited, name):
		s.take(parent, name)
		return
	case word == "initial", word == "unset", word == "revert":
		s.take(initialStyle, name)
		return
	}

	number := func(to *float64) {
		if v, ok := length(value, 1, s.font); ok && v >= 0 {
			*to = v
		} else if ok && strings.HasSuffix(name, "opacity") {
			*to = 0
		}
	}
	rule := func(to *fill.Rule) {
		switch word {
		case "nonzero":
			*to = fill.NonZero
		case "evenodd":
			*to = fill.EvenOdd
		}
	}

	switch name {
	case "fill":
		if validPaint(word) {
			s.fill = value
		}
	case "stroke":
		if validPaint(word) {
			s.stroke = value
		}
	case "color":
		if validPaint(word) && word != "currentcolor" {
			s.color = value
		}
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
		if _, ok := length(value, 1, s.font); ok {
			s.width = value
		}
	case "stroke-linecap":
		s.cap = word
	case "stroke-linejoin":
		s.join = word
	case "stroke-miterlimit":
		number(&s.miter)
	case "stroke-dasharray":
		s.dash = word
	case "stroke-dashoffset":
		s.dashFrom = word
	case "paint-order":
		fill, stroke := strings.Index(word, "fill"), strings.Index(word, "stroke")
		s.strokeFirst = stroke >= 0 && (fill < 0 || stroke < fill)
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
	case "overflow":
		s.overflow = word
	case "vector-effect":
		s.unscaled = word == "non-scaling-stroke"
	case "marker", "marker-start", "marker-mid", "marker-end":
		s.marker = strings.HasPrefix(word, "url(")
	case "font-size":
		s.font = fontSize(word, parent.font, s.font)
	case "font":
		for _, w := range strings.Fields(word) {
			w, _, _ = strings.Cut(w, "/")
			if v := fontSize(w, parent.font, -1); v >= 0 && strings.Trim(w, "0123456789") != "" {
				s.font = v
				break
			}
		}
	case "transform":
		s.transform = value
	case "transform-origin":
		s.origin = word
	case "transform-box":
		s.box = word
	}
}

// take takes one property from another style.
func (s *style) take(from style, name string) {
	switch name {
	case "fill":
		s.fill = from.fill
	case "stroke":
		s.stroke = from.stroke
	case "color":
		s.color = from.color
	case "fill-rule":
		s.fillRule = from.fillRule
	case "clip-rule":
		s.clipRule = from.clipRule
	case "fill-opacity":
		s.fillOpacity = from.fillOpacity
	case "stroke-opacity":
		s.strokeAlpha = from.strokeAlpha
	case "stroke-width":
		s.width = from.width
	case "stroke-linecap":
		s.cap = from.cap
	case "stroke-linejoin":
		s.join = from.join
	case "stroke-miterlimit":
		s.miter = from.miter
	case "stroke-dasharray":
		s.dash = from.dash
	case "stroke-dashoffset":
		s.dashFrom = from.dashFrom
	case "paint-order":
		s.strokeFirst = from.strokeFirst
	case "visibility":
		s.hidden = from.hidden
	case "display":
		s.none = from.none
	case "opacity":
		s.opacity = from.opacity
	case "font-size", "font":
		s.font = from.font
	case "clip-path":
		s.clip = from.clip
	case "mask":
		s.mask = from.mask
	case "filter":
		s.filter = from.filter
	case "overflow":
		s.overflow = from.overflow
	case "vector-effect":
		s.unscaled = from.unscaled
	case "transform":
		s.transform = from.transform
	case "transform-origin":
		s.origin = from.origin
	case "transform-box":
		s.box = from.box
	case "marker", "marker-start", "marker-mid", "marker-end":
		s.marker = from.marker
	}
}

// fontSizes are the named letter heights, as parts of "medium" (CSS Fonts 4, section 2.5.1).
var fontSizes = map[string]float64{"xx-small": 3. / 5, "x-small": 3. / 4, "small": 8. / 9, "medium": 1, "large": 6. / 5,
	"x-large": 3. / 2, "xx-large": 2, "xxx-large": 3}

// fontSize returns the letter height in user units that a value asks for, or what was there before. A step larger or
// smaller is taken as 1.2.
func fontSize(word string, parent, before float64) float64 {
	if part, ok := fontSizes[word]; ok {
		return part * initialFont
	}
	switch word {
	case "larger":
		return parent * 1.2
	case "smaller":
		return parent / 1.2
	}
	if v, ok := length(word, parent, parent); ok && v >= 0 {
		return v
	}
	return before
}
