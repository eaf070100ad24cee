package pattern_test

import (
	"errors"
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/link"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

var chains = flag.Int("chains", 150, "how many random chains of commands TestRandomChains goes through")

// crowded reports whether a draft is refused because more copies or ties lie at one place than are laid out.
func crowded(err error) bool {
	var e *draft.PlaceError
	return errors.As(err, &e) && (e.Place == "repeat" || strings.HasPrefix(e.Place, "ties["))
}

// soundDraft goes through what every draft that a command left must be.
func soundDraft(t *testing.T, d draft.Draft, shapes *pattern.Shapes) {
	t.Helper()
	if err := d.Check(); err != nil {
		t.Fatalf("%v in\n%s", err, d.Encode())
	}
	text := d.Encode()
	back, err := draft.DecodeBytes(text)
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	if string(back.Encode()) != string(text) {
		t.Fatalf("it was written as\n%s\nand comes back as\n%s", text, back.Encode())
	}
	onGrid(t, d)

	l, err := pattern.NewLayout(d, shapes)
	if crowded(err) {
		return
	}
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	fresh, err := pattern.NewLayout(back, nil)
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	if l.InCell() != fresh.InCell() || len(d.Motifs) > 0 && l.InCell() == 0 {
		t.Fatalf("%d copies in a cell, laid out afresh %d, in\n%s", l.InCell(), fresh.InCell(), text)
	}
}

// onGrid holds every number that a command may have brought in against the draft's grid.
func onGrid(t *testing.T, d draft.Draft) {
	t.Helper()
	v := []float64{d.Panel.Width, d.Panel.Height, d.Field.Margin, d.Field.Origin[0], d.Field.Origin[1], d.Field.Turn,
		d.Repeat.A, d.Repeat.B, d.Repeat.Gamma, d.Sheet.Thickness, d.Sheet.Kerf, d.Sheet.Bridge, d.Sheet.Opening,
		d.Sheet.Width, d.Sheet.Height}
	for _, m := range d.Motifs {
		v = append(v, m.At[0], m.At[1], m.Turn, m.Scale)
	}
	for _, o := range d.Ties {
		v = append(v, o.From[0], o.From[1], o.To[0], o.To[1], o.Width)
	}
	for _, s := range d.Silhouettes {
		for _, p := range s.Outline {
			for _, r := range p {
				for _, q := range r {
					v = append(v, q[0], q[1])
				}
			}
		}
	}
	for _, x := range v {
		if x != geometry.Snap(x) || math.IsInf(x, 0) {
			t.Fatalf("%v is not on the grid, in\n%s", x, d.Encode())
		}
	}
}

// maxChain bounds the steps of a chain that a fuzzer makes; a random chain goes on to the end of its bytes.
const maxChain = 12

// run goes through a chain of calls on the history that the bytes stand for.
func (c *chain) run(data []byte, limit int) {
	s := patterntest.NewStream(data)
	for steps := 0; !s.Done() && steps < limit; steps++ {
		switch what := s.Pick(16); what {
		default:
			c.try(s.Command(c.h.Draft()), true)
			c.same("do")
		case 8, 9:
			c.try(s.Command(c.h.Draft()), false)
			c.same("try")
		case 10:
			c.h.Begin()
			c.begin()
			c.same("begin")
			c.keptAndRestored()
		case 11:
			c.h.Abandon()
			if c.open {
				c.now, c.open, c.changed = c.from, false, false
			}
			c.same("abandon")
		case 12:
			c.travel(c.h.Undo, &c.past, &c.future)
			c.same("undo")
		case 13:
			c.travel(c.h.Redo, &c.future, &c.past)
			c.same("redo")
		case 14:
			c.thereAndBack(s)
			c.same("groups")
			c.keptAndRestored()
		case 15:
			c.settle()
			c.past, c.future = append(c.past, c.now), nil
			d := firstDraft(byte(s.Pick(64)))
			c.h.Replace(d, "opening")
			c.now = string(d.Encode())
			c.same("replace")
		}
		if (c.h.UndoLabel() == "") != (len(c.past) == 0) || (c.h.RedoLabel() == "") != (len(c.future) == 0) {
			c.t.Fatalf("%d entries lie behind and %d before; they are called %q and %q", len(c.past), len(c.future),
				c.h.UndoLabel(), c.h.RedoLabel())
		}
	}
	c.ends()
}

// keptAndRestored holds the steps that the history tells of against the model's, and goes on with a history made of
// them.
func (c *chain) keptAndRestored() {
	c.t.Helper()
	want := append(append([]string(nil), c.past...), c.now)
	if c.open {
		want[len(want)-1] = c.from
	}
	for i := len(c.future) - 1; i >= 0; i-- {
		want = append(want, c.future[i])
	}

	steps, now := c.h.Steps()
	if len(steps) != len(want) || now != len(c.past) || c.h.Resting() == c.open {
		c.t.Fatalf("step %d of %d, should be %d of %d", now, len(steps), len(c.past), len(want))
	}
	texts, seen := []string{}, map[int]bool{}
	for i, s := range steps {
		texts = append(texts, c.h.Text(s.ID))
		if texts[i] != want[i] || seen[s.ID] || s.Label == "" && i > 0 {
			c.t.Fatalf("step %d, %q, is\n%s\nand should be\n%s", i, s.Label, texts[i], want[i])
		}
		seen[s.ID] = true
	}

	h, err := pattern.RestoredHistory(steps, texts, now)
	if err != nil {
		c.t.Fatal(err)
	}
	again, where := h.Steps()
	if !slices.Equal(again, steps) || where != now {
		c.t.Fatalf("kept as %v at %d, it comes back as %v at %d", steps, now, again, where)
	}
	if !c.open {
		c.h = h
	}
}

// ends goes back to the first draft that is kept and forward again, and takes the draft through a link.
func (c *chain) ends() {
	c.settle()
	c.h.Settle()
	last, back := c.now, len(c.past)
	c.keptAndRestored()
	for len(c.past) > 0 {
		c.travel(c.h.Undo, &c.past, &c.future)
		c.same("undo to the first")
	}
	for range back {
		c.travel(c.h.Redo, &c.future, &c.past)
		c.same("redo to the last")
	}
	if c.now != last {
		c.t.Fatal("back and forth gives another draft")
	}

	text, err := link.Encode(c.h.Draft())
	if err != nil {
		c.t.Fatalf("%v in\n%s", err, last)
	}
	d, err := link.Decode(text)
	if err != nil {
		c.t.Fatalf("%v in the link %s of\n%s", err, text, last)
	}
	if again, err := link.Encode(d); err != nil || again != text {
		c.t.Fatalf("the link changes when it is opened (%v) in\n%s", err, last)
	}
	if _, err := pattern.NewLayout(d, nil); err != nil && !crowded(err) {
		c.t.Fatalf("%v after the link of\n%s", err, last)
	}
}

// firstDraft is the draft that a chain begins with: an empty one, or a random one of small outlines, coloured or not,
// with and without subjects.
func firstDraft(kind byte) draft.Draft {
	all := symmetry.Groups()
	if kind == 0 {
		return draft.Default()
	}
	r := rand.New(rand.NewPCG(61, uint64(kind)))
	d := patterntest.Draft(r, all[int(kind)%len(all)].Symbol)
	if kind%2 == 0 {
		d = patterntest.Coloured(r, d)
	}
	if kind%3 == 0 {
		d = patterntest.Subjects(r, d, draft.Crop, draft.Whole, draft.Behind)
	}
	return d
}

func TestRandomChains(t *testing.T) {
	const seed = 61
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	taken, refused := map[string]int{}, map[string]int{}
	for n := range *chains {
		data := make([]byte, 20+r.IntN(800))
		for i := range data {
			data[i] = byte(r.Uint32())
		}
		c := newChain(t, firstDraft(byte(r.Uint32()&63)))
		c.taken, c.refused = taken, refused
		c.run(data, len(data))
		if t.Failed() {
			t.Fatalf("chain %d of seed %d", n, seed)
		}
	}
	for name, n := range refused {
		t.Logf("%s: %d taken, %d refused", name, taken[name], n)
		if known := (pattern.Command{Name: name}).Label() != ""; known != (taken[name] > 0) {
			t.Errorf("%s is known: %v", name, known)
		}
	}
}

func FuzzChain(f *testing.F) {
	r := rand.New(rand.NewPCG(62, 0))
	for i := range 40 {
		data := make([]byte, 10+r.IntN(200))
		for i := range data {
			data[i] = byte(r.Uint32())
		}
		f.Add(byte(i&7), data)
	}
	f.Fuzz(func(t *testing.T, kind byte, data []byte) {
		newChain(t, firstDraft(kind&7)).run(data, maxChain)
	})
}
