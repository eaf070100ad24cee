package nest

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// boxShare is the part of its box that an outline covers at most to be laid by itself; a fuller one is its box.
const boxShare = 0.995

// Boxed reports whether a piece is laid by its box alone: it has no outline, or one that leaves hardly anything of the
// box free.
func (p Piece) Boxed() bool { return len(p.Outline) == 0 || p.area() > boxShare*p.Width*p.Height }

func (p Piece) outlined() bool { return !p.Boxed() }

// area returns the area in mm² of the outline, of the box where there is none.
func (p Piece) area() float64 {
	if len(p.Outline) == 0 {
		return p.Width * p.Height
	}
	sum := 0.0
	for _, r := range p.Outline {
		sum += math.Abs(geometry.RingArea(r))
	}
	return sum
}

// checkOutline says when the outline is none, or leaves the box.
func (p Piece) checkOutline() error {
	box := orb.Bound{Max: orb.Point{p.Width, p.Height}}.Pad(MaxStray)
	for _, r := range p.Outline {
		if len(r) < 4 || !r.Closed() {
			return fmt.Errorf("the outline of %s has a ring that is not closed or has no area", p.called())
		}
		for _, v := range r {
			if !box.Contains(v) || math.IsNaN(v[0]) || math.IsNaN(v[1]) {
				return fmt.Errorf("the outline of %s leaves its box of %g × %g mm at (%g, %g)", p.called(), p.Width,
					p.Height, v[0], v[1])
			}
		}
	}
	return nil
}

// Lies returns the outline of a piece, of its box where it has none, as it lies on the stock.
func (p Placed) Lies(of Piece) []orb.Ring {
	rings, _, _ := of.turned(p.Turns())
	for _, r := range rings {
		for i, v := range r {
			r[i] = geometry.Add(v, p.At)
		}
	}
	return rings
}

// turned returns a copy of the outline, of the box where the piece is boxed, turned by quarters counter-clockwise, from
// the lower left corner of its box on, and the box's size.
func (p Piece) turned(quarters int) (rings []orb.Ring, wide, high float64) {
	rings, wide, high = p.Outline, p.Width, p.Height
	if p.Boxed() {
		rings = []orb.Ring{geometry.RectOutline(orb.Bound{Max: orb.Point{wide, high}})[0][0]}
	}
	out := make([]orb.Ring, len(rings))
	for i, r := range rings {
		out[i] = r.Clone()
		for k, v := range out[i] {
			switch quarters {
			case 1:
				v = orb.Point{high - v[1], v[0]}
			case 2:
				v = orb.Point{wide - v[0], high - v[1]}
			case 3:
				v = orb.Point{v[1], wide - v[0]}
			}
			out[i][k] = v
		}
	}
	if quarters%2 == 1 {
		wide, high = high, wide
	}
	return out, wide, high
}
