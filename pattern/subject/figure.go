package subject

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/sheet/panel"
)

const (
	// TangentWithin in mm: an opening's edge this near the subject's edge runs beside it.
	TangentWithin = 2.0
	// TangentFrom in mm: edges that run beside each other for longer than this are read as one line.
	TangentFrom = 10.0

	// besideEdge in mm is how far outside its edge the field round a subject is looked at, and everyMM how far along
	// the edge from place to place.
	besideEdge, everyMM = 5.0, 1.0

	// joined in mm: stretches of an edge that meet to within this are one.
	joined = 1e-6
)

// The colours of pictures where the draft has no swatches: ground, paste, and what stands in front.
const (
	usualGround  = "#d9cfbb"
	usualPaste   = "#2b5a5c"
	UsualSubject = appearance.SubjectColour
)

// Reading is how a subject reads before the field, as far as it lies on the panel. Lengths in mm, values in CIE L*.
type Reading struct {
	Subject string  `json:"subject"` // its id
	Name    string  `json:"name"`
	Edge    float64 `json:"edge"` // length of its edge on the panel
	// Along is how much of the edge has an opening that is seen within TangentWithin of it.
	Along float64 `json:"along"`
	Value float64 `json:"value"` // of the subject
	Field float64 `json:"field"` // the mean of what lies besideEdge outside its edge
	// Contrast is the mean difference of both, Least the smallest that a twentieth of the edge does not reach.
	Contrast float64 `json:"contrast"`
	Least    float64 `json:"least"`
	Lost     float64 `json:"lost"` // mm of the edge where they differ by less than appearance.CloseBy
	// Tangents are the places where an opening's edge and the subject's run beside each other, the longest first.
	Tangents []Tangent `json:"tangents"`
}

// Tangent is a stretch of a subject's edge with an opening's edge beside it.
type Tangent struct {
	At      [2]float64 `json:"at"`      // its middle, panel mm
	Length  float64    `json:"length"`  // mm
	Copy    int        `json:"copy"`    // of the opening, as copies counts them
	Reaches float64    `json:"reaches"` // mm from At to its farther end
}

// Read says how each subject of a layout reads in front of the openings of the panel. colour is what the subjects are
// painted in, #rrggbb. It fails where the panel cannot be surveyed.
func Read(l *pattern.Layout, colour string) ([]Reading, error) {
	s, err := panel.Look(l)
	if err != nil {
		return nil, err
	}
	f := &field{l: l, survey: s, box: l.Draft.PanelBound(), values: valuesOf(l)}
	for _, sub := range l.Draft.Subjects {
		f.subjects = append(f.subjects, geometry.NewShape(sub.Placed()))
	}
	for i, o := range s.Openings {
		f.openings = append(f.openings, f.visible(i, o))
	}

	out := []Reading{}
	for i, sub := range l.Draft.Subjects {
		r := Reading{Subject: sub.ID, Name: sub.Name, Tangents: []Tangent{},
			Value: appearance.Value(appearance.Parse(colour))}
		f.edges(i, &r)
		f.contrast(i, &r)
		slices.SortStableFunc(r.Tangents, func(a, b Tangent) int { return int(math.Copysign(1, b.Length-a.Length)) })
		out = append(out, r)
	}
	return out, nil
}

// field is what lies behind and beside the subjects.
type field struct {
	l        *pattern.Layout
	survey   panel.Survey
	box      orb.Bound
	subjects []*geometry.Shape
	openings []seenOpening
	values   values
}

// seenOpening is an opening on the panel, and the stretches of its edge that no subject hides.
type seenOpening struct {
	shape *geometry.Shape
	bound orb.Bound
	edges []geometry.Edge
	abuts []geometry.Edge // stretches of subjects' edges at which it ends to the eye
	copy  int
}

// visible places an opening and cuts its edge where subjects hide it.
func (f *field) visible(i int, o panel.Opening) seenOpening {
	shape := o.Shape.Place(geometry.Translate(o.Shift[0], o.Shift[1]), nil)
	out := seenOpening{shape: shape, bound: shape.Bound(), copy: f.survey.Pieces[i][0].Copy}
	near := false
	for _, s := range f.subjects {
		near = near || s.Bound().Pad(TangentWithin).Intersects(out.bound)
	}
	if !near {
		return out
	}
	rings, _ := shape.OwnRings()
	cuts := map[[2]int][]float64{}
	for _, s := range f.subjects {
		found, _ := geometry.Crossings(shape, s, orb.Point{}, 0)
		for _, c := range found {
			at := [2]int{c.RingA, c.EdgeA}
			cuts[at] = append(cuts[at], c.T)
		}
	}

	for r, ring := range rings {
		for k := range ring[1:] {
			e := geometry.Edge{P: ring[k], Q: ring[k+1]}
			if e.P == e.Q {
				continue
			}
			at := append([]float64{0}, cuts[[2]int{r, k}]...)
			slices.Sort(at)
			at = append(at, 1)
			for i := range at[1:] {
				part := geometry.Edge{P: geometry.Lerp(e.P, e.Q, at[i]), Q: geometry.Lerp(e.P, e.Q, at[i+1])}
				if part.P != part.Q && !f.hidden(geometry.Midpoint(part.P, part.Q), -1) {
					out.edges = append(out.edges, part)
				}
			}
		}
	}
	for i := range f.subjects {
		f.abut(i, &out)
	}
	return out
}

// abut finds the stretches of a subject's edge that lie in an opening and that no other subject hides.
func (f *field) abut(i int, o *seenOpening) {
	rings, _ := f.subjects[i].OwnRings()
	for _, r := range rings {
		for k := range r[1:] {
			e := geometry.Edge{P: r[k], Q: r[k+1]}
			if e.P == e.Q || !o.bound.Intersects(orb.Bound{Min: e.P, Max: e.P}.Extend(e.Q)) {
				continue
			}
			cuts := f.cutsOf(e, append([]*geometry.Shape{o.shape}, f.subjects...))
			for n := range cuts[1:] {
				part := geometry.Edge{P: geometry.Lerp(e.P, e.Q, cuts[n]), Q: geometry.Lerp(e.P, e.Q, cuts[n+1])}
				middle := geometry.Midpoint(part.P, part.Q)
				if part.P != part.Q && o.shape.Contains(middle) && !f.hidden(middle, i) {
					o.abuts = append(o.abuts, part)
				}
			}
		}
	}
}

// hidden reports whether a subject, but for one of them, covers a place.
func (f *field) hidden(p orb.Point, but int) bool {
	for i, s := range f.subjects {
		if i != but && s.Contains(p) {
			return true
		}
	}
	return false
}

// stretch is a part of a ring by how far along it begins and ends, mm.
type stretch struct{ from, to float64 }

// merged joins stretches of a ring of some length that meet, also over its beginning.
func merged(all []stretch, length float64) []stretch {
	slices.SortFunc(all, func(a, b stretch) int { return int(math.Copysign(1, a.from-b.from)) })
	var out []stretch
	for _, s := range all {
		if n := len(out); n > 0 && s.from <= out[n-1].to+joined {
			out[n-1].to = math.Max(out[n-1].to, s.to)
		} else {
			out = append(out, s)
		}
	}
	if n := len(out); n > 1 && out[0].from <= joined && out[n-1].to >= length-joined {
		out[n-1].to = length + out[0].to
		out = out[1:]
	}
	return out
}

func sum(all []stretch) (total float64) {
	for _, s := range all {
		total += s.to - s.from
	}
	return total
}

// edges measures how a subject's edge runs along openings, as far as it lies on the panel and no other subject hides
// it.
func (f *field) edges(i int, r *Reading) {
	rings, _ := f.subjects[i].OwnRings()
	for _, ring := range rings {
		length := geometry.Length(orb.MultiPolygon{{ring}})
		shown := f.shown(i, ring)
		for _, e := range shown {
			r.Edge += e.length
		}
		var along []stretch
		for k := range f.openings {
			o := &f.openings[k]
			if !o.bound.Pad(TangentWithin).Intersects(ring.Bound()) {
				continue
			}
			beside := near(shown, o, o.edges)
			along = append(append(along, beside...), near(shown, o, o.abuts)...)
			for _, s := range merged(beside, length) {
				if s.to-s.from > TangentFrom {
					r.Tangents = append(r.Tangents, tangentAt(ring, s, length, o.copy))
				}
			}
		}
		r.Along += sum(merged(along, length))
	}
}

// tangentAt returns the tangent along a stretch of a ring.
func tangentAt(ring orb.Ring, s stretch, length float64, copyOf int) Tangent {
	middle := pointAt(ring, math.Mod((s.from+s.to)/2, length))
	from, to := pointAt(ring, s.from), pointAt(ring, math.Mod(s.to, length))
	return Tangent{At: middle, Length: s.to - s.from, Copy: copyOf,
		Reaches: math.Max(geometry.PointDistance(middle, from), geometry.PointDistance(middle, to))}
}
