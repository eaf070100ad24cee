// Package desk is the editor without its screen: the open draft and its history, what is selected, how the panel lies
// on the canvas, what a pointer or a key does, and the sentences that say how the sheet stands. The canvas draws what it
// tells and the page shows its view state; both send it what the person does. It runs anywhere and is tested natively.
package desk

import (
	"errors"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/whole"
	"openwork/pattern/symmetry"
)

// Desk is the editor's state. It is not safe for use from two goroutines.
type Desk struct {
	View   View
	Inches bool // lengths are shown in inches; the draft stays in mm

	history *pattern.History
	layout  *pattern.Layout
	live    sheet.Live
	looked  whole.Panel   // what one look at the panel leaves to the next
	seen    *whole.Report // the whole panel as it is now, nil where it is too large to be looked at in every frame
	shapes  *pattern.Shapes
	apply   func(pattern.Draft, pattern.Command) (pattern.Draft, error)   // pattern.Apply, or what counts its calls
	layOut  func(pattern.Draft, *pattern.Shapes) (*pattern.Layout, error) // pattern.NewLayout, likewise
	asking  *trouble                                                      // why the draft cannot be laid out, nil when it can

	selected string // id of a motif
	held     Held   // the copy the handles stand on
	hand     gesture
	fingers  map[int]orb.Point
	nudging  bool

	revision  int
	token     int // of the check that speaks of the draft as it is now
	report    *sheet.Report
	reportErr string
	groups    []faultGroup
	fault     int
	pictures  int

	handGroups   []faultGroup // what the cell shows while something is in hand
	handGroupsOf int          // and the revision it is of

	message *Message
	whole   bool // the view shows the whole panel, and goes on doing so when the canvas changes its size
	paths   map[*orb.Point]string

	hold string // what of the cell is held while one side changes: "", pattern.KeepArea or pattern.KeepProportion
	lay  string // the lay by which the cell is spoken of, "" for none

	pen   *drawing                 // the silhouette open for drawing, nil when none is
	knots map[*orb.Point]pen.Shape // the points that outlines were made of

	tying bool // ties are worked on
	tie   int  // the one taken up, −1 for none

	signs       bool // mirrors, glides and rotation points are shown
	sign        int  // the element that is spoken of, −1 for none
	elementsOf  string
	elementList []symmetry.Element
	mends       []sheet.Mend // what would put the sheet right, measured; nil until the engine has told
	mendsTold   bool
	found       *Found // what the field was recognised to be, for the draft as it is

	Changed bool // the view state changed since it was last taken
	Redraw  bool // the canvas must be drawn anew
}

// Held names one copy of a motif: an operation of the group, and cells.
type Held struct {
	Motif, Op int
	Cell      [2]int
}

// Message is one sentence to the person.
type Message struct {
	Serial int    `json:"serial"`
	Text   string `json:"text"`
	Tone   string `json:"tone"` // "error" or "note"
}

type trouble struct{ text string }

// New returns a desk with the given draft on it.
func New(d pattern.Draft) *Desk {
	k := &Desk{history: pattern.NewHistory(d), shapes: pattern.NewShapes(), fingers: map[int]orb.Point{}, fault: -1, sign: -1, tie: -1, whole: true,
		apply: pattern.Apply, layOut: pattern.NewLayout}
	k.selectFirst()
	k.findLay()
	k.settled(true)
	return k
}

// Draft returns the open draft.
func (k *Desk) Draft() pattern.Draft { return k.history.Draft() }

// Layout returns the field as it is now, nil when it cannot be laid out.
func (k *Desk) Layout() *pattern.Layout { return k.layout }

// Live returns what the cell and its neighbours show.
func (k *Desk) Live() sheet.Live { return k.live }

// relay lays the field out anew and looks at it: the work of one drag step.
func (k *Desk) relay() { k.look(k.layOut(k.Draft(), k.shapes)) }

// look takes the open draft's layout, or why there is none, and looks at it.
func (k *Desk) look(l *pattern.Layout, err error) {
	k.revision++
	k.Changed, k.Redraw = true, true
	k.report, k.reportErr, k.found = nil, "", nil
	k.mends, k.mendsTold = nil, false
	if err != nil {
		k.layout, k.live, k.seen, k.asking = nil, sheet.Live{}, nil, &trouble{err.Error()}
		return
	}
	k.layout, k.asking = l, nil
	k.see()
}

// settled is called when a change is complete: the field is laid out anew and the whole panel is asked for. Its answer brings
// the mends.
func (k *Desk) settled(outlines bool) {
	k.relay()
	k.settle(outlines)
}

// settledOn is settled for a draft that has been laid out already.
func (k *Desk) settledOn(l *pattern.Layout, outlines bool) {
	k.look(l, nil)
	k.settle(outlines)
}

// settle goes on from a layout that was looked at.
func (k *Desk) settle(outlines bool) {
	k.say(k.syncPen())
	k.holdKept()
	k.rest()
	if outlines {
		k.pictures++
	}
}

// holdKept puts the handles on another copy when the one they stood on is no longer on the panel.
func (k *Desk) holdKept() {
	i := k.Draft().Motif(k.selected)
	if i < 0 || k.layout == nil {
		return
	}
	for _, image := range k.layout.Orbits[i].Images {
		if image.Op == k.held.Op && k.kept(image, k.layout.Lattice(k.held.Cell[0], k.held.Cell[1])) {
			return
		}
	}
	k.held = Held{Motif: i}
	k.holdNear(k.View.Centre)
}

// feasible lays a draft out, or says why it cannot be put on the desk: its panel would need too many copies.
func (k *Desk) feasible(d pattern.Draft) (*pattern.Layout, error) {
	l, err := k.layOut(d, k.shapes)
	if err == nil {
		_, err = l.Copies()
	}
	return l, err
}

// step applies a command inside the open gesture.
func (k *Desk) step(c pattern.Command) error {
	next, err := k.apply(k.Draft(), c)
	if err == nil {
		k.history.Step(next, c.Label())
	}
	return err
}

// rest asks for the whole panel, for the draft as it stands.
func (k *Desk) rest() {
	k.token++
	k.fault = -1
	k.groupLive()
	k.Changed, k.Redraw = true, true
}

// fit shows the whole panel, or the whole of what is drawn.
func (k *Desk) fit() {
	if k.pen != nil {
		k.View.fit(k.penBound())
	} else {
		k.View.fit(k.Draft().PanelBound())
	}
	k.whole = true
}

// complete adds what a command leaves to the desk: what of the cell is held, the lay it is spoken of by, the tie that is
// taken up, a roomy place.
func (k *Desk) complete(c *pattern.Command) error {
	switch c.Name {
	case "cell":
		if c.Text == "" {
			c.Text = k.hold
		}
	case "repeats":
		if c.Text == "" {
			c.Text = k.lay
		}
	case "retie":
		if _, has := c.Values["index"]; has {
			break
		}
		ties := k.Draft().Ties
		if k.tie < 0 || k.tie >= len(ties) {
			return errNoTie
		}
		if c.Values == nil {
			c.Values = map[string]float64{}
		}
		c.Values["index"] = float64(k.tie)
		if w, ok := c.Values["width"]; ok { // on the sheet
			c.Values["width"] = w / k.tieScale(ties[k.tie])
		}
	case "motif":
		if _, has := c.Values["x"]; !has {
			k.placeRoomy(c)
		}
	}
	return nil
}

// Do carries out one command, with what the desk holds, as one entry of the history. What is in hand is let go of first.
func (k *Desk) Do(c pattern.Command) error {
	k.letGo()
	if err := k.complete(&c); err != nil {
		return err
	}
	return k.carryOut(c)
}

// carryOut carries out one command as it stands, as one entry of the history. What is in hand is let go of first.
func (k *Desk) carryOut(c pattern.Command) error {
	k.letGo()
	before := k.Draft()
	next, err := k.apply(before, c)
	if err != nil {
		return err
	}
	l, err := k.feasible(next)
	if err != nil {
		return err
	}
	k.history.Replace(next, c.Label())
	k.keepSelection()
	switch c.Name {
	case "lay":
		k.lay = c.Text
	case "repeats":
		k.Say("note", resized(before.Repeat, k.Draft().Repeat)+" "+k.fitText())
	case "group":
		if k.layName() == "" {
			k.findLay()
		}
	case "motif", "draw":
		if m := k.Draft().Motifs; len(m) > len(before.Motifs) {
			k.choose(m[len(m)-1].ID)
		}
	}
	k.settledOn(l, pictured(c.Name))
	if c.Name == "panel" {
		k.fit()
	}
	return nil
}

// pictured reports whether a command changes the seventeen pictures.
func pictured(name string) bool {
	switch name {
	case "title", "edge", "stock", "sheet", "panel", "field", "name":
		return false
	}
	return true
}

// Open puts another draft on the desk; the one before can be brought back by undoing.
func (k *Desk) Open(d pattern.Draft) error {
	l, err := k.feasible(d)
	if err != nil {
		return err
	}
	k.letGo()
	k.history.Replace(d, "opening of a draft")
	k.selectFirst()
	k.findLay()
	k.settledOn(l, true)
	k.fit()
	return nil
}

// Say shows the person a sentence.
func (k *Desk) Say(tone, text string) {
	serial := 1
	if k.message != nil {
		serial = k.message.Serial + 1
	}
	k.message = &Message{serial, text, tone}
	k.Changed = true
}

// Select chooses a motif; an unknown id chooses none.
func (k *Desk) Select(id string) {
	k.endNudge()
	k.leavePen()
	if k.Draft().Motif(id) < 0 {
		id = ""
	}
	k.choose(id)
}

func (k *Desk) choose(id string) {
	if id != k.selected {
		k.selected = id
		k.held = Held{Motif: k.Draft().Motif(id)}
		k.holdNear(k.View.Centre)
	}
	k.Changed, k.Redraw = true, true
}

func (k *Desk) selectFirst() {
	k.pen, k.hand = nil, gesture{}
	k.selected, k.held = "", Held{Motif: -1}
}

// keepSelection lets go of a motif that is no longer there, and of an operation that is not.
func (k *Desk) keepSelection() {
	if k.tie >= len(k.Draft().Ties) {
		k.tie = -1
	}
	i := k.Draft().Motif(k.selected)
	if i < 0 {
		k.selected = ""
	}
	k.held = Held{Motif: i, Op: k.held.Op, Cell: k.held.Cell}
}

// Undo takes the last entry back, or the last point of a line that is being set.
func (k *Desk) Undo() error {
	if k.takeLast() {
		return nil
	}
	if k.pen != nil {
		k.pen.taken = nil
	}
	return k.travel(k.history.Undo, "there is nothing to undo")
}

// Redo brings the last undone entry or point back.
func (k *Desk) Redo() error {
	if k.bringLast() {
		return nil
	}
	return k.travel(k.history.Redo, "there is nothing to redo")
}

func (k *Desk) travel(step func() bool, empty string) error {
	k.dropHand()
	if !step() {
		return errors.New(empty)
	}
	k.keepSelection()
	k.settled(true)
	return nil
}

// Resize takes the canvas's size in CSS px. The first time the panel is fitted; later too, while it is shown whole; otherwise its middle
// stays in the middle, and a drawing where it is.
func (k *Desk) Resize(w, h float64) {
	if !(w >= 0 && w <= maxCanvas && h >= 0 && h <= maxCanvas) {
		return
	}
	corner := k.View.Panel(0, 0)
	k.View.Width, k.View.Height = w, h
	if now := k.View.Panel(0, 0); k.pen != nil { // what is under the hand stays there
		k.View.Centre = orb.Point{k.View.Centre[0] + corner[0] - now[0], k.View.Centre[1] + corner[1] - now[1]}
	}
	if k.whole {
		k.fit()
	}
	k.Redraw, k.Changed = true, true
}

// InHandShape returns the silhouette of the held copy and its map to CSS px.
func (k *Desk) InHandShape() (*geometry.Shape, geometry.Map, bool) {
	i := k.Draft().Motif(k.selected)
	if k.layout == nil || i < 0 || i >= len(k.layout.Orbits) {
		return nil, geometry.Identity, false
	}
	o := k.layout.Orbits[i]
	return o.Shape, k.View.Map().After(k.copyMap(k.held)).After(o.Place), true
}
