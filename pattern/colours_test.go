package pattern_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// Every operation of the group, moved by any cells, carries copies of one colour onto copies of one colour.
func TestColoursArePermuted(t *testing.T) {
	const seed = 162
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	seen := 0
	for _, g := range symmetry.Groups() {
		for range 3 {
			d := patterntest.Coloured(r, patterntest.Draft(r, g.Symbol))
			if d.Paint.Perms == nil {
				continue
			}
			seen++
			p := d.Paint.Clone()
			p.ByHand = nil
			d.Paint = p
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			k := len(p.Perms.A)
			for range 20 {
				op, m, n := r.IntN(len(g.Ops)), r.IntN(13)-6, r.IntN(13)-6
				becomes := map[int]int{}
				for range 60 {
					motif, op2, m2, n2 := r.IntN(len(d.Motifs)), r.IntN(len(g.Ops)), r.IntN(13)-6, r.IntN(13)-6
					product := cellOp(g, op, m, n).After(cellOp(g, op2, m2, n2))
					op3 := g.Index(product)
					m3 := product.T[0].Plus(g.Ops[op3].T[0].Times(-1)).Num
					n3 := product.T[1].Plus(g.Ops[op3].T[1].Times(-1)).Num
					from, to := l.ColourOf(motif, op2, m2, n2), l.ColourOf(motif, op3, m3, n3)
					if from >= k && to != from {
						t.Fatalf("%s: a colour that is not carried, %d, becomes %d", g.Symbol, from, to)
					}
					if was, ok := becomes[from]; ok && was != to {
						t.Fatalf("%s: colour %d becomes %d and %d under one operation", g.Symbol, from, was, to)
					}
					becomes[from] = to
				}
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d perfect colourings were looked at", seen)
	}
}

// cellOp is an operation of the group moved on by m and n cells.
func cellOp(g symmetry.Group, op, m, n int) symmetry.Op {
	o := g.Ops[op]
	o.T[0], o.T[1] = o.T[0].Plus(symmetry.Frac(m, 1)), o.T[1].Plus(symmetry.Frac(n, 1))
	return o
}

// A counterchange worked out by hand: in pm the mirror keeps colours and the step along a changes them.
func TestColoursOfACounterchange(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(163, 0)), "pm")
	d.Motifs = d.Motifs[:1]
	d.Swatches = []draft.Swatch{{ID: "c1", Colour: "#000000"}, {ID: "c2", Colour: "#ffffff"},
		{ID: "c3", Colour: "#808080"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"c1", "c2", "c3"}
	d.Paint.Perms = perms(t, "pm", 1, symmetry.Frac(0, 1), symmetry.Frac(0, 1))
	d.Paint.Perms.A, d.Paint.Perms.B = []int{1, 0}, []int{0, 1}
	for i := range d.Paint.Perms.Ops {
		d.Paint.Perms.Ops[i] = []int{0, 1}
	}
	id := d.Motifs[0].ID
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{3, 1},
		Copies: []draft.HandColour{{Motif: id, Op: 1, Cell: [2]int{2, 0}, Colour: 2}}}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for m := -7; m <= 7; m++ {
		for op := range 2 {
			want := (m%2 + 2) % 2
			if op == 1 && (m+9)%3 == 2 {
				want = 2
			}
			if got := l.ColourOf(0, op, m, 5); got != want {
				t.Errorf("operation %d in cell %d has colour %d, not %d", op, m, got, want)
			}
		}
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range copies {
		if c.Colour != l.ColourOf(c.Motif, c.Op, c.Cell[0], c.Cell[1]) {
			t.Fatalf("%+v has another colour than its place", c)
		}
	}
}

// A motif on a mirror that exchanges two colours is torn; one beside it, or on a mirror that keeps them, is not.
func TestMotifOnAMirrorIsTorn(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(164, 0)), "pm")
	ring := patterntest.Regular(4, 4)
	d.Silhouettes = []draft.Silhouette{{ID: "s1", Name: "Square", Outline: ring}}
	d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "s1", Scale: 1}}
	d.Swatches = []draft.Swatch{{ID: "c1", Colour: "#000000"}, {ID: "c2", Colour: "#ffffff"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"c1", "c2"}
	keep, change := []int{0, 1}, []int{1, 0}
	for _, c := range []struct {
		name   string
		x      float64 // cells
		a      []int
		mirror []int
		want   []int
	}{
		{"on the mirror that exchanges", 0, keep, change, []int{0}},
		{"on the mirror that keeps", 0, change, keep, nil},
		{"on the other mirror, which exchanges", 0.5, change, keep, []int{0}},
		{"beside", 0.3, keep, change, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			d.Motifs = slices.Clone(d.Motifs)
			d.Motifs[0].At = [2]float64{geometry.Snap(c.x * d.Repeat.A), 1}
			p := *perms(t, "pm", 1, symmetry.Frac(0, 1), symmetry.Frac(0, 1))
			p.A, p.B, p.Ops = c.a, keep, [][]int{keep, c.mirror}
			d.Paint = d.Paint.Clone()
			d.Paint.Perms = &p
			if err := d.Check(); err != nil {
				t.Fatal(err)
			}
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := l.Torn(); !slices.Equal(got, c.want) {
				t.Errorf("torn: %v, want %v", got, c.want)
			}
		})
	}
}
