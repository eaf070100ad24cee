package pattern

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/colouring"
	"openwork/pattern/draft"
)

// Command is one named change to a draft, as plain data: what the page, the keys and the canvas send, and what a mend
// offers. Which fields a command reads stands in its row of the table below; others are ignored.
type Command struct {
	Name    string             `json:"name"`
	ID      string             `json:"id,omitempty"`      // the motif or silhouette it speaks of
	Text    string             `json:"text,omitempty"`    // a title, a symbol, a stock, an edge rule, an id
	Values  map[string]float64 `json:"values,omitempty"`  // numbers by name, mm and degrees
	Flag    bool               `json:"flag,omitempty"`    // mirrored or not
	Outline orb.MultiPolygon   `json:"outline,omitempty"` // a new silhouette's, in its own frame
	Ties    []draft.Tie        `json:"ties,omitempty"`    // the whole list
	Repeat  *draft.Repeat      `json:"repeat,omitempty"`  // as a fit has found it
	Motifs  []draft.Motif      `json:"motifs,omitempty"`  // likewise, all of the draft's

	Swatches []draft.Swatch   `json:"swatches,omitempty"` // new ones, or what one becomes
	Perms    *colouring.Perms `json:"perms,omitempty"`    // a perfect colouring
}

// rule is one row of the table of commands.
type rule struct {
	label string // what the history calls it, after "Undo" or "Redo"
	apply func(d *draft.Draft, c Command) error
}

// rules is the table of commands. apply gets a draft whose lists it may change.
var rules = map[string]rule{
	"title":   {"title", func(d *draft.Draft, c Command) error { d.Title = c.Text; return nil }},
	"group":   {"plane group", applyGroup},
	"cell":    {"cell", applyCell},
	"fit":     {"fit", applyFit},
	"lay":     {"lay", applyLay},
	"repeats": {"whole repeats", applyRepeats},
	"centre":  {"middle of the panel", applyCentre},
	"panel":   {"panel size", applyPanel},
	"field":   {"field", applyField},
	"edge":    {"edge rule", applyEdge},
	"stock":   {"stock", func(d *draft.Draft, c Command) error { d.Sheet.Stock = c.Text; return nil }},
	"cut":     {"how it is cut", func(d *draft.Draft, c Command) error { d.Sheet.Cut = draft.How(c.Text); return nil }},
	"sheet":   {"sheet", applySheet},
	"place":   {"place of a motif", applyPlace},
	"settle":  {"place of a motif", applyPlace}, // what a drag left is moved on, within its entry: History.Amend
	"size":    {"size of the motifs", applySize},
	"mirror":  {"mirroring", applyMirror},
	"motif":   {"new motif", applyMotif},
	"swap":    {"silhouette of a motif", applySwap},
	"remove":  {"motif taken out", applyRemove},
	"draw":    {"new silhouette", applyDraw},
	"remake":  {"silhouette made symmetrical", applyRemake},
	"redraw":  {"outline", applyRedraw},
	"name":    {"name of a silhouette", applyName},
	"discard": {"silhouette thrown away", applyDiscard},
	"tie":     {"new tie", applyTie},
	"retie":   {"place of a tie", applyRetie},
	"untie":   {"tie taken away", applyUntie},
	"ties":    {"ties", applyTies},

	"swatch":    {"new swatch", applySwatch},
	"reswatch":  {"swatch", applyReswatch},
	"unswatch":  {"swatch taken away", applyUnswatch},
	"ground":    {"ground", applyGround},
	"colour":    {"colour of a motif", applyColour},
	"slot":      {"colour of the panel", applySlot},
	"colouring": {"colouring", applyColouring},
	"copy":      {"colour of a copy", applyCopy},
	"block":     {"block coloured by hand", applyBlock},
	"handless":  {"colouring by hand taken away", applyHandless},
	"paste":     {"reckoning of paste", applyPaste},

	"subject":        {"new subject", applySubject},
	"subjectPlace":   {"place of a subject", applySubjectPlace},
	"subjectMirror":  {"mirroring of a subject", applySubjectMirror},
	"subjectEdge":    {"pattern at a subject", applySubjectEdge},
	"subjectName":    {"name of a subject", applySubjectName},
	"subjectOutline": {"outline of a subject", applySubjectOutline},
	"subjectRemove":  {"subject taken away", applySubjectRemove},
}

// What the Text of a command that redraws an outline may say of it, for the history and for who offers it.
const (
	Filled = "fill"  // holes of the outline were filled
	Closed = "close" // a gap between parts of it was closed
)

// Label returns what the history calls a command. A fit is called by what was to be found, and in which group.
func (c Command) Label() string {
	label := rules[c.Name].label
	switch {
	case c.Name == "redraw" && c.Text == Filled:
		return "hole filled"
	case c.Name == "redraw" && c.Text == Closed:
		return "gap closed"
	}
	if c.Name == "fit" && c.Text != "" && c.Repeat != nil {
		label += ": " + c.Text + " in " + c.Repeat.Group
	}
	return label
}

// Apply returns the draft changed by the command. The draft given is left as it was, and is what the caller keeps when
// there is an error: an unknown command, a value out of range, or a result that would not be a valid draft.
func Apply(d draft.Draft, c Command) (draft.Draft, error) {
	r, ok := rules[c.Name]
	if !ok {
		return d, fmt.Errorf("there is no command called %.40q", c.Name)
	}
	for name, v := range c.Values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return d, fmt.Errorf("%s is not a number", name)
		}
	}
	next := d
	next.Silhouettes = append([]draft.Silhouette(nil), d.Silhouettes...)
	next.Motifs = append([]draft.Motif(nil), d.Motifs...)
	if err := r.apply(&next, c); err != nil {
		return d, err
	}
	if err := next.CheckAfter(d); err != nil {
		return d, err
	}
	return next, nil
}

// set puts the named value into p, on the draft's grid, when the command carries it.
func (c Command) set(name string, p *float64) bool {
	v, ok := c.Values[name]
	if ok {
		*p = geometry.Snap(v)
	}
	return ok
}

func applyPanel(d *draft.Draft, c Command) error {
	was := d.Panel
	draft.PanelObject.Set(&d.Panel, c.Values)
	// The field and the subjects keep their places about the panel's centre.
	d.Subjects = slices.Clone(d.Subjects)
	for i, by := range [2]float64{(d.Panel.Width - was.Width) / 2, (d.Panel.Height - was.Height) / 2} {
		d.Field.Origin[i] = geometry.Snap(d.Field.Origin[i] + by)
		for k := range d.Subjects {
			d.Subjects[k].At[i] = geometry.Snap(d.Subjects[k].At[i] + by)
		}
	}
	return nil
}

func applyField(d *draft.Draft, c Command) error {
	draft.FieldObject.Set(&d.Field, c.Values)
	if _, ok := c.Values["turn"]; ok {
		d.Field.Turn = wrapDegrees(d.Field.Turn)
	}
	return nil
}

func applySheet(d *draft.Draft, c Command) error {
	if d.Sheet.Bed != nil { // drafts share it
		bed := *d.Sheet.Bed
		d.Sheet.Bed = &bed
	}
	draft.SheetObject.Set(&d.Sheet, c.Values)
	return nil
}

// wrapDegrees brings an angle into (−180, 180], on the grid.
func wrapDegrees(a float64) float64 {
	a = math.Mod(a, 360)
	if a <= -180 {
		a += 360
	} else if a > 180 {
		a -= 360
	}
	return geometry.Snap(a)
}
