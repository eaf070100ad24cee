package stepping

import (
	"fmt"
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/progress"
	"openwork/pattern/sheet/panel"
)

// paintNumbers returns the numbers of a layout's colours.
func paintNumbers(l *pattern.Layout) []int {
	out := make([]int, len(l.Draft.PaintOf().Colours))
	for i := range out {
		out[i] = i
	}
	return out
}

// prove measures what the places lay against the field's openings as the whole-panel check finds them, and what is laid
// twice. Areas in common are sums over edges (geometry.OverlapArea): nothing is constructed for them.
func (s *Stepping) prove(told progress.Func) error {
	colours := []int{0}
	if s.o.Plates {
		colours = paintNumbers(s.l)
	}
	whole := 0.0
	s.Missing, s.Twice = 0, 0
	for i, colour := range colours {
		part := func(k int) progress.Func {
			n := float64(2 * len(colours))
			return told.Within((2*float64(i)+float64(k))/n, (2*float64(i)+float64(k)+1)/n)
		}
		l := s.l
		if s.o.Plates {
			l = l.Only(colour)
		}
		open, err := panel.Openings(l)
		if err != nil {
			return err
		}
		field, area := make([]laid, len(open)), 0.0
		for i, o := range open {
			field[i] = laid{shape: o.Shape, shift: o.Shift}
			area += o.Shape.Area()
		}
		var own []laid
		all := 0.0
		for _, p := range s.laid {
			if p.colour == colour {
				own = append(own, p)
				all += p.shape.Area()
			}
		}
		m := &measurer{known: map[common]float64{}}
		both := m.between(own, field, false, part(0))
		s.Missing += math.Max(0, area-both)
		s.Twice += math.Max(0, all-both) + m.between(own, own, true, part(1))
		whole += area
	}
	if slack := proofSlack * (1 + whole); s.Missing > slack || s.Twice > slack {
		return fmt.Errorf("the stepping sheet was laid for a trial, and %.4g mm² of the field were missing and %.4g "+
			"mm² too much; it is not handed over", s.Missing, s.Twice)
	}
	return nil
}

// measurer sums areas in common; pairs that are translates of each other are measured once.
type measurer struct{ known map[common]float64 }

type common struct {
	a, b *geometry.Shape
	x, y int64 // nm between them
}

// between returns the area common to the pairs of two lists; within one list each pair counts once and nothing with
// itself.
func (m *measurer) between(as, bs []laid, same bool, told progress.Func) float64 {
	boxes := make([]orb.Bound, len(bs))
	order := make([]int, len(bs))
	widest := 0.0
	for i, b := range bs {
		boxes[i], order[i] = b.bound(), i
		widest = math.Max(widest, boxes[i].Max[0]-boxes[i].Min[0])
	}
	sort.Slice(order, func(i, j int) bool { return boxes[order[i]].Min[0] < boxes[order[j]].Min[0] })
	sum := 0.0
	for i, a := range as {
		told.Of(i, len(as))
		box := a.bound()
		from := sort.Search(len(order), func(k int) bool { return boxes[order[k]].Min[0] >= box.Min[0]-widest })
		for _, j := range order[from:] {
			if boxes[j].Min[0] > box.Max[0] {
				break
			}
			if same && j <= i || !boxes[j].Intersects(box) {
				continue
			}
			sum += m.area(a, bs[j])
		}
	}
	return sum
}

func (m *measurer) area(a, b laid) float64 {
	d := geometry.Sub(b.shift, a.shift)
	key := common{a.shape, b.shape, int64(math.Round(d[0] * 1e6)), int64(math.Round(d[1] * 1e6))}
	v, ok := m.known[key]
	if !ok {
		v = geometry.OverlapArea(a.shape, b.shape, d)
		m.known[key] = v
	}
	return v
}
