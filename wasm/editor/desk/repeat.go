package desk

import (
	"openwork/pattern"
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
}

func (k *Desk) repeatState() repeatState {
	r := k.Session.Draft().Repeat
	out := repeatState{Group: r.Group, A: r.A, B: r.B, Gamma: r.Gamma, Free: map[string]bool{}, Hold: k.Session.hold, Lays: []string{}, Middle: map[string]bool{"corner": true}}
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

// Lay is the lay by which the cell is spoken of: the one chosen last, while it holds; "" for none.
func (k *Session) Lay() string {
	r := k.Draft().Repeat
	if k.lay == "" || len(pattern.LayChoices(r)) == 0 {
		return ""
	}
	if l, ok := pattern.LayOf(r, k.lay); ok && l.Name == k.lay {
		return k.lay
	}
	return ""
}

// findLay lets the cell of a draft just opened be spoken of by the lay it has.
func (k *Session) findLay() {
	k.lay = ""
	if l, ok := pattern.LayOf(k.Draft().Repeat, ""); ok {
		k.lay = l.Name
	}
}

// layValues are the lay's measures as the page's fields name them.
func (k *Session) layValues() map[string]float64 {
	l, ok := pattern.LayOf(k.Draft().Repeat, k.lay)
	if !ok {
		return map[string]float64{}
	}
	return map[string]float64{"width": l.Width, "height": l.Height, "drop": l.Height / 2, "step": l.Width / 2}
}

// repeatsValues are how many repeats the field holds.
func (k *Session) repeatsValues() map[string]any {
	fit, _, ok := pattern.RepeatsOf(k.Draft(), k.lay)
	if !ok {
		return map[string]any{"across": nil, "down": nil}
	}
	return map[string]any{"across": fit.Across, "down": fit.Down}
}

// switchHold holds the cell's area or proportion while one side changes, or lets it go.
func (k *Session) switchHold(what string) error {
	if k.hold == what {
		what = ""
	}
	k.hold = what
	return nil
}
