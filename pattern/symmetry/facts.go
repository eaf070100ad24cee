package symmetry

import "slices"

// Share says how many of some things have a property.
type Share string

// The three shares.
const (
	None Share = "none"
	Some Share = "some"
	All  Share = "all"
)

// Facts are what a person looks for to tell which group a field has, after D. Schattschneider, "The Plane Symmetry
// Groups: Their Recognition and Notation", American Mathematical Monthly 85 (1978) 439–450.
type Facts struct {
	Order      int  // the highest order of rotation, 1 when nothing but whole turns
	Mirrors    bool // there are mirrors
	MirrorWays int  // directions in which mirrors run
	Glides     bool // there are glide lines that are not mirrors
	// rotation points of the highest order that lie on mirrors; None when there are no rotation points
	OnMirrors Share
	Region    Fraction // the generating region as a share of the primitive unit
}

// Facts computes the group's facts from its operations.
func (g Group) Facts() Facts {
	f := Facts{Order: 1, OnMirrors: None}
	var ways [][2]int
	points, on := 0, 0
	for _, e := range g.Elements() {
		switch e.Kind {
		case Turn:
			f.Order = max(f.Order, e.Order) // the highest come first
			if e.Order == f.Order {
				points++
				if e.OnMirror {
					on++
				}
			}
		case Mirror:
			if !slices.Contains(ways, e.Along) {
				ways = append(ways, e.Along)
			}
		case Glide:
			f.Glides = true
		}
	}

	f.Mirrors, f.MirrorWays = len(ways) > 0, len(ways)
	switch {
	case on == 0:
	case on == points:
		f.OnMirrors = All
	default:
		f.OnMirrors = Some
	}
	units := 0 // primitive units in the conventional cell: one for each pure translation
	for _, op := range g.Ops {
		if op.W == g.Ops[0].W {
			units++
		}
	}
	f.Region = Frac(units, len(g.Ops))
	return f
}
