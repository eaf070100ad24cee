package pattern

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/grow"
	"openwork/pattern/draft"
)

// Room is what is kept clear round a subject: its outline grown by its room, with round joins, in panel mm. Its line is
// an edge of the field like the margin: with draft.Crop openings stop at it, with draft.Whole only copies that lie
// wholly outside it are kept. What lies in the room is sheet. A copy whose boundary touches the line lies across it.
type Room struct {
	Subject int // index in the draft
	Edge    draft.Edge
	Shape   *geometry.Shape
	Bound   orb.Bound
}

// roomTolerance in mm: a room's arcs are chords that lie up to this inside it, a tenth of the usual kerf.
const roomTolerance = 0.02

// rooms returns the rooms to which the pattern gives way. Growing an outline takes an overlay: it is done once for each
// outline, scale and distance, and not when a subject is moved or turned.
func (l *Layout) rooms() ([]Room, error) {
	var out []Room
	for i, s := range l.Draft.Subjects {
		if s.Edge == draft.Behind {
			continue
		}
		r, err := l.Shapes.room(s)
		if err != nil {
			return nil, &draft.PlaceError{Place: fmt.Sprintf("subjects[%d].room", i),
				Text: fmt.Sprintf("the room round %s could not be found: %v", s.Name, err)}
		}
		out = append(out, Room{Subject: i, Edge: s.Edge, Shape: r, Bound: r.Bound()})
	}
	return out, nil
}

// place is a subject's outline and where it stands.
type place struct {
	outline outlineKey
	at      geometry.Map
}

// Subject returns a subject's prepared outline on the panel, in mm.
func (c *Shapes) Subject(s draft.Subject) *geometry.Shape {
	outline, known := keyOf(s.Outline)
	if c == nil || !known {
		return geometry.NewShape(s.Placed())
	}
	key := place{outline, s.Map()}
	if sh, ok := c.subjects[key]; ok {
		return sh
	}
	if len(c.subjects) >= keptRooms {
		clear(c.subjects)
	}
	sh := geometry.NewShape(s.Placed())
	c.subjects[key] = sh
	return sh
}

// RoomOf returns the outline of a subject's room in panel mm, whatever its edge.
func (l *Layout) RoomOf(s draft.Subject) (*geometry.Shape, error) { return l.Shapes.room(s) }

// growing is an outline and the distance by which it grows, in its own frame.
type growing struct {
	outline  outlineKey
	distance float64
}

// standing is a grown outline and where it stands.
type standing struct {
	growing
	at geometry.Map
}

// room returns a subject's outline grown by its room, in panel mm.
func (c *Shapes) room(s draft.Subject) (*geometry.Shape, error) {
	outline, known := keyOf(s.Outline)
	known = known && c != nil
	key := standing{growing{outline, s.Room / s.Scale}, s.Map()}
	if known {
		if sh, ok := c.rooms[key]; ok {
			return sh, nil
		}
	}
	grown, kept := orb.MultiPolygon(nil), false
	if known {
		grown, kept = c.grown[key.growing]
	}
	if !kept {
		var err error
		if grown, err = grow.Round(s.Outline, s.Room/s.Scale, roomTolerance/math.Max(s.Scale, 1e-3)); err != nil {
			return nil, err
		}
	}

	sh := geometry.NewShape(geometry.Orient(geometry.Transform(grown, key.at)))
	if known {
		if len(c.grown) >= keptRooms {
			clear(c.grown)
		}
		if len(c.rooms) >= keptRooms {
			clear(c.rooms)
		}
		c.grown[key.growing], c.rooms[key] = grown, sh
	}
	return sh, nil
}

// keptRooms bounds the rooms, and the subjects, that a Shapes keeps; a drag of a subject asks for a new one at every
// step.
const keptRooms = 2 * draft.MaxSubjects

// inRooms says whether the rooms leave a copy, and whether they cut it.
func (l *Layout) inRooms(image *geometry.Shape, shift orb.Point) (kept, cut bool) {
	for i := range l.Rooms {
		r := &l.Rooms[i]
		switch image.InShape(r.Shape, shift) {
		case geometry.Within:
			return false, false
		case geometry.Across:
			if r.Edge == draft.Whole {
				return false, false
			}
			cut = true
		}
	}
	return true, cut
}

// Keeps reports whether the copy of an image moved by the lattice vector v, in field mm, is kept by the edge rule and
// by the rooms of the subjects.
func (l *Layout) Keeps(i Image, v orb.Point) bool {
	place := l.PlaceOf(i, v)
	if place == geometry.Outside || (place == geometry.Across && l.Draft.Field.Edge == draft.Whole) {
		return false
	}
	kept, _ := l.inRooms(l.turnedToPanel(i), l.Draft.FieldMap().Apply(geometry.Add(i.At, v)))
	return kept
}

// InRoom reports whether a point of the panel lies in a room.
func (l *Layout) InRoom(p orb.Point) bool {
	for _, r := range l.Rooms {
		if r.Bound.Contains(p) && r.Shape.Contains(p) {
			return true
		}
	}
	return false
}

// LeavesOut reports whether copies are left out that stand among others of their kind: because a room wants whole ones,
// or because only one colour is laid.
func (l *Layout) LeavesOut() bool {
	return l.only != nil || slices.ContainsFunc(l.Rooms, func(r Room) bool { return r.Edge == draft.Whole })
}
