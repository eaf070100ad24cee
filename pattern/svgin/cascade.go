package svgin

import "slices"

// styleOf returns an element's style: presentation attributes, then style rules, the more particular later, then the
// style attribute, then what is marked important.
func (d *drawing) styleOf(e *element, parent style) style {
	s := parent.inherited()
	for _, name := range presentation {
		if v, ok := e.attr[name]; ok {
			s.set(parent, name, v)
		}
	}
	rules, known := d.rules[e]
	if !known && d.sheet.count > 0 {
		rules = d.sheet.matching(e)
		d.rules[e] = rules
	}
	own := declarations(e.attr["style"])
	if len(rules) == 0 && len(own) == 0 {
		return s
	}
	set := func(p property) {
		if !slices.Contains(geometryNames, p.name) {
			s.set(parent, p.name, p.value)
			return
		}
		if s.geometry == nil {
			s.geometry = map[string]string{}
		}
		s.geometry[p.name] = p.value
	}

	for _, important := range []bool{false, true} {
		for _, r := range rules {
			for _, p := range r.set {
				if p.important == important {
					set(p)
				}
			}
		}
		for _, p := range own {
			if p.important == important {
				set(p)
			}
		}
	}
	return s
}

var presentation = []string{"fill", "stroke", "color", "fill-rule", "clip-rule", "fill-opacity", "stroke-opacity",
	"opacity", "font", "font-size", "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-miterlimit",
	"stroke-dasharray", "stroke-dashoffset", "paint-order", "visibility", "display", "clip-path", "mask", "filter",
	"overflow",
	"vector-effect", "marker-start", "marker-mid", "marker-end", "transform-origin", "transform-box"}

// chainStyle returns an element's style with what it inherits from those around it, wherever it is drawn from.
func (d *drawing) chainStyle(e *element) style {
	var chain []*element // at most maxDepth
	for ; e != nil; e = e.parent {
		chain = append(chain, e)
	}
	s := initialStyle
	for k := len(chain) - 1; k >= 0; k-- {
		s = d.styleOf(chain[k], s)
	}
	return s
}
