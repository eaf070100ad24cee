package subgroups

import (
	"slices"
	"strings"
	"testing"

	"openwork/pattern/colouring"
	"openwork/pattern/symmetry"
)

func classesOf(t testing.TB, g symmetry.Group, k int) []Class {
	t.Helper()
	all, err := Of(g, k)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// kinds returns how many classes under affine maps there are, and says when they are not numbered from 0 in order.
func kinds(t *testing.T, all []Class) int {
	t.Helper()
	n := 0
	for _, c := range all {
		if c.Class > n {
			t.Errorf("a class %d comes after %d", c.Class, n-1)
		}
		n = max(n, c.Class+1)
	}
	return n
}

// TestNumbersOfColourGroups holds the numbers of colour groups to T. W. Wieting, "The Mathematical Theory of Chromatic
// Plane Ornaments", Marcel Dekker 1982, Table 11, as in the On-Line Encyclopedia of Integer Sequences, A307293; and for
// two colours, group by group, to the same book.
func TestNumbersOfColourGroups(t *testing.T) {
	for i, want := range []int{17, 46, 23, 96, 14, 90, 15, 166, 40, 75, 13, 219} {
		got := 0
		for _, g := range symmetry.Groups() {
			got += kinds(t, classesOf(t, g, i+1))
		}
		if got != want {
			t.Errorf("%d colours: %d colour groups, want %d", i+1, got, want)
		}
	}
	two := map[string]int{"p1": 1, "p2": 2, "pm": 5, "pg": 2, "cm": 3, "p2mm": 5, "p2mg": 5, "p2gg": 2, "c2mm": 5,
		"p4": 2, "p4mm": 5, "p4gm": 3, "p3": 0, "p3m1": 1, "p31m": 1, "p6": 1, "p6mm": 3}
	for _, g := range symmetry.Groups() {
		if got := kinds(t, classesOf(t, g, 2)); got != two[g.Symbol] {
			t.Errorf("%s, 2 colours: %d colour groups, want %d", g.Symbol, got, two[g.Symbol])
		}
	}
}

// Each colouring passes the check that a draft's reader makes: a homomorphism onto a transitive group.
func TestPermsAreColourings(t *testing.T) {
	for _, g := range symmetry.Groups() {
		for k := 1; k <= colouring.MaxColours; k++ {
			for i, c := range classesOf(t, g, k) {
				if err := colouring.Check(g, c.Perms, k); err != nil {
					t.Errorf("%s, %d colours, class %d: %v", g.Symbol, k, i, err)
				}
			}
		}
	}
}

// TestEveryColouringThatPasses tries all lists of permutations of two, three and four colours there can be. A
// subgroup of index k is the stabiliser of colour 0 in (k−1)! of the transitive ones that fit: the other colours'
// names are free.
func TestEveryColouringThatPasses(t *testing.T) {
	for _, g := range symmetry.Groups() {
		for k, mostOps := range map[int]int{2: 12, 3: 4, 4: 2} {
			if len(g.Ops) > mostOps {
				continue
			}
			passed, names := 0, 1
			perms := permutations(k)
			lists := make([][]int, 2+len(g.Ops)) // a, b, the operations, the identity last
			lists[len(lists)-1] = perms[0]
			for n := range power(len(perms), len(lists)-1) {
				for i := range lists[:len(lists)-1] {
					lists[i] = perms[n%len(perms)]
					n /= len(perms)
				}
				ops := append([][]int{lists[len(lists)-1]}, lists[2:len(lists)-1]...)
				if colouring.Check(g, colouring.Perms{A: lists[0], B: lists[1], Ops: ops}, k) == nil {
					passed++
				}
			}
			for i := 2; i < k; i++ {
				names *= i
			}
			subgroups := 0
			for _, c := range classesOf(t, g, k) {
				subgroups += c.Conjugates
			}
			if passed != names*subgroups {
				t.Errorf("%s, %d colours: %d lists pass, want %d for each of %d subgroups", g.Symbol, k, passed, names,
					subgroups)
			}
		}
	}
}

func power(base, n int) int {
	out := 1
	for range n {
		out *= base
	}
	return out
}

// permutations returns all permutations of 0 … k−1, the identity first.
func permutations(k int) [][]int {
	out := [][]int{{}}
	for range k {
		var longer [][]int
		for _, p := range out {
			for c := range k {
				if !slices.Contains(p, c) {
					longer = append(longer, append(slices.Clone(p), c))
				}
			}
		}
		out = longer
	}
	return out
}

// Conjugate subgroups and those that an affine map carries to each other are of one kind, and one whole group is its
// own.
func TestClassesOfOneKind(t *testing.T) {
	for _, g := range symmetry.Groups() {
		for k := 1; k <= colouring.MaxColours; k++ {
			kept := map[int]string{}
			for _, c := range classesOf(t, g, k) {
				if was, ok := kept[c.Class]; ok && was != c.Kept {
					t.Errorf("%s, %d colours: class %d keeps %s and %s", g.Symbol, k, c.Class, was, c.Kept)
				}
				kept[c.Class] = c.Kept
			}
			if k == 1 && (len(kept) != 1 || kept[0] != g.Symbol) {
				t.Errorf("%s in one colour keeps %v", g.Symbol, kept)
			}
		}
	}
}

func TestHowManyColours(t *testing.T) {
	for _, k := range []int{-1, 0, 13} {
		if _, err := Of(symmetry.Groups()[3], k); err == nil || !strings.Contains(err.Error(), "from 1 to 12 colours") {
			t.Errorf("%d colours: %v", k, err)
		}
	}
}

// BenchmarkOf finds the colourings of all groups by one colour, two, and so on up to six or twelve.
func BenchmarkOf(b *testing.B) {
	for name, most := range map[string]int{"six": 6, "twelve": colouring.MaxColours} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				for _, g := range symmetry.Groups() {
					for k := 1; k <= most; k++ {
						classesOf(b, g, k)
					}
				}
			}
		})
	}
}
