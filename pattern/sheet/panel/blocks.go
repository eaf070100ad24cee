package panel

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern"
)

// class is an image of a motif in the cell (0, 0), placed on the panel. Its copies are translates of it by vectors of
// the lattice.
type class struct {
	motif, op int
	outline   orb.MultiPolygon
	copies    []int // indexes of its copies
}

// lattice is the field's lattice on the panel, in mm, and the classes of a panel's copies.
type lattice struct {
	a, b    orb.Point
	classes []class
	copies  []pattern.Copy
}

func newLattice(l *pattern.Layout, copies []pattern.Copy) *lattice {
	toPanel := l.Draft.FieldMap()
	t := &lattice{a: toPanel.Vector(l.A), b: toPanel.Vector(l.B), copies: copies}

	known := map[[2]int]int{}
	for i, c := range copies {
		key := [2]int{c.Motif, c.Op}
		k, ok := known[key]
		if !ok {
			k = len(t.classes)
			known[key] = k
			v := t.vector(c.Cell)
			home := geometry.Translate(c.Shift[0]-v[0], c.Shift[1]-v[1])
			t.classes = append(t.classes, class{c.Motif, c.Op, c.Image.Place(home, nil).Outline(), nil})
		}
		t.classes[k].copies = append(t.classes[k].copies, i)
	}
	return t
}

func (t *lattice) vector(cell [2]int) orb.Point {
	m, n := float64(cell[0]), float64(cell[1])
	return orb.Point{m*t.a[0] + n*t.b[0], m*t.a[1] + n*t.b[1]}
}

// takeTies takes the field's ties off the classes' outlines.
func (t *lattice) takeTies(l *pattern.Layout) (err error) {
	for k := range t.classes {
		if t.classes[k].outline, err = lessFieldTies(l, t.classes[k].outline); err != nil {
			return err
		}
	}
	return nil
}

func moved(mp orb.MultiPolygon, v orb.Point) orb.MultiPolygon {
	return geometry.Transform(mp, geometry.Translate(v[0], v[1]))
}

// block is a rectangle of cells: from, of size cells along a and along b.
type block struct{ from, size [2]int }

// union returns the union of all copies, each whole. It doubles blocks of cells, so that its work grows with the size
// of what comes out and not with how often copies run into each other.
func (t *lattice) union() (orb.MultiPolygon, error) {
	core, rest := t.divide()
	var all []orb.MultiPolygon

	if core.size[0] > 0 {
		var cell []orb.MultiPolygon
		for _, c := range t.classes {
			cell = append(cell, c.outline)
		}
		mp, err := t.fill(cell, core)
		if err != nil {
			return nil, err
		}
		all = append(all, mp)
	}

	for k, blocks := range rest {
		for _, b := range blocks {
			mp, err := t.fill([]orb.MultiPolygon{t.classes[k].outline}, b)
			if err != nil {
				return nil, err
			}
			all = append(all, mp)
		}
	}
	return cascade(visible(all))
}

// cover returns a union of copies that is the same as that of all of them within the window, and may have more outside.
func (t *lattice) cover() (orb.MultiPolygon, error) {
	low, high := t.copies[0].Cell, t.copies[0].Cell
	var cell []orb.MultiPolygon
	for _, c := range t.copies {
		for i := range 2 {
			low[i], high[i] = min(low[i], c.Cell[i]), max(high[i], c.Cell[i])
		}
	}
	for _, c := range t.classes {
		cell = append(cell, c.outline)
	}
	return t.fill(cell, block{low, [2]int{high[0] - low[0] + 1, high[1] - low[1] + 1}})
}

// fill returns the union of the outlines in every cell of a block.
func (t *lattice) fill(cell []orb.MultiPolygon, b block) (orb.MultiPolygon, error) {
	mp, err := overlay.Union(cell...)
	if err != nil {
		return nil, err
	}
	if mp, err = repeated(mp, t.a, b.size[0]); err != nil {
		return nil, err
	}
	if mp, err = repeated(mp, t.b, b.size[1]); err != nil {
		return nil, err
	}
	return moved(mp, t.vector(b.from)), nil
}

// repeated returns the union of n copies of an outline, each moved on by v from the one before. Two runs that overlap
// make one of any length up to twice theirs.
func repeated(mp orb.MultiPolygon, v orb.Point, n int) (orb.MultiPolygon, error) {
	for have := 1; have < n; {
		by := min(have, n-have)
		next, err := unionOfTwo(mp, moved(mp, orb.Point{v[0] * float64(by), v[1] * float64(by)}))
		if err != nil {
			return nil, err
		}
		mp, have = next, have+by
	}
	return mp, nil
}

// divide finds a block of cells in which every class has a copy, and for each class the blocks that are left.
func (t *lattice) divide() (core block, rest [][]block) {
	shared := map[[2]int]int{}
	for _, c := range t.copies {
		shared[c.Cell]++
	}
	core = largest(rows(shared, len(t.classes)))

	rest = make([][]block, len(t.classes))
	for k, c := range t.classes {
		left := map[[2]int]int{}
		for _, i := range c.copies {
			if cell := t.copies[i].Cell; !core.has(cell) {
				left[cell] = 1
			}
		}
		rest[k] = stack(rows(left, 1))
	}
	return core, rest
}

func (b block) has(cell [2]int) bool {
	m, n := cell[0]-b.from[0], cell[1]-b.from[1]
	return m >= 0 && n >= 0 && m < b.size[0] && n < b.size[1]
}

// row is a run of cells along a.
type row struct{ n, from, to int }

// rows returns the runs of the cells that count at least the wanted number, from the lowest row up.
func rows(cells map[[2]int]int, wanted int) []row {
	var all [][2]int
	for c, count := range cells {
		if count >= wanted {
			all = append(all, c)
		}
	}
	slices.SortFunc(all, func(p, q [2]int) int { return cmp.Or(cmp.Compare(p[1], q[1]), cmp.Compare(p[0], q[0])) })

	var out []row
	for _, c := range all {
		if k := len(out) - 1; k >= 0 && out[k].n == c[1] && out[k].to == c[0] {
			out[k].to++
			continue
		}
		out = append(out, row{c[1], c[0], c[0] + 1})
	}
	return out
}

// largest returns a large block of cells in runs: for each run it grows upward as long as that makes it larger.
func largest(all []row) (best block) {
	byRow := map[int]row{} // the longest run of each row
	for _, r := range all {
		if o, ok := byRow[r.n]; !ok || r.to-r.from > o.to-o.from {
			byRow[r.n] = r
		}
	}

	for _, r := range byRow {
		from, to := r.from, r.to
		for n := r.n; ; n++ {
			o, ok := byRow[n]
			if !ok {
				break
			}
			if from, to = max(from, o.from), min(to, o.to); from >= to {
				break
			}
			if b := (block{[2]int{from, r.n}, [2]int{to - from, n - r.n + 1}}); b.cells() > best.cells() ||
				(b.cells() == best.cells() && cmp.Compare(b.from[1], best.from[1]) < 0) {
				best = b
			}
		}
	}
	return best
}

func (b block) cells() int { return b.size[0] * b.size[1] }

// stack joins equal runs that lie one above the other to blocks.
func stack(all []row) []block {
	open := map[[2]int]int{} // from, to → index in out
	var out []block
	for _, r := range all {
		key := [2]int{r.from, r.to}
		if k, ok := open[key]; ok && out[k].from[1]+out[k].size[1] == r.n {
			out[k].size[1]++
			continue
		}
		open[key] = len(out)
		out = append(out, block{[2]int{r.from, r.n}, [2]int{r.to - r.from, 1}})
	}
	return out
}

// visible leaves out outlines that lie inside the first one without touching it.
func visible(all []orb.MultiPolygon) []orb.MultiPolygon {
	if len(all) < 2 {
		return all
	}
	first := geometry.NewShape(all[0])
	out := all[:1:1]
	for _, mp := range all[1:] {
		for _, p := range mp {
			one := geometry.NewShape(orb.MultiPolygon{p})
			hidden := first.Contains(p[0][0]) && !geometry.Distance(first, one, orb.Point{}, touchSlack).Found
			if !hidden || geometry.Inside(one, first, orb.Point{}) && !first.Contains(p[0][0]) {
				out = append(out, orb.MultiPolygon{p})
			}
		}
	}
	return out
}

// cascadeLeaf is how many outlines are united in one go.
const cascadeLeaf = 8

// cascade returns the union of many outlines, those near each other first.
func cascade(all []orb.MultiPolygon) (orb.MultiPolygon, error) {
	if len(all) <= cascadeLeaf {
		return overlay.Union(all...)
	}

	bound := all[0].Bound()
	for _, mp := range all[1:] {
		bound = bound.Union(mp.Bound())
	}
	axis := 0
	if bound.Max[1]-bound.Min[1] > bound.Max[0]-bound.Min[0] {
		axis = 1
	}
	slices.SortStableFunc(all, func(p, q orb.MultiPolygon) int {
		return cmp.Compare(p.Bound().Center()[axis], q.Bound().Center()[axis])
	})

	half := len(all) / 2
	one, err := cascade(all[:half])
	if err != nil {
		return nil, err
	}
	two, err := cascade(all[half:])
	if err != nil {
		return nil, err
	}
	return unionOfTwo(one, two)
}
