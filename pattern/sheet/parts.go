package sheet

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Part is one polygon of a shape. Each is an opening of its own unless something joins it to another.
type Part struct {
	Shape *geometry.Shape
	First orb.Point // a corner of the outer ring
	Outer float64   // area in mm² within the outer ring, its holes included
}

// PartsOf returns the polygons of a shape, the shape itself where it has only one.
func (w *Within) PartsOf(s *geometry.Shape) []Part {
	if found, ok := w.parts[s]; ok {
		return found
	}

	var out []Part
	outline := s.Outline()
	for _, p := range outline {
		one := s
		if len(outline) > 1 {
			one = geometry.NewShape(orb.MultiPolygon{p})
		}
		out = append(out, Part{one, p[0][0], geometry.RingArea(p[0])})
	}

	if w.parts == nil || len(w.parts) >= maxKept {
		w.parts = map[*geometry.Shape][]Part{}
	}
	w.parts[s] = out
	return out
}

// maxKept bounds the shapes whose parts are kept, and the silhouettes whose narrow places are.
const maxKept = 1000
