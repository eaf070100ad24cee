package stepping

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	words "openwork/pattern/sheet"
)

// register sets the holes, and the sheet large enough for them.
func (s *Stepping) register() {
	f, u := s.sheet.f, s.unit()
	r, ok := f.registrationIn(s.sheet, cellsOf(s.Places), s.o.Margin, s.o.Cut.Holes.Diameter, f.bedFor(s.o))
	if !ok {
		s.Notes = append(s.Notes, fmt.Sprintf("There is no room between the openings, on a sheet that fits the bed, "+
			"for registration holes of %s that fall on each other's marks; lay the sheet by its corners, whose places "+
			"the map lists.", u.Measure(minHole)))
		s.offTheSeam()
		return
	}
	if r.diameter < s.o.Cut.Holes.Diameter {
		s.Notes = append(s.Notes, fmt.Sprintf("Between the openings there is room for registration holes of %s only.",
			u.Measure(r.diameter)))
	}
	s.sheet.reg, s.sheet.rect = r, r.box
	s.sheet.more = f.moreHoles(s.sheet, cellsOf(s.Places))
}

// offTheSeam makes a sheet without holes a little larger where its corners would lie on the panel's very edge, as far
// as the bed allows.
func (s *Stepping) offTheSeam() {
	sh := s.sheet
	back, _ := sh.frame.Inverse() // a turn has one
	e := sh.f.edgeOf(sh, cellsOf(s.Places))
	base := sh.rect
	for by := 0.0; by <= maxSeam && fits(base.Pad(by), sh.f.bedFor(s.o)); by++ {
		r := base.Pad(by)
		corners := []orb.Point{back.Apply(r.Min), back.Apply(orb.Point{r.Max[0], r.Min[1]}),
			back.Apply(orb.Point{r.Min[0], r.Max[1]}), back.Apply(r.Max)}
		if !math.IsInf(e.surround(corners), 1) {
			sh.rect = r
			return
		}
	}
}

// unit is what lengths are written in.
func (s *Stepping) unit() words.Unit { return words.Unit{Inches: s.o.Units == "in"} }

// points returns what the sheet is laid by, on the sheet: its holes and the further ones, or its corners where it has
// none.
func (s *Stepping) points() [][2]float64 {
	if len(s.Holes) > 0 {
		return append(s.Holes[:len(s.Holes):len(s.Holes)], s.More...)
	}
	return [][2]float64{{0, 0}, {s.Width, 0}, {0, s.Height}, {s.Width, s.Height}}
}

// second returns how wide a surround must be for two of some marks to be usable.
func second(panel orb.Bound, marks []orb.Point) float64 {
	t := two{math.Inf(1), math.Inf(1)}
	for _, m := range marks {
		t = t.with(off(panel, m))
	}
	return t.next
}

// mark sets where the holes come to lie at each place, which of these marks can be set and found, how wide a surround
// they need, and by the marks of which place each is laid.
func (s *Stepping) mark() {
	panel := s.l.Draft.PanelBound()
	need := 0.0
	for i := range s.Places {
		p := &s.Places[i]
		m := s.toPanel(s.sheet.steps.to(p.cell))
		var at []orb.Point
		for _, h := range s.points() {
			at = append(at, m.Apply(h))
			p.Marks = append(p.Marks, m.Apply(h))
		}
		need = math.Max(need, second(panel, at))
	}

	// Corners on the seam are found all the same: they lie on the panel's own edge.
	seam := math.IsInf(need, 1)
	if seam {
		s.Notes = append(s.Notes,
			"At some places one of the two marks to lay the sheet by lies on the panel's very edge; "+
				"draw it on the panel and the surround both, for it cannot be pricked.")
		need = 0
		for _, p := range s.Places {
			var far []float64
			for _, m := range p.Marks {
				far = append(far, seamless(panel, m))
			}
			slices.Sort(far)
			need = math.Max(need, far[1])
		}
	}
	s.Surround = s.rounded(need)
	for i := range s.Places {
		p := &s.Places[i]
		for k, m := range p.Marks {
			if off(panel, m) <= s.Surround || seam && seamless(panel, m) <= s.Surround {
				p.Use = append(p.Use, k)
			}
		}
	}
	s.follow()
}

// seamless is off, but that marks on the seam count as lying on the surround.
func seamless(panel orb.Bound, m orb.Point) float64 {
	if w := off(panel, m); !math.IsInf(w, 1) {
		return w
	}
	return 2 * pinRoom
}

// rounded returns a width that strips are cut to: up to the next 5 mm, or quarter of an inch, and as wide as a strip of
// tape at least.
func (s *Stepping) rounded(v float64) float64 {
	step := 5.0
	if s.o.Units == "in" {
		step = words.MMPerInch / 4
	}
	if v > 0 {
		v = math.Max(v, minSurround)
	}
	return step * math.Ceil(v/step-1e-9)
}

// follow sets for each place the one before it with which it shares two marks that can be found.
func (s *Stepping) follow() {
	if len(s.Holes) == 0 {
		return // corners do not fall on corners
	}
	at := map[cell]*Place{}
	for i := range s.Places {
		p := &s.Places[i]
		at[p.cell] = p
		for d, shared := range map[cell][2]int{{-1, 0}: {0, 2}, {1, 0}: {1, 3}, {0, -1}: {0, 1}, {0, 1}: {2, 3}} {
			q := at[p.cell.plus(d)]
			if q != nil && q.Number > p.From && slices.Contains(p.Use, shared[0]) && slices.Contains(p.Use, shared[1]) {
				p.From = q.Number
			}
		}
	}
}
