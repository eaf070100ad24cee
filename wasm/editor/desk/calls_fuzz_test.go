package desk

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

var callChains = flag.Int("calls", geometrytest.Count(8, 16),
	"how many random chains of calls TestRandomCalls goes through")

// step makes one call and goes through what must be true after it. It reports whether to go on.
func (c *caller) step() bool {
	call := calls[c.s.Pick(len(calls))]
	c.said = call.name
	before, busy := string(c.k.Session.Draft().Encode()), c.busy()
	err := call.do(c)
	after := string(c.k.Session.Draft().Encode())
	if err != nil && !busy && before != after {
		c.t.Fatalf("%s: %q, and yet the draft went from\n%s\nto\n%s", c.said, err, before, after)
	}
	if err != nil && (err.Error() == "" || strings.Contains(err.Error(), "%!")) {
		c.t.Fatalf("%s: the refusal is %q", c.said, err)
	}

	if err := c.k.Session.Draft().Check(); err != nil {
		c.t.Fatalf("%s: %v", c.said, err)
	}
	if l := c.k.Session.Layout(); l == nil {
		c.t.Fatalf("%s: the draft cannot be laid out: %s", c.said, c.k.Session.refusal)
	} else if string(l.Draft.Encode()) != after {
		c.t.Fatalf("%s: what is laid out is not the draft", c.said)
	}
	if crowded(c.k.Session.Layout()) {
		return false
	}
	c.look()
	if !busy && !c.busy() && before != after && call.name != "start" && c.s.Pick(4) == 0 && !steps(c.said) {
		c.undoes(before, after)
	}
	return true
}

// steps reports whether a call goes through the history itself.
func steps(said string) bool {
	return strings.HasSuffix(said, " undo") || strings.HasSuffix(said, " redo")
}

// undoes holds that the change just made is one entry of the history.
func (c *caller) undoes(before, after string) {
	if c.k.pen.IsOpen() { // points of a line would be taken back first
		forgetLine(c.k)
	}
	if err := c.k.Undo(); err != nil || string(c.k.Session.Draft().Encode()) != before {
		c.t.Fatalf("%s: undoing it (%v) gives\n%s\nnot\n%s", c.said, err, c.k.Session.Draft().Encode(), before)
	}
	if err := c.k.Redo(); err != nil || string(c.k.Session.Draft().Encode()) != after {
		c.t.Fatalf("%s: doing it again (%v) gives\n%s\nnot\n%s", c.said, err, c.k.Session.Draft().Encode(), after)
	}
}

// crowded reports whether copies lie over each other so often that looking at the cell would be the whole of the test.
func crowded(l *pattern.Layout) bool {
	sum := 0.0
	for _, o := range l.Orbits {
		for _, i := range o.Images {
			b := i.Bound()
			sum += (b.Max[0] - b.Min[0] + 1) * (b.Max[1] - b.Min[1] + 1)
		}
	}
	return sum > 40*l.Cell.Area()
}

// look does what the page and the canvas do after a change: they take the view state, and draw.
func (c *caller) look() {
	k := c.k
	if _, err := json.Marshal(k.State()); err != nil {
		c.t.Fatalf("%s: the view state: %v", c.said, err)
	}
	if _, err := json.Marshal(k.Labels()); err != nil {
		c.t.Fatalf("%s: the labels: %v", c.said, err)
	}
	if s, drawing := k.Sketch(); drawing {
		w := k.View.Window()
		if n := (w.Max[0] - w.Min[0]) / s.Grid; !(n < 2000) {
			c.t.Fatalf("%s: %g squares across", c.said, n)
		}
		return
	}
	k.Handles()
	k.signs.Shown()
	k.signs.Unit()
	k.Ties()
	k.Session.Visible()
	k.InHandShape()
}

// finish lets go of everything, and goes back to the first draft and forward to the last.
func (c *caller) finish() {
	k := c.k
	c.said = "the end"
	k.Pointer("cancel", k.hand.pointer, 0, 0, 0, "mouse")
	k.dropHand()
	k.Key("Shift", 0, false, false)
	if k.pen.IsOpen() {
		forgetLine(k)
	}
	k.Select("")
	last := string(k.Session.Draft().Encode())
	n := 0
	for k.Undo() == nil {
		if n++; n > pattern.HistoryDepth {
			c.t.Fatal("undoing has no end")
		}
		if err := k.Session.Draft().Check(); err != nil {
			c.t.Fatal(err)
		}
	}
	for range n {
		if err := k.Redo(); err != nil {
			c.t.Fatal(err)
		}
	}
	if string(k.Session.Draft().Encode()) != last {
		c.t.Fatalf("back and forth through %d entries gives another draft", n)
	}
	c.look()
}

// runCalls makes the calls that the bytes stand for, and at most so many.
func runCalls(t *testing.T, data []byte, most int) (made int) {
	k := New(draft.Default())
	k.Resize(800, 600)
	c := &caller{t: t, k: k, s: patterntest.NewStream(data)}
	if err := k.Start(string(c.draft().Encode())); err != nil {
		t.Fatal(err)
	}
	for !c.s.Done() && made < most {
		made++
		if !c.step() {
			return made
		}
	}
	c.finish()
	return made
}

func TestRandomCalls(t *testing.T) {
	const seed = 64
	r := rand.New(rand.NewPCG(seed, 0))
	made := 0
	for n := range *callChains {
		data := make([]byte, 20+r.IntN(1500))
		for i := range data {
			data[i] = byte(r.Uint32())
		}
		ok := t.Run(fmt.Sprintf("chain %d of seed %d", n, seed), func(t *testing.T) {
			made += runCalls(t, data, len(data))
		})
		if !ok {
			break
		}
	}
	t.Logf("%d calls", made)
}

func FuzzCalls(f *testing.F) {
	r := rand.New(rand.NewPCG(65, 0))
	for range 60 {
		data := make([]byte, 10+r.IntN(300))
		for i := range data {
			data[i] = byte(r.Uint32())
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) { runCalls(t, data, 40) })
}

// forgetLine lets go of the line that is set, and of its points that were taken back.
func forgetLine(k *Desk) {
	for k.pen.TakeLast() {
	}
	k.pen.ForgetUndone()
}
