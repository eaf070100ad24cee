package stepping

import (
	"errors"
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// field is the endless field: its pieces in one cell, and the connected openings that they make, in field mm.
type field struct {
	l      *pattern.Layout
	fine   lattice
	a, b   cell // the draft's cell in cells of fine
	images map[[2]int]home
	pieces []piece
	of     [][]int // pieces of each image
	kinds  []kind
	known  map[[2]int]found // sheets by the cells on them
	apart  bool             // openings of different colours stay apart, for plates
}

// home says which image a copy's motif and operation have, and by how many cells it is moved from it.
type home struct {
	image int
	moved cell
}

// piece is one polygon of one image, less the ties: shape moved by at, and by every lattice vector.
type piece struct {
	image int
	shape *geometry.Shape
	at    orb.Point
	// the number of its colour where colours stay apart, else 0
	colour int
	kind   int
	moved  cell // the piece belongs to the opening of its kind that stands so many cells before it
}

// kind is a connected opening and all its translates: shape moved by at, and by every lattice vector.
type kind struct {
	pieces []int
	shape  *geometry.Shape
	at     orb.Point
	colour int // of its pieces
}

func (k kind) bound() orb.Bound { return moved(k.shape.Bound(), k.at) }

func moved(b orb.Bound, v orb.Point) orb.Bound {
	return orb.Bound{Min: orb.Point{b.Min[0] + v[0], b.Min[1] + v[1]}, Max: orb.Point{b.Max[0] + v[0], b.Max[1] + v[1]}}
}

// errEndless is the refusal of a field whose openings run together from cell to cell.
var errEndless = errors.New("openings run into each other from repeat to repeat, on and on across the field, and no " +
	"sheet holds them whole; " +
	"make the silhouettes smaller or the repeat larger, or hold them apart by ties")

// newField finds the connected openings of the endless field.
func newField(l *pattern.Layout) (*field, error) {
	f := &field{l: l, images: map[[2]int]home{}}
	f.fine, f.a, f.b = sides(l)
	return f, f.make()
}

// newParted finds the openings of the endless field by colour: those of different colours stay apart, whether they meet
// or not.
func newParted(r repeated) (*field, error) {
	f := &field{l: r.l, images: map[[2]int]home{}, fine: r.fine, a: r.a, b: r.b, apart: true}
	return f, f.make()
}

func (f *field) make() error {
	if err := f.cut(); err != nil {
		return err
	}
	if len(f.pieces) == 0 {
		return errors.New("there is no opening to step; place a silhouette first")
	}
	return f.join()
}

// cut sets the pieces of one cell.
func (f *field) cut() error {
	type first struct {
		image  int
		at     orb.Point
		shape  *geometry.Shape
		colour int
	}
	var own []first
	for _, o := range f.l.Orbits {
		colour := 0
		if f.apart { // the translates of a copy are motifs of their own
			colour = f.l.ColourOf(o.Motif, 0, 0, 0)
		} else {
			own = nil
		}
	images:
		for _, i := range o.Images {
			for _, g := range own {
				if g.shape != i.Shape || g.colour != colour {
					continue
				}
				if c, ok := f.fine.whole(geometry.Sub(i.At, g.at)); ok {
					f.images[[2]int{o.Motif, i.Op}] = home{g.image, c}
					continue images
				}
			}
			n := len(f.of)
			own = append(own, first{n, i.At, i.Shape, colour})
			f.images[[2]int{o.Motif, i.Op}] = home{image: n}
			f.of = append(f.of, nil)
			parts, err := f.lessTies(i)
			if err != nil {
				return err
			}
			for _, p := range parts {
				f.of[n] = append(f.of[n], len(f.pieces))
				f.pieces = append(f.pieces, piece{image: n, shape: geometry.NewShape(orb.MultiPolygon{p}), at: i.At,
					colour: colour, kind: -1})
			}
		}
	}

	if n := len(f.pieces); n > maxOpenings {
		return fmt.Errorf("one repeat holds %d openings, and a stepping sheet takes up to %d", n, maxOpenings)
	}
	return nil
}

// lessTies returns an image's polygons, less the field's ties, in the image's frame.
func (f *field) lessTies(i pattern.Image) (orb.MultiPolygon, error) {
	mp := i.Shape.Outline()
	if !slices.ContainsFunc(f.l.Draft.Ties, func(t draft.Tie) bool { return t.Silhouette == "" }) {
		return mp, nil
	}
	toPanel := f.l.Draft.FieldMap()
	here := toPanel.Moved(toPanel.Vector(i.At)[0], toPanel.Vector(i.At)[1])
	rects, err := f.l.TiesIn(geometry.Transform(mp, here).Bound())
	if err != nil || len(rects) == 0 {
		return mp, err
	}
	out, err := overlay.Difference(mp, geometry.Transform(orb.MultiPolygon(rects), here.Rigid()))
	if err != nil {
		return nil, fmt.Errorf("the field's ties could not be taken off an opening: %w", err)
	}
	return out, nil
}

// join finds which pieces are one opening. Each piece knows its opening's first one and how many cells it stands from
// it; a way round that leads to another cell's opening means that the opening never ends.
func (f *field) join() error {
	parent, off := make([]int, len(f.pieces)), make([]cell, len(f.pieces))
	for i := range parent {
		parent[i] = i
	}
	find := func(i int) (int, cell) {
		var o cell
		for parent[i] != i {
			o = o.plus(off[i])
			i = parent[i]
		}
		return i, o
	}

	var failed error
	for i, p := range f.pieces {
		window := moved(p.shape.Bound(), p.at).Pad(touchSlack)
		for j := i; j < len(f.pieces); j++ {
			q := f.pieces[j]
			if q.colour != p.colour {
				continue
			}
			f.fine.meeting(window, moved(q.shape.Bound(), q.at), func(c cell) {
				if failed != nil || i == j && (c[0] < 0 || c[0] == 0 && c[1] <= 0) {
					return
				}
				together, err := joined(p.shape, q.shape, geometry.Sub(geometry.Add(q.at, f.fine.at(c)), p.at))
				if err != nil || !together {
					failed = err
					return
				}

				// i in cell 0 and j in cell c are one: so are their first ones, in cells −o and c − u.
				r, o := find(i)
				s, u := find(j)
				if r == s {
					if c.minus(u) != o.times(-1) {
						failed = errEndless
					}
					return
				}
				parent[s], off[s] = r, c.minus(u).plus(o)
			})
			if failed != nil {
				return failed
			}
		}
	}

	number := map[int]int{}
	for i := range f.pieces {
		r, o := find(i)
		k, ok := number[r]
		if !ok {
			k = len(f.kinds)
			number[r] = k
			f.kinds = append(f.kinds, kind{})
		}
		f.pieces[i].kind, f.pieces[i].moved = k, o
		f.kinds[k].pieces = append(f.kinds[k].pieces, i)
		f.kinds[k].colour = f.pieces[i].colour
	}

	for k := range f.kinds {
		if err := f.unite(&f.kinds[k]); err != nil {
			return err
		}
	}
	return nil
}

// joined reports whether two pieces, the second moved by d, share area or a stretch of their edges. Pieces that touch
// in single points stay two openings.
func joined(a, b *geometry.Shape, d orb.Point) (bool, error) {
	near := geometry.Distance(a, b, d, 2*touchSlack)
	if !(near.Found && near.D <= touchSlack) && !geometry.Inside(a, b, d) {
		return false, nil
	}
	if geometry.OverlapArea(a, b, d) > noArea {
		return true, nil
	}
	both, err := overlay.Union(a.Outline(), b.Place(geometry.Translate(d[0], d[1]), nil).Outline())
	if err != nil {
		return false, fmt.Errorf("two openings that touch could not be told apart: %w", err)
	}
	return len(both) < len(a.Outline())+len(b.Outline()), nil
}

// unite sets a kind's outline.
func (f *field) unite(k *kind) error {
	first := f.pieces[k.pieces[0]]
	if len(k.pieces) == 1 {
		k.shape, k.at = first.shape, geometry.Add(first.at, f.fine.at(first.moved.times(-1)))
		return nil
	}
	mp, err := f.union(k.pieces, cell{})
	if err != nil {
		return err
	}
	k.shape = geometry.NewShape(mp)
	return nil
}

// union returns the outline of pieces of one kind's opening that stands in a cell, field mm.
func (f *field) union(pieces []int, at cell) (orb.MultiPolygon, error) {
	var all []orb.MultiPolygon
	for _, i := range pieces {
		p := f.pieces[i]
		v := geometry.Add(p.at, f.fine.at(at.plus(p.moved)))
		all = append(all, p.shape.Place(geometry.Translate(v[0], v[1]), nil).Outline())
	}
	if len(all) == 1 {
		return all[0], nil
	}
	mp, err := overlay.Union(all...)
	if err != nil {
		return nil, fmt.Errorf("%d copies that run into each other could not be united: %w", len(all), err)
	}
	return mp, nil
}

// behind returns a layout whose pattern runs on behind its subjects: what is laid by repeats gives way to nothing.
func behind(l *pattern.Layout) (*pattern.Layout, error) {
	if len(l.Rooms) == 0 {
		return l, nil
	}
	d := l.Draft
	d.Subjects = slices.Clone(d.Subjects)
	for i := range d.Subjects {
		d.Subjects[i].Edge = draft.Behind
	}
	return pattern.NewLayout(d, l.Shapes)
}
