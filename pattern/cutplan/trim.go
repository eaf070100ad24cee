package cutplan

import (
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// Trim says what becomes of the sheet's outline.
type Trim string

// The ways.
const (
	TrimCut  Trim = ""     // it is cut
	TrimMark Trim = "mark" // it is the stock's own edge: on the layer mark, for the shop to lay the stock by
	TrimNone Trim = "none" // it is the stock's own edge, and left out
)

// checkTrim says when there is no such way.
func checkTrim(t Trim) error {
	switch t {
	case TrimCut, TrimMark, TrimNone:
		return nil
	}
	return fmt.Errorf("the sheet's outline cannot be trimmed by %.20q; it is marked (mark) or left out (none), and "+
		"otherwise cut", string(t))
}

// Said says of an outline that is not cut what becomes of it, with the name of the layer of marks; empty for one that
// is cut.
func (t Trim) Said(mark string) string {
	switch t {
	case TrimMark:
		return "not cut; it is the stock's own edge, drawn on the layer " + mark
	case TrimNone:
		return "not cut; it is the stock's own edge, and left out of the file"
	}
	return ""
}

// trimmable keeps the choice for whole rectangular sheets: a part, and a sheet of another shape, has no edge of the
// stock around it and is cut out.
func (b *build) trimmable() {
	if b.o.Trim != TrimCut && (b.Part || !rectangular(b.Outline[0])) {
		b.o.Trim = TrimCut
		b.note("The outline is cut: a part, or a sheet that is no rectangle, has no edge of the stock around it.")
	}
}

// untrimmed sets the outline of a sheet that has the stock's own edge: of what was to be cut stays what does not run
// along the edge, which are the openings that run out over it.
func (b *build) untrimmed(paths []*curve.Path) {
	for _, p := range paths {
		for _, run := range b.offEdge(p) {
			b.rim = append(b.rim, Contour{Layer: Cut, Class: ClassSheet, Path: &run, Map: geometry.Identity})
		}
	}
	if b.o.Trim != TrimMark {
		return
	}
	at, to := b.box.Min, b.box.Max
	edge := &curve.Path{Start: at}
	for _, q := range [][2]float64{{to[0], at[1]}, to, {at[0], to[1]}, at} {
		edge.Pieces = append(edge.Pieces, curve.Piece{Kind: curve.Line, To: q, Corner: true})
	}
	b.marks = append(b.marks, Contour{Layer: Mark, Class: ClassSheet, Path: edge, Map: geometry.Identity})
}

// offEdge returns the runs of a path that do not lie along the sheet's edge.
func (b *build) offEdge(p *curve.Path) []curve.Path {
	n := len(p.Pieces)
	from := func(i int) [2]float64 {
		if i%n == 0 {
			return p.Start
		}
		return p.Pieces[i%n-1].To
	}
	along := func(i int) bool {
		a, c := from(i), p.Pieces[i%n].To
		on := func(axis int, side float64) bool {
			return math.Abs(a[axis]-side) <= b.o.Tolerance && math.Abs(c[axis]-side) <= b.o.Tolerance
		}
		return p.Pieces[i%n].Kind == curve.Line && (on(0, b.box.Min[0]) || on(0, b.box.Max[0]) ||
			on(1, b.box.Min[1]) || on(1, b.box.Max[1]))
	}
	first := 0
	for first < n && !along(first) {
		first++
	}
	if first == n {
		return []curve.Path{*p}
	}

	var out []curve.Path
	open := false
	for i := first; i < first+n; i++ {
		if along(i) {
			open = false
			continue
		}
		if !open {
			out = append(out, curve.Path{Start: from(i)})
			open = true
		}
		last := &out[len(out)-1]
		last.Pieces = append(last.Pieces, p.Pieces[i%n])
	}
	return out
}
