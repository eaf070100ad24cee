package outline

import (
	"errors"

	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

// fillRule says which points count as inside, from how often the outline winds about them.
type fillRule int

const (
	nonZero fillRule = iota
	evenOdd
)

// settled returns the valid outline of what the rings fill under a rule. The rings may cross themselves and one another
// and run either way.
func settled(rings []orb.Ring, rule fillRule) (orb.MultiPolygon, error) {
	backward := make([]orb.Ring, len(rings))
	for k, r := range rings {
		backward[k] = make(orb.Ring, len(r))
		for i, v := range r {
			backward[k][len(r)-1-i] = v
		}
	}
	var parts []orb.MultiPolygon
	for _, side := range [][]orb.Ring{rings, backward} {
		mp, err := levels(side, rule)
		if err != nil {
			return nil, err
		}
		parts = append(parts, mp)
	}
	switch {
	case len(parts[0]) == 0:
		return parts[1], nil
	case len(parts[1]) == 0:
		return parts[0], nil
	}
	return overlay.Union(parts...)
}

// levels returns what the rings wind about at least once counter-clockwise; by the even-odd rule, that less what they
// wind about at least twice, with what they wind about at least three times, and so on.
func levels(rings []orb.Ring, rule fillRule) (orb.MultiPolygon, error) {
	out, err := overlay.Positive(rings)
	if err != nil || rule == nonZero || len(out) == 0 {
		return out, err
	}
	b := boundOf(rings).Pad(1)
	frame := orb.Ring{{b.Min[0], b.Min[1]}, {b.Min[0], b.Max[1]}, {b.Max[0], b.Max[1]}, {b.Max[0], b.Min[1]}, {b.Min[0], b.Min[1]}}
	odd := true
	for range maxWinding {
		rings = append(rings[:len(rings):len(rings)], frame) // clockwise: one turn less everywhere
		deeper, err := overlay.Positive(rings)
		if err != nil || len(deeper) == 0 {
			return out, err
		}
		if odd {
			out, err = overlay.Difference(out, deeper)
		} else {
			out, err = overlay.Union(out, deeper)
		}
		if err != nil {
			return nil, err
		}
		odd = !odd
	}
	return nil, errors.New("a shape winds about a point too often")
}

// boundOf returns the box around all rings.
func boundOf(rings []orb.Ring) orb.Bound {
	var b orb.Bound
	for k, r := range rings {
		if k == 0 {
			b = r.Bound()
		} else {
			b = b.Union(r.Bound())
		}
	}
	return b
}
