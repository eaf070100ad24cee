package desk

import (
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// repeatState is what the page shows of the repeat.
type repeatState struct {
	Group   string          `json:"group"`
	Older   string          `json:"older"`
	A       float64         `json:"a"`
	B       float64         `json:"b"`
	Gamma   float64         `json:"gamma"`
	Free    map[string]bool `json:"free"`
	InCell  int             `json:"inCell"`
	Hold    string          `json:"hold"`    // what of the cell is held while a side changes: "", "area", "proportion"
	CanHold bool            `json:"canHold"` // the sides are free of each other
	Lays    []string        `json:"lays"`    // to choose from, none where the group leaves no choice
	Lay     string          `json:"lay"`     // chosen; "" for none
	Fit     string          `json:"fit"`     // how whole repeats fill the field
	Middle  map[string]bool `json:"middle"`  // what can be put in the middle of the panel
	Fitted  bool            `json:"fitted"`  // cell and motifs stand as a fit left them
}

func (k *Desk) repeatState() repeatState {
	r := k.Session.Draft().Repeat
	out := repeatState{Group: r.Group, A: r.A, B: r.B, Gamma: r.Gamma, Hold: k.Session.hold, Lays: []string{},
		Free: map[string]bool{}, Middle: map[string]bool{"corner": true,
			"copies": k.Session.Draft().Field.Edge == draft.Whole}, Fitted: pattern.Fitted(k.Session.Draft())}
	if g, err := symmetry.Find(r.Group); err == nil {
		out.Older = g.Older
		out.CanHold = !g.EqualSides()
		out.Free["a"] = true
		out.Free["b"] = out.CanHold
		out.Free["gamma"] = g.System == symmetry.Oblique
	}
	if lays := pattern.LayChoices(r); lays != nil {
		out.Lays = lays
		out.Lay = k.Session.Lay()
	}

	out.Fit = k.Session.words().Fit(k.Session.lay)
	if k.Session.layout != nil {
		out.InCell = k.Session.layout.InCell()
		for _, e := range k.signs.Elements() {
			if e.Kind != symmetry.Glide {
				out.Middle[string(e.Kind)] = true
			}
		}
	}
	return out
}

// Lay is the lay that describes the cell: the one chosen last, while it holds; "" for none.
func (s *Session) Lay() string {
	r := s.Draft().Repeat
	if s.lay == "" || len(pattern.LayChoices(r)) == 0 {
		return ""
	}
	if l, ok := pattern.LayOf(r, s.lay); ok && l.Name == s.lay {
		return s.lay
	}
	return ""
}

// findLay has the cell of a draft just opened described by the lay it has.
func (s *Session) findLay() {
	s.lay = ""
	if l, ok := pattern.LayOf(s.Draft().Repeat, ""); ok {
		s.lay = l.Name
	}
}

// layValues are the lay's measures as the page's fields name them.
func (s *Session) layValues() map[string]float64 {
	l, ok := pattern.LayOf(s.Draft().Repeat, s.lay)
	if !ok {
		return map[string]float64{}
	}
	return map[string]float64{"width": l.Width, "height": l.Height, "drop": l.Height / 2, "step": l.Width / 2}
}

// repeatsValues are how many repeats the field holds.
func (s *Session) repeatsValues() map[string]any {
	fit, _, ok := pattern.RepeatsOf(s.Draft(), s.lay)
	if !ok {
		return map[string]any{"across": nil, "down": nil}
	}
	return map[string]any{"across": fit.Across, "down": fit.Down}
}

// switchHold holds the cell's area or proportion while one side changes, or lets it go.
func (s *Session) switchHold(what string) error {
	if s.hold == what {
		what = ""
	}
	s.hold = what
	return nil
}
