package cutplan

import (
	"math"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/sheet/panel"
)

// furniture sets registration, label, check bar and the note of an unsound sheet in the margin, where they touch
// neither openings nor each other. What does not fit is noted.
func (b *build) furniture() error {
	if err := b.holes(); err != nil {
		return err
	}
	if err := b.fixings(); err != nil {
		return err
	}
	layer := b.o.Label.Layer
	if layer == "" {
		layer = Mark
	}
	b.written(layer)
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
	if b.o.Bar {
		b.bars()
	}
	if h := b.o.Label.Height; h > 0 && len(b.Written) == 0 {
		w, hi := b.box.Max[0]-b.box.Min[0], b.box.Max[1]-b.box.Min[1]
		parts := []string{b.size(w, hi), "this side up ↑"}
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
	for i := range len(b.Openings) + len(b.Others) {
		o := b.opening(i)
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

// opening returns an opening that furniture keeps clear of: one of the sheet's own, or of those laid with it.
func (b *build) opening(i int) panel.Opening {
	if i < len(b.Openings) {
		return b.Openings[i]
	}
	return b.Others[i-len(b.Openings)]
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
			if len(b.script().plain(text)) == 0 {
				continue
			}
			r, tall, ok := b.place(b.script().width(text, h), h)
			if !ok {
				all = false
				break
			}
			b.taken = append(b.taken, r)
			b.draw(b.script().paths(text, h), r, tall, layer, class)
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
	m, wide := geometry.Translate(r.Min[0], r.Min[1]), r.Max[0]-r.Min[0]
	if tall {
		wide = r.Max[1] - r.Min[1]
		m = geometry.Translate(r.Max[0], r.Min[1]).After(geometry.TurnDegrees(90))
	}
	b.marks = append(b.marks, placed(b.readable(paths, wide), m, layer, class)...)
}

// bars sets a check bar in the margin; of a part that has no room for it there, anywhere in the free sheet, and where
// there is none for 100 mm, a shorter one.
func (b *build) bars() {
	lengths := barLengths
	if b.o.unit().Inches {
		lengths = inchesOfBars
	}
	if b.bar(lengths[0], b.place) {
		return
	}
	if b.Part {
		g := b.ground()
		anywhere := func(length, height float64) (r orb.Bound, tall, ok bool) {
			if r, ok = b.room(g, length, height, Text{}); ok {
				return r, false, true
			}
			r, ok = b.room(g, height, length, Text{})
			return r, true, ok
		}
		for _, long := range lengths {
			if !b.bar(long, anywhere) {
				continue
			}
			if long < lengths[0] {
				b.note("There is room for a check bar of %g mm only.", long)
			}
			return
		}
	}
	where := "in the margin"
	if b.Part {
		where = "on the sheet"
	}
	b.note("There is no room %s for a check bar of %g mm.", where, lengths[0])
}

// bar sets a check bar: so many mm between its end ticks, and what it is.
func (b *build) bar(long float64, find func(length, height float64) (r orb.Bound, tall, ok bool)) bool {
	name := b.o.unit().Exact(long)
	line := func(pts ...orb.Point) curve.Path {
		p := curve.Path{Start: pts[0]}
		for _, q := range pts[1:] {
			p.Pieces = append(p.Pieces, curve.Piece{Kind: curve.Line, To: q, Corner: true})
		}
		return p
	}
	paths := []curve.Path{line(orb.Point{0, barTick}, orb.Point{0, 0}, orb.Point{long, 0}, orb.Point{long, barTick})}
	text := geometry.Translate((long-script{}.width(name, 2))/2, 0.8)
	for _, p := range (script{}).paths(name, 2) {
		paths = append(paths, p.Under(text))
	}
	r, tall, ok := find(long, barTick)
	if ok {
		b.taken = append(b.taken, r)
		b.draw(paths, r, tall, Mark, ClassBar)
	}
	return ok
}
