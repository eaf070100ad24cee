package overlay

import (
	"math"
	"testing"

	"openwork/geometry"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// tables lists operations whose result anyone can work out on squared paper.
var tables = []struct {
	name            string
	op              string
	shapes          []orb.MultiPolygon
	area            float64
	polygons, holes int
}{
	{"nothing", "union", nil, 0, 0, 0},
	{"one alone", "union", two(rect(0, 0, 2, 3), nil), 6, 1, 0},
	{"two that overlap", "union", two(rect(0, 0, 2, 2), rect(1, 1, 3, 3)), 7, 1, 0},
	{"two with a common side", "union", two(rect(0, 0, 2, 2), rect(2, 0, 4, 2)), 8, 1, 0},
	{"two with half a side in common", "union", two(rect(0, 0, 2, 2), rect(2, 1, 4, 3)), 8, 1, 0},
	{"two that meet at a corner", "union", two(rect(0, 0, 2, 2), rect(2, 2, 4, 4)), 8, 2, 0},
	{"a corner against the middle of a side", "union", two(rect(0, 0, 2, 2), diamond(3, 1, 1)), 6, 2, 0},
	{"one inside another", "union", two(rect(0, 0, 9, 9), rect(2, 2, 3, 3)), 81, 1, 0},
	{"one inside another from a common corner", "union", two(rect(0, 0, 9, 9), rect(0, 0, 3, 3)), 81, 1, 0},
	{"the same twice", "union", two(plate, plate), 84, 1, 1},
	{"a plug in its hole", "union", two(plate, rect(3, 3, 7, 7)), 100, 1, 0},
	{"an island in a hole", "union", two(plate, rect(4, 4, 5, 5)), 85, 2, 1},
	{"a diamond that meets the sides of the hole it is in", "union", two(plate, diamond(5, 5, 2)), 92, 2, 1},
	{"a diamond that meets all sides from inside", "difference", two(rect(0, 0, 4, 4), diamond(2, 2, 2)), 8, 4, 0},
	{"a diamond that meets one side from inside", "difference", two(rect(0, 0, 9, 4), diamond(4, 1, 1)), 34, 1, 1},
	{"two diamonds that meet one another and both sides", "difference",
		two(rect(0, 0, 9, 4), append(diamond(4, 1, 1), diamond(4, 3, 1)...)), 32, 2, 0},
	{"a ring of diamonds that meet at their corners", "union",
		[]orb.MultiPolygon{diamond(0, 1, 1), diamond(1, 0, 1), diamond(2, 1, 1), diamond(1, 2, 1)}, 8, 1, 0},
	{"eight diamonds round a gap", "union", []orb.MultiPolygon{
		diamond(0, 0, 1), diamond(2, 0, 1), diamond(4, 0, 1), diamond(4, 2, 1), diamond(4, 4, 1), diamond(2, 4, 1),
		diamond(0, 4, 1), diamond(0, 2, 1)}, 16, 8, 0},
	{"a bar across a plate", "difference", two(rect(0, 0, 10, 10), rect(-1, 4, 11, 6)), 80, 2, 0},
	{"a hole punched", "difference", two(rect(0, 0, 10, 10), rect(4, 4, 6, 6)), 96, 1, 1},
	{"a plate punched leaves its core", "difference", two(rect(-1, -1, 11, 11), plate), 144 - 84, 2, 1},
	{"something taken from itself", "difference", two(plate, plate), 0, 0, 0},
	{"something taken from what it does not meet", "difference", two(plate, rect(20, 0, 21, 1)), 84, 1, 1},
	{"something taken from its own hole", "difference", two(plate, rect(4, 4, 6, 6)), 84, 1, 1},
	{"all taken away", "difference", two(rect(4, 4, 6, 6), rect(0, 0, 10, 10)), 0, 0, 0},
	{"a corner shared", "intersection", two(rect(0, 0, 2, 2), rect(1, 1, 3, 3)), 1, 1, 0},
	{"only a side shared", "intersection", two(rect(0, 0, 2, 2), rect(2, 0, 4, 2)), 0, 0, 0},
	{"only a point shared", "intersection", two(rect(0, 0, 2, 2), rect(2, 2, 4, 4)), 0, 0, 0},
	{"a bar across a plate shared", "intersection", two(plate, rect(-1, 4, 11, 6)), 12, 2, 0},
	{"one inside another shared", "intersection", two(plate, rect(-5, -5, 15, 15)), 84, 1, 1},
	{"one inside a hole shared", "intersection", two(plate, rect(4, 4, 6, 6)), 0, 0, 0},
	{"one inside the sheet of a plate shared", "intersection", two(plate, rect(1, 1, 2, 2)), 1, 1, 0},
	{"one inside a shell, round the shell's hole, shared", "intersection", two(plate, rect(1, 1, 9, 9)), 64 - 16, 1, 1},
	{"one inside a shell, round the shell's hole, left over", "difference", two(rect(1, 1, 9, 9), plate), 16, 1, 0},
	{"one inside a shell, round the shell's hole, cut out", "difference", two(plate, rect(1, 1, 9, 9)), 100 - 64, 1, 1},
	{"one inside a shell, round the shell's hole, joined", "union", two(plate, rect(1, 1, 9, 9)), 100, 1, 0},
	{"a frame inside a shell, round the shell's hole, shared", "intersection",
		two(plate, orb.MultiPolygon{{rect(1, 1, 9, 9)[0][0], hole(2, 2, 8, 8)}}), 64 - 36, 1, 1},
	{"each of two that cross, twice", "union", []orb.MultiPolygon{rect(0, 0, 4, 2), rect(1, -1, 3, 5), rect(0, 0, 4, 2),
		rect(1, -1, 3, 5)}, 16, 1, 0},
	{"what polygons that overlap leave", "difference",
		two(rect(4, 4, 6, 6), append(rect(0, 0, 10, 10), rect(5, 5, 12, 12)...)), 0, 0, 0},
	{"what polygons that overlap share", "intersection",
		two(rect(4, 4, 6, 6), append(rect(0, 0, 10, 10), rect(5, 5, 12, 12)...)), 4, 1, 0},
	{"polygons that overlap, cropped", "intersection",
		two(append(rect(0, 0, 2, 2), rect(1, 1, 3, 3)...), rect(-5, -5, 5, 5)), 7, 1, 0},
	{"polygons that overlap, less one that does not meet them", "difference",
		two(append(rect(0, 0, 2, 2), rect(1, 1, 3, 3)...), rect(8, 8, 9, 9)), 7, 1, 0},
	{"pieces inside, across and outside", "intersection",
		two(append(append(append(orb.MultiPolygon{}, rect(1, 1, 2, 2)...), rect(9, 4, 11, 5)...),
			rect(30, 1, 31, 2)...), rect(0, 0, 10, 10)), 2, 2, 0},
}

func operate(op string, shapes []orb.MultiPolygon) (orb.MultiPolygon, error) {
	switch op {
	case "difference":
		return Difference(shapes[0], shapes[1])
	case "intersection":
		return Intersection(shapes[0], shapes[1])
	}
	return Union(shapes...)
}

func TestTables(t *testing.T) {
	for _, c := range tables {
		for _, at := range []struct {
			name  string
			scale float64
			by    isometry
		}{
			{"as drawn", 1, isometry{}},
			{"turned by 30°", 1, isometry{turn: math.Pi / 6}},
			{"turned by 90° and moved", 1, isometry{turn: math.Pi / 2, shift: orb.Point{1234.5678, -777.1}}},
			{"mirrored and turned by 1 rad", 1, isometry{turn: 1, mirrored: true}},
			{"a hundred times larger", 100, isometry{turn: 0.3}},
			{"a thousand times smaller", 1e-3, isometry{turn: 0.3}},
		} {
			t.Run(at.name, func(t *testing.T) {
				shapes := make([]orb.MultiPolygon, len(c.shapes))
				for i, s := range c.shapes {
					shapes[i] = at.by.shape(scaled(s, at.scale))
				}
				got, err := operate(c.op, shapes)
				if err != nil {
					t.Errorf("%s, %s: %v", c.name, at.name, err)
					return
				}
				area := c.area * at.scale * at.scale
				if a := geometry.Area(got); math.Abs(a-area) > 1e-6*at.scale || len(got) != c.polygons ||
					countHoles(got) != c.holes {
					t.Errorf("%s of %s, %s: area %.9g, %d polygons, %d holes; want %g, %d, %d",
						c.op, c.name, at.name, a, len(got), countHoles(got), area, c.polygons, c.holes)
				}
				if f := geostest.Fault(got); f != "" {
					t.Errorf("%s of %s, %s: %s", c.op, c.name, at.name, f)
				}
			})
		}
	}
}
