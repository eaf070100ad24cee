package mends

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/pattern"
	"openwork/pattern/sheet"
)

// roundTolerance in mm: how far a rounded outline may be off the round it stands for. A tenth of a usual kerf.
const roundTolerance = 0.02

// rounded returns commands that round off what is too narrow within silhouettes: places of the opening that paste does
// not enter, and tongues or strips of sheet that the knife would bend. What is only warned of counts where there is no
// fault.
func (s *search) rounded() []pattern.Command {
	type want struct{ open, close float64 } // mm in the silhouette's frame
	wants := map[string]want{}
	copies, err := s.l.Copies()
	if err != nil {
		return nil
	}
	need, severity := s.l.Draft.Sheet, s.severity()
	for _, p := range s.report.Problems {
		if p.Severity != severity || p.Between == nil || p.Between[0] != p.Between[1] || p.Between[0] >= len(copies) {
			continue
		}
		m := s.l.Draft.Motifs[copies[p.Between[0]].Motif]
		w := wants[m.Silhouette]
		switch p.Kind {
		case sheet.Opening:
			w.open = math.Max(w.open, need.Opening/m.Scale/2)
		case sheet.Tip, sheet.Bridge:
			w.close = math.Max(w.close, need.Bridge/m.Scale/2)
		}
		wants[m.Silhouette] = w
	}

	var out []pattern.Command
	for _, one := range s.l.Draft.Silhouettes {
		w, ok := wants[one.ID]
		if !ok {
			continue
		}
		for _, steps := range [][]float64{{-w.open, w.open}, {w.close, -w.close}} {
			if steps[0] == 0 {
				continue
			}
			if mp, err := through(one.Outline, steps); err == nil {
				out = append(out, pattern.Command{Name: "redraw", ID: one.ID, Outline: mp})
			}
		}
	}
	return out
}

// through grows and shrinks an outline by the given steps, a hair further on the way out than back, so that what comes
// out is wide enough after rounding.
func through(mp orb.MultiPolygon, steps []float64) (orb.MultiPolygon, error) {
	hair := math.Copysign(roundTolerance, steps[0])
	out, err := offset.Offset(mp, steps[0]+hair, roundTolerance)
	if err != nil {
		return nil, err
	}
	if out, err = offset.Offset(out, steps[1]-hair, roundTolerance); err != nil {
		return nil, err
	}
	out = geometry.SnapOutline(out)
	if len(out) == 0 {
		return nil, fmt.Errorf("nothing would be left")
	}
	return out, geometry.CheckOutline(out)
}
