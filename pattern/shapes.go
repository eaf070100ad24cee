package pattern

import (
	"encoding/binary"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

const (
	// keptOutlines and keptPlaced bound what a Shapes keeps, some 8 KB for each shape of 300 points. Beyond them it
	// starts afresh.
	keptOutlines = 1000
	keptPlaced   = 600
)

// Shapes keeps prepared outlines from one layout to the next: each silhouette's, and its images turned and scaled as
// the operations of a group carry them, before they are moved to their places. While a copy is dragged only the places
// change, so that a drag step prepares nothing anew. A nil *Shapes keeps nothing. Outlines are never changed in place,
// so the addresses of their rings tell them apart. It is not safe for use from two goroutines.
type Shapes struct {
	outlines map[outlineKey]*geometry.Shape
	placed   map[placing]*geometry.Shape
	axes     map[*geometry.Shape][]float64
	cut      map[cutting]*geometry.Shape
	grown    map[growing]orb.MultiPolygon // outlines of subjects, in their own frames
	rooms    map[standing]*geometry.Shape // on the panel
	subjects map[place]*geometry.Shape    // on the panel
}

// cutting is an outline and the ties taken off it, written out.
type cutting struct {
	outline outlineKey
	ties    string
}

// outlineKey tells outlines apart by where their rings lie in memory: the first and the last, and how many there are.
type outlineKey struct {
	first, last *orb.Point
	rings       int
}

func keyOf(mp orb.MultiPolygon) (key outlineKey, ok bool) {
	for _, poly := range mp {
		for _, ring := range poly {
			if len(ring) == 0 {
				continue
			}
			if key.first == nil {
				key.first = &ring[0]
			}
			key.last = &ring[0]
			key.rings++
		}
	}
	return key, key.first != nil
}

// placing is a shape and the linear part of a map.
type placing struct {
	shape      *geometry.Shape
	a, b, c, d float64
}

// NewShapes returns an empty store.
func NewShapes() *Shapes {
	return &Shapes{map[outlineKey]*geometry.Shape{}, map[placing]*geometry.Shape{}, map[*geometry.Shape][]float64{},
		map[cutting]*geometry.Shape{}, map[growing]orb.MultiPolygon{}, map[standing]*geometry.Shape{},
		map[place]*geometry.Shape{}}
}

// of returns the prepared outline of a silhouette.
func (c *Shapes) of(s draft.Silhouette) *geometry.Shape {
	key, ok := keyOf(s.Outline)
	if c == nil || !ok {
		return geometry.NewShape(s.Outline)
	}
	if sh, kept := c.outlines[key]; kept {
		return sh
	}
	if len(c.outlines) >= keptOutlines {
		clear(c.outlines)
	}
	sh := geometry.NewShape(s.Outline)
	c.outlines[key] = sh
	return sh
}

// tied returns the prepared outline of a silhouette less ties.
func (c *Shapes) tied(s draft.Silhouette, ties []draft.Tie) (*geometry.Shape, error) {
	var key cutting
	outline, known := keyOf(s.Outline)
	if known = known && c != nil; known {
		key = cutting{outline, string(tieBytes(ties))}
		if sh, ok := c.cut[key]; ok {
			return sh, nil
		}
	}
	mp, err := draft.LessTies(s.Outline, ties)
	if err != nil {
		return nil, err
	}
	sh := geometry.NewShape(mp)
	if known {
		if len(c.cut) >= keptOutlines {
			clear(c.cut)
		}
		c.cut[key] = sh
	}
	return sh, nil
}

func tieBytes(ties []draft.Tie) []byte {
	var out []byte
	for _, t := range ties {
		for _, v := range [...]float64{t.From[0], t.From[1], t.To[0], t.To[1], t.Width} {
			out = binary.LittleEndian.AppendUint64(out, math.Float64bits(v))
		}
	}
	return out
}

// turned returns the image of a shape under the linear part of m.
func (c *Shapes) turned(s *geometry.Shape, m geometry.Map) *geometry.Shape {
	m.X, m.Y = 0, 0
	if c == nil {
		return s.Place(m, nil)
	}
	key := placing{s, m.A, m.B, m.C, m.D}
	if sh, ok := c.placed[key]; ok {
		return sh
	}
	if len(c.placed) >= keptPlaced {
		clear(c.placed)
	}
	sh := s.Place(m, nil)
	c.placed[key] = sh
	return sh
}

// Image is one image of a motif in the cell (0, 0): Shape moved by At, field mm. The same Shape serves as long as the
// motifOf is only moved.
type Image struct {
	Op    int // index of the operation in the group
	Shape *geometry.Shape
	At    orb.Point
}

// Bound returns the image's box.
func (i Image) Bound() orb.Bound {
	b := i.Shape.Bound()
	return orb.Bound{Min: geometry.Add(b.Min, i.At), Max: geometry.Add(b.Max, i.At)}
}

// Centroid returns the image's centre of area.
func (i Image) Centroid() orb.Point { return geometry.Add(i.Shape.Centroid(), i.At) }

// Contains reports whether a field point lies in the image.
func (i Image) Contains(p orb.Point) bool { return i.Shape.Contains(geometry.Sub(p, i.At)) }

// Distance returns how far a field point is from the image's boundary, if nearer than limit mm.
func (i Image) Distance(p orb.Point, limit float64) (float64, bool) {
	n := i.Shape.DistanceTo(geometry.Sub(p, i.At), limit)
	return n.D, n.Found
}
