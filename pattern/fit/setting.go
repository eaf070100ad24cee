package fit

import (
	"errors"
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// setting is a question for one group, ready to be searched: what is free, the bodies, and how starts are thrown.
type setting struct {
	question *Question
	group    symmetry.Group
	space    *space
	start    []float64 // the draft as it is, where it has this group; nil otherwise
	motifs   []part
	images   float64    // area of all different copies in a cell, mm², holes filled
	special  []*site    // for each motif, where it is bound to; nil for one in general position
	shape    [3]float64 // a, b across and b up of a cell whose shape is held; zero when it is free
}

// part is a motif of a setting.
type part struct {
	motif      draft.Motif
	fine       [2]*body // as it is, and mirrored
	coarse     [2]*body
	heldTurn   bool
	heldPlace  bool
	heldHand   bool
	directions []float64 // of straight sides of its hull, radians
	elongation float64
}

// slackForRounding, in mm, is kept beyond the bridge, for what rounding a draft's numbers to 1e-4 mm takes away.
const slackForRounding = 4e-4

// newSetting prepares the search of a draft in a group.
func newSetting(q *Question, g symmetry.Group) (*setting, error) {
	d := q.Draft
	s := &setting{question: q, group: g, space: newSpace(g, len(d.Motifs)), special: make([]*site, len(d.Motifs))}
	own := d.Repeat.Group == g.Symbol
	if own && !q.Leave {
		if err := s.findSpecial(); err != nil {
			return nil, err
		}
	}
	s.space.base[clearance] = d.Sheet.Bridge + slackForRounding
	if err := s.freeCell(); err != nil {
		return nil, err
	}
	for i, m := range d.Motifs {
		p, err := s.newPart(m)
		if err != nil {
			return nil, err
		}
		s.motifs = append(s.motifs, p)
		s.images += float64(s.imagesOf(i)) * bodyArea(p.fine[0])
		s.freeMotif(i)
	}
	s.space.list()
	if own {
		s.start = s.configurationOf(d)
	}
	if len(s.space.free) == 0 {
		return nil, errors.New("nothing is left free to fit")
	}
	return s, nil
}

// newPart prepares a motif's bodies.
func (s *setting) newPart(m draft.Motif) (part, error) {
	sil, ok := s.question.Draft.Silhouette(m.Silhouette)
	if !ok {
		return part{}, fmt.Errorf("no silhouette is called %.40q", m.Silhouette)
	}
	h := s.question.Hold
	p := part{motif: m, heldTurn: h.Turn || h.motif(m.ID), heldPlace: h.Place || h.motif(m.ID), heldHand: h.Mirrored ||
		h.motif(m.ID)}
	for side := range p.fine {
		place := geometry.Scale(m.Scale)
		if m.Mirrored != (side == 1) {
			place = place.After(geometry.MirrorX)
		}
		shape := geometry.Transform(sil.Outline, place)
		if place.Det() < 0 {
			shape = geometry.Orient(shape)
		}
		key := bodyKey{m.Silhouette, m.Scale, m.Mirrored != (side == 1), p.heldPlace && !p.heldTurn,
			s.farthestClearance()}
		p.fine[side], p.coarse[side] = s.question.bodies.of(key, shape)
	}
	// A motif alone, or the first of several, need not be mirrored: that gives the mirrored field.
	p.heldHand = p.heldHand || p.heldPlace || len(s.motifs) == 0 || s.special[len(s.motifs)] != nil
	p.directions, p.elongation = sidesOf(p.coarse[0])
	return p, nil
}

// farthestClearance returns how far bodies are asked: the bridge, or where gaps are made even, what a cell could have.
func (s *setting) farthestClearance() float64 {
	d := s.question.Draft
	if s.question.Find == Evenest {
		return math.Sqrt(d.Repeat.Cell().Area()) / 2
	}
	if s.question.Find == Largest {
		return 12 * d.Sheet.Bridge // in silhouettes' own size, which shrink to a twelfth at the most
	}
	return d.Sheet.Bridge
}

func bodyArea(b *body) float64 {
	sum := 0.0
	for _, e := range b.edges {
		sum += e.x*e.dy - e.y*e.dx
	}
	return sum / 2
}

// freeCell frees what is not held of the cell.
func (s *setting) freeCell() error {
	d, h := s.question.Draft, s.question.Hold
	own := d.Repeat.Group == s.group.Symbol
	cell := d.Repeat.Cell()
	if !own {
		cell = s.group.FitCell(cell)
	}
	basis := cell.Basis()
	s.shape = [3]float64{basis.A, basis.B, basis.D}
	oblique := s.group.System == symmetry.Oblique
	switch {
	case s.question.Find == nearby:
		copy(s.space.base, s.shape[:])
	case s.question.Find == Evenest:
		copy(s.space.base, s.shape[:])
		s.space.let(clearance, 1)
		s.space.base[clearance] = 0
	case s.question.Find == Largest:
		reach := math.Sqrt(cell.Area())
		s.space.let(sideA, s.shape[0]/reach, acrossB, s.shape[1]/reach, upB, s.shape[2]/reach, clearance,
			s.space.base[clearance]/reach)
		s.space.base[clearance] = 0
	case h.Proportion:
		s.letShape()
	case oblique && h.Lay:
		return s.freeLay(d.Repeat)
	case oblique && (h.Angle || h.Repeats):
		s.space.let(sideA, 1)
		s.space.let(acrossB, s.shape[1]/s.shape[2], upB, 1)
		if h.Repeats {
			s.space.free[1][acrossB] = 0
			s.shape[1] = 0
		}
	default:
		s.space.freeCell()
		s.shape = [3]float64{}
	}
	return nil
}

// letShape frees the cell's size.
func (s *setting) letShape() {
	size := math.Sqrt(s.shape[0] * s.shape[2])
	s.space.let(sideA, s.shape[0]/size, acrossB, s.shape[1]/size, upB, s.shape[2]/size)
}

// freeLay frees the sides of repeats that stay laid as they are.
func (s *setting) freeLay(r draft.Repeat) error {
	l, ok := pattern.LayOf(r, "")
	if !ok {
		return fmt.Errorf("the cell is laid neither straight nor in half-drop nor in brick, so its lay cannot be held")
	}
	s.space.let(sideA, 1)
	s.space.let(upB, 1)
	if l.Name != pattern.Straight {
		half := math.Copysign(0.5, s.shape[1])
		s.space.free[0][acrossB] = half
	}
	return nil
}

// freeMotif frees what is not held of a motif's place and turn.
func (s *setting) freeMotif(i int) {
	p, at := &s.motifs[i], float64(place(i))
	reach := p.fine[0].reach
	if !p.heldTurn && s.question.Hold.turnsFreely() && !s.turnFixed(i) {
		s.space.let(at+2, 1/reach)
	}
	switch {
	case p.heldPlace:
		s.holdPlace(i)
	case s.placeSpecial(i):
	case s.group.Symbol == "p1" && i == 0:
		// Nothing depends on where a field of translations begins.
	default:
		s.space.let(at, 1)
		s.space.let(at+1, 1)
	}
}

// holdPlace keeps a motif where it is: the middle of its body is then where its turn brings it.
func (s *setting) holdPlace(i int) {
	p := &s.motifs[i]
	at := place(i)
	b := p.fine[0]
	c := geometry.TurnDegrees(p.motif.Turn).Apply(b.centre)
	x, y := p.motif.At[0]+c[0], p.motif.At[1]+c[1]
	if s.question.Find != Largest {
		s.space.base[at], s.space.base[at+1] = x, y
		return
	}
	// Where the scale is sought, all lengths but the silhouettes' shrink instead, the place with them.
	size := math.Sqrt(s.shape[0] * s.shape[2])
	s.space.free[0][at], s.space.free[0][at+1] = x/size, y/size
}
