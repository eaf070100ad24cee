package outline

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// kids walks the children of an element.
func (d *drawing) kids(e *element, s style, m matrix, v viewport, clips []*clip) error {
	for _, k := range e.kids {
		if err := d.walk(k, s, m, v, clips, 0); err != nil {
			return err
		}
	}
	return nil
}

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
		if e.name == "text" && d.styleOf(e, parent).none {
			return nil
		}
		d.note(map[string]string{"text": "text", "image": "picture", "foreignObject": "foreign object", "script": "script"}[e.name])
		return nil
	case "g", "a", "switch", "svg", "use", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon":
	default:
		return nil // definitions, descriptions, animations, and what nobody knows
	}
	s := d.styleOf(e, parent)
	if s.none || s.opacity <= 0 {
		return nil
	}
	if t, ok := e.attr["transform"]; ok {
		if n, good := transform(t); good {
			m = m.after(n)
		} else {
			d.note("transform in error")
		}
	}
	clips, err := d.cut(s, m, v, clips, used)
	if err != nil {
		return err
	}
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
		x, _ := length(e.attr["x"], v.width)
		y, _ := length(e.attr["y"], v.height)
		return d.nested(e, e.attr["width"], e.attr["height"], s, m.after(matrix{1, 0, 0, 1, x, y}), v, clips, used)
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

// nested draws what is in an inner svg element or in a symbol, in a viewport of its own at the origin.
func (d *drawing) nested(e *element, width, height string, s style, m matrix, v viewport, clips []*clip, used int) error {
	w, ok := length(width, v.width)
	if !ok {
		w = v.width
	}
	h, ok := length(height, v.height)
	if !ok {
		h = v.height
	}
	if !(w > 0) || !(h > 0) {
		return nil
	}
	if e.attr["overflow"] != "visible" && e.attr["overflow"] != "auto" {
		clips = append(clips[:len(clips):len(clips)], rectClip(m, [4]float64{0, 0, w, h}))
	}
	inner := viewport{w, h}
	if box, ok := viewBox(e.attr["viewBox"]); ok {
		m = m.after(fitBox(box, w, h, e.attr["preserveAspectRatio"]))
		inner = viewport{box[2], box[3]}
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
	x, _ := length(e.attr["x"], v.width)
	y, _ := length(e.attr["y"], v.height)
	m = m.after(matrix{1, 0, 0, 1, x, y})
	if target.name != "symbol" && target.name != "svg" {
		return d.walk(target, s, m, v, clips, used+1)
	}
	if d.drawn++; d.drawn > maxElements {
		return fmt.Errorf("draws more than %d elements", maxElements)
	}
	width, height := target.attr["width"], target.attr["height"]
	if w, ok := e.attr["width"]; ok {
		width = w
	}
	if h, ok := e.attr["height"]; ok {
		height = h
	}
	inner := d.styleOf(target, s)
	if inner.none && target.name == "svg" {
		return nil
	}
	return d.nested(target, width, height, inner, m, v, clips, used+1)
}

// cut adds the clip path of a style to the clips, and notes what else it has that is left out.
func (d *drawing) cut(s style, m matrix, v viewport, clips []*clip, used int) ([]*clip, error) {
	if s.filter != "" && s.filter != "none" {
		d.note("filter")
	}
	if s.mask != "" && s.mask != "none" {
		d.note("mask")
	}
	url, _, ok := urlOf(s.clip)
	if !ok {
		if s.clip != "" && s.clip != "none" {
			d.note("clip path of a simple form")
		}
		return clips, nil
	}
	e := d.ids[strings.TrimPrefix(url, "#")]
	if e == nil || e.name != "clipPath" || d.active[e] {
		return clips, nil
	}
	if e.attr["clipPathUnits"] == "objectBoundingBox" {
		d.note("clip path measured by what it cuts")
		return clips, nil
	}
	if used >= maxDepth {
		return nil, fmt.Errorf("has use within use more than %d deep", maxDepth)
	}
	d.active[e] = true
	defer delete(d.active, e)
	if n, good := transform(e.attr["transform"]); good {
		m = m.after(n)
	}
	before, clipping := d.shapes, d.clipping
	d.shapes, d.clipping = nil, true
	err := d.walkAll(e.kids, d.styleOf(e, initialStyle), m, v, nil, used+1)
	c := &clip{shapes: d.shapes}
	d.shapes, d.clipping = before, clipping
	return append(clips[:len(clips):len(clips)], c), err
}

// paint appends a basic shape or a path.
func (d *drawing) paint(e *element, s style, m matrix, v viewport, clips []*clip) error {
	if s.hidden {
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
	if out.stroke != noPaint {
		w, ok := length(s.width, v.diagonal())
		if !ok {
			w = 1
		}
		if out.pen = (pen{w, s.cap, s.join, math.Max(1, s.miter)}); !(w > 0) {
			out.stroke = noPaint
		} else if s.dashed {
			d.note("dashed stroke")
		}
	}
	if out.fill == noPaint && out.stroke == noPaint {
		return nil
	}
	whole := false
	if out.c, whole = basicShape(e, v, &d.segments); !whole {
		if d.segments < 0 {
			return fmt.Errorf("has more than %d path segments", maxSegments)
		}
		d.note("path that is broken off")
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
