package outline

import (
	"errors"
	"fmt"
	"math"

	"openwork/geometry/overlay"
	"openwork/geometry/simplify"

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
	most := maxCrossings
	if rule == evenOdd { // once for each turn that is wound
		most /= 10
	}
	crossings := simplify.Crossings(rings, most)
	if crossings > most {
		return nil, tooTangled(most)
	}
	if crossings == 0 && len(rings) == 1 && !doublesBack(rings[0]) {
		r := rings[0]
		switch a := area(r); {
		case a < 0:
			r = backward(r)
		case a == 0:
			return nil, nil
		}
		return orb.MultiPolygon{{r}}, nil
	}
	turned := make([]orb.Ring, len(rings))
	for k, r := range rings {
		turned[k] = backward(r)
	}
	var parts []orb.MultiPolygon
	for _, side := range [][]orb.Ring{rings, turned} {
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

// tangled returns an error for rings that cross so often that to make them out would take minutes.
func tangled(rings []orb.Ring, most int) error {
	if simplify.Crossings(rings, most) > most {
		return tooTangled(most)
	}
	return nil
}

func tooTangled(most int) error {
	return fmt.Errorf("lines cross more than %d times; simplify them first", most)
}

// doublesBack says whether an edge of a ring runs back on the one before it.
func doublesBack(r orb.Ring) bool {
	n := len(r) - 1
	for i := range n {
		a, b, c := r[i], r[(i+1)%n], r[(i+2)%n]
		u, v := orb.Point{b[0] - a[0], b[1] - a[1]}, orb.Point{c[0] - b[0], c[1] - b[1]}
		cross, dot := u[0]*v[1]-u[1]*v[0], u[0]*v[0]+u[1]*v[1]
		if dot < 0 && math.Abs(cross) < -dot*backTurn {
			return true
		}
	}
	return false
}

// united returns the union of shapes.
func united(shapes []orb.MultiPolygon) (orb.MultiPolygon, error) {
	var rings []orb.Ring
	for _, s := range shapes {
		rings = append(rings, ringsOf(s)...)
	}
	if err := tangled(rings, maxCrossings); err != nil {
		return nil, err
	}
	return overlay.Union(shapes...)
}

// levels returns what the rings wind about at least once counter-clockwise; by the even-odd rule, that less what they
// wind about at least twice, with what they wind about at least three times, and so on.
func levels(rings []orb.Ring, rule fillRule) (orb.MultiPolygon, error) {
	out, err := overlay.Positive(rings)
	if err != nil || rule == nonZero || len(out) == 0 {
		return out, err
	}
	frame := frameAround(rings)
	odd := true
	for range maxWinding {
		rings = append(rings[:len(rings):len(rings)], frame)
		deeper, err := overlay.Positive(rings)
		if err != nil || len(deeper) == 0 {
			return out, err
		}
		if odd {
			out, err = minus(out, deeper)
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

// minus returns what lies in a and not in b: what winds once about a point and is not taken back.
func minus(a, b orb.MultiPolygon) (orb.MultiPolygon, error) {
	near, far := parted(a, b)
	if len(near) == 0 {
		return far, nil
	}
	rings := ringsOf(near)
	for _, r := range ringsOf(b) {
		rings = append(rings, backward(r))
	}
	mp, err := overlay.Positive(rings)
	return append(far, mp...), err
}

// common returns what lies in a and in b: what winds twice about a point, less once everywhere.
func common(a, b orb.MultiPolygon) (orb.MultiPolygon, error) {
	near, _ := parted(a, b)
	if len(near) == 0 {
		return nil, nil
	}
	rings := append(ringsOf(near), ringsOf(b)...)
	return overlay.Positive(append(rings, frameAround(rings)))
}

// parted parts the polygons of a into those whose box meets that of b, and the others.
func parted(a, b orb.MultiPolygon) (near, far orb.MultiPolygon) {
	box := b.Bound()
	for _, p := range a {
		if len(b) > 0 && p.Bound().Intersects(box) {
			near = append(near, p)
		} else {
			far = append(far, p)
		}
	}
	return near, far
}

// frameAround returns a clockwise rectangle around all rings: one turn less everywhere.
func frameAround(rings []orb.Ring) orb.Ring {
	b := boundOf(rings).Pad(1)
	return orb.Ring{{b.Min[0], b.Min[1]}, {b.Min[0], b.Max[1]}, {b.Max[0], b.Max[1]}, {b.Max[0], b.Min[1]}, {b.Min[0], b.Min[1]}}
}

// backward returns the ring run the other way.
func backward(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, v := range r {
		out[len(r)-1-i] = v
	}
	return out
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
