package recognise

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/colouring"
	"openwork/pattern/colouring/subgroups"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// coloursOf gives a field the colours of a perfect colouring, each motif its own to begin with.
func coloursOf(p colouring.Perms, motifs []int) Colours {
	order := func(perm []int) int {
		n := 1
		for now := perm; ; n++ {
			same := true
			for c, to := range now {
				same = same && c == to
			}
			if same {
				return n
			}
			next := make([]int, len(perm))
			for c, to := range now {
				next[c] = perm[to]
			}
			now = next
		}
	}
	return Colours{[2]int{order(p.A), order(p.B)},
		func(motif, op, m, n int) int { return p.Colour(op, m, n, motifs[motif]) }}
}

// kept recognises the field of those copies of an asymmetric motif that belong to some of a group's operations, as a
// field of p1 in a cell that translations among them span.
func kept(t *testing.T, g symmetry.Group, cell symmetry.Cell, m isometry, cells [2]int,
	some func(op, x, y int) bool) string {
	t.Helper()
	var places []isometry
	for op := range g.Ops {
		for x := range cells[0] {
			for y := range cells[1] {
				if some(op, x, y) {
					places = append(places, g.Ops[op].Map(cell, x, y).After(m))
				}
			}
		}
	}
	cell.A, cell.B = cell.A*float64(cells[0]), cell.B*float64(cells[1])
	return find(t, draftOf("p1", cell, []orb.MultiPolygon{carp}, [][]isometry{places})).Actual
}

// translationsOf counts the permutations that translations make of the colours, in a block after which all come again.
func translationsOf(g symmetry.Group, p colouring.Perms, cells [2]int) int {
	met := map[[colouring.MaxColours]int]bool{}
	for op := range g.Ops {
		for x := range cells[0] {
			for y := range cells[1] {
				var perm [colouring.MaxColours]int
				for c := range p.A {
					perm[c] = p.Colour(op, x, y, c)
				}
				if g.Ops[op].W == g.Ops[0].W {
					met[perm] = true
				}
			}
		}
	}
	return len(met)
}

// Fields of all groups in perfect colourings that are known. An asymmetric motif anywhere has no symmetry but the
// group's, so all of that permutes the colours; the subgroup that the colouring came from keeps one, and its kind is
// what its operations alone, as a field of their own, are recognised to be; and so is what keeps all colours. All
// colourings by two and three colours, and some of the others.
func TestPerfectColouringsAreRecognised(t *testing.T) {
	const seed = 71
	r := rand.New(rand.NewPCG(seed, 0))
	met := map[string]bool{}
	for _, g := range symmetry.Groups() {
		for k := 1; k <= colouring.MaxColours; k++ {
			all, err := subgroups.Of(g, k)
			if err != nil {
				t.Fatal(err)
			}
			for i, c := range all {
				if k > 3 && r.IntN(len(all)) > 2 {
					continue
				}
				met[c.Kept] = true
				cell := cellFor(r, g, 400*float64(len(g.Ops)))
				place := somewhere(r, cell)
				colours := coloursOf(c.Perms, []int{r.IntN(k)})
				one := kept(t, g, cell, place, colours.Cells, func(op, x, y int) bool {
					return c.Perms.Colour(op, x, y, 0) == 0
				})
				every := kept(t, g, cell, place, colours.Cells, func(op, x, y int) bool {
					for colour := range k {
						if c.Perms.Colour(op, x, y, colour) != colour {
							return false
						}
					}
					return true
				})
				d := draftOf(g.Symbol, cell, []orb.MultiPolygon{carp}, [][]isometry{{place}})
				f, err := Coloured(layoutOf(t, d), colours)
				if err != nil {
					t.Fatal(err)
				}
				if want := translationsOf(g, c.Perms, colours.Cells); f.KeptCells != want {
					t.Errorf("seed %d, %s, %d colours, class %d: the repeat is %d times as large, want %d", seed,
						g.Symbol, k, i, f.KeptCells, want)
				}
				if one != c.Kept || f.KeptOne != c.Kept || f.Kept != every || f.Actual != g.Symbol ||
					f.Permutes != g.Symbol {
					t.Errorf("seed %d, %s, %d colours, class %d, kept by %s: %s, permuted by %s, one kept by %s, all "+
						"by %s; alone those are %s and %s", seed, g.Symbol, k, i, c.Kept, f.Actual, f.Permutes,
						f.KeptOne, f.Kept, one, every)
				}
			}
		}
	}
	if len(met) != 17 {
		t.Errorf("seed %d: %d groups keep colours", seed, len(met))
	}
}

// Tiles of squares coloured by hand, whose groups anyone can tell.
func TestTilesColouredByHand(t *testing.T) {
	cell := symmetry.Cell{A: 30, B: 30, Gamma: 90}
	for _, c := range []struct {
		name                string
		shape               orb.MultiPolygon
		rows                []string // of the block from the top; a letter is a colour
		permutes, one, kept string
	}{
		{"all one", square, []string{"a"}, "p4mm", "p4mm", "p4mm"},
		{"all one, said of six cells", square, []string{"aaa", "aaa"}, "p4mm", "p4mm", "p4mm"},
		{"a chequerboard", square, []string{"ab", "ba"}, "p4mm", "p4mm", "p4mm"},
		{"stripes", square, []string{"ab"}, "p2mm", "p2mm", "p2mm"},
		{"three stripes", square, []string{"abc"}, "p2mm", "p2mm", "pm"},
		{"aslant", square, []string{"abc", "bca", "cab"}, "c2mm", "c2mm", "cm"},
		{"a fourth is other", square, []string{"ab", "aa"}, "p4mm", "p4mm", "p4mm"},
		{"quarters", square, []string{"ab", "cd"}, "p4mm", "p4mm", "p2mm"},
		{"knights' moves", square, []string{"abcde", "deabc", "bcdea", "eabcd", "cdeab"}, "p4", "p4", "p1"},
		{"a corner", square, []string{"ccc", "acc", "bac"}, "cm", "cm", "cm"},
		{"carp in a chequerboard", carp, []string{"ab", "ba"}, "p1", "p1", "p1"},
		{"moths in stripes", moth, []string{"ab"}, "pm", "pm", "pm"},
		{"moths in rows", moth, []string{"a", "b"}, "pm", "pm", "pm"},
		{"moths in a chequerboard", moth, []string{"ab", "ba"}, "pm", "cm", "cm"},
		{"moths in twos", moth, []string{"aabb", "bbaa"}, "pm", "cm", "cm"},
		{"moths there and back", moth, []string{"bca", "bac"}, "pm", "pm", "pg"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := draftOf("p1", cell, []orb.MultiPolygon{c.shape}, [][]isometry{{at(3, 4, 0, false)}})
			rows, columns := len(c.rows), len(c.rows[0])
			f, err := Coloured(layoutOf(t, d), Colours{[2]int{columns, rows}, func(_, _, m, n int) int {
				return int(c.rows[rows-1-n][m])
			}})
			if err != nil {
				t.Fatal(err)
			}
			if f.Kept != c.kept || f.KeptOne != c.one || f.Permutes != c.permutes {
				t.Errorf("permuted by %s, one kept by %s, all by %s; want %s, %s and %s", f.Permutes, f.KeptOne, f.Kept,
					c.permutes, c.one, c.kept)
			}
		})
	}
}

// One colour, however it is said, leaves all that Of finds, and colours never add any.
func TestColoursOnlyTake(t *testing.T) {
	const seed = 72
	for i := range 60 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		l := layoutOf(t, fieldOf(r, symmetry.Groups()[i%17]).draft)
		plain, err := Of(l)
		if err != nil {
			t.Fatal(err)
		}
		cells := [2]int{1 + r.IntN(3), 1 + r.IntN(3)}
		one, err := Coloured(l, Colours{cells, func(int, int, int, int) int { return 7 }})
		if err != nil {
			t.Fatal(err)
		}
		if one.Kept != plain.Actual || one.Permutes != plain.Actual || one.Actual != plain.Actual {
			t.Errorf("seed %d, field %d: one colour leaves %s, permuted by %s, of %s", seed, i, one.Kept, one.Permutes,
				plain.Actual)
		}

		// A colour of its own for each copy of a block that only translations keep.
		each, err := Coloured(l, Colours{cells, func(motif, op, m, n int) int {
			return ((motif*12+op)*3+m)*3 + n
		}})
		if err != nil {
			t.Fatal(err)
		}
		if each.Kept != "p1" {
			t.Errorf("seed %d, field %d: all colours differ, and %s keeps them", seed, i, each.Kept)
		}
	}
}

func TestColoursThatCannotBeLookedThrough(t *testing.T) {
	cell := symmetry.Cell{A: 60, B: 60, Gamma: 90}
	l := layoutOf(t, draftOf("p4", cell, []orb.MultiPolygon{carp}, [][]isometry{{at(20, 11, 0, false)}}))
	none := func(int, int, int, int) int { return 0 }
	for _, c := range []struct {
		cells [2]int
		want  string
	}{
		{[2]int{0, 1}, "one cell at the least"}, {[2]int{1, -3}, "one cell at the least"},
		{[2]int{100, 60}, "100 by 60 cells"}, {[2]int{1 << 40, 1 << 40}, "hold more than"},
	} {
		if _, err := Coloured(l, Colours{c.cells, none}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v", c.cells, err)
		}
	}
	if _, err := Coloured(layoutOf(t, draft.Default()), Colours{[2]int{9000, 9000}, none}); err != ErrEmpty {
		t.Errorf("an empty field gives %v", err)
	}
}

// BenchmarkColoured recognises three motifs of 300 points in twelve colours.
func BenchmarkColoured(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	for _, symbol := range []string{"p1", "p4gm", "p6mm"} {
		g, err := symmetry.Find(symbol)
		if err != nil {
			b.Fatal(err)
		}
		all, err := subgroups.Of(g, 12)
		if err != nil {
			b.Fatal(err)
		}
		cell := patterntest.Cell(r, g, 900*float64(len(g.Ops)))
		var shapes []orb.MultiPolygon
		var places [][]isometry
		for range 3 {
			shapes = append(shapes, patterntest.Smooth(r, 10, 300))
			places = append(places, []isometry{somewhere(r, cell)})
		}
		l := layoutOf(b, draftOf(symbol, cell, shapes, places))
		b.Run(symbol, func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				c := all[i%len(all)]
				if f, err := Coloured(l, coloursOf(c.Perms, []int{0, 1, 2})); err != nil || f.Permutes != symbol {
					b.Fatal(f.Permutes, err)
				}
			}
		})
	}
}
