package recognise

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

func polygon(xy ...float64) orb.Polygon {
	var r orb.Ring
	for i := 0; i+1 < len(xy); i += 2 {
		r = append(r, orb.Point{xy[i], xy[i+1]})
	}
	return orb.Polygon{append(r, r[0])}
}

// ngon returns a regular polygon round the origin, a corner on the x axis turned by the given radians.
func ngon(n int, size, turn float64) orb.MultiPolygon {
	var r orb.Ring
	for i := range n {
		s, c := math.Sincos(turn + 2*math.Pi*float64(i)/float64(n))
		r = append(r, orb.Point{geometry.Snap(size * c), geometry.Snap(size * s)})
	}
	return orb.MultiPolygon{{append(r, r[0])}}
}

func at(x, y, degrees float64, mirrored bool) isometry {
	return draft.Motif{At: [2]float64{x, y}, Turn: degrees, Scale: 1, Mirrored: mirrored}.Map()
}

var (
	carp   = orb.MultiPolygon{polygon(-12, 1, -9, -3, -2, -5, 6, -3, 11, -6, 9, 0, 12, 5, 5, 3, -1, 6, -8, 4)}
	square = orb.MultiPolygon{polygon(-5, -5, 5, -5, 5, 5, -5, 5)}
	// The same square with corners in the middle of sides, begun elsewhere.
	cornered = orb.MultiPolygon{polygon(5, 0, 5, 5, 1, 5, -3, 5, -5, 5, -5, -5, 2, -5, 5, -5)}
	moth     = orb.MultiPolygon{polygon(0, -6, 3, -4, 9, -7, 7, 0, 10, 6, 2, 4, 0, 7, -2, 4, -10, 6, -7, 0, -9, -7, -3,
		-4)}
	oblong = orb.MultiPolygon{polygon(-6, -2, 6, -2, 6, 2, -6, 2)}
	// A square with a square hole that is not in its middle but on its diagonal.
	frame = orb.MultiPolygon{{polygon(-6, -6, 6, -6, 6, 6, -6, 6)[0], orb.Ring{{0, 0}, {0, 3}, {3, 3}, {3, 0}, {0, 0}}}}
	// Corners that quarter turns keep, as a set, while the sides between them only keep half-turns.
	beam = orb.MultiPolygon{polygon(-6, -6, 6, -6, 2, -2, 2, 2, 6, 6, -6, 6, -2, 2, -2, -2)}
)

func TestNamedFields(t *testing.T) {
	half := math.Sqrt(3) / 2
	for _, c := range []struct {
		name  string
		group string
		cell  symmetry.Cell
		shape orb.MultiPolygon
		at    []isometry
		want  string
	}{
		{"a carp alone", "p1", symmetry.Cell{A: 60, B: 50, Gamma: 75}, carp, []isometry{at(3, 4, 20, false)}, "p1"},
		{"a carp alone in a square", "p1", symmetry.Cell{A: 60, B: 60, Gamma: 90}, carp, []isometry{at(3, 4, 0, false)},
			"p1"},
		{"two carp half-turned", "p1", symmetry.Cell{A: 60, B: 50, Gamma: 75}, carp,
			[]isometry{at(3, 4, 20, false), at(33, 21, 200, false)}, "p2"},
		{"two carp half-turned in a square", "p1", symmetry.Cell{A: 60, B: 60, Gamma: 90}, carp,
			[]isometry{at(3, 4, 20, false), at(33, 21, 200, false)}, "p2"},
		{"two carp the same way", "p1", symmetry.Cell{A: 60, B: 50, Gamma: 75}, carp,
			[]isometry{at(3, 4, 20, false), at(33, 4, 20, false)}, "p1"},
		{"a square in a square", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, square, []isometry{at(7, 9, 0, false)},
			"p4mm"},
		{"a square with needless corners", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, cornered,
			[]isometry{at(7, 9, 0, false)}, "p4mm"},
		{"a square on its tip", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, square, []isometry{at(7, 9, 45, false)},
			"p4mm"},
		{"a square askew", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, square, []isometry{at(7, 9, 20, false)}, "p4"},
		{"a square in a rectangle", "p1", symmetry.Cell{A: 40, B: 30, Gamma: 90}, square,
			[]isometry{at(7, 9, 0, false)}, "p2mm"},
		{"a square on its tip in a rectangle", "p1", symmetry.Cell{A: 40, B: 30, Gamma: 90}, square,
			[]isometry{at(7, 9, 45, false)}, "p2mm"},
		{"a square askew in a rectangle", "p1", symmetry.Cell{A: 40, B: 30, Gamma: 90}, square,
			[]isometry{at(7, 9, 30, false)}, "p2"},
		{"a square in an oblique cell", "p1", symmetry.Cell{A: 40, B: 30, Gamma: 80}, square,
			[]isometry{at(7, 9, 0, false)}, "p2"},
		{"a square in a rhombus", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 80}, square, []isometry{at(7, 9, 40, false)},
			"c2mm"},
		{"a square in a hexagonal cell", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, square,
			[]isometry{at(7, 9, 0, false)}, "c2mm"},
		{"two squares to a square cell, checkered", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, square,
			[]isometry{at(0, 0, 0, false), at(20, 20, 0, false)}, "p4mm"},
		{"two squares side by side", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, square,
			[]isometry{at(0, 0, 0, false), at(20, 0, 0, false)}, "p2mm"},
		{"oblongs turn and turn about", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, oblong,
			[]isometry{at(0, 0, 0, false), at(20, 20, 90, false)}, "p4mm"},
		{"oblongs woven", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, oblong,
			[]isometry{at(0, 0, 45, false), at(20, 20, 135, false)}, "p4gm"},
		{"a hexagon in a hexagonal cell", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(6, 9, 0),
			[]isometry{at(1, 2, 0, false)}, "p6mm"},
		{"a hexagon on its side", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(6, 9, math.Pi/6),
			[]isometry{at(1, 2, 0, false)}, "p6mm"},
		{"a hexagon askew", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(6, 9, 0.2),
			[]isometry{at(1, 2, 0, false)}, "p6"},
		{"a triangle pointing along a side", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(3, 9, 0),
			[]isometry{at(1, 2, 0, false)}, "p31m"},
		{"a triangle pointing between", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(3, 9, math.Pi/6),
			[]isometry{at(1, 2, 0, false)}, "p3m1"},
		{"a triangle askew", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(3, 9, 0.1),
			[]isometry{at(1, 2, 0, false)}, "p3"},
		{"triangles in a honeycomb", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(3, 9, 0),
			[]isometry{at(0, 0, 0, false), at(0, 40/(2*half), 180, false)}, "p6"},
		{"triangles in a honeycomb, tip to tip", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 120}, ngon(3, 9, math.Pi/6),
			[]isometry{at(0, 0, 0, false), at(0, 40/(2*half), 180, false)}, "p6mm"},
		{"a disc in a square", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, ngon(360, 9, 0),
			[]isometry{at(1, 2, 17, false)}, "p4mm"},
		{"a disc in a hexagonal cell", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 60}, ngon(360, 9, 0),
			[]isometry{at(1, 2, 17, false)}, "p6mm"},
		{"a disc in a sheared square", "p1", symmetry.Cell{A: 40, B: 40 * math.Sqrt2, Gamma: 45}, ngon(360, 9, 0),
			[]isometry{at(1, 2, 17, false)}, "p4mm"},
		{"a disc in a sheared hexagonal cell", "p1", symmetry.Cell{A: 40, B: 40 * math.Sqrt(3), Gamma: 30},
			ngon(360, 9, 0), []isometry{at(1, 2, 0, false)}, "p6mm"},
		{"four carp in a ring", "p1", symmetry.Cell{A: 90, B: 90, Gamma: 90}, carp, []isometry{at(20, 3, 0, false),
			at(-3, 20, 90, false), at(-20, -3, 180, false), at(3, -20, 270, false)}, "p4"},
		{"four carp in a ring in a rectangle", "p1", symmetry.Cell{A: 90, B: 80, Gamma: 90}, carp,
			[]isometry{at(20, 3, 0, false), at(-3, 20, 90, false), at(-20, -3, 180, false), at(3, -20, 270, false)},
			"p2"},
		{"a moth alone upright", "p1", symmetry.Cell{A: 40, B: 50, Gamma: 90}, moth, []isometry{at(1, 2, 0, false)},
			"pm"},
		{"a moth alone on its side", "p1", symmetry.Cell{A: 40, B: 50, Gamma: 90}, moth,
			[]isometry{at(1, 2, 90, false)}, "pm"},
		{"a moth alone aslant", "p1", symmetry.Cell{A: 40, B: 50, Gamma: 90}, moth, []isometry{at(1, 2, 30, false)},
			"p1"},
		{"a moth in a rhombus", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 70}, moth, []isometry{at(1, 2, 35, false)},
			"cm"},
		{"a moth in a square, aslant", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, moth,
			[]isometry{at(1, 2, 45, false)}, "cm"},
		{"a moth on pm's mirror", "pm", symmetry.Cell{A: 40, B: 50, Gamma: 90}, moth, []isometry{at(0, 2, 0, false)},
			"pm"},
		{"a moth across pm's mirror", "pm", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(15, 2, 90, false)}, "p2mm"},
		{"an upright moth beside pm's mirror", "pm", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(15, 2, 0, false)}, "pm"},
		{"an upright moth a quarter from pm's mirror", "pm", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(20, 2, 0, false)}, "pm"},
		{"a moth along pg's glide", "pg", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(15, 2, 90, false)}, "p2mg"},
		{"an upright moth beside pg's glide", "pg", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(15, 2, 0, false)}, "pg"},
		{"an upright moth a quarter from pg's glide", "pg", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(20, 2, 0, false)}, "cm"},
		{"an upright moth in p2, anywhere", "p2", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(15, 2, 0, false)}, "p2"},
		{"an upright moth in p2, a quarter along", "p2", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(20, 2, 0, false)}, "p2mg"},
		{"an upright moth in p2, over the point", "p2", symmetry.Cell{A: 80, B: 50, Gamma: 90}, moth,
			[]isometry{at(0, 9, 0, false)}, "p2mm"},
		{"a frame with a hole on its diagonal", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, frame,
			[]isometry{at(0, 0, 0, false)}, "cm"},
		{"a frame with a hole in a rectangle", "p1", symmetry.Cell{A: 40, B: 50, Gamma: 90}, frame,
			[]isometry{at(0, 0, 0, false)}, "p1"},
		{"corners of a square joined otherwise", "p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, beam,
			[]isometry{at(0, 0, 0, false)}, "p2mm"},
		{"two carp at one place", "p1", symmetry.Cell{A: 60, B: 50, Gamma: 75}, carp,
			[]isometry{at(3, 4, 20, false), at(63, 4, 20, false)}, "p1"},
		{"a carp over its half-turn", "p1", symmetry.Cell{A: 60, B: 50, Gamma: 75}, carp,
			[]isometry{at(3, 4, 20, false), at(3, 4, 200, false)}, "p2"},
		{"a square of 60 by 60.0001", "p1", symmetry.Cell{A: 60, B: 60.0001, Gamma: 90}, square,
			[]isometry{at(7, 9, 0, false)}, "p4mm"},
		{"a square of 60 by 60.05", "p1", symmetry.Cell{A: 60, B: 60.05, Gamma: 90}, square,
			[]isometry{at(7, 9, 0, false)}, "p2mm"},
		{"a square askew of 60 by 60.05", "p1", symmetry.Cell{A: 60, B: 60.05, Gamma: 90}, square,
			[]isometry{at(7, 9, 20, false)}, "p2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := draftOf(c.group, c.cell, []orb.MultiPolygon{c.shape}, [][]isometry{c.at})
			f := find(t, d)
			if f.Actual != c.want || f.Chosen != c.group {
				t.Errorf("%s is found to be %s, want %s", f.Chosen, f.Actual, c.want)
			}
		})
	}
}

func TestEmptyFieldIsRefused(t *testing.T) {
	if _, err := Of(layoutOf(t, draft.Default())); !errors.Is(err, ErrEmpty) {
		t.Errorf("an empty field gives %v", err)
	}
}

// census counts elements: rotation points by order, mirrors and glide lines.
type census struct{ six, four, three, two, mirrors, glides int }

// drawn is what the Tables draw for each group, each element once modulo the primitive lattice.
var drawn = map[string]census{
	"p1": {}, "p2": {two: 4}, "pm": {mirrors: 2}, "pg": {glides: 2}, "cm": {mirrors: 1, glides: 1},
	"p2mm": {two: 4, mirrors: 4}, "p2mg": {two: 4, mirrors: 2, glides: 2}, "p2gg": {two: 4, glides: 4},
	"c2mm": {two: 4, mirrors: 2, glides: 2}, "p4": {four: 2, two: 2}, "p4mm": {four: 2, two: 2, mirrors: 6, glides: 2},
	"p4gm": {four: 2, two: 2, mirrors: 2, glides: 6}, "p3": {three: 3}, "p3m1": {three: 3, mirrors: 3, glides: 3},
	"p31m": {three: 3, mirrors: 3, glides: 3}, "p6": {six: 1, three: 2, two: 3},
	"p6mm": {six: 1, three: 2, two: 3, mirrors: 6, glides: 6},
}

func countOf(elements []Element) (c census) {
	for _, e := range elements {
		switch {
		case e.Kind == MirrorLine:
			c.mirrors++
		case e.Kind == GlideLine:
			c.glides++
		case e.Order == 6:
			c.six++
		case e.Order == 4:
			c.four++
		case e.Order == 3:
			c.three++
		case e.Order == 2:
			c.two++
		}
	}
	return c
}

func TestElementsOfEachGroup(t *testing.T) {
	const seed = 31
	r := rand.New(rand.NewPCG(seed, 0))
	for _, g := range symmetry.Groups() {
		c := patterntest.Cell(r, g, 300*float64(len(g.Ops)))
		d := draftOf(g.Symbol, c, []orb.MultiPolygon{carp}, [][]isometry{{at(c.A*0.13, c.B*0.21, 17, false)}})
		l := layoutOf(t, d)
		f := find(t, d)
		for _, e := range f.Elements {
			if m := mapOf(e); !isOperation(l, m) {
				t.Errorf("seed %d, %s: %+v is no operation of the group", seed, g.Symbol, e)
			}
			if x := newBasisAsIs(f).fraction(e.At); x[0] < -1e-9 || x[0] >= 1 || x[1] < -1e-9 || x[1] >= 1 {
				t.Errorf("seed %d, %s: %+v lies outside the cell", seed, g.Symbol, e)
			}
		}
		if got := countOf(f.Elements); got != drawn[g.Symbol] || f.Order != g.Order {
			t.Errorf("seed %d, %s (order %d): %+v, want %+v", seed, g.Symbol, f.Order, got, drawn[g.Symbol])
		}
	}
}

func newBasisAsIs(f Finding) basis { return basis{f.Primitive[0], f.Primitive[1]} }

// mapOf returns the isometry that an element stands for: its smallest turn, or its reflection and shift.
func mapOf(e Element) isometry {
	if e.Kind == TurnPoint {
		m := geometry.TurnDegrees(360 / float64(e.Order))
		return moved(m, geometry.Sub(e.At, m.Apply(e.At)))
	}
	u, v := e.Along[0], e.Along[1]
	m := isometry{A: u*u - v*v, B: 2 * u * v, C: 2 * u * v, D: v*v - u*u}
	return moved(moved(m, geometry.Sub(e.At, m.Apply(e.At))), times(e.Shift, e.Along))
}
