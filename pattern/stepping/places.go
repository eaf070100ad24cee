package stepping

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// laid is what one opening of the sheet leaves on the panel at one place: shape moved by shift, panel mm.
type laid struct {
	shape  *geometry.Shape
	shift  orb.Point
	colour int // of its kind
}

func (p laid) bound() orb.Bound { return moved(p.shape.Bound(), p.shift) }

// toSheet is the map from field mm to the sheet's own mm, from its lower left corner.
func (sh *sheet) toSheet() geometry.Map { return sh.frame.Moved(-sh.rect.Min[0], -sh.rect.Min[1]) }

// toPanel is the map from the sheet's own mm to the panel, at a place.
func (s *Stepping) toPanel(at cell) geometry.Map {
	v := s.sheet.f.fine.at(at)
	return s.l.Draft.FieldMap().After(geometry.Translate(v[0], v[1])).After(s.sheet.toSheet().Rigid())
}

// describe sets the sheet's figures.
func (s *Stepping) describe() {
	sh := s.sheet
	s.Width, s.Height = sh.rect.Max[0]-sh.rect.Min[0], sh.rect.Max[1]-sh.rect.Min[1]
	if sh.frame == geometry.Identity {
		s.Turn = s.l.Draft.Field.Turn
	}
	s.Repeats = sh.steps.count()
	m := s.l.Draft.FieldMap()
	s.Steps = [2][2]float64{m.Vector(sh.f.fine.at(sh.steps.u)), m.Vector(sh.f.fine.at(sh.steps.v))}
	for i, b := range sh.boxes() {
		c := b.Center()
		s.Openings = append(s.Openings, Opening{i + 1, [2]float64{c[0] - sh.rect.Min[0], c[1] - sh.rect.Min[1]}})
	}
	s.Holes = [][2]float64{}
	for _, h := range sh.reg.holes {
		s.Holes = append(s.Holes, sh.toSheet().Apply(h))
	}
	s.More = [][2]float64{}
	for _, h := range sh.more {
		s.More = append(s.More, sh.toSheet().Apply(h))
	}
	s.Diameter = sh.reg.diameter
}

// boxes returns the boxes of the sheet's openings in its frame.
func (sh *sheet) boxes() []orb.Bound {
	known := map[int]orb.Bound{}
	var out []orb.Bound
	for _, t := range sh.slots {
		b, ok := known[t.kind]
		if !ok {
			b = sh.f.kinds[t.kind].shape.Place(sh.frame, nil).Bound()
			known[t.kind] = b
		}
		out = append(out, moved(b, sh.frame.Vector(sh.at(t))))
	}
	return out
}

// opened is what the edge leaves of one opening of the endless field: those of its pieces that it keeps.
type opened struct {
	kind   int
	cell   cell
	pieces []int
	across bool // one of them reaches over the field's edge
	colour int  // of its copies; severalColours where they differ
}

// severalColours stands for the number of a colour where there are several.
const severalColours = -2

// opened returns the openings that the copies make, in the order in which the copies come.
func (f *field) opened(copies []pattern.Copy) ([]*opened, error) {
	known := map[slot]*opened{}
	var out []*opened
	for _, c := range copies {
		h, ok := f.images[[2]int{c.Motif, c.Op}]
		if !ok {
			return nil, fmt.Errorf("a copy of motif %d has no image in the cell; the sheet is not made", c.Motif+1)
		}
		w := h.moved.plus(f.a.times(c.Cell[0])).plus(f.b.times(c.Cell[1]))
		for _, i := range f.of[h.image] {
			p := f.pieces[i]
			key := slot{p.kind, w.minus(p.moved)}
			o := known[key]
			if o == nil {
				o = &opened{kind: key.kind, cell: key.cell, colour: c.Colour}
				known[key] = o
				out = append(out, o)
			}
			o.pieces = append(o.pieces, i)
			o.across = o.across || c.Place == geometry.Across
			if o.colour != c.Colour {
				o.colour = severalColours
			}
		}
	}
	return out, nil
}

// painted is what a place paints through one opening of the sheet.
type painted struct {
	*opened
	slot int
}

// lays returns where the sheet must be laid so that it paints what is open, in steps along u and v, and what it paints
// there.
func (sh *sheet) lays(open []*opened) map[cell][]painted {
	slotOf := map[slot]int{}
	for i, t := range sh.slots {
		slotOf[slot{t.kind, sh.steps.residue(t.cell)}] = i
	}
	out := map[cell][]painted{}
	for _, o := range open {
		n := slotOf[slot{o.kind, sh.steps.residue(o.cell)}]
		at := sh.steps.of(o.cell.minus(sh.slots[n].cell))
		out[at] = append(out[at], painted{o, n})
	}
	return out
}

// place finds where the sheet is laid, and what each place paints. Places are not numbered yet.
func (s *Stepping) place(open []*opened) error {
	sh := s.sheet
	byPlace := sh.lays(open)
	var order []cell
	for at := range byPlace {
		order = append(order, at)
	}
	slices.SortFunc(order, walk(order))

	for _, at := range order {
		all := byPlace[at]
		p := Place{cell: at, Part: []int{}, Mask: []int{}, Marks: [][2]float64{}, Use: []int{},
			colours: map[int]int{}}
		open := map[int]bool{}
		for _, o := range all {
			whole, some, err := s.lay(o)
			if err != nil {
				return err
			}
			open[o.slot] = whole || some
			if whole || some {
				p.colours[o.slot] = o.colour
			}
			switch {
			case whole:
				p.Whole++
			case some:
				p.Part = append(p.Part, o.slot+1)
			}
		}
		if p.Whole+len(p.Part) == 0 {
			continue // the ties or the edge take all of it
		}
		slices.Sort(p.Part)
		for i := range sh.slots {
			if !open[i] {
				p.Mask = append(p.Mask, i+1)
			}
		}
		s.Places = append(s.Places, p)
	}

	if n := len(s.Places); n > maxPlaces {
		return fmt.Errorf("the sheet would be laid at %d places, and the limit is %d; put more repeats on it", n,
			maxPlaces)
	}
	return nil
}

// lay adds what a place paints through one opening; whole when that is all of it, some when it is a part.
func (s *Stepping) lay(o painted) (whole, some bool, err error) {
	f := s.sheet.f
	k := f.kinds[s.sheet.slots[o.slot].kind]
	crop := s.l.Draft.Field.Edge == draft.Crop
	toPanel := s.l.Draft.FieldMap()
	if len(o.pieces) == len(k.pieces) && !(crop && o.across) {
		at := toPanel.Apply(geometry.Add(k.at, f.fine.at(o.cell)))
		s.laid = append(s.laid, laid{s.onPanel(k.shape), at, k.colour})
		return true, true, nil
	}
	mp, err := f.union(o.pieces, o.cell)
	if err != nil {
		return false, false, err
	}
	mp = geometry.Transform(mp, toPanel)
	if crop {
		if mp, err = overlay.Intersection(mp, geometry.RectOutline(s.l.Draft.FieldBound())); err != nil {
			return false, false, fmt.Errorf("an opening at the field's edge could not be cropped: %w", err)
		}
	}
	if len(mp) == 0 {
		return false, false, nil
	}
	shape := geometry.NewShape(mp)
	s.laid = append(s.laid, laid{shape: shape, colour: k.colour})
	return len(o.pieces) == len(k.pieces) && math.Abs(shape.Area()-k.shape.Area()) <= noArea*(1+k.shape.Area()), true,
		nil
}

// onPanel returns a kind's shape turned as the field is; translates share it.
func (s *Stepping) onPanel(shape *geometry.Shape) *geometry.Shape {
	if s.l.Draft.Field.Turn == 0 {
		return shape
	}
	if s.turned == nil {
		s.turned = map[*geometry.Shape]*geometry.Shape{}
	}
	t, ok := s.turned[shape]
	if !ok {
		t = shape.Place(geometry.TurnDegrees(s.l.Draft.Field.Turn), nil)
		s.turned[shape] = t
	}
	return t
}

// walk compares places by the order in which the sheet is walked over the dry panel to make the marks: row by row,
// there and back.
func walk(places []cell) func(a, b cell) int {
	first := math.MaxInt
	for _, c := range places {
		first = min(first, c[1])
	}
	return func(a, b cell) int {
		back := 1 - 2*((a[1]-first)&1)
		return cmp.Or(cmp.Compare(a[1], b[1]), back*cmp.Compare(a[0], b[0]))
	}
}

// number numbers the places in the order they stand in, and sets the passes.
func (s *Stepping) number() error {
	sh := s.sheet
	of, ok := passesOf(cellsOf(s.Places), sh.conflicts(sh.boxes()))
	if !ok {
		return fmt.Errorf("the sheet covers so many places at once that no order lets the paste dry; put more " +
			"repeats on it")
	}
	s.Passes = [][]int{}
	for i := range s.Places {
		p := &s.Places[i]
		p.Number = i + 1
		p.At = s.toPanel(sh.steps.to(p.cell)).Apply(orb.Point{})
		p.Pass = of[i] + 1
		for len(s.Passes) < p.Pass {
			s.Passes = append(s.Passes, nil)
		}
		s.Passes[of[i]] = append(s.Passes[of[i]], p.Number)
	}
	s.mark()
	return nil
}

func cellsOf(ps []Place) []cell {
	var out []cell
	for _, p := range ps {
		out = append(out, p.cell)
	}
	return out
}
