package curve

import (
	"math"
)

// short returns a piece from one joint to the next, along one edge: as span gives it, or with handles as long as the
// limit allows, or straight, or as the polygon goes.
func (b *builder) short(from, to *joint) ([]Piece, float64) {
	if p, d, ok := b.span(from, to); ok {
		return p, d
	}
	if f, ok := newFrame(from, to, b.poly); ok {
		for k := range shrinkSteps {
			// A handle that rises by d bulges out by four ninths of d.
			d := 2 * b.limit * math.Pow(0.6, float64(k)) / f.l
			p := []Piece{f.piece(min(1.0/3, d/max(math.Abs(f.s0), d)), min(1.0/3, d/max(math.Abs(f.s1), d)), from, to)}
			if d := b.measure(from.at, p); d <= b.limit {
				return p, d
			}
		}
	}
	p := []Piece{{Kind: Line, To: to.at}}
	if d := b.measure(from.at, p); d <= b.limit {
		return p, d
	}

	// As the polygon goes, but for points too near to others.
	p = p[:0]
	at := from.at
	for _, v := range b.poly[1 : len(b.poly)-1] {
		if distance(at, v) >= b.least && distance(v, to.at) >= b.least {
			p = append(p, Piece{Kind: Line, To: v, Corner: true})
			at = v
		}
	}
	p = append(p, Piece{Kind: Line, To: to.at})
	d := max(distance(from.at, from.anchor), distance(to.at, to.anchor))
	if b.least > 0 {
		d = b.measure(from.at, p)
		b.failed = b.failed || d > b.limit
	}
	return p, d
}
