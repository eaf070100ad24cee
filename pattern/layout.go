package pattern

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// Layout is the field derived from a draft: for every motif the operations that give its different images in one cell,
// and the lattice that repeats them. Its cost does not depend on the panel; Copies goes over the panel when asked.
type Layout struct {
	Draft   draft.Draft
	Group   symmetry.Group
	Cell    symmetry.Cell
	A, B    orb.Point // the cell's sides as vectors in field mm
	Orbits  []Orbit   // one for each motif, in the draft's order
	Rooms   []Room    // to which the pattern gives way
	Shapes  *Shapes   // the prepared outlines it was made with
	maps    []geometry.Map
	inverse []int // of each operation, modulo the lattice
	palette *palette
	only    *int // the number of the colour whose copies alone are kept; nil: all
}

// Orbit is a motif and its images in one cell.
type Orbit struct {
	Motif  int
	Shape  *geometry.Shape // the silhouette less its ties, in its own frame
	Bare   *geometry.Shape // the silhouette without regard to ties: Shape itself where there are none
	Place  geometry.Map    // silhouette → field mm, for the motif itself
	Images []Image         // the different ones, that of the identity first
	// the earlier motif whose images these are, −1 when the orbit is its own; then Images is empty
	SameAs int
	bare   []Image // Images without regard to ties; nil where there are none
}

// NewLayout derives the field from a draft that has passed Check. It fails where copies, or ties of the field, would
// lie over each other by the thousand, and where a silhouette's ties cannot be taken off it or a subject's room cannot
// be found. Without a store of shapes
// it makes one of its own, so that motifs of one silhouette share what is prepared.
func NewLayout(d draft.Draft, cache *Shapes) (*Layout, error) {
	if cache == nil {
		cache = NewShapes()
	}
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return nil, &draft.PlaceError{Place: "repeat.group", Text: err.Error()}
	}
	cell := d.Repeat.Cell()
	if err := g.CheckCell(cell); err != nil {
		return nil, fmt.Errorf("repeat.%w", err)
	}
	basis := cell.Basis()
	l := &Layout{Draft: d, Group: g, Cell: cell, Shapes: cache,
		A: basis.Vector(orb.Point{1, 0}), B: basis.Vector(orb.Point{0, 1}), palette: paletteOf(d.Paint)}
	for _, check := range []func() error{l.checkCrowd, l.checkTies} {
		if err := check(); err != nil {
			return nil, err
		}
	}
	for _, op := range g.Ops {
		l.maps = append(l.maps, op.Map(cell, 0, 0))
		l.inverse = append(l.inverse, g.Index(op.Inverse()))
	}

	for i, m := range d.Motifs {
		s, ok := d.Silhouette(m.Silhouette)
		if !ok {
			return nil, &draft.PlaceError{Place: fmt.Sprintf("motifs[%d].silhouette", i),
				Text: fmt.Sprintf("no silhouette is called %.40q", m.Silhouette)}
		}
		bare := cache.of(s)
		o := Orbit{Motif: i, Shape: bare, Bare: bare, Place: m.Map(), SameAs: -1}
		l.place(&o)
		if ties, first := d.TiesOf(s.ID); len(ties) > 0 {
			if err := l.tie(&o, s, ties, first); err != nil {
				return nil, err
			}
		}
		l.Orbits = append(l.Orbits, o)
	}
	if l.Rooms, err = l.rooms(); err != nil {
		return nil, err
	}
	return l, nil
}

// place finds the operations that give different images of the orbit's motif. An image that coincides with an earlier
// one, moved by the lattice, is left out, and so is a whole orbit that an earlier motif has already given.
func (l *Layout) place(o *Orbit) {
	image := func(k int) Image {
		m := l.maps[k].After(o.Place)
		return Image{Op: k, Shape: l.Shapes.turned(o.Shape, m), At: orb.Point{m.X, m.Y}}
	}
	if j := l.coincides(image(0), l.Orbits); j >= 0 {
		o.SameAs = j
		return
	}
	own := []Orbit{*o}
	own[0].Images = make([]Image, 0, len(l.maps))
	for k := range l.maps {
		if i := image(k); l.coincides(i, own) < 0 {
			own[0].Images = append(own[0].Images, i)
		}
	}
	*o = own[0]
}

// coincides returns the motif among the orbits one of whose images, moved by the lattice, covers the same place as the
// given image; −1 when there is none.
func (l *Layout) coincides(image Image, orbits []Orbit) (motif int) {
	centre := image.Centroid()
	for i := range orbits {
		images := orbits[i].Images
		if orbits[i].bare != nil {
			images = orbits[i].bare
		}
		for _, other := range images {
			d := geometry.Sub(centre, other.Centroid())
			shift := l.NearestLattice(d)
			off := geometry.Sub(d, shift)
			// Outlines that agree to SameSlack everywhere have centres that agree about as well.
			if math.Abs(off[0]) <= 2*SameSlack && math.Abs(off[1]) <= 2*SameSlack && sameImage(image, other, shift) {
				return orbits[i].Motif
			}
		}
	}
	return -1
}

// sameImage reports whether an image moved by shift covers the same place as another.
func sameImage(image, other Image, shift orb.Point) bool {
	there := geometry.Add(other.At, shift)
	if other.Shape == image.Shape && math.Hypot(there[0]-image.At[0], there[1]-image.At[1]) <= SameSlack {
		return true
	}
	// Outlines that agree to SameSlack everywhere have boxes that do. That tells most apart without an outline being
	// moved.
	a, b := image.Bound(), other.Bound()
	for i := range shift {
		if math.Abs(b.Min[i]+shift[i]-a.Min[i]) > SameSlack+boxRounding ||
			math.Abs(b.Max[i]+shift[i]-a.Max[i]) > SameSlack+boxRounding {
			return false
		}
	}
	moved := other.Shape.Place(geometry.Translate(there[0]-image.At[0], there[1]-image.At[1]), nil)
	return geometry.SameWithin(moved, image.Shape, SameSlack)
}

// NearestLattice returns the lattice vector, in field mm, nearest to d to within a cell's skew.
func (l *Layout) NearestLattice(d orb.Point) orb.Point { return l.Lattice(l.NearestCell(d)) }

// NearestCell returns the cells along a and b of NearestLattice.
func (l *Layout) NearestCell(d orb.Point) (m, n int) {
	x, y := l.cellOf(d)
	return int(math.Round(x)), int(math.Round(y))
}

// cellOf returns the cell coordinates of a field point.
func (l *Layout) cellOf(p orb.Point) (x, y float64) {
	y = p[1] / l.B[1]
	return (p[0] - y*l.B[0]) / l.A[0], y
}

// Lattice returns the vector of m cells along a and n along b, in field mm.
func (l *Layout) Lattice(m, n int) orb.Point {
	return orb.Point{float64(m)*l.A[0] + float64(n)*l.B[0], float64(m)*l.A[1] + float64(n)*l.B[1]}
}

// Op returns the map of an operation of the group in field mm, moved on by m and n cells.
func (l *Layout) Op(op, m, n int) geometry.Map {
	v := l.Lattice(m, n)
	return l.maps[op].Moved(v[0], v[1])
}

// InverseOf returns the inverse of an operation moved on by m and n cells, as an operation of the group and its cells.
func (l *Layout) InverseOf(op, m, n int) (inv, im, in int) {
	i := l.inverse[op]
	// g⁻¹ is operation i moved by some lattice vector; it carries g(0) back to 0.
	p := l.Op(op, m, n).Apply(orb.Point{})
	q := l.maps[i].Apply(p)
	x, y := l.cellOf(orb.Point{-q[0], -q[1]})
	return i, int(math.Round(x)), int(math.Round(y))
}

// InCell returns how many copies of all motifs one conventional cell holds.
func (l *Layout) InCell() int {
	n := 0
	for _, o := range l.Orbits {
		n += len(o.Images)
	}
	return n
}

// Cells calls visit for every lattice place (m, n) at which a box, given in field mm for the place (0, 0), can meet the
// window, row by row; visit returning false ends it. It reports false when it was ended, and ends by itself after
// maxTrials places: a window of many metres holds millions of the smallest cells.
func (l *Layout) Cells(window, b orb.Bound, visit func(m, n int) bool) bool {
	// Shifts v = m·A + n·B with window.Min − b.Max ≤ v ≤ window.Max − b.Min; A lies along x and B upward.
	lowY, highY := window.Min[1]-b.Max[1], window.Max[1]-b.Min[1]
	lowX, highX := window.Min[0]-b.Max[0], window.Max[0]-b.Min[0]
	for _, v := range [...]float64{lowX, highX, lowY, highY} {
		if !(math.Abs(v) <= maxShift) {
			return false
		}
	}
	trials := 0
	for n := int(math.Ceil(lowY / l.B[1])); float64(n)*l.B[1] <= highY; n++ {
		if trials++; trials > maxTrials { // rows without a place count too
			return false
		}
		off := float64(n) * l.B[0]
		for m := int(math.Ceil((lowX - off) / l.A[0])); float64(m)*l.A[0]+off <= highX; m++ {
			if trials++; trials > maxTrials || !visit(m, n) {
				return false
			}
		}
	}
	return true
}
