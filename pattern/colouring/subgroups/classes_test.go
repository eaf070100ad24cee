package subgroups

import (
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
