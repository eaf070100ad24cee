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
	// Demonstrates: nothing but the demonstration is on the desk.
	Demonstrates bool `json:"demonstrates"`

	Lay     map[string]float64 `json:"lay"`     // the repeat as its lay measures it
	Repeats map[string]any     `json:"repeats"` // how many fill the field
	Signs   signState          `json:"signs"`
	Pen     pen.State          `json:"pen"`   // what is drawn
	Drawn   []drawnFault       `json:"drawn"` // what is wrong with it
	Tie     ties.State         `json:"tie"`
	Retie   map[string]float64 `json:"retie"` // what the command retie sets of the tie taken up
	Found   foundState         `json:"found"`
	Gaps    gapsState          `json:"gaps"`
	Paint   paintState         `json:"paint"`

	Bench    [3]float64     `json:"bench"` // CSS px to the mm, and where the panel's (0, 0) lies on the canvas
	Subjects []subjectState `json:"subjects"`
	Subject  string         `json:"subject"` // the one taken up, "" for none

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
func (s *Session) checkState() checkState {
	wanted := s.layout != nil && s.report == nil && s.reportErr == "" && !s.InHand()
	out := checkState{Token: s.token, Wanted: wanted, Failed: s.reportErr != "", Reasons: []string{}}
	if s.report != nil {
		out.Reasons = append(out.Reasons, s.report.Reasons()...)
	}
	return out
}

// State returns the view state as it is now.
func (k *Desk) State() State {
	now := k.Session
	d := now.Draft()
	s := State{
		Revision: now.revision, Title: d.Title, Units: now.Unit().Sign(), Undo: now.history.UndoLabel(),
		Redo: now.history.RedoLabel(), Selected: now.sel.ID, Verdict: now.verdict(), Pictures: now.pictures,
		Message: now.message, Zoom: k.View.Zoom, InHand: now.InHand(), Demonstrates: now.Demonstrates(),
		Check:       now.checkState(),
		Silhouettes: now.silhouetteStates(), Motifs: now.motifStates(),
		Repeat: k.repeatState(), Lay: now.layValues(), Repeats: now.repeatsValues(),
		Signs: signState{k.signs.On, k.signs.Text()}, Tie: k.ties.State(), Pen: k.pen.State(),
		Drawn: k.drawnFaults(), Paint: k.paintState(),
		Panel: draft.PanelObject.Values(&d.Panel), Field: draft.FieldObject.Values(&d.Field),
		Sheet: draft.SheetObject.Values(&d.Sheet),
	}

	corner := k.View.Map().Apply(orb.Point{})
	s.Bench = [3]float64{k.View.Zoom, corner[0], corner[1]}
	s.Subjects = now.subjectStates()
	if of, ok := k.subjects.Chosen(); ok {
		s.Subject = of.ID
	}
	s.Mend, s.MendEffect = now.mendText()
	s.Retie = map[string]float64{"width": s.Tie.Width}
	s.Sheet["refusal"], s.Sheet["cut"] = "", string(d.Sheet.How())
	if err := pattern.RefuseStock(d.Sheet.Stock, d.Sheet.How()); err != nil {
		s.Sheet["refusal"] = pattern.Sentence(err.Error())
	}
	if k.pen.IsOpen() && len(k.pen.Line()) > 0 {
		s.Undo = "last point"
	}
	if len(k.pen.Undone()) > 0 {
		s.Redo = "point"
	}

	s.Fault = now.fault
	if now.following() {
		s.Fault = -1
	}
	s.Which, s.Faults = say.WhichOf(now.shown(), s.Fault, now.known()), now.faultStates()

	s.Found.Text = now.foundText()
	s.Gaps = now.gapsState()
	if r := now.report; r != nil {
		s.Counts = r.Counts
		s.Areas = map[string]float64{"open": r.OpenArea, "sheet": r.SheetArea}
		s.MendsWanted = !now.mendsAnswered && len(r.Problems) > 0 && !s.InHand
		s.Found.Wanted = now.layout != nil && len(d.Motifs) > 0 && now.found == nil && !s.InHand
	}

	s.Lines = now.words().Steps(s.Repeat.InCell)
	s.Lines["make"] = say.Readiness(s.Verdict, now.groups, now.report)
	return s
}

// silhouetteStates are the draft's silhouettes, and how many motifs each has.
func (s *Session) silhouetteStates() []silhouetteState {
	used := map[string]int{}
	for _, m := range s.Draft().Motifs {
		used[m.Silhouette]++
	}

	out := []silhouetteState{}
	for _, o := range s.Draft().Silhouettes {
		b := o.Outline.Bound()
		out = append(out, silhouetteState{o.ID, o.Name, b.Max[0] - b.Min[0], b.Max[1] - b.Min[1],
			geometry.Points(o.Outline), used[o.ID], s.pathOf(o)})
	}
	return out
}

// motifStates are the draft's motifs, those of one silhouette numbered where there are several, and where each stands.
func (s *Session) motifStates() []motifState {
	d := s.Draft()
	used, seen := map[string]int{}, map[string]int{}
	for _, m := range d.Motifs {
		used[m.Silhouette]++
	}

	out := []motifState{}
	for i, m := range d.Motifs {
		seen[m.Silhouette]++
		o, _ := d.Silhouette(m.Silhouette)
		name := o.Name
		if used[m.Silhouette] > 1 {
			name = fmt.Sprintf("%s %d", name, seen[m.Silhouette])
		}
		state := motifState{ID: m.ID, Name: name, Silhouette: m.Silhouette, X: m.At[0], Y: m.At[1], Turn: m.Turn,
			Scale: m.Scale, Mirrored: m.Mirrored}
		if s.layout != nil && i < len(s.layout.Orbits) {
			state.InCell, state.siteState = s.siteOf(i)
		}
		out = append(out, state)
	}
	return out
}

// faultStates are the rows of the list of faults as it is now.
func (s *Session) faultStates() []faultState {
	words, list := s.words(), s.shown()
	out := []faultState{}
	for i, f := range list {
		kind, severity := f.First.Kind, f.First.Severity
		last := i+1 == len(list) || list[i+1].First.Kind != kind || list[i+1].First.Severity != severity
		row := faultState{Kind: string(kind), Severity: f.Severity(), Text: words.Row(f), Places: len(f.Places),
			Shows: say.Places(f, last, s.report), Mends: s.mendsFor(kind)}
		if kind == sheet.Size {
			row.Step = "make"
		}
		out = append(out, row)
	}
	return out
}

// pathOf returns a silhouette's outline as SVG path data, in mm from its upper left corner, y down. Outlines are never
// changed in place, so what was written once is kept.
func (s *Session) pathOf(o draft.Silhouette) string {
	if len(o.Outline) == 0 {
		return ""
	}

	key := &o.Outline[0][0][0]
	if p, ok := s.paths[key]; ok {
		return p
	}
	if s.paths == nil || len(s.paths) > 400 {
		s.paths = map[*orb.Point]string{}
	}

	b := o.Outline.Bound()
	s.paths[key] = geometry.SVGPath(o.Outline, func(v orb.Point) (x, y string) {
		return sheet.Trim(v[0]-b.Min[0], 2), sheet.Trim(b.Max[1]-v[1], 2)
	})
	return s.paths[key]
}
