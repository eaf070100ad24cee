package symmetry

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// reach is how many cells to each side are looked at: a unit lies in the first cell and an operation without its whole
// cells moves a point of it by less than 3, so an image that meets the first cell is among them.
const reach = 3

func minus(f, g Fraction) Fraction { return f.Plus(g.Times(-1)) }

// turnOf returns twice the signed area of the triangle a, b, c.
func turnOf(a, b, c [2]Fraction) Fraction {
	return minus(product(minus(b[0], a[0]), minus(c[1], a[1])), product(minus(b[1], a[1]), minus(c[0], a[0])))
}

// areaOf returns the signed area of a polygon, exactly, the cell's being 1.
func areaOf(p [][2]Fraction) Fraction {
	sum := Frac(0, 1)
	for i := range p {
		sum = sum.Plus(turnOf([2]Fraction{Frac(0, 1), Frac(0, 1)}, p[i], p[(i+1)%len(p)]))
	}
	return product(sum, Frac(1, 2))
}

// imageOf returns a polygon's image moved on by whole cells, counter-clockwise again.
func imageOf(op Op, cell [2]int, p [][2]Fraction) [][2]Fraction {
	out := make([][2]Fraction, len(p))
	for i, c := range p {
		q := op.Of(c)
		out[i] = [2]Fraction{q[0].Plus(Frac(cell[0], 1)), q[1].Plus(Frac(cell[1], 1))}
	}
	if op.Det() < 0 {
		slices.Reverse(out)
	}
	return out
}

// apart says whether two convex polygons have no inner point in common: exactly when an edge of one has all of the
// other on its outer side.
func apart(p, q [][2]Fraction) bool {
	for _, pair := range [][2][][2]Fraction{{p, q}, {q, p}} {
		a, b := pair[0], pair[1]
		for i := range a {
			outside := func(c [2]Fraction) bool { return turnOf(a[i], a[(i+1)%len(a)], c).Num <= 0 }
			if !slices.ContainsFunc(b, func(c [2]Fraction) bool { return !outside(c) }) {
				return true
			}
		}
	}
	return false
}

// faults says what is wrong with a polygon as the unit of a group, by exact areas and separating edges.
func faults(g Group, unit [][2]Fraction) []string {
	var out []string
	for i := range unit {
		if turnOf(unit[i], unit[(i+1)%len(unit)], unit[(i+2)%len(unit)]).Num <= 0 {
			out = append(out, fmt.Sprintf("not convex and counter-clockwise at corner %d", (i+1)%len(unit)))
		}
	}
	if got, want := areaOf(unit), Frac(1, len(g.Ops)); got != want {
		out = append(out, fmt.Sprintf("area %v, want %v of the cell", got, want))
	}
	// It is enough to hold the unit against the others: any two images are these seen from elsewhere.
	for k, op := range g.Ops {
		for m := -reach; m <= reach; m++ {
			for n := -reach; n <= reach; n++ {
				if k == 0 && m == 0 && n == 0 {
					continue
				}
				if !apart(unit, imageOf(op, [2]int{m, n}, unit)) {
					out = append(out, fmt.Sprintf("its image under operation %d and %d,%d cells runs into it", k, m, n))
				}
			}
		}
	}
	return out
}

// The images cover the plane once: they do not run into each other, and together have the area of the plane.
func TestAsymmetricUnitsTileExactly(t *testing.T) {
	for _, g := range Groups() {
		for _, f := range faults(g, g.AsymmetricUnit()) {
			t.Errorf("%s: %s", g.Symbol, f)
		}
	}
	if (Group{}).AsymmetricUnit() != nil {
		t.Error("the zero Group has a unit")
	}
	// The check itself, on units of the right area in the wrong place or of another group.
	for _, c := range []struct{ group, unit string }{
		{"p4mm", "p4gm"}, {"pm", "p2mm"}, {"p2mg", "p2gg"}, {"c2mm", "p2mg"}, {"p3m1", "p31m"}, {"p31m", "p3m1"},
		{"p2mm", "p2mg"},
	} {
		t.Run(c.group, func(t *testing.T) {
			g, _ := Find(c.group)
			other, _ := Find(c.unit)
			if faults(g, other.AsymmetricUnit()) == nil {
				t.Errorf("the unit of %s passes for one of %s", c.unit, c.group)
			}
		})
	}
}

// inside says whether a point lies in a convex counter-clockwise polygon, and whether on its border.
func inside(p [][2]Fraction, c [2]Fraction) (in, border bool) {
	in = true
	for i := range p {
		side := turnOf(p[i], p[(i+1)%len(p)], c).Num
		if side < 0 {
			return false, false
		}
		border = border || side == 0
	}
	return in && !border, border
}

// Brute force beside the above: random exact points lie in one image, counted over all of them.
func TestRandomPointsLieInOneImage(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	const grain = 1009 // a prime, so that points seldom fall on borders
	for _, g := range Groups() {
		unit := g.AsymmetricUnit()
		var images [][][2]Fraction
		for _, op := range g.Ops {
			for m := -reach; m <= reach; m++ {
				for n := -reach; n <= reach; n++ {
					images = append(images, imageOf(op, [2]int{m, n}, unit))
				}
			}
		}
		used := 0
		for range 100 {
			p := [2]Fraction{Frac(r.IntN(grain), grain), Frac(r.IntN(grain), grain)}
			count, onBorder := 0, false
			for _, image := range images {
				in, border := inside(image, p)
				onBorder = onBorder || border
				if in {
					count++
				}
			}
			if onBorder {
				continue
			}
			used++
			if count != 1 {
				t.Errorf("%s, seed %d: %v lies in %d images, want 1", g.Symbol, seed, p, count)
			}
		}
		if used < 80 {
			t.Errorf("%s, seed %d: only %d points off the borders", g.Symbol, seed, used)
		}
	}
}

// Every mirror that touches the unit runs along one of its edges or passes a corner; none has corners on both sides.
func TestMirrorsRunAlongTheUnitsEdges(t *testing.T) {
	for _, g := range Groups() {
		unit := g.AsymmetricUnit()
		edges, mirrors := 0, 0
		for _, e := range g.Elements() {
			if e.Kind != Mirror {
				continue
			}
			mirrors++
			for m := -reach; m <= reach; m++ {
				for n := -reach; n <= reach; n++ {
					a := [2]Fraction{e.At[0].Plus(Frac(m, 1)), e.At[1].Plus(Frac(n, 1))}
					b := [2]Fraction{a[0].Plus(Frac(e.Along[0], 1)), a[1].Plus(Frac(e.Along[1], 1))}
					left, right := 0, 0
					for i := range unit {
						side := turnOf(a, b, unit[i]).Num
						if side > 0 {
							left++
						} else if side < 0 {
							right++
						} else if turnOf(a, b, unit[(i+1)%len(unit)]).Num == 0 {
							edges++
						}
					}
					if left > 0 && right > 0 {
						t.Errorf("%s: the mirror at %v along %v cuts the unit", g.Symbol, a, e.Along)
					}
				}
			}
		}
		if (mirrors > 0) != (edges > 0) {
			t.Errorf("%s: %d mirrors, but %d times along an edge of the unit", g.Symbol, mirrors, edges)
		}
	}
}
