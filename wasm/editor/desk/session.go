package desk

import (
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/say"
	"openwork/wasm/editor/desk/view"
)

// Session is the open draft with its history, its layout and what is known of the sheet, and what is selected of it.
// It knows no pointer and no mode.
type Session struct {
	view   *view.View
	Inches bool // lengths are shown in inches; the draft stays in mm

	history    *pattern.History
	layout     *pattern.Layout
	inspection inspection
	showing    bool // the canvas or the page is being painted
	shapes     *pattern.Shapes
	refusal    error // why there is no layout, nil where there is one

	apply     func(draft.Draft, pattern.Command) (draft.Draft, error)     // pattern.Apply, or what counts its calls
	newLayout func(draft.Draft, *pattern.Shapes) (*pattern.Layout, error) // pattern.NewLayout, likewise

	sel     copies.Selection
	nudging bool        // a key that changes the draft is held
	held    func() bool // reports whether the hand drags a copy, a handle, the cell or a tie

	revision    int
	token       int // of the check of the draft as it is now
	report      *sheet.Report
	reportErr   string
	groups      []say.Fault // of the panel as it is now; see faults
	groupsStale bool        // groups are to be made anew
	fault       int
	pictures    int

	handGroups   []say.Fault // what the cell shows while something is in hand
	handGroupsOf int         // and which of the looks it is of

	guests map[string]int // the demonstration's silhouettes: how many points each has

	message *Message
	paths   map[*orb.Point]string

	Look appearance.View // how colours are looked at

	notesOnPaint []string
	paintNotesOf int // the revision that they are of

	hold string // what of the cell is held while one side changes: "", pattern.KeepArea or pattern.KeepProportion
	lay  string // the lay that describes the cell, "" for none

	answered wholeAnswer // the engine's last answer on the whole panel

	mends         []sheet.Mend // what would put the sheet right, measured; nil until the engine has answered
	mendsAnswered bool
	showGaps      bool   // the gaps between openings are painted by their width
	gaps          *Gaps  // as they are painted, for the draft as it is
	found         *Found // what the field was recognised to be, for the draft as it is

	lone   *geometry.Shape // a silhouette that is drawn and not laid out
	loneOf *orb.Point

	tangents []Tangent // where edges run beside each other, for the draft as it is

	Changed bool // the view state changed since it was last taken
	Redraw  bool // the canvas must be drawn anew
}

// Message is one sentence to the person.
type Message struct {
	Serial int    `json:"serial"`
	Text   string `json:"text"`
	Tone   string `json:"tone"` // "error" or "note"
}

func newSession(d draft.Draft, v *view.View) *Session {
	return &Session{view: v, history: pattern.NewHistory(d), shapes: pattern.NewShapes(), apply: pattern.Apply,
		newLayout: pattern.NewLayout, sel: copies.None(), fault: -1, notesOnPaint: []string{}, paintNotesOf: -1}
}

// Draft returns the open draft.
func (s *Session) Draft() draft.Draft { return s.history.Draft() }

// Layout returns the field as it is now, nil when it cannot be laid out.
func (s *Session) Layout() *pattern.Layout { return s.layout }

// Unit is the display unit.
func (s *Session) Unit() sheet.Unit { return sheet.Unit{Inches: s.Inches} }

// Touch has the page and the canvas show the state anew.
func (s *Session) Touch() { s.Changed, s.Redraw = true, true }

// Redrawn has the canvas drawn anew.
func (s *Session) Redrawn() { s.Redraw = true }

// Say shows the person a sentence.
func (s *Session) Say(tone, text string) {
	serial := 1
	if s.message != nil {
		serial = s.message.Serial + 1
	}
	s.message = &Message{serial, text, tone}
	s.Changed = true
}

// sayError shows the person why something could not be.
func (s *Session) sayError(err error) {
	if err != nil {
		s.Say("error", pattern.Sentence(err.Error()))
	}
}

// InHand reports whether a drag of a copy, a handle or the cell, or a held key, is changing the draft.
func (s *Session) InHand() bool { return s.nudging || s.held() }

// LayOutAgain lays the field out anew: the work of one drag step. inHand has the look at it wait for nothing.
func (s *Session) LayOutAgain(inHand bool) {
	l, err := s.newLayout(s.Draft(), s.shapes)
	s.setLayout(l, err, inHand)
}

// setLayout takes the open draft's layout, or why there is none. It is looked at when what it shows is asked for: at
// the cell for the marks at the copy in hand, and at the whole panel for the line at the foot.
func (s *Session) setLayout(l *pattern.Layout, err error, inHand bool) {
	s.revision++
	s.Touch()
	s.report, s.reportErr, s.found = nil, "", nil
	s.mends, s.mendsAnswered = nil, false
	s.gaps, s.tangents = nil, nil
	s.layout, s.refusal = l, nil
	if err != nil {
		s.layout, s.refusal = nil, err
	}
	s.inspection.begin(s.layout, inHand)
}

// finish ends a change that was laid out: the whole panel is asked for. Its answer brings the mends.
func (s *Session) finish(outlines bool) {
	s.sel.HoldKept(s.layout, s.view.Centre)
	s.askWhole()
	if outlines {
		s.pictures++
	}
}

// askWhole asks for the whole panel, for the draft as it stands.
func (s *Session) askWhole() {
	s.token++
	s.fault = -1
	s.groupsStale = true
	s.recall()
	s.Touch()
}

// feasible lays a draft out, or says why it cannot be put on the desk: its panel would need too many copies.
func (s *Session) feasible(d draft.Draft) (*pattern.Layout, error) {
	l, err := s.newLayout(d, s.shapes)
	if err == nil {
		_, err = l.Copies()
	}
	return l, err
}

// Begin opens an entry of the history, to be made by Step or Try and ended by Commit, LetGo or Abandon.
func (s *Session) Begin() { s.history.Begin() }

// Step applies a command inside the open entry, without laying out.
func (s *Session) Step(c pattern.Command) error {
	next, err := s.apply(s.Draft(), c)
	if err == nil {
		s.history.Step(next, c.Label())
	}
	return err
}

// Try applies a command inside the open entry and lays out. One that cannot be is passed over: the hand may go on to
// where it can.
func (s *Session) Try(c pattern.Command) {
	next, err := s.apply(s.Draft(), c)
	if err != nil || s.layout != nil && s.layout.Overfull(next) {
		return // there would be no end of copies under the pointer
	}
	s.history.Step(next, c.Label())
	s.LayOutAgain(s.InHand())
}

// Commit ends the open entry with outlines that changed, and selects the newest motif if that is asked for. On an
// error, which says that the draft cannot be laid out, the entry stays open.
func (s *Session) Commit(newest bool) error {
	l, err := s.feasible(s.Draft())
	if err != nil {
		return err
	}

	s.history.Settle()
	s.sel.Keep(s.Draft())
	if newest {
		s.chooseNewest()
	}

	s.setLayout(l, nil, false)
	s.finish(true)
	return nil
}

// LetGo ends the open entry where it stands; dragged reports that it may have changed something.
func (s *Session) LetGo(dragged bool) {
	s.EndNudge()
	s.history.Settle()
	if dragged {
		s.askWhole()
		s.pictures++
	}
}

// Abandon puts back what the open entry changed.
func (s *Session) Abandon(dragged bool) {
	s.history.Abandon()
	if dragged {
		s.LayOutAgain(false)
		s.finish(false)
	}
}

// Hold opens an entry for a key, or goes on with it when the key repeats.
func (s *Session) Hold(repeat bool) {
	if !s.nudging || !repeat {
		s.EndNudge()
		s.history.Begin()
		s.nudging = true
	}
}

// EndNudge makes the keys held so far one entry.
func (s *Session) EndNudge() {
	if s.nudging {
		s.nudging = false
		s.history.Settle()
		s.askWhole()
		s.pictures++
	}
}

// Selection returns what is selected.
func (s *Session) Selection() copies.Selection { return s.sel }

// Choose selects a motif; "" selects none.
func (s *Session) Choose(id string) {
	s.sel.Choose(id, s.Draft(), s.layout, s.view.Centre)
	s.Touch()
}

func (s *Session) chooseNewest() {
	if m := s.Draft().Motifs; len(m) > 0 {
		s.Choose(m[len(m)-1].ID)
	}
}

// HoldCopy puts the handles on a copy of the selected motif.
func (s *Session) HoldCopy(h copies.Held) { s.sel.Held = h }

// HoldNear puts the handles on the copy of the selected motif nearest to a panel point.
func (s *Session) HoldNear(p orb.Point) { s.sel.HoldNear(s.layout, p) }

// HoldsOfCell is what of the cell stays while one side changes.
func (s *Session) HoldsOfCell() string { return s.hold }

// FreshName returns a name that no silhouette has yet.
func (s *Session) FreshName(name string) string {
	used := map[string]bool{}
	for _, o := range s.Draft().Silhouettes {
		used[o.Name] = true
	}
	for n := 1; ; n++ {
		if try := name + " " + strconv.Itoa(n); !used[try] {
			return try
		}
	}
}
