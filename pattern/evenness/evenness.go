// Package evenness measures how even the gaps of a field are: the widest place between openings, straight corridors
// that meet none, stripes, and how thick the sheet is everywhere.
package evenness

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// Gaps says how even the gaps between openings are.
type Gaps struct {
	Narrowest float64  `json:"narrowest"` // mm: the narrowest gap between two copies
	Widest    float64  `json:"widest"`    // mm: across the largest disc that stands free between openings
	Alley     *float64 `json:"alley"`     // mm: the widest straight corridor between openings, null where there is none
	Stripe    float64  `json:"stripe"`    // 0 to 2: contrast of the strongest stripe, see Stripe

	At     orb.Point `json:"-"` // the middle of the largest disc, field mm
	Street Street    `json:"-"`
}

// Street is a straight corridor that meets no opening: all points p with From ≤ p·Normal ≤ To.
type Street struct {
	Normal   orb.Point
	From, To float64
}

// Of measures a layout's field.
func Of(l *pattern.Layout, narrowest float64) Gaps {
	e := Gaps{Narrowest: narrowest}
	e.At, e.Widest = Widest(l)
	if s, ok := Alley(l); ok {
		width := s.To - s.From
		e.Street, e.Alley = s, &width
	}
	e.Stripe, _ = Stripe(l)
	return e
}

// WidestTo is how near in mm the width of the largest disc is found.
const WidestTo = 0.002

// Widest returns the largest disc between openings: its middle and its width, found by branch and bound over one
// cell. The distance to the nearest opening changes by no more than the way gone, so that a box whose middle is too
// near to an opening cannot hold the middle of a larger disc.
func Widest(l *pattern.Layout) (at orb.Point, width float64) {
	copies := around(l)
	if len(copies) == 0 {
		return at, 0
	}
	type box struct {
		x, y, half float64 // in cell coordinates
		bound      float64
	}
	diagonal := math.Max(dist(geometry.Add(l.A, l.B)), dist(geometry.Sub(l.A, l.B)))
	best := -math.MaxFloat64
	measure := func(b box) box {
		p := geometry.Add(geometry.Times(l.A, b.x), geometry.Times(l.B, b.y))
		d := clearanceAt(copies, p, best-b.half*diagonal)
		if d > best {
			best, at = d, p
		}
		b.bound = d + b.half*diagonal
		return b
	}
	const parts = 8
	var boxes []box
	for i := range parts {
		for j := range parts {
			boxes = append(boxes, measure(box{(float64(i) + 0.5) / parts, (float64(j) + 0.5) / parts, 0.5 / parts, 0}))
		}
	}
	for len(boxes) > 0 && len(boxes) < maxBoxes {
		var next []box
		for _, b := range boxes {
			if b.bound < best+WidestTo/2 {
				continue
			}
			h := b.half / 2
			for _, d := range [4]orb.Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
				next = append(next, measure(box{b.x + d[0], b.y + d[1], h, 0}))
			}
		}
		boxes = next
	}
	return at, 2 * max(best, 0)
}

// maxBoxes ends the halving: where the largest disc may stand in very many places its width is known well before.
const maxBoxes = 60000

func dist(v orb.Point) float64 { return math.Sqrt(geometry.Dot(v, v)) }

// around returns the copies that reach into the cell at the field's origin, and those next to them.
func around(l *pattern.Layout) []*geometry.Shape {
	var cell orb.MultiPoint
	for _, m := range [4][2]int{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
		cell = append(cell, l.Lattice(m[0], m[1]))
	}
	window := cell.Bound()
	window = window.Pad(dist(geometry.Sub(window.Max, window.Min)) / 2)
	var copies []*geometry.Shape
	for _, o := range l.Orbits {
		for _, image := range o.Images {
			b := image.Bound()
			l.Cells(window, b, func(m, n int) bool {
				v := l.Lattice(m, n)
				copies = append(copies, image.Shape.Place(geometry.Translate(image.At[0]+v[0], image.At[1]+v[1]), nil))
				return len(copies) < maxAround
			})
		}
	}
	return copies
}

// maxAround bounds the copies looked at round a cell.
const maxAround = 4000

// clearanceAt returns the distance from a point to the nearest opening, negative inside one; where it is less than
// enough, some value that is less.
func clearanceAt(copies []*geometry.Shape, p orb.Point, enough float64) float64 {
	best := math.Inf(1)
	for _, c := range copies {
		b := c.Bound()
		dx := max(b.Min[0]-p[0], p[0]-b.Max[0], 0)
		dy := max(b.Min[1]-p[1], p[1]-b.Max[1], 0)
		if dx*dx+dy*dy >= best*best {
			continue
		}
		near := c.DistanceTo(p, best)
		if dx == 0 && dy == 0 && c.Contains(p) {
			near = c.DistanceTo(p, math.Inf(1))
			return -near.D
		}
		if near.Found {
			best = near.D
		}
		if best < enough {
			return best
		}
	}
	return best
}
