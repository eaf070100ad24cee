// Package sheet says whether a laid-out field holds together as a sheet: overlaps, bridges, islands, narrow openings,
// the sheet's edge. What a word means exactly stands at Kind.
//
// This package looks at one cell and its neighbours, and is fast enough for every frame: it links no overlay. The whole
// panel, with its edges and with openings that run into each other united, is gone through by package sheet/panel.
package sheet

import (
	"github.com/paulmach/orb"

	"openwork/pattern"
)

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
