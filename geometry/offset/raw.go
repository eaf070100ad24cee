package offset

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry/grow"
)

// beside says how edges are moved aside.
type beside struct {
	distance float64 // mm to their right, to their left when negative
	step     float64 // radians of one chord of an arc
	through  bool    // through every corner on the inside of a turn, also where the images cross beside it

	joins              Joins
	sharp, sharpCorner float64 // radians of the widest turns with a sharp join, elsewhere and at corners
	excess             *Excess
}

// ring returns the curve beside a ring: every edge moved aside, joined by arcs about the corners on the outside of a
// turn, and through the corner itself on the inside.
//
// This curve winds about a point as often as the ring does, and once more for every strip between an edge and its image
// and for every sector of a corner that holds the point; when distance is negative, once less. Taken over all rings of
// a valid polygon the points of positive winding number are thus exactly the polygon and all strips and sectors, or
// the polygon less all strips and sectors, which is what growing and shrinking mean. (Compare R. Wein, "Exact and
// efficient construction of planar Minkowski sums using the convolution method", ESA 2006.)
func (b beside) ring(ring []orb.Point) orb.Ring {
	raw := make(orb.Ring, 0, 2*len(ring)+1)
	corners := b.corners(ring)
	for i := range ring {
		raw = b.corner(raw, ring, corners, i)
	}
	return append(raw, raw[0])
}

// corners says which points of a ring are corners; nil: none.
func (b beside) corners(ring []orb.Point) []bool {
	if b.joins.Corners == nil || b.sharpCorner <= b.sharp {
		return nil
	}
	return b.joins.Corners(ring)
}

// corner appends the part of the curve beside a ring that belongs to its corner i.
//
// On the inside of a turn the images of the two edges cross, and the curve takes the crossing itself where that lies
// beside the nearer half of both edges. What it leaves out is a loop about the kite between corner and crossing. Both
// strips hold the kite, and no strip is shared by two kites that overlap: so a point in k kites lies in 2k strips or
// more, and is still wound about k times or more.
//
// A sharp join on the outside of a turn adds a polygon round the sector instead of the sector.
func (b beside) corner(raw orb.Ring, ring []orb.Point, corners []bool, i int) orb.Ring {
	n := len(ring)
	before, p, after := ring[(i+n-1)%n], ring[i], ring[(i+1)%n]
	in, lenIn := grow.Aside(before, p, b.distance)
	out, lenOut := grow.Aside(p, after, b.distance)
	turn := grow.TurnAt(in, out, b.distance)
	if turn*b.distance >= 0 {
		if b.sharp > 0 && turn != 0 {
			return b.tangents(raw, p, in, turn, corners != nil && corners[i])
		}
		raw = append(raw, orb.Point{p[0] + in[0], p[1] + in[1]})
		raw = grow.Arc(raw, p, in, turn, b.step)
		return append(raw, orb.Point{p[0] + out[0], p[1] + out[1]})
	}

	if !b.through && b.crosses(turn, lenIn, lenOut) {
		f := 1 / (1 + math.Cos(turn))
		return append(raw, orb.Point{p[0] + f*(in[0]+out[0]), p[1] + f*(in[1]+out[1])})
	}
	return append(raw, orb.Point{p[0] + in[0], p[1] + in[1]}, p, orb.Point{p[0] + out[0], p[1] + out[1]})
}

// tangents appends the corners of the polygon of fewest that stands round the arc about p that begins at p+from and
// spans turn, and reaches no further beyond it than the joins say.
func (b beside) tangents(raw orb.Ring, p, from orb.Point, turn float64, corner bool) orb.Ring {
	n := math.Ceil(math.Abs(turn) / b.sharp)
	if corner && math.Abs(turn) <= b.sharpCorner {
		n = 1
	}
	reach := 1 / math.Cos(turn/(2*n))
	if !(corner && n == 1) {
		b.excess.Beyond = max(b.excess.Beyond, math.Abs(b.distance)*(reach-1))
	}
	half := math.Abs(turn) / 2
	more := math.Abs(b.distance) * (n*math.Tan(half/n) - half)
	b.excess.Area += more * math.Abs(b.distance)
	b.excess.Length += 2 * more
	for k := 0.5; k < n; k++ {
		s, c := math.Sincos(turn * k / n)
		raw = append(raw, orb.Point{p[0] + reach*(c*from[0]-s*from[1]), p[1] + reach*(s*from[0]+c*from[1])})
	}
	return raw
}

// crosses reports whether the images of two edges cross beside the nearer half of both, at the inside of a turn between
// them.
func (b beside) crosses(turn, before, after float64) bool {
	return grow.Cross(turn, b.distance, before, after)
}

// crowded says how many corners of a ring turn inward with edges too short for the images to cross beside them.
func (b beside) crowded(ring []orb.Point) int {
	n, many := len(ring), 0
	for i, p := range ring {
		in, lenIn := grow.Aside(ring[(i+n-1)%n], p, b.distance)
		out, lenOut := grow.Aside(p, ring[(i+1)%n], b.distance)
		if turn := grow.TurnAt(in, out, b.distance); turn*b.distance < 0 && !b.crosses(turn, lenIn, lenOut) {
			many++
		}
	}
	return many
}
