package desk

import (
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/pen"
	"openwork/wasm/editor/desk/view"
)

// drawnFault is one kind of fault of what is drawn, as the page says it.
type drawnFault struct {
	Severity string `json:"severity"`
	Text     string `json:"text"` // of the worst place
	Places   int    `json:"places"`
}

// Scale is how large a silhouette is cut: by its smallest motif, or as it is drawn where it has none.
func (s *Session) Scale(id string) float64 {
	scale := math.Inf(1)
	for _, m := range s.Draft().Motifs {
		if m.Silhouette == id {
			scale = math.Min(scale, m.Scale)
		}
	}
	if math.IsInf(scale, 1) {
		return 1
	}
	return scale
}

// Alone is what a check says of a silhouette by itself, less its ties, cut as large as its smallest motif. For the
// silhouettes that are laid out the live check has found it already.
func (s *Session) Alone(id string) []sheet.Problem {
	d, scale := s.Draft(), s.Scale(id)
	if s.layout != nil {
		for i, m := range d.Motifs {
			if m.Silhouette == id && m.Scale == scale && i < len(s.layout.Orbits) {
				return s.inspection.panel.Within.Alone(s.layout.Orbits[i].Shape, scale, d.Sheet)
			}
		}
	}
	o, ok := d.Silhouette(id)
	if !ok {
		return nil
	}
	return s.inspection.panel.Within.Alone(s.bare(o.Outline), scale, d.Sheet)
}

// bare returns the shape of an outline that is not laid out, prepared once.
func (s *Session) bare(mp orb.MultiPolygon) *geometry.Shape {
	if s.lone == nil || len(mp) == 0 || s.loneOf != &mp[0][0][0] {
		s.lone, s.loneOf = geometry.NewShape(mp), nil
		if len(mp) > 0 {
			s.loneOf = &mp[0][0][0]
		}
	}
	return s.lone
}

// faultSpots are the faults of what is drawn, ready to be marked: with their words, the worst first.
func (k *Desk) faultSpots() []spot {
	var out []spot
	words := k.Session.words()
	for i, f := range k.pen.Faults() {
		one := spot{mark: k.Session.markOf(k.View.Map().Apply, f.Problem), text: words.Label(f.Problem), group: i}
		switch {
		case f.Crosses:
			one.mark.Sign, one.mark.Radius, one.text = sheet.SignCrossed, ringPX, "crosses itself"
		case f.Corner > 0:
			one.text = sheet.Trim(f.Corner, 0) + "° is too sharp"
		case f.Kind == sheet.Island:
			one.text = "would drop out"
		}
		out = append(out, one)
	}
	return out
}

// DrawnMarks returns the faults of what is drawn, to be drawn over it.
func (k *Desk) DrawnMarks() []Mark {
	var out []Mark
	for _, s := range k.faultSpots() {
		out = append(out, s.mark)
	}
	return out
}

// drawnLabels are their words.
func (k *Desk) drawnLabels() []view.Label {
	spots := k.faultSpots()
	order := make([]int, min(len(spots), maxFigures))
	for i := range order {
		order[i] = i
	}
	return labelled(spots, order)
}

// drawnFaults says them, each kind once.
func (k *Desk) drawnFaults() []drawnFault {
	out := []drawnFault{}
	at := map[string]int{}
	worst := map[string]pen.Fault{}
	for _, f := range k.pen.Faults() {
		key := string(f.Severity) + string(f.Kind) + strconv.FormatBool(f.Crosses) + strconv.FormatBool(f.Corner > 0)
		i, has := at[key]
		if !has {
			i = len(out)
			at[key] = i
			out = append(out, drawnFault{Severity: string(f.Severity)})
		}
		out[i].Places++
		if w, ok := worst[key]; !ok || f.Kind.LargerIsWorse() && f.Measured > w.Measured ||
			!f.Kind.LargerIsWorse() && f.Measured < w.Measured {
			worst[key] = f
			out[i].Text = k.drawnSentence(f)
		}
	}
	return out
}

func (k *Desk) drawnSentence(f pen.Fault) string {
	switch {
	case f.Crosses && k.pen.Sketching():
		return "The line crosses itself; what its loops go round is taken as one."
	case f.Crosses:
		return "The outline crosses itself."
	case f.Corner > 0 && f.Kind == sheet.Opening:
		return "A corner of " + sheet.Trim(f.Corner, 0) + "° is too sharp: paste will not fill it to its point."
	case f.Corner > 0:
		return "A corner of " + sheet.Trim(f.Corner, 0) +
			"° is too sharp: the tongue of sheet in it lifts under the knife."
	}
	return k.Session.words().Sentence(f.Problem)
}
