package cutplan

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// furniture sets registration, label, check bar and the note of an unsound sheet in the margin, where they touch
// neither openings nor each other. What does not fit is noted.
func (b *build) furniture() error {
	if err := b.holes(); err != nil {
		return err
	}
	if len(b.o.Unsound) > 0 {
		text := "Not sound: " + strings.Join(b.o.Unsound, " ")
		if !b.write([]string{text}, 2.5, Mark, ClassNote) &&
			!b.write([]string{"This sheet does not hold."}, 2.5, Mark, ClassNote) {
			b.note("There is no room in the margin for a note that the sheet does not hold; only the file says so.")
		}
	}
	if b.o.Unchecked && len(b.o.Unsound) == 0 && !b.write([]string{NotChecked}, 2.5, Mark, ClassNote) {
		b.note("There is no room in the margin for a note that the sheet was not checked; only the file says so.")
	}
	if b.o.Bar && !b.bar() {
		b.note("There is no room in the margin for a check bar of %g mm.", barLength)
	}
	if h := b.o.Label.Height; h > 0 {
		layer := b.o.Label.Layer
		if layer == "" {
			layer = Mark
		}
		w, hi := b.box.Max[0]-b.box.Min[0], b.box.Max[1]-b.box.Min[1]
		parts := []string{fmt.Sprintf("%s × %s mm", length(w), length(hi)), "this side up ↑"}
		if b.o.Label.Date != "" {
			parts = append(parts, b.o.Label.Date)
		}
		data := strings.Join(parts, "  ")
		if !b.write([]string{b.Title + "  " + data}, h, layer, ClassLabel) &&
			!b.write([]string{b.Title, data}, h, layer, ClassLabel) {
			if b.write([]string{data}, h, layer, ClassLabel) {
				b.note("There is no room in the margin for the title.")
			} else {
				b.note("There is no room in the margin for a label.")
			}
		}
	}
	return nil
}

// strip is one side of the margin: a band along the sheet's edge, between the corners' squares.
type strip struct {
	box  orb.Bound
	tall bool // its way is along y
}

// strips returns the four sides of the margin: below, above, left, right.
func (b *build) strips() [4]strip {
	f, s := b.Field, b.box
	lo := orb.Point{clampTo(f.Min[0], s.Min[0], s.Max[0]), clampTo(f.Min[1], s.Min[1], s.Max[1])}
	hi := orb.Point{clampTo(f.Max[0], s.Min[0], s.Max[0]), clampTo(f.Max[1], s.Min[1], s.Max[1])}
	return [4]strip{
		{orb.Bound{Min: orb.Point{lo[0], s.Min[1]}, Max: orb.Point{hi[0], lo[1]}}, false},
		{orb.Bound{Min: orb.Point{lo[0], hi[1]}, Max: orb.Point{hi[0], s.Max[1]}}, false},
		{orb.Bound{Min: orb.Point{s.Min[0], lo[1]}, Max: orb.Point{lo[0], hi[1]}}, true},
		{orb.Bound{Min: orb.Point{hi[0], lo[1]}, Max: orb.Point{s.Max[0], hi[1]}}, true},
	}
}

func clampTo(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }

// free reports whether a box lies on the sheet with room around it, apart from openings and from furniture.
func (b *build) free(r orb.Bound, room float64) bool {
	if !within(r.Pad(room), b.box) || b.shape != nil && !b.onSheet(r, room) {
		return false
	}
	for _, t := range b.taken {
		if gapOf(t, r) < clearance {
			return false
		}
	}
	var shape *geometry.Shape
	for _, o := range b.Openings {
		if gapOf(o.Bound(), r) >= room {
			continue
		}
		if shape == nil {
			shape = geometry.RectShape(r)
		}
		if d := geometry.Distance(shape, o.Shape, o.Shift, room); d.Found || geometry.Inside(shape, o.Shape, o.Shift) {
			return false
		}
	}
	return true
}

// place finds a free box of the given size along the margin, its length along the side, and returns its lower left
// corner and whether it stands upright.
func (b *build) place(length, height float64) (r orb.Bound, tall, ok bool) {
	for _, s := range b.strips() {
		w, h := length, height
		if s.tall {
			w, h = h, w
		}
		room := orb.Point{s.box.Max[0] - s.box.Min[0] - w, s.box.Max[1] - s.box.Min[1] - h}
		if room[0] < 0 || room[1] < 0 {
			continue
		}
		way, across := 0, 1
		if s.tall {
			way, across = 1, 0
		}
		at := s.box.Min
		at[across] += room[across] / 2
		for n := 0; n <= int(room[way]/slide); n++ {
			p := at
			p[way] += float64(n) * slide
			r := orb.Bound{Min: p, Max: orb.Point{p[0] + w, p[1] + h}}
			if b.free(r, clearance) {
				return r, s.tall, true
			}
		}
	}
	return orb.Bound{}, false, false
}

// write sets lines of text, each somewhere in the margin, as high as fits up to height mm; all of them or none.
func (b *build) write(lines []string, height float64, layer Layer, class string) bool {
	for h := height; h >= math.Min(minText, height)-1e-9; h -= 0.25 {
		taken, marks, all := len(b.taken), len(b.marks), true
		for _, text := range lines {
			if len(plain(text)) == 0 {
				continue
			}
			r, tall, ok := b.place(textWidth(text, h), h)
			if !ok {
				all = false
				break
			}
			b.taken = append(b.taken, r)
			b.draw(textPaths(text, h), r, tall, layer, class)
		}
		if all {
			return true
		}
		b.taken, b.marks = b.taken[:taken], b.marks[:marks]
	}
	return false
}

// draw sets paths that begin at (0, 0) and run to the right into a box; upright they run upward.
func (b *build) draw(paths []curve.Path, r orb.Bound, tall bool, layer Layer, class string) {
	m := geometry.Translate(r.Min[0], r.Min[1])
	if tall {
		m = geometry.Translate(r.Max[0], r.Min[1]).After(geometry.TurnDegrees(90))
	}
	b.marks = append(b.marks, placed(paths, m, layer, class)...)
}

// bar sets the check bar: 100 mm between its end ticks, and what it is.
func (b *build) bar() bool {
	name := fmt.Sprintf("%g mm", barLength)
	line := func(pts ...orb.Point) curve.Path {
		p := curve.Path{Start: pts[0]}
		for _, q := range pts[1:] {
			p.Pieces = append(p.Pieces, curve.Piece{Kind: curve.Line, To: q, Corner: true})
		}
		return p
	}
	paths := []curve.Path{line(orb.Point{0, barTick}, orb.Point{0, 0}, orb.Point{barLength, 0},
		orb.Point{barLength, barTick})}
	text := geometry.Translate((barLength-textWidth(name, 2))/2, 0.8)
	for _, p := range textPaths(name, 2) {
		paths = append(paths, p.Under(text))
	}
	r, tall, ok := b.place(barLength, barTick)
	if ok {
		b.taken = append(b.taken, r)
		b.draw(paths, r, tall, Mark, ClassBar)
	}
	return ok
}

// holes sets registration holes or marks at the places asked for, or at three corners of the margin, so that a sheet
// that is turned round or over does not fit; where a corner is not free, along the sides.
func (b *build) holes() error {
	o := b.o.Holes
	if o.Diameter == 0 {
		return nil
	}
	cut := o.Layer == Cut
	r := o.Diameter / 2
	reach, room := r+crossBeyond, clearance
	if cut {
		r -= b.Kerf / 2
		reach, room = o.Diameter/2, math.Max(clearance, b.Bridge)
		if r <= 0 {
			return fmt.Errorf("registration holes of %g mm are no wider than the kerf; make them larger", o.Diameter)
		}
	}
	square := func(p orb.Point) orb.Bound { return orb.Bound{Min: p, Max: p}.Pad(reach) }
	var at []orb.Point
	if o.At != nil {
		for _, p := range o.At {
			if !(math.Abs(p[0]) <= geometry.MaxCoordinate && math.Abs(p[1]) <= geometry.MaxCoordinate) ||
				!b.free(square(p), room) {
				b.note("The registration hole at (%.1f, %.1f) mm would touch an opening, the sheet's edge or another "+
					"mark; it is left out.", p[0], p[1])
				continue
			}
			at = append(at, p)
			b.taken = append(b.taken, square(p))
		}
	} else {
		for _, p := range b.corners() {
			if (len(at) < 3 || !apartFromLine(at)) && b.free(square(p), room) && !b.AcrossEdge(square(p).Pad(clearance)) {
				at = append(at, p)
				b.taken = append(b.taken, square(p))
			}
		}
	}

	if !apartFromLine(at) {
		b.note("There is room for %d registration holes of %g mm in the margin; three that are not in line are needed.",
			len(at), o.Diameter)
	}
	b.made.Holes = len(at)
	kind := b.kind
	if kind == curve.Line {
		kind = curve.Cubic
	}

	for _, p := range at {
		c := curve.Circle(p, r, kind)
		if b.kind == curve.Line {
			c = curve.Polygon(c.Flatten(b.o.Tolerance / 10))
		}
		if cut {
			b.units = append(b.units, unit{first: len(b.cuts), last: len(b.cuts) + 1, outers: 1, box: c.Bound(),
				within: -1})
			b.cuts = append(b.cuts, Contour{Layer: Cut, Class: ClassRegistration, Path: &c, Map: geometry.Identity,
				unit: len(b.units) - 1})
			continue
		}
		b.marks = append(b.marks, Contour{Layer: Mark, Class: ClassRegistration, Path: &c, Map: geometry.Identity})
		for _, v := range []orb.Point{{reach, 0}, {0, reach}} {
			l := curve.Path{Start: orb.Point{p[0] - v[0], p[1] - v[1]},
				Pieces: []curve.Piece{{Kind: curve.Line, To: orb.Point{p[0] + v[0], p[1] + v[1]}}}}
			b.marks = append(b.marks, Contour{Layer: Mark, Class: ClassRegistration, Path: &l, Map: geometry.Identity})
		}
	}
	return nil
}

// corners returns the places for registration, best first: middles of the margin's corners, then along its sides. Where
// the sheet reaches beyond the panel these are on the panel, and after them come those beside it.
func (b *build) corners() []orb.Point {
	s := b.strips()
	var out []orb.Point
	around := func(r orb.Bound) {
		x0, y0, x1, y1 := r.Min[0], r.Min[1], r.Max[0], r.Max[1]
		out = append(out, orb.Point{x0, y1}, orb.Point{x1, y0}, r.Min, r.Max)
		for _, t := range []float64{0.5, 0.25, 0.75, 0.125, 0.875} {
			x, y := x0+t*(x1-x0), y0+t*(y1-y0)
			out = append(out, orb.Point{x, y0}, orb.Point{x0, y}, orb.Point{x, y1}, orb.Point{x1, y})
		}
	}
	middles := orb.Bound{Min: orb.Point{s[2].box.Center()[0], s[0].box.Center()[1]},
		Max: orb.Point{s[3].box.Center()[0], s[1].box.Center()[1]}}
	if b.Panel == (orb.Bound{}) || within(b.box, b.Panel) {
		around(middles)
		return out
	}

	// The margin's sides are parted by the panel's edge: what is inside it first, then what is outside.
	on, beside := middles, middles
	for axis := range 2 {
		if p := b.Panel.Min[axis]; p > b.box.Min[axis] {
			on.Min[axis], beside.Min[axis] = (p+math.Max(p, b.Field.Min[axis]))/2, (p+b.box.Min[axis])/2
		}
		if p := b.Panel.Max[axis]; p < b.box.Max[axis] {
			on.Max[axis], beside.Max[axis] = (p+math.Min(p, b.Field.Max[axis]))/2, (p+b.box.Max[axis])/2
		}
	}
	around(on)
	around(beside)
	return out
}

// apartFromLine reports whether there are three places among these that are not in line: one at least a tenth as far
// from the line through the first two as these are apart.
func apartFromLine(at []orb.Point) bool {
	for i := range at {
		for j := range i {
			for k := range j {
				u := orb.Point{at[j][0] - at[i][0], at[j][1] - at[i][1]}
				v := orb.Point{at[k][0] - at[i][0], at[k][1] - at[i][1]}
				if math.Abs(u[0]*v[1]-u[1]*v[0]) >= 0.1*(u[0]*u[0]+u[1]*u[1]) {
					return true
				}
			}
		}
	}
	return false
}
