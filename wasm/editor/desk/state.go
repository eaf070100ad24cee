package desk

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/pen"
	"openwork/wasm/editor/desk/say"
	"openwork/wasm/editor/desk/ties"
)

// State is the view state: all the page shows, and nothing that it need keep. Numbers are mm and degrees; sentences are
// in the display unit.
type State struct {
	Revision    int               `json:"revision"`
	Title       string            `json:"title"`
	Units       string            `json:"units"`
	Undo        string            `json:"undo"`
	Redo        string            `json:"redo"`
	Lines       map[string]string `json:"lines"`
	Silhouettes []silhouetteState `json:"silhouettes"`
	Motifs      []motifState      `json:"motifs"`
	Selected    string            `json:"selected"`
	Repeat      repeatState       `json:"repeat"`
	Panel       map[string]any    `json:"panel"`
	Field       map[string]any    `json:"field"`
	Sheet       map[string]any    `json:"sheet"`
	Verdict     Verdict           `json:"verdict"`
	Faults      []faultState      `json:"faults"`
	Fault       int               `json:"fault"`
	Which       say.Which         `json:"which"`
	Mend        string            `json:"mend"`
	MendEffect  string            `json:"mendEffect"`
	Counts      any               `json:"counts"`
	Areas       any               `json:"areas"`
	Check       checkState        `json:"check"`
	Pictures    int               `json:"pictures"`
	Message     *Message          `json:"message"`
	Zoom        float64           `json:"zoom"`
	InHand      bool              `json:"inHand"`

	Lay     map[string]float64 `json:"lay"`     // the repeat as its lay measures it
	Repeats map[string]any     `json:"repeats"` // how many fill the field
	Signs   signState          `json:"signs"`
	Pen     pen.State          `json:"pen"` // what is drawn
	Tie     ties.State         `json:"tie"`
	Retie   map[string]float64 `json:"retie"` // what the command retie sets of the tie taken up
	Found   foundState         `json:"found"`
	// MendsWanted: the page asks the engine for mends, under the check's token.
	MendsWanted bool `json:"mendsWanted"`
}

// signState is what the page shows about the mirrors, glides and rotation points.
type signState struct {
	Shown bool   `json:"shown"`
	Text  string `json:"text"`
}

// foundState is what the field was recognised to be; the page asks the engine while Wanted, for the check's token.
type foundState struct {
	Text   string `json:"text"`
	Wanted bool   `json:"wanted"`
}

type silhouetteState struct {
	ID     string  `json:"id"`
	Name   string  `json:"name"`
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
	Points int     `json:"points"`
	Motifs int     `json:"motifs"`
	Path   string  `json:"path"` // SVG path data, mm from the upper left corner, y down
}

type motifState struct {
	ID         string  `json:"id"`
	Name       string  `json:"name"`
	Silhouette string  `json:"silhouette"`
	X          float64 `json:"x"`
	Y          float64 `json:"y"`
	Turn       float64 `json:"turn"`
	Scale      float64 `json:"scale"`
	Mirrored   bool    `json:"mirrored"`
	InCell     int     `json:"inCell"`
	siteState
}

type faultState struct {
	Kind     string `json:"kind"`
	Severity string `json:"severity"` // "fault", "warning" or "note"
	Text     string `json:"text"`
	Places   int    `json:"places"` // that are listed
	Shows    string `json:"shows"`  // in words, at how many places; "" for one
	Step     string `json:"step"`   // of the job, where it is cured; "" for none

	Mends []mendState `json:"mends"`
}

// mendState is one move that would put a fault right, and what it does.
type mendState struct {
	Index  int    `json:"index"` // for the call mend
	Text   string `json:"text"`
	Effect string `json:"effect"`
}

type checkState struct {
	Token  int  `json:"token"`
	Wanted bool `json:"wanted"`
	Failed bool `json:"failed"` // it was stopped or could not be done: there is no verdict
	// Reasons why the sheet does not hold, for the cut file: none before the whole panel was gone through.
	Reasons []string `json:"reasons"`
}

// checkState says how the check of the whole panel stands.
func (k *Session) checkState() checkState {
	wanted := k.layout != nil && k.report == nil && k.reportErr == "" && !k.InHand()
	s := checkState{Token: k.token, Wanted: wanted, Failed: k.reportErr != "", Reasons: []string{}}
	if k.report != nil {
		s.Reasons = append(s.Reasons, k.report.Reasons()...)
	}
	return s
}

// State returns the view state as it is now.
func (k *Desk) State() State {
	d, words := k.Session.Draft(), k.Session.words()
	s := State{
		Revision: k.Session.revision, Title: d.Title, Units: k.Session.Unit().Sign(), Undo: k.Session.history.UndoLabel(), Redo: k.Session.history.RedoLabel(),
		Selected: k.Session.sel.ID, Verdict: k.Session.verdict(), Fault: k.Session.fault, Pictures: k.Session.pictures,
		Message: k.Session.message, Zoom: k.View.Zoom, InHand: k.Session.InHand(),
		Check:       k.Session.checkState(),
		Silhouettes: []silhouetteState{}, Motifs: []motifState{}, Faults: []faultState{},
	}
	s.Mend, s.MendEffect = k.Session.mendText()
	names := map[string]string{}
	used := map[string]int{}
	for _, m := range d.Motifs {
		used[m.Silhouette]++
	}
	for _, o := range d.Silhouettes {
		b := o.Outline.Bound()
		names[o.ID] = o.Name
		s.Silhouettes = append(s.Silhouettes, silhouetteState{o.ID, o.Name, b.Max[0] - b.Min[0], b.Max[1] - b.Min[1],
			geometry.Points(o.Outline), used[o.ID], k.Session.pathOf(o)})
	}
	seen := map[string]int{}
	for i, m := range d.Motifs {
		seen[m.Silhouette]++
		name := names[m.Silhouette]
		if used[m.Silhouette] > 1 {
			name = fmt.Sprintf("%s %d", name, seen[m.Silhouette])
		}
		state := motifState{ID: m.ID, Name: name, Silhouette: m.Silhouette, X: m.At[0], Y: m.At[1], Turn: m.Turn,
			Scale: m.Scale, Mirrored: m.Mirrored}
		if k.Session.layout != nil && i < len(k.Session.layout.Orbits) {
			state.InCell, state.siteState = k.Session.siteOf(i)
		}
		s.Motifs = append(s.Motifs, state)
	}
	s.Repeat = k.repeatState()
	s.Lay, s.Repeats = k.Session.layValues(), k.Session.repeatsValues()
	s.Signs = signState{k.signs.On, k.signs.Text()}
	s.Tie = k.ties.State()
	s.Pen = k.pen.State()
	if k.pen.IsOpen() && len(k.pen.Line()) > 0 {
		s.Undo = "last point"
	}
	if len(k.pen.Undone()) > 0 {
		s.Redo = "point"
	}
	s.Retie = map[string]float64{"width": s.Tie.Width}
	s.MendsWanted = k.Session.report != nil && !k.Session.mendsTold && len(k.Session.report.Problems) > 0 && !k.Session.InHand()
	s.Found = foundState{k.Session.foundText(), k.Session.layout != nil && len(d.Motifs) > 0 && k.Session.found == nil && k.Session.report != nil && !k.Session.InHand()}
	s.Panel, s.Field = draft.PanelObject.Values(&d.Panel), draft.FieldObject.Values(&d.Field)
	s.Sheet = draft.SheetObject.Values(&d.Sheet)
	s.Sheet["refusal"] = ""
	if err := pattern.RefuseStock(d.Sheet.Stock); err != nil {
		s.Sheet["refusal"] = pattern.Sentence(err.Error())
	}
	groups := k.Session.shown()
	if k.Session.following() {
		s.Fault = -1
	}
	s.Which = say.WhichOf(groups, s.Fault, k.Session.known())
	for i, g := range groups {
		last := i+1 == len(groups) || groups[i+1].First.Kind != g.First.Kind || groups[i+1].First.Severity != g.First.Severity
		f := faultState{Kind: string(g.First.Kind), Severity: g.Severity(), Text: words.Row(g), Places: len(g.Places),
			Shows: say.Places(g, last, k.Session.report), Mends: k.Session.mendsFor(g.First.Kind)}
		if g.First.Kind == sheet.Size {
			f.Step = "make"
		}
		s.Faults = append(s.Faults, f)
	}
	if k.Session.report != nil {
		s.Counts = k.Session.report.Counts
		s.Areas = map[string]float64{"open": k.Session.report.OpenArea, "sheet": k.Session.report.SheetArea}
	}
	s.Lines = words.Steps(s.Repeat.InCell)
	s.Lines["make"] = say.Readiness(s.Verdict, k.Session.groups, k.Session.report)
	return s
}

// pathOf returns a silhouette's outline as SVG path data, in mm from its upper left corner, y down. Outlines are never
// changed in place, so what was written once is kept.
func (k *Session) pathOf(s draft.Silhouette) string {
	if len(s.Outline) == 0 {
		return ""
	}
	key := &s.Outline[0][0][0]
	if p, ok := k.paths[key]; ok {
		return p
	}
	if k.paths == nil || len(k.paths) > 400 {
		k.paths = map[*orb.Point]string{}
	}
	b := s.Outline.Bound()
	k.paths[key] = geometry.SVGPath(s.Outline, func(v orb.Point) (x, y string) {
		return sheet.Trim(v[0]-b.Min[0], 2), sheet.Trim(b.Max[1]-v[1], 2)
	})
	return k.paths[key]
}
