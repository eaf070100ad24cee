package svgin

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// walk draws one element with what is in it. parent is the style around it, m the map from user units to mm, used how
// many use elements lead here.
func (d *drawing) walk(e *element, parent style, m matrix, v viewport, clips []*clip, used int) error {
	if d.drawn++; d.drawn > maxElements {
		return fmt.Errorf("draws more than %d elements", maxElements)
	}
	if d.sheet.work > maxStyleWork {
		return errors.New("has too many style rules for so many elements")
	}
	switch e.name {
	case "text", "image", "foreignObject", "script":
		if e.name != "script" && d.styleOf(e, parent).none {
			return nil
		}
		d.note(map[string]string{"text": "text", "image": "picture", "foreignObject": "foreign object",
			"script": "script"}[e.name])
		return nil
	case "g", "a", "switch", "svg", "use", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon":
	default:
		return nil // definitions, descriptions, animations, and what nobody knows
	}

	s := d.styleOf(e, parent)
	if s.none || s.opacity <= 0 && !d.clipping && !d.boxing {
		return nil
	}
	v.em = s.font
	m, err := d.placed(e, s, m, v)
	if err != nil {
		return err
	}
	if clips, err = d.cut(e, s, m, v, clips, used); err != nil {
		return err
	}
	return d.content(e, s, m, v, clips, used)
}

// placed returns the map with an element's own transform.
func (d *drawing) placed(e *element, s style, m matrix, v viewport) (matrix, error) {
	text, styled := s.transform, s.transform != ""
	if !styled {
		text = e.attr["transform"]
	}
	if text == "" {
		return m, nil
	}
	x, y := 0.0, 0.0
	if s.box == "fill-box" && (styled || s.origin != "") {
		var err error
		if x, y, v.width, v.height, err = d.boxOf(e, s, v, false); err != nil {
			return m, err
		}
	}
	n, ok := transform(text, styled, v)
	if !ok {
		d.note("transform in error")
		return m, nil
	}
	if s.origin != "" || s.box == "fill-box" && styled {
		if s.origin == "" {
			s.origin = "0 0"
		}
		n = about(n, s.origin, x, y, v)
	}
	return m.after(n), nil
}

// content draws what an element shows, once its style, place and clips are known.
func (d *drawing) content(e *element, s style, m matrix, v viewport, clips []*clip, used int) error {
	switch e.name {
	case "g", "a":
		return d.walkAll(e.kids, s, m, v, clips, used)
	case "switch":
		for _, k := range e.kids {
			_, extension := k.attr["requiredExtensions"]
			language, some := k.attr["systemLanguage"]
			if !extension && (!some || strings.HasPrefix(language, "en")) {
				return d.walk(k, s, m, v, clips, used)
			}
		}
		return nil
	case "svg":
		return d.nested(e, s.of(e, "width"), s.of(e, "height"), s, m, v, clips, used)
	case "use":
		return d.use(e, s, m, v, clips, used)
	}
	return d.paint(e, s, m, v, clips)
}

func (d *drawing) walkAll(kids []*element, s style, m matrix, v viewport, clips []*clip, used int) error {
	for _, k := range kids {
		if err := d.walk(k, s, m, v, clips, used); err != nil {
			return err
		}
	}
	return nil
}

// nested draws what is in an inner svg element or in a symbol, in a viewport of its own.
func (d *drawing) nested(e *element, width, height string, s style, m matrix, v viewport, clips []*clip,
	used int) error {
	x, _ := v.across(s.of(e, "x"))
	y, _ := v.down(s.of(e, "y"))
	m = m.after(matrix{1, 0, 0, 1, x, y})
	w, ok := v.across(width)
	if !ok {
		w = v.width
	}
	h, ok := v.down(height)
	if !ok {
		h = v.height
	}
	if !(w > 0) || !(h > 0) {
		return nil
	}
	if s.overflow != "visible" && s.overflow != "auto" && !d.boxing {
		clips = append(clips[:len(clips):len(clips)], rectClip(m, [4]float64{0, 0, w, h}))
	}
	inner := viewport{w, h, v.em}
	if box, ok := viewBox(e.attr["viewBox"]); ok {
		m = m.after(fitBox(box, w, h, e.attr["preserveAspectRatio"]))
		inner = viewport{box[2], box[3], v.em}
	}
	return d.walkAll(e.kids, s, m, inner, clips, used)
}

// use draws an element again somewhere else.
func (d *drawing) use(e *element, s style, m matrix, v viewport, clips []*clip, used int) error {
	href := strings.TrimSpace(e.attr["href"])
	if !strings.HasPrefix(href, "#") {
		if href != "" {
			d.note("link to another file")
		}
		return nil
	}
	target := d.ids[href[1:]]
	if target == nil || d.active[target] {
		return nil
	}
	if used >= maxDepth {
		return fmt.Errorf("has use within use more than %d deep", maxDepth)
	}
	d.active[target] = true
	defer delete(d.active, target)
	x, _ := v.across(s.of(e, "x"))
	y, _ := v.down(s.of(e, "y"))
	m = m.after(matrix{1, 0, 0, 1, x, y})
	if target.name != "symbol" && target.name != "svg" {
		return d.walk(target, s, m, v, clips, used+1)
	}
	if d.drawn++; d.drawn > maxElements {
		return fmt.Errorf("draws more than %d elements", maxElements)
	}
	inner := d.styleOf(target, s)
	if inner.none && target.name == "svg" {
		return nil
	}
	v.em = inner.font
	m, err := d.placed(target, inner, m, v)
	if err != nil {
		return err
	}
	size := func(name string) string {
		if own := s.of(e, name); own != "" && own != "auto" {
			return own
		}
		return inner.of(target, name)
	}
	return d.nested(target, size("width"), size("height"), inner, m, v, clips, used+1)
}

// paint appends a basic shape or a path.
func (d *drawing) paint(e *element, s style, m matrix, v viewport, clips []*clip) error {
	if s.hidden && !d.boxing {
		return nil
	}
	out := shape{m: m, rule: s.fillRule, clips: clips}
	if d.clipping {
		out.fill, out.rule = ink, s.clipRule
	} else {
		out.fill = d.paintOf(s, s.fill, s.fillOpacity)
		out.stroke = d.paintOf(s, s.stroke, s.strokeAlpha)
	}
	if e.name == "line" {
		out.fill = noPaint
	}
	if d.boxing {
		out.fill = ink
	}
	if out.stroke != noPaint {
		w, ok := v.neither(s.width)
		if !ok {
			w = 1
		}
		out.strokeFirst = s.strokeFirst
		out.pen = pen{width: w, cap: s.cap, join: s.join, miter: math.Max(1, s.miter), dash: dashesOf(s.dash, v)}
		out.pen.from, _ = v.neither(s.dashFrom)
		if out.pen.natural, ok = length(e.attr["pathLength"], 0, 0); !ok || out.pen.natural <= 0 {
			out.pen.natural = 0
		}
		if s.unscaled {
			out.pen.host = &d.host
		}
		if !(w > 0) {
			out.stroke = noPaint
		}
	}

	if s.marker && !d.clipping && (e.name == "path" || e.name == "line" || strings.HasPrefix(e.name, "poly")) {
		d.note("marker")
	}
	if out.fill == noPaint && out.stroke == noPaint {
		return nil
	}
	whole := false
	if out.c, whole = basicShape(e, &s, v, &d.segments); !whole {
		if d.segments < 0 {
			return fmt.Errorf("has more than %d path segments", maxSegments)
		}
		d.note("broken path")
	}
	for _, p := range []*paint{&out.fill, &out.stroke} {
		switch *p {
		case gradient:
			d.note("gradient")
			*p = ink
		case paper:
			d.note("white shape")
		}
	}

	if len(out.c) > 0 {
		d.shapes = append(d.shapes, out)
	}
	return nil
}
