// Package sheet says whether a laid-out field holds together as a sheet: overlaps, bridges, islands, narrow openings,
// the sheet's edge. What a word means exactly stands at Kind.
//
// This package looks at one cell and its neighbours, and is fast enough for every frame: it links no overlay. The whole
// panel, with its edges and with openings that run into each other united, is gone through by package sheet/panel.
package sheet

import (
	"slices"

	"github.com/paulmach/orb"

	"openwork/pattern"
)

// Kind is what is wrong. Let O be the union of all openings after the edge rule and S the sheet less O.
type Kind string

// The kinds of problem.
const (
	Overlap Kind = "overlap" // two copies whose interiors meet, over OverlapFrom mm²
	Bridge  Kind = "bridge"  // a strip of S narrower than sheet.bridge, between two openings or within one
	Tip     Kind = "tip"     // sheet narrower than sheet.bridge that is held at one end only
	Island  Kind = "island"  // a connected piece of S that does not reach the sheet's outer edge
	Opening Kind = "opening" // a place where O is narrower than sheet.opening, or is lost to the kerf
	Edge    Kind = "edge"    // an opening that leaves the sheet or comes nearer to its edge than sheet.bridge
	Size    Kind = "size"    // a sheet that does not fit the bed: a warning, for there are cures that leave the sheet as it is
	Empty   Kind = "empty"   // a panel without an opening
	Unclear Kind = "unclear" // a place where the arithmetic failed, so that nothing can be promised of it
)

// Kinds returns every kind, what matters most first.
func Kinds() []Kind {
	return []Kind{Empty, Overlap, Island, Bridge, Unclear, Opening, Edge, Size, Tip}
}

// Rank returns a kind's place in Kinds; a kind that is not there comes last.
func (k Kind) Rank() int {
	all := Kinds()
	if i := slices.Index(all, k); i >= 0 {
		return i
	}
	return len(all)
}

// LargerIsWorse reports whether of two problems of this kind the one with the larger measure is the worse. Overlaps and
// islands are measured by area, all others by a width or a distance that is too small.
func (k Kind) LargerIsWorse() bool { return k == Overlap || k == Island }

// Severity is fault or warning; a sheet holds when it has no fault.
type Severity string

// The severities.
const (
	Fault   Severity = "fault"
	Warning Severity = "warning"
)

// Problem is one thing found by a check. Lengths in mm, areas in mm², places in panel mm.
type Problem struct {
	Kind     Kind             `json:"kind"`
	Severity Severity         `json:"severity"`
	At       [2]float64       `json:"at"`
	Measured float64          `json:"measured"`
	Required float64          `json:"required"`
	Between  *[2]int          `json:"between"` // indexes of copies, in the order of Layout.Copies
	Ends     *[2][2]float64   `json:"ends"`    // of a bridge, a neck or the way to the edge
	Text     string           `json:"text"`
	Mend     *pattern.Command `json:"mend"`
}

// OverlapFrom in mm²: a common area up to this counts as touching. It is the definition's, and far below what a beam of
// 0.1 mm could cut out.
const OverlapFrom = 0.01

// middle returns the point halfway between p and q.
func middle(p, q orb.Point) [2]float64 { return [2]float64{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2} }
