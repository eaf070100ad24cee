package svgin

import (
	"fmt"
	"math"
	"strings"
)

// cut adds the clip path of an element's style to the clips, and notes what else it has that is left out.
func (d *drawing) cut(e *element, s style, m matrix, v viewport, clips []*clip, used int) ([]*clip, error) {
	if d.boxing {
		return clips, nil
	}
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
	path := d.ids[strings.TrimPrefix(url, "#")]
	if path == nil || path.name != "clipPath" || d.active[path] {
		return clips, nil
	}
	if used >= maxDepth {
		return nil, fmt.Errorf("has use within use more than %d deep", maxDepth)
	}
	d.active[path] = true
	defer delete(d.active, path)
	own := d.chainStyle(path)
	own.opacity = 1
	m, err := d.placed(path, own, m, v)
	if err != nil {
		return nil, err
	}
	outside := m
	if path.attr["clipPathUnits"] == "objectBoundingBox" {
		x, y, w, h, err := d.boxOf(e, s, v, false)
		if err != nil {
			return nil, err
		}
		if !(w > 0) || !(h > 0) { // CSS Masking 1, section 7: nothing is left
			return append(clips[:len(clips):len(clips)], &clip{known: true}), nil
		}
		m, v = m.after(matrix{w, 0, 0, h, x, y}), viewport{1, 1, v.em}
	}

	before, clipping := d.shapes, d.clipping
	d.shapes, d.clipping = nil, true
	c := &clip{}
	for _, k := range path.kids {
		if d.clips(k) && err == nil {
			err = d.walk(k, own, m, v, nil, used+1)
		}
	}
	c.shapes = d.shapes
	d.shapes, d.clipping = before, clipping
	clips = append(clips[:len(clips):len(clips)], c)
	if own.clip != "" && err == nil { // what clips the clip path
		own.filter, own.mask = "", ""
		clips, err = d.cut(e, own, outside, v, clips, used+1)
	}
	return clips, err
}

// clips says whether an element counts in a clip path: shapes and text do, and use of one of them, but no groups (CSS
// Masking 1, section 6).
func (d *drawing) clips(e *element) bool {
	if e.name == "use" {
		target := d.ids[strings.TrimPrefix(strings.TrimSpace(e.attr["href"]), "#")]
		return target != nil && target.name != "use" && d.clips(target)
	}
	switch e.name {
	case "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text":
		return true
	}
	return false
}

// boxOf returns the box around what an element shows, in its own user units, as corner and size: of the shapes alone,
// or with their strokes as well, at most. The size of nothing is 0.
func (d *drawing) boxOf(e *element, s style, v viewport, strokes bool) (x, y, w, h float64, err error) {
	before, boxing, clipping := d.shapes, d.boxing, d.clipping
	segments := d.segments
	d.shapes, d.boxing, d.clipping = nil, true, false
	if e.parent == nil {
		err = d.walkAll(e.kids, s, unity, v, nil, 0)
	} else {
		err = d.content(e, s, unity, v, nil, 0)
	}
	shapes := d.shapes
	d.shapes, d.boxing, d.clipping, d.segments = before, boxing, clipping, segments
	if err != nil {
		return 0, 0, 0, 0, err
	}
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	budget := maxPoints
	for _, one := range shapes {
		reach := 0.0
		if strokes && one.stroke != noPaint {
			reach = one.pen.width / 2 * one.m.stretch()
		}
		size := boxSize([]shape{one})
		parts, err := one.c.flatten(one.m, math.Max(size*boxShare, math.SmallestNonzeroFloat64), math.MaxFloat64, false,
			&budget)
		if err != nil {
			return 0, 0, 0, 0, err
		}
		for _, l := range parts {
			for _, p := range l.p {
				for k := range 2 {
					lo[k], hi[k] = math.Min(lo[k], p[k]-reach), math.Max(hi[k], p[k]+reach)
				}
			}
		}
	}

	if hi[0] < lo[0] {
		return 0, 0, 0, 0, nil
	}
	return lo[0], lo[1], hi[0] - lo[0], hi[1] - lo[1], nil
}
