package overlay

import (
	"encoding/binary"
	"math"
	"testing"

	"openwork/geometry"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// ringsOf reads rings from bytes: two bytes a coordinate, on a coarse grid, on which much coincides, with a third byte
// that moves the point by anything from a millimetre to less than a step of the finest grid.
func ringsOf(data []byte, limit int) []orb.Ring {
	var rings []orb.Ring
	for len(data) > 0 && len(rings) < limit {
		n := int(data[0]%24) + 1
		data = data[1:]
		var r orb.Ring
		for range n {
			if len(data) < 5 {
				break
			}
			x := float64(int8(data[0])) / 8
			y := float64(int8(data[1])) / 8
			off := math.Pow(10, -float64(data[4]%14)) * float64(int16(binary.LittleEndian.Uint16(data[2:]))) / (1 << 15)
			if data[4]&0x80 == 0 {
				off = 0
			}
			r = append(r, orb.Point{x + off, y - off/3})
			data = data[5:]
		}
		if len(r) > 0 {
			r = append(r, r[0])
		}
		rings = append(rings, r)
	}
	return rings
}

func seeds(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{4, 0, 0, 0, 0, 0, 40, 0, 0, 0, 0, 40, 40, 0, 0, 0, 0, 40, 0, 0, 0, 4, 40, 40, 0, 0, 0, 80, 40, 0, 0, 0,
		80, 80, 0, 0, 0, 40, 80, 0, 0, 0})
	star := []byte{10}
	for i := range 10 {
		a := 4 * math.Pi * float64(i) / 10
		star = append(star, byte(int8(100*math.Cos(a))), byte(int8(100*math.Sin(a))), byte(i), byte(7*i),
			byte(0x80|(6+i)))
	}
	f.Add(star)
	f.Add(append(star, star...))
}

// FuzzPositive holds any rings against their winding numbers.
func FuzzPositive(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		rings := ringsOf(data, 6)
		got, err := Positive(rings)
		if err != nil {
			t.Fatal(err)
		}
		if s := geostest.Fault(got); s != "" {
			t.Fatal(s)
		}
		if len(boundary(rings)) == 0 {
			return
		}
		b := boundOf(rings)
		for i := range 12 {
			for j := range 12 {
				q := orb.Point{b.Min[0] + (float64(i)+0.37)/12*(b.Max[0]-b.Min[0]), b.Min[1] +
					(float64(j)+0.61)/12*(b.Max[1]-b.Min[1])}
				w := 0
				for _, r := range rings {
					w += geostest.Winding(r, q)
				}
				if (w > 0) != geostest.In(got, q) && geostest.DistanceTo(boundary(rings), q) > 1e-6 {
					t.Fatalf("the rings wind %d times about %v", w, q)
				}
			}
		}
	})
}

func boundary(rings []orb.Ring) orb.MultiPolygon {
	var p orb.Polygon
	for _, r := range rings {
		if len(r) > 0 {
			p = append(p, r)
		}
	}
	if len(p) == 0 {
		return nil
	}
	return orb.MultiPolygon{p}
}

// FuzzUnion makes valid shapes of any rings and holds the three operations against the laws of sets.
func FuzzUnion(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		rings := ringsOf(data, 6)
		half := (len(rings) + 1) / 2
		a, err := Positive(rings[:half])
		if err != nil {
			t.Fatal(err)
		}
		b, err := Positive(rings[half:])
		if err != nil {
			t.Fatal(err)
		}
		holdLaws(t, "fuzz", a, b)
		turnedA := isometry{turn: 1, mirrored: true, shift: orb.Point{3, 1}}.shape(a)
		all, err := Union(a, b, turnedA)
		if err != nil {
			t.Fatal(err)
		}
		if s := geostest.Fault(all); s != "" {
			t.Fatal(s)
		}
		sum := geometry.Area(a) + geometry.Area(b) + geometry.Area(turnedA)
		if v := geometry.Area(all); v > sum+slackOf(a, b, turnedA) || v < sum/3-slackOf(a, b, turnedA) {
			t.Fatalf("the union has %g mm² of %g", v, sum)
		}
		// Whatever the rings are, operations on them as they come must not panic.
		var raw orb.MultiPolygon
		for _, r := range rings {
			raw = append(raw, orb.Polygon{r})
		}
		for _, op := range []string{"union", "difference", "intersection"} {
			if _, err := operate(op, two(raw, a)); err != nil {
				t.Fatal(err)
			}
		}
		Nest(rings)
	})
}
