package desk

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/pen"
)

// caller makes the calls of the bridge on a desk, as the page does, with arguments off a stream.
type caller struct {
	t    *testing.T
	k    *Desk
	s    *patterntest.Stream
	said string // the last call, for the report
}

// calls are those of the bridge, by the names they have there. Each returns its refusal.
var calls = []struct {
	name string
	do   func(c *caller) error
}{
	{"view", func(c *caller) error { return nil }}, // gone through after every call
	{"command", (*caller).command},
	{"command", (*caller).command},
	{"act", (*caller).act},
	{"act", (*caller).act},
	{"select", func(c *caller) error { c.k.Select(c.id()); return nil }},
	{"goto", func(c *caller) error { c.k.Goto(int(c.s.Number())); return nil }},
	{"open", (*caller).openText},
	{"start", (*caller).start},
	{"openLink", (*caller).openLink},
	{"save", func(c *caller) error { c.k.FileName(); return nil }},
	{"pieces", (*caller).pieces},
	{"pen", (*caller).pen},
	{"pen", (*caller).pen},
	{"pen", (*caller).pen},
	{"copySilhouette", func(c *caller) error { return c.k.CopySilhouette(c.id()) }},
	{"mirrorSilhouette", func(c *caller) error { return c.k.MirrorSilhouette(c.id()) }},
	{"pointer", (*caller).pointer},
	{"pointer", (*caller).pointer},
	{"pointer", (*caller).pointer},
	{"pointer", (*caller).pointer},
	{"drag", (*caller).drag},
	{"drag", (*caller).drag},
	{"wheel", func(c *caller) error {
		c.k.Wheel(c.px(), c.px(), c.s.Number(), c.s.Number(), c.s.Pick(16))
		return nil
	}},
	{"key", (*caller).key},
	{"key", (*caller).key},
	{"answer", func(c *caller) error { return c.k.Session.Answer(c.token(), c.report()) }},
	{"answerFailed", func(c *caller) error { c.k.Session.AnswerFailed(c.token(), c.s.Text("it stopped")); return nil }},
	{"checkAgain", func(c *caller) error { c.k.Session.CheckAgain(); return nil }},
	{"recognised", func(c *caller) error { return c.k.Session.Recognised(c.token(), c.found()) }},
	{"recogniseFailed", func(c *caller) error { c.k.Session.RecogniseFailed(c.token()); return nil }},
	{"mends", func(c *caller) error { return c.k.Session.Mends(c.token(), c.mends()) }},
	{"mendsFailed", func(c *caller) error { c.k.Session.MendsFailed(c.token()); return nil }},
	{"mend", func(c *caller) error { return c.k.Mend(c.s.Pick(4) - 1) }},
	{"resize", func(c *caller) error { c.k.Resize(float64(c.s.Pick(256)*8), float64(c.s.Pick(256)*4)); return nil }},
}

// id returns the id of a motif or a silhouette, or none that there is.
func (c *caller) id() string {
	var ids []string
	for _, o := range c.k.Session.Draft().Silhouettes {
		ids = append(ids, o.ID)
	}
	for _, m := range c.k.Session.Draft().Motifs {
		ids = append(ids, m.ID)
	}
	return c.s.Text(append(ids, "")...)
}

// token is mostly the one of the check that speaks of the draft as it is.
func (c *caller) token() int {
	if c.s.Pick(8) == 0 {
		return int(c.s.Number())
	}
	return c.k.State().Check.Token
}

// px is a place on the canvas, or an odd one.
func (c *caller) px() float64 {
	if c.s.Pick(12) == 0 {
		return c.s.Number()
	}
	return float64(c.s.Pick(256)) * 3
}

// torn breaks a text off somewhere, now and then.
func (c *caller) torn(text string) string {
	if c.s.Pick(8) > 0 {
		return text
	}
	return text[:c.s.Pick(65536)%(len(text)+1)]
}

// command goes through JSON, as the page's does, which has no number that is none.
func (c *caller) command() error {
	cmd := c.s.Command(c.k.Session.Draft())
	c.said += fmt.Sprintf(" %.300s", fmt.Sprint(cmd))
	text, err := json.Marshal(cmd)
	if err != nil {
		return err
	}
	var read pattern.Command
	if err := json.Unmarshal([]byte(c.torn(string(text))), &read); err != nil {
		return err
	}
	return c.k.Do(read)
}

func (c *caller) act() error {
	name := actions[c.s.Pick(len(actions))].Name
	if c.s.Pick(32) == 0 {
		name = c.s.Text()
	}
	c.said += " " + name
	return c.k.Act(name)
}

func (c *caller) draft() draft.Draft {
	all := symmetry.Groups()
	return patterntest.Draft(rand.New(rand.NewPCG(63, uint64(c.s.Pick(32)))), all[c.s.Pick(len(all))].Symbol)
}

func (c *caller) openText() error { return c.k.OpenText(c.torn(string(c.draft().Encode()))) }

func (c *caller) start() error { return c.k.Start(c.torn(string(c.draft().Encode()))) }

func (c *caller) openLink() error {
	text, err := c.k.Link()
	if err != nil {
		c.t.Fatalf("the draft has no link: %v", err)
	}
	return c.k.OpenLink(c.torn(text))
}

func (c *caller) pieces() error {
	var list []draft.Silhouette
	for range c.s.Pick(3) + 1 {
		list = append(list, draft.Silhouette{ID: c.s.Text(), Name: c.s.Text("Piece"), Outline: c.s.Outline()})
	}
	text, err := json.Marshal(list)
	if err != nil {
		return err
	}
	var chosen []int
	for range c.s.Pick(4) {
		chosen = append(chosen, c.s.Pick(5)-1)
	}
	mode := "add"
	if c.s.Flag() {
		mode = "replace:" + c.id()
	}
	return c.k.Pieces(c.torn(string(text)), chosen, mode, c.s.Flag())
}

func (c *caller) pen() error {
	names := []string{"open", "way", "use", "half", "round", "axis", "within", "line", "point", "to", "x", "y", "other"}
	name := names[c.s.Pick(len(names))]
	word := ""
	switch name {
	case "open":
		word = c.id()
	case "way":
		word = c.s.Text(pen.Free, pen.Points, pen.Move)
	case "use":
		word = c.s.Text(pen.Add, pen.Cut, pen.Instead)
	case "round":
		word = c.s.Text("round", "corner")
	}
	v := c.s.Number()
	c.said += fmt.Sprintf(" %s %.20q %v", name, word, v)
	return c.k.Pen(name, word, v)
}

func (c *caller) pointer() error {
	kind := c.s.Text("down", "move", "up", "cancel", "leave")
	device := c.s.Text("mouse", "touch", "pen")
	id, x, y, mods := c.s.Pick(3), c.px(), c.px(), c.s.Pick(16)
	c.said += fmt.Sprintf(" %s %d %v %v %d %s", kind, id, x, y, mods, device)
	c.k.Pointer(kind, id, x, y, mods, device)
	return nil
}

// drag goes from a place round to another, and mostly lets go there.
func (c *caller) drag() error {
	device := []string{"mouse", "touch"}[c.s.Pick(2)]
	mods, steps := c.s.Pick(8), 2+c.s.Pick(12)
	x, y := c.px(), c.px()
	if h := c.k.Handles(); c.s.Flag() && h.Cell { // at what can be taken hold of
		p := [...][2]float64{h.Centre, h.Turn, h.Scale, h.Origin, h.A, h.B, h.Far}[c.s.Pick(7)]
		x, y = p[0], p[1]
	}
	c.k.Pointer("down", 1, x, y, mods, device)
	dx, dy, turn := float64(c.s.Pick(64)-32), float64(c.s.Pick(64)-32), float64(c.s.Pick(64)-32)/32
	sin, cos := math.Sincos(turn)
	for range steps {
		x, y = x+dx, y+dy
		dx, dy = cos*dx-sin*dy, sin*dx+cos*dy
		c.k.Pointer("move", 1, x, y, mods, device)
	}
	if c.s.Pick(8) > 0 {
		c.k.Pointer("up", 1, x, y, mods, device)
	}
	return nil
}

func (c *caller) key() error {
	names := []string{
		"ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "[", "]", ",", ".", "Escape", "Delete",
		"Backspace", "Enter", "Shift+Delete", "n", "p", "N", "d", "D", "m", "o", "w", "t", "T", "s", "e", "f", "F", "h",
		"i", "c", "r", "b", "u", "0", "+", "-", "?", "",
	}
	name := names[c.s.Pick(len(names))]
	c.said += " " + name
	c.k.Key(name, c.s.Pick(8), c.s.Pick(5) > 0, c.s.Flag())
	return nil
}

// busy reports whether something is in the hand: then a refusal may let go of it, and the draft is not settled.
func (c *caller) busy() bool { return !c.k.hand.idle() || c.k.Session.nudging }
