package pattern

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// applyCentre moves the field so that what Text names lies in the middle of the panel: the nearest "corner" of a
// cell, the nearest "turn" (a rotation point of the group's highest order), the nearest "mirror", or all whole
// "copies" together.
func applyCentre(d *draft.Draft, c Command) error {
	l, err := NewLayout(draft.Draft{Repeat: d.Repeat}, nil)
	if err != nil {
		return err
	}
	if c.Text == "copies" {
		if d.Field.Edge != draft.Whole {
			return errors.New("copies are cut at the margin; choose whole copies only, then they can be centred")
		}
		return centreCopies(d)
	}

	middle := d.FieldMap().Rigid().Apply(d.PanelBound().Center())
	at, ok := orb.Point{}, true
	switch c.Text {
	case "corner":
		at = l.NearestLattice(middle)
	case "turn":
		at, ok = l.nearestElement(middle, turnPoint)
	case "mirror":
		at, ok = l.nearestElement(middle, mirrorLine)
	default:
		return fmt.Errorf("the middle may be a corner, a turn, a mirror or the copies, not %.40q", c.Text)
	}

	if !ok {
		return errors.New(d.Repeat.Group + " has none of these to put in the middle")
	}
	there := d.FieldMap().Apply(at)
	for i, v := range d.PanelBound().Center() {
		d.Field.Origin[i] = geometry.Snap(d.Field.Origin[i] + v - there[i])
	}
	return nil
}

// nearestElement returns the point of the group's mirrors, or of its rotation points of the highest order, that is
// nearest to p; false when there is none.
func (l *Layout) nearestElement(p orb.Point, want element) (at orb.Point, ok bool) {
	best, order := math.Inf(1), 0
	l.movingLittle(p, math.Inf(1), func(g geometry.Map) {
		kind, q := fixedBy(g, p)
		if kind != want {
			return
		}
		n := 0
		if kind == turnPoint {
			n = int(math.Round(2 * math.Pi / math.Abs(math.Atan2(g.C, g.A))))
		}
		d := math.Hypot(q[0]-p[0], q[1]-p[1])
		if n > order || (n == order && d < best) {
			best, order, at, ok = d, n, q, true
		}
	})
	return at, ok
}

const (
	// centringSteps bounds how often whole copies are moved to the middle: moving them can let others in.
	centringSteps = 8
	// maxCentred is how many copies are gone through in all on the way: more than a hand's breadth of waiting is not
	// worth the last of them.
	maxCentred = 20_000
	// centred is how far from the middle, in mm, they may end.
	centred = 1e-3
)

// centreCopies moves a field of whole copies so that the box round them all lies in the middle of the panel. It begins
// at the field's place and at those with a corner of a cell, a rotation point or a mirror in the middle, and takes what
// keeps most copies; of several the first, which is nearest to where the field was.
func centreCopies(d *draft.Draft) error {
	l, err := NewLayout(*d, nil)
	if err != nil {
		return err
	}
	best, most, seen := d.Field.Origin, -1, 0
	for _, start := range []string{"", "corner", "turn", "mirror"} {
		from := *d
		if start != "" && applyCentre(&from, Command{Text: start}) != nil {
			continue
		}
		if seen > maxCentred {
			break
		}
		origin, kept, err := l.centring(from.Field.Origin, &seen)
		if err != nil {
			return err
		}
		if kept > most {
			best, most = origin, kept
		}
	}
	d.Field.Origin = best
	return nil
}

// centring moves the field from an origin until the box of its whole copies lies in the middle of the panel, and
// returns the origin of those on the way that keeps most copies, the last of them, and how many they are. seen counts
// the copies that were gone through.
func (l *Layout) centring(origin [2]float64, seen *int) (best [2]float64, most int, err error) {
	moved := *l
	middle := l.Draft.PanelBound().Center()
	best, most = origin, -1
	for step := range centringSteps {
		if step > 1 && *seen > maxCentred {
			break
		}
		moved.Draft.Field.Origin = origin
		copies, err := moved.Copies()
		if err != nil {
			return best, most, err
		}
		if len(copies) < most {
			break
		}
		*seen += len(copies)
		best, most = origin, len(copies)
		if most == 0 {
			break
		}
		at := boxOf(copies).Center()
		off := geometry.Sub(middle, at)
		if math.Hypot(off[0], off[1]) < centred {
			break
		}
		origin = [2]float64{geometry.Snap(origin[0] + off[0]), geometry.Snap(origin[1] + off[1])}
	}
	return best, most, nil
}

// boxOf returns the box round copies, of which there is at least one, in panel mm.
func boxOf(copies []Copy) orb.Bound {
	out := copies[0].Bound()
	for _, c := range copies[1:] {
		out = out.Union(c.Bound())
	}
	return out
}

// applyEdge sets the edge rule. Whole copies are centred.
func applyEdge(d *draft.Draft, c Command) error {
	was := d.Field.Edge
	if d.Field.Edge = draft.Edge(c.Text); d.Field.Edge != draft.Whole || was == draft.Whole {
		return nil
	}
	return centreCopies(d)
}
