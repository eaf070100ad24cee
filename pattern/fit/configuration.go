package fit

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// configurationOf returns the draft's own configuration.
func (s *setting) configurationOf(d draft.Draft) []float64 {
	y := append([]float64(nil), s.space.base...)
	basis := d.Repeat.Cell().Basis()
	y[sideA], y[acrossB], y[upB] = basis.A, basis.B, basis.D
	switch s.question.Find {
	case Evenest:
		y[clearance] = 0
	case Largest:
		y[clearance] = d.Sheet.Bridge + slackForRounding
	}
	for i, m := range d.Motifs {
		p := &s.motifs[i]
		b := p.fine[0]
		c := geometry.TurnDegrees(m.Turn).Apply(b.centre)
		at := place(i)
		y[at], y[at+1], y[at+2] = m.At[0]+c[0], m.At[1]+c[1], m.Turn*math.Pi/180-b.angle
	}
	return y
}

// draftOf returns the draft of a configuration, its numbers rounded as files keep them, and the scale of its motifs
// against the draft asked about.
func (s *setting) draftOf(f found) (draft.Draft, float64, error) {
	d := s.question.Draft
	y := append([]float64(nil), f.y...)
	scale := 1.0
	if s.question.Find == Largest {
		scale = s.shape[0] / y[sideA]
		for i := range y {
			if i < perField || (i-perField)%perMotif != 2 {
				y[i] *= scale
			}
		}
	}
	turn := s.reduce(y)
	cell := symmetry.Cell{A: snap(y[sideA]), B: snap(math.Sqrt(y[acrossB]*y[acrossB] + y[upB]*y[upB])), Gamma: 90}
	switch s.group.System {
	case symmetry.Oblique:
		cell.Gamma = math.Round(math.Atan2(y[upB], y[acrossB])*180/math.Pi*1e6) / 1e6
	case symmetry.Hexagonal:
		cell.Gamma = 120
	}
	if s.group.EqualSides() {
		cell.B = cell.A
	}
	if s.question.Find != Tightest {
		kept := d.Repeat.Cell()
		if d.Repeat.Group != s.group.Symbol {
			kept = s.group.FitCell(kept)
		}
		cell = kept
	}
	if err := s.group.CheckCell(cell); err != nil {
		return d, 0, err
	}
	d.Repeat = draft.Repeat{Group: s.group.Symbol, A: cell.A, B: cell.B, Gamma: cell.Gamma}
	d.Motifs = append([]draft.Motif(nil), d.Motifs...)
	for i := range d.Motifs {
		s.setMotif(&d.Motifs[i], i, f, y, turn, scale)
	}
	d.Trail = nil
	return d, scale, nil
}

// setMotif writes a configuration's motif into a draft.
func (s *setting) setMotif(m *draft.Motif, i int, f found, y []float64, turn, scale float64) {
	p, at := &s.motifs[i], place(i)
	b := p.fine[f.hands[i]]
	if f.hands[i] == 1 {
		m.Mirrored = !m.Mirrored
	}
	if !p.heldTurn && !s.turnFixed(i) || turn != 0 {
		m.Turn = roundTurn((y[at+2] + b.angle) * 180 / math.Pi)
	}
	if scale != 1 {
		m.Scale = math.Floor(m.Scale*scale*1e9) / 1e9
	}
	if p.heldPlace {
		return
	}
	c := geometry.Times(geometry.TurnDegrees(m.Turn).Apply(b.centre), scale)
	at0 := orb.Point{y[at] - c[0], y[at+1] - c[1]}
	// The copy nearest the field's origin is the one that is held; in a special position the motif stays where it is.
	m.At = [2]float64{snap(at0[0]), snap(at0[1])}
}

func snap(v float64) float64 { return geometry.Snap(v) }

// roundTurn returns a turn in degrees, from 0 to below 360, with six decimals.
func roundTurn(degrees float64) float64 {
	t := math.Round((degrees-360*math.Floor(degrees/360))*1e6) / 1e6
	if t >= 360 {
		t -= 360
	}
	return t
}

// reduce gives an oblique lattice its shortest sides where nothing holds them; where that turns a, the field turns
// with it. It returns the turn in radians.
func (s *setting) reduce(y []float64) (turn float64) {
	if s.group.System != symmetry.Oblique || s.question.Find != Tightest || s.shape != [3]float64{} {
		return 0
	}
	for i := range s.motifs {
		if s.special[i] != nil {
			return 0
		}
	}
	a, b := orb.Point{y[sideA], 0}, orb.Point{y[acrossB], y[upB]}
	free := s.question.Hold.turnsFreely() && !s.question.Hold.Place && len(s.question.Hold.Motifs) == 0
	for range maxReductions {
		b = geometry.Sub(b, geometry.Times(a, math.Round(geometry.Dot(a, b)/geometry.Dot(a, a))))
		if !free || geometry.Dot(b, b) >= geometry.Dot(a, a) {
			break
		}
		a, b = b, geometry.Times(a, -1)
	}
	// The angle between them from 60 to 90 degrees reads best; b and a + b span the same lattice.
	if d := geometry.Dot(a, b); d < -1e-9 {
		b = geometry.Add(b, a)
	}
	turn = -math.Atan2(a[1], a[0])
	m := geometry.Turn(turn)
	b = m.Apply(b)
	y[sideA], y[acrossB], y[upB] = math.Sqrt(geometry.Dot(a, a)), b[0], b[1]
	for i := range s.motifs {
		at := place(i)
		p := m.Apply(orb.Point{y[at], y[at+1]})
		y[at], y[at+1], y[at+2] = p[0], p[1], y[at+2]+turn
	}
	return turn
}

// maxReductions ends the shortening of a lattice's sides (Gauss); each at least halves a side until the last few.
const maxReductions = 60

// judge lays a draft out and measures the narrowest way between two different copies, exactly; cut says that two
// meet. The check that runs while a hand drags passes over overlaps too small to see, a fit does not. only is a motif
// whose pairs alone are measured, or everyMotif.
func judge(d draft.Draft, only int, shapes *pattern.Shapes) (narrowest geometry.Near, cut bool, l *pattern.Layout,
	err error) {
	l, err = pattern.NewLayout(d, shapes)
	if err != nil {
		return narrowest, false, nil, fmt.Errorf("a fitted draft cannot be laid out: %w", err)
	}
	far := 2 * geometry.PointDistance(l.A, geometry.Times(l.B, -1))
	narrowest.D = far
	for i, o := range l.Orbits {
		if len(o.Images) == 0 {
			return narrowest, true, l, nil
		}
		one := o.Images[0]
		for j, other := range l.Orbits[i:] {
			if only != everyMotif && i != only && i+j != only {
				continue
			}
			for k, image := range other.Images {
				l.Cells(one.Bound().Pad(narrowest.D), image.Bound(), func(m, n int) bool {
					if j == 0 && k == 0 && m == 0 && n == 0 {
						return true
					}
					shift := geometry.Sub(geometry.Add(image.At, l.Lattice(m, n)), one.At)
					near := geometry.Distance(one.Shape, image.Shape, shift, narrowest.D)
					cut = near.Found && near.D == 0 || geometry.Inside(one.Shape, image.Shape, shift) ||
						geometry.Inside(image.Shape, one.Shape, geometry.Times(shift, -1))
					if near.Found {
						narrowest = near
					}
					return !cut
				})
				if cut {
					return narrowest, true, l, nil
				}
			}
		}
	}
	return narrowest, false, l, nil
}
