package subgroups

import (
	"testing"

	"openwork/pattern/colouring"
	"openwork/pattern/symmetry"
)

// operations returns the subgroup's operations, one for each of its point group, in the basis of its own lattice.
func operations(c *crystal, h subgroup) symmetry.Group {
	u, v := h.lattice.basis()
	basis := matrix{u[0], v[0], u[1], v[1]}
	adjugate := matrix{basis[3], -basis[1], -basis[2], basis[0]} // the inverse times the index
	n := h.lattice.index()
	var g symmetry.Group
	for p, w := range c.w {
		if !h.contains(p) {
			continue
		}
		m := adjugate.after(w).after(basis)
		t := adjugate.of(c.moved(p, h.shiftOf(p)).t)
		g.Ops = append(g.Ops, symmetry.Op{W: [2][2]int{{m[0] / n, m[1] / n}, {m[2] / n, m[3] / n}},
			T: [2]symmetry.Fraction{symmetry.Frac(t[0], n*ticks).Mod1(), symmetry.Frac(t[1], n*ticks).Mod1()}})
	}
	return g
}

// TestKeptByItsElements names every subgroup of every index by the mirrors, glides and rotation points that package
// symmetry finds among its operations: the recognition table, another way than by the lattice's parity.
func TestKeptByItsElements(t *testing.T) {
	named := map[symmetry.Facts]string{}
	for _, g := range symmetry.Groups() {
		named[g.Facts()] = g.Symbol
	}
	if len(named) != 17 {
		t.Fatalf("the facts tell %d groups apart", len(named))
	}
	met := map[string]bool{}
	for _, g := range symmetry.Groups() {
		c := newCrystal(g)
		for k := 1; k <= colouring.MaxColours; k++ {
			for _, h := range c.subgroups(k) {
				got, want := c.name(h), named[operations(c, h).Facts()]
				if met[want] = true; got != want {
					t.Errorf("%s, index %d, %+v: named %s, its elements are those of %s", g.Symbol, k, h, got, want)
				}
			}
		}
	}
	if len(met) != 17 {
		t.Errorf("only %d of the groups are met as subgroups", len(met))
	}
}

// TestConjugatesByThePermutations counts each class's subgroups from its permutations alone: they are the colours'
// stabilisers, and the colours that the stabiliser of colour 0 leaves alone have the same one.
func TestConjugatesByThePermutations(t *testing.T) {
	for _, g := range symmetry.Groups() {
		for k := 1; k <= colouring.MaxColours; k++ {
			for i, c := range classesOf(t, g, k) {
				same := 0
				for to := range k {
					if commutes(c.Perms, to) {
						same++
					}
				}
				if c.Conjugates*same != k {
					t.Errorf("%s, %d colours, class %d: %d conjugates, and %d colours have one stabiliser", g.Symbol, k,
						i, c.Conjugates, same)
				}
			}
		}
	}
}

// commutes says whether some map of the colours that carries colour 0 to another commutes with all permutations, which
// is when the two have one stabiliser. From colour 0 on, the permutations say what the map must be.
func commutes(p colouring.Perms, to int) bool {
	perms := append([][]int{p.A, p.B}, p.Ops...)
	image := make([]int, len(p.A))
	for i := range image {
		image[i] = -1
	}
	image[0] = to
	for queue := []int{0}; len(queue) > 0; queue = queue[1:] {
		for _, perm := range perms {
			x, y := perm[queue[0]], perm[image[queue[0]]]
			if image[x] < 0 {
				image[x] = y
				queue = append(queue, x)
			} else if image[x] != y {
				return false
			}
		}
	}
	return true
}
