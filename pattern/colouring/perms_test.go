package colouring

import (
	"math/rand/v2"
	"strings"
	"testing"

	"openwork/pattern/symmetry"
)

func groupOf(t *testing.T, symbol string) symmetry.Group {
	t.Helper()
	g, err := symmetry.Find(symbol)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

var (
	stay = []int{0, 1}
	swap = []int{1, 0}
)

// Colourings that can be checked by hand, and each of them with one thing wrong.
func TestCheck(t *testing.T) {
	counterchange := Perms{A: swap, B: stay, Ops: [][]int{stay, swap}}
	for _, c := range []struct {
		name, group string
		p           Perms
		k           int
		want        string // how the error begins and, after …, what else it says; empty for none
	}{
		{"one colour", "p1", Perms{[]int{0}, []int{0}, [][]int{{0}}}, 1, ""},
		{"stripes of three", "p1", Perms{[]int{1, 2, 0}, []int{0, 1, 2}, [][]int{{0, 1, 2}}}, 3, ""},
		{"counterchange by half turns", "p2", counterchange, 2, ""},
		{"pg's glide changes colours, and twice it is b", "pg", Perms{stay, stay, [][]int{stay, swap}}, 2, ""},
		{"p3's turn goes round three colours", "p3", Perms{[]int{0, 1, 2}, []int{0, 1, 2},
			[][]int{{0, 1, 2}, {1, 2, 0}, {2, 0, 1}}}, 3, ""},
		{"cm's centring changes colours", "cm", Perms{stay, stay, [][]int{stay, stay, swap, swap}}, 2, ""},

		{"no colour", "p1", Perms{nil, nil, [][]int{nil}}, 0, "ops: …from 1 to 12 colours, not 0"},
		{"thirteen", "p1", Perms{}, 13, "ops: …from 1 to 12 colours, not 13"},
		{"an operation too few", "p2", Perms{swap, stay, [][]int{stay}}, 2, "ops: p2 has 2 operations…1 are given"},
		{"a list too short", "p1", Perms{[]int{0}, stay, [][]int{stay}}, 2,
			"a: must list…of the 2 colours becomes; it lists 1"},
		{"nothing for b", "p1", Perms{stay, nil, [][]int{stay}}, 2, "b: must list…it lists 0"},
		{"a colour twice", "p1", Perms{stay, []int{1, 1}, [][]int{stay}}, 2, "b: colours 0 and 1 both become 1"},
		{"a colour that is none", "p2", Perms{swap, stay, [][]int{stay, {0, 2}}}, 2,
			"ops[1]: colour 1 becomes 2, and colours are from 0 to 1"},
		{"one below none", "p2", Perms{swap, stay, [][]int{stay, {-1, 0}}}, 2, "ops[1]: colour 0 becomes -1"},
		{"an identity that changes", "p2", Perms{swap, stay, [][]int{swap, swap}}, 2, "ops[0]: the identity"},
		{"a and b in an order", "p1", Perms{[]int{1, 0, 2}, []int{0, 2, 1}, [][]int{{0, 1, 2}}}, 3,
			"b: the order of a and b must not matter"},
		{"a turn that does not undo a", "p2", Perms{[]int{1, 2, 0}, []int{0, 1, 2}, [][]int{{0, 1, 2}, {0, 1, 2}}}, 3,
			"ops[1]: after a it is itself moved by -1 along a and 0 along b in p2"},
		{"a glide that is not half of b", "pg", Perms{stay, swap, [][]int{stay, swap}}, 2,
			"ops[1]: after operation 1 it is operation 0 moved by 0 along a and 1 along b in pg"},
		{"p4's turn for p2's", "p4", Perms{swap, stay, [][]int{stay, stay, swap, swap}}, 2, "ops[2]: after a"},
		{"a colour never met", "p2", Perms{stay, stay, [][]int{stay, stay}}, 2,
			"ops: no operation makes colour 1 of colour 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := Check(groupOf(t, c.group), c.p, c.k)
			if c.want == "" {
				if err != nil {
					t.Error(err)
				}
				return
			}
			begins, more, _ := strings.Cut(c.want, "…")
			if err == nil || !strings.HasPrefix(err.Error(), begins) || !strings.Contains(err.Error(), more) {
				t.Errorf("got  %v\nwant %s", err, c.want)
			}
		})
	}
}

// The colour of a copy must not depend on how its operation is put together: the colour of x after y is what x makes of
// the colour of y, for products of operations moved far off, either way.
func TestColourOfProducts(t *testing.T) {
	const seed = 5
	r := rand.New(rand.NewPCG(seed, 0))
	g := groupOf(t, "p2mg")
	// Six colours: 2j + i, where a step along a goes round the three j and mirrors reverse them.
	p := Perms{
		A: []int{2, 3, 4, 5, 0, 1}, B: []int{0, 1, 2, 3, 4, 5},
		Ops: [][]int{{0, 1, 2, 3, 4, 5}, {1, 0, 5, 4, 3, 2}, {5, 4, 3, 2, 1, 0}, {4, 5, 0, 1, 2, 3}},
	}
	if err := Check(g, p, 6); err != nil {
		t.Fatal(err)
	}
	moved := func(i, m, n int) symmetry.Op {
		op := g.Ops[i]
		op.T[0], op.T[1] = op.T[0].Plus(symmetry.Frac(m, 1)), op.T[1].Plus(symmetry.Frac(n, 1))
		return op
	}
	for range 500 {
		i, j, c := r.IntN(4), r.IntN(4), r.IntN(6)
		m, n, u, v := r.IntN(2001)-1000, r.IntN(2001)-1000, r.IntN(2001)-1000, r.IntN(2001)-1000
		product := moved(i, m, n).After(moved(j, u, v))
		l := g.Index(product)
		x, y := shift(g.Ops[l], product)
		if got, want := p.Colour(l, x, y, c), p.Colour(i, m, n, p.Colour(j, u, v, c)); got != want {
			t.Fatalf("seed %d: operation %d by %d, %d after %d by %d, %d: colour %d becomes %d, want %d", seed, i, m, n,
				j, u, v, c, got, want)
		}
	}
}
