package curve

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// spaced returns a chain without the joints that come too near to others: firm ones stay before others, its ends
// always.
func (g *ring) spaced(js []joint) []joint {
	if g.least == 0 {
		return js
	}
	clear := func(a, b *joint) bool { return distance(a.at, b.at) >= g.least }
	last := &js[len(js)-1]
	out := []joint{js[0]}
	next := 0 // the next firm joint
	for k := 1; k+1 < len(js); k++ {
		for next < k || next+1 < len(js) && !js[next].firm {
			next++
		}
		j := &js[k]
		if clear(&out[len(out)-1], j) && clear(j, last) && (next == k || next+1 >= len(js) || clear(j, &js[next])) {
			out = append(out, *j)
		}
	}
	return append(out, *last)
}

// count sums up how far the polygon has turned at each joint of a chain.
func count(g *ring, chain []joint) []joint {
	sum := 0.0
	for k := range chain {
		if k > 0 {
			sum += math.Abs(math.Atan2(geometry.Cross(chain[k-1].out, chain[k].in),
				geometry.Dot(chain[k-1].out, chain[k].in)))
		}
		chain[k].turned = sum
	}
	return chain
}

// between returns the way of the ring as it was given from the anchor of one joint to that of another further on.
func (g *ring) between(dst []orb.Point, a, b *joint) []orb.Point {
	dst = append(dst[:0], a.anchor)
	before := 0
	if a.part == 0 {
		dst, before = g.passed(dst, a.edge)
		dst = slices.Delete(dst, 1, 1+before)
	}
	for k := a.edge + 1; k <= b.edge; k++ {
		at := len(dst)
		dst, before = g.passed(dst, k)
		if k == b.edge && b.part == 0 {
			dst = dst[:at+before]
		}
	}
	return append(dst, b.anchor)
}
