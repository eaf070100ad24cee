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
	// startsAcross is at how many places along each side of a cell it begins where the usual ones do not end well.
	startsAcross = 6
	// centred is how far from the middle, in mm, they may end.
	centred = 1e-3
)

// centreCopies moves a field of whole copies so that the box round them all lies in the middle of the panel. It begins
// at the field's place and at those with a corner of a cell, a rotation point or a mirror in the middle, and takes what
// keeps most copies; of several the first, which is nearest to where the field was. Where none of these ends in the
// middle with as many copies as there were, it begins at places across a cell too.
func centreCopies(d *draft.Draft) error {
	l, err := NewLayout(*d, nil)
	if err != nil {
		return err
	}

	s := centring{layout: *l}
	for _, start := range []string{"", "corner", "turn", "mirror"} {
		from := *d
		if start != "" && applyCentre(&from, Command{Text: start}) != nil {
			continue
		}
		if err := s.from(from.Field.Origin); err != nil {
			return err
		}
	}
	for i := 1; i < startsAcross*startsAcross && !s.best.middle; i++ {
		u, v := float64(i%startsAcross)/startsAcross, float64(i/startsAcross)/startsAcross
		if err := s.from(d.FieldMap().Apply(l.Cell.Basis().Apply(orb.Point{u, v}))); err != nil {
			return err
		}
	}
	d.Field.Origin = s.best.origin
	return nil
}

// A centring looks for the place of a field where its whole copies lie in the middle of the panel.
type centring struct {
	layout Layout
	start  int // copies at the first place
	seen   int // copies that were gone through
	begun  bool
	best   centredPlace
}

// A centredPlace is an origin of the field in panel mm, how many whole copies it keeps, and whether they lie in the
// middle of the panel and are no fewer than at the first place.
type centredPlace struct {
	origin [2]float64
	kept   int
	middle bool
}

// from moves the field from an origin until the box of its whole copies lies in the middle of the panel, and keeps the
// place it comes to where that is better than the best so far.
func (s *centring) from(origin [2]float64) error {
	if s.begun && s.seen > maxCentred {
		return nil
	}
	middle := s.layout.Draft.PanelBound().Center()
	at := centredPlace{origin: origin, kept: -1}
	for step := range centringSteps {
		if step > 1 && s.seen > maxCentred {
			break
		}
		s.layout.Draft.Field.Origin = origin
		copies, err := s.layout.Copies()
		if err != nil {
			return err
		}
		if !s.begun {
			s.begun, s.start = true, len(copies)
			s.best = centredPlace{origin: origin, kept: len(copies), middle: len(copies) == 0}
		}
		if len(copies) < at.kept {
			break
		}
		s.seen += len(copies)
		at.origin, at.kept = origin, len(copies)
		if at.kept == 0 {
			break
		}
		off := geometry.Sub(middle, boxOf(copies).Center())
		if at.middle = at.kept >= s.start && math.Hypot(off[0], off[1]) < centred; at.middle {
			break
		}
		origin = [2]float64{geometry.Snap(origin[0] + off[0]), geometry.Snap(origin[1] + off[1])}
	}

	if (at.middle && !s.best.middle) || (at.middle == s.best.middle && at.kept > s.best.kept) {
		s.best = at
	}
	return nil
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
