package cutplan

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Text is something that is to be written on a sheet, wherever there is room between the openings: what a part is known
// by when it lies among others. It stands upright: letters that read the right way show the side and the upper edge.
type Text struct {
	Forms  []string         // the wording, then shorter ones that will do; lines are parted by \n
	Height float64          // mm of capitals at most
	Near   orb.LineString   // what it stands by, best by its middle; nil: by the sheet's lower left corner
	Reach  float64          // mm from there at most
	Others []orb.LineString // lines that it must not seem to stand by
}

// Written is a text at its place: Box is round it, in the sheet's frame.
type Written struct {
	Words  string
	Height float64 // mm of its capitals
	Box    orb.Bound
}

// lineGap is left between lines of letters, in heights of these.
const lineGap = 0.6

// sizeOf returns how large a text of capitals height mm high is.
func sizeOf(words string, height float64) (w, h float64) {
	lines := strings.Split(words, "\n")
	for _, l := range lines {
		w = math.Max(w, script{}.width(l, height))
	}
	n := float64(len(lines))
	return w, height * (n + lineGap*(n-1))
}

// WrittenAt returns a text in letters of a height, with its lower left corner at a place.
func WrittenAt(words string, height float64, at orb.Point) Written {
	w, h := sizeOf(words, height)
	return Written{words, height, orb.Bound{Min: at, Max: orb.Point{at[0] + w, at[1] + h}}}
}

// Write finds places for texts in the free sheet, one after another, apart from openings, holes of a diameter in mm,
// and each other. Where there is room for none of a text's forms, not even in the lowest letters that a beam marks,
// its words are empty.
func (s Sheet) Write(texts []Text, diameter float64) []Written {
	b := &build{Sheet: s, box: s.Outline.Bound()}
	if !rectangular(s.Outline[0]) {
		b.shape = geometry.NewShape(s.Outline)
	}
	for _, h := range s.Holes {
		b.taken = append(b.taken, orb.Bound{Min: h, Max: h}.Pad(diameter/2+math.Max(clearance, s.Bridge)))
	}
	for _, w := range s.Written {
		b.taken = append(b.taken, w.taken())
	}

	g := b.ground()
	out := make([]Written, len(texts))
	for i, t := range texts {
		for _, words := range t.Forms {
			if w, ok := b.find(g, t, words); ok {
				out[i] = w
				b.taken = append(b.taken, w.taken())
				g.block(w.Box.Pad(clearance))
				g.add()
				break
			}
		}
	}
	return out
}

// find returns a text of given words at its best place, in letters as high as there is room for.
func (b *build) find(g *ground, t Text, words string) (Written, bool) {
	for h := t.Height; h >= minText-1e-9; h -= 0.5 {
		wide, high := sizeOf(words, h)
		if box, ok := b.room(g, wide, high, t); ok {
			return Written{words, h, box}, true
		}
	}
	return Written{}, false
}

// room returns the best free box of a size, by what a text asks for.
func (b *build) room(g *ground, wide, high float64, t Text) (orb.Bound, bool) {
	type spot struct {
		at   orb.Point
		cost float64
	}
	var spots []spot
	window, middle := b.box, orb.Point{}
	if t.Near != nil {
		window = t.Near.Bound().Pad(t.Reach + wide + high)
		middle = middleOf(t.Near)
	}
	g.free(wide, high, window, func(at orb.Point) {
		if t.Near == nil {
			spots = append(spots, spot{at, at[0] - b.box.Min[0] + at[1] - b.box.Min[1]})
			return
		}
		d := lineDistance(t.Near, at)
		if d > t.Reach {
			return
		}
		for _, other := range t.Others {
			if lineDistance(other, at) < d+1 {
				return
			}
		}
		spots = append(spots, spot{at, d + 0.2*far(at, middle)})
	})
	slices.SortFunc(spots, func(p, q spot) int {
		return cmp.Or(cmp.Compare(p.cost, q.cost), cmp.Compare(p.at[0], q.at[0]), cmp.Compare(p.at[1], q.at[1]))
	})
	for _, p := range spots[:min(len(spots), maxSpots)] {
		r := orb.Bound{Min: orb.Point{p.at[0] - wide/2, p.at[1] - high/2},
			Max: orb.Point{p.at[0] + wide/2, p.at[1] + high/2}}
		if b.free(r, clearance) {
			return r, true
		}
	}
	return orb.Bound{}, false
}

// lineDistance returns how far a point is from a line.
func lineDistance(l orb.LineString, p orb.Point) float64 {
	d := math.Inf(1)
	for i := range l {
		a, b := l[max(0, i-1)], l[i]
		v := geometry.Sub(b, a)
		t := 0.0
		if n := geometry.Dot(v, v); n > 0 {
			t = math.Max(0, math.Min(1, geometry.Dot(geometry.Sub(p, a), v)/n))
		}
		d = math.Min(d, far(p, geometry.Add(a, geometry.Times(v, t))))
	}
	return d
}

// middleOf returns the point half way along a line.
func middleOf(l orb.LineString) orb.Point {
	all := 0.0
	for i := 1; i < len(l); i++ {
		all += far(l[i-1], l[i])
	}
	for i := 1; i < len(l); i++ {
		n := far(l[i-1], l[i])
		if run := all / 2; n > 0 && n >= run {
			return geometry.Add(l[i-1], geometry.Times(geometry.Sub(l[i], l[i-1]), run/n))
		}
		all -= 2 * n
	}
	return l[0]
}

// written draws the sheet's texts, which have their places.
func (b *build) written(layer Layer) {
	for _, w := range b.Written {
		for k, line := range strings.Split(w.Words, "\n") {
			y := w.Box.Max[1] - w.Height*(1+float64(k)*(1+lineGap))
			paths := b.readable(script{}.paths(line, w.Height), w.Box.Max[0]-w.Box.Min[0])
			b.marks = append(b.marks, placed(paths, geometry.Translate(w.Box.Min[0], y), layer, ClassLabel)...)
		}
		b.taken = append(b.taken, w.taken())
	}
}

// taken returns the box that nothing else may come into: letters like a comma reach below the line they stand on.
func (w Written) taken() orb.Bound {
	w.Box.Min[1] -= w.Height * lineGap / 2
	return w.Box
}
