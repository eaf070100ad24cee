package residue

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// outlineOf reads rings from bytes: two for every corner, on a grid of sixteenths of a mm that are as often whole
// numbers as not, 255 for the end of a ring and 254 for the end of a polygon.
func outlineOf(data []byte) orb.MultiPolygon {
	mp := orb.MultiPolygon{{orb.Ring{}}}
	coordinate := func(b byte) float64 {
		if b < 128 {
			return float64(b % 24)
		}
		return float64(b-128) / 5
	}
	for len(data) > 1 {
		k := len(mp) - 1
		switch p := &mp[k]; data[0] {
		case 255:
			*p, data = append(*p, orb.Ring{}), data[1:]
		case 254:
			mp, data = append(mp, orb.Polygon{orb.Ring{}}), data[1:]
		default:
			r := &(*p)[len(*p)-1]
			*r, data = append(*r, orb.Point{coordinate(data[0]), coordinate(data[1])}), data[2:]
		}
	}
	for _, p := range mp {
		for i, r := range p {
			if len(r) > 0 {
				p[i] = append(r, r[0])
			}
		}
	}
	return mp
}

// FuzzResidue asks for the narrow places of any outline: a valid one has an answer, whatever the width, and every
// figure of it is finite.
func FuzzResidue(f *testing.F) {
	f.Add([]byte{0, 0, 20, 0, 20, 20, 0, 20}, 3.0, uint8(0))
	f.Add([]byte{0, 0, 20, 0, 20, 20, 0, 20, 255, 4, 4, 4, 10, 10, 10, 10, 4, 255, 10, 10, 10, 16, 16, 16, 16, 10}, 3.0,
		uint8(0))
	f.Add([]byte{0, 0, 20, 0, 20, 20, 0, 20, 255, 20, 20, 15, 5, 5, 15}, 2.0, uint8(1))
	f.Add([]byte{0, 0, 10, 0, 10, 10, 0, 10, 254, 10, 10, 20, 10, 20, 20, 10, 20}, 2.0, uint8(3))
	f.Add([]byte{0, 0, 20, 0, 20, 3, 11, 3, 11, 9, 20, 9, 20, 20, 0, 20, 0, 9, 9, 9, 9, 3, 0, 3}, 3.0, uint8(17))
	f.Fuzz(func(t *testing.T, data []byte, width float64, turn uint8) {
		if len(data) > 120 || !(width >= 1e-3 && width <= 1e3) {
			return
		}
		mp := outlineOf(data)
		if geometry.CheckOutline(mp) != nil {
			return
		}
		mp = geometry.Transform(geometry.Orient(mp), geometry.TurnDegrees(float64(turn)*90/7))
		if geometry.CheckOutline(mp) != nil {
			return // turning rounds corners that lay on edges
		}
		for _, inside := range []bool{true, false} {
			found, err := find(mp, width, 0.1, inside)
			if err == nil {
				err = finite(found)
			}
			if err != nil {
				t.Errorf("width %g, inside %v: %v\n%v", width, inside, err, mp)
			}
			for _, p := range found {
				if p.Width < 0 || p.Reach < 0 || p.Length < 0 || (p.Joins() && p.Width > width*(1+1e-6)) ||
					math.Abs(geometry.PointDistance(p.P, p.Q)-p.Width) > 1e-6*(1+width) {
					t.Errorf("width %g, inside %v: %+v\n%v", width, inside, p, mp)
				}
			}
		}
	})
}
