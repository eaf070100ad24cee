package pattern_test

import (
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// chain holds a history against a plain model of one: the texts of all drafts, and where in them it stands.
type chain struct {
	t       *testing.T
	h       *pattern.History
	shapes  *pattern.Shapes
	now     string
	past    []string
	future  []string
	from    string // of the open gesture
	open    bool
	changed bool
	taken   map[string]int // commands by name that were taken, and refused
	refused map[string]int
}

func newChain(t *testing.T, d draft.Draft) *chain {
	return &chain{t: t, h: pattern.NewHistory(d), shapes: pattern.NewShapes(), now: string(d.Encode()),
		taken: map[string]int{}, refused: map[string]int{}}
}

func (c *chain) settle() {
	if c.open && c.changed {
		c.past, c.future = append(c.past, c.from), nil
		if len(c.past) > pattern.HistoryDepth {
			c.past = c.past[1:]
		}
	}
	c.open, c.changed = false, false
}

func (c *chain) begin() {
	c.settle()
	c.from, c.open = c.now, true
}

// try makes a command, in or out of a gesture; the draft it leaves is gone through.
func (c *chain) try(cmd pattern.Command, alone bool) {
	do := c.h.Try
	if alone {
		do = c.h.Do
		c.begin()
	}
	if err := do(cmd); err == nil {
		c.taken[cmd.Name]++
		c.now, c.changed = string(c.h.Draft().Encode()), true
		soundDraft(c.t, c.h.Draft(), c.shapes)
	} else if c.refused[cmd.Name]++; err.Error() == "" {
		c.t.Fatalf("%+v is refused without a word", cmd)
	}
	if alone {
		c.settle()
	}
}

func (c *chain) travel(step func() bool, from, to *[]string) {
	c.settle()
	n := len(*from)
	if step() != (n > 0) {
		c.t.Fatalf("a step from %d entries is said to be %v", n, n == 0)
	}
	if n > 0 {
		*to = append(*to, c.now)
		c.now, *from = (*from)[n-1], (*from)[:n-1]
	}
}

// same holds the open draft against the model's, to the byte.
func (c *chain) same(what string) {
	c.t.Helper()
	if got := string(c.h.Draft().Encode()); got != c.now {
		c.t.Fatalf("%s: the draft is\n%s\nand should be\n%s", what, got, c.now)
	}
}

// thereAndBack goes through some plane groups and back to the first, which brings back the draft to the byte.
func (c *chain) thereAndBack(s *patterntest.Stream) {
	all := symmetry.Groups()
	was := c.h.Draft()
	if pattern.Fitted(was) {
		return // its own group takes the fit back
	}
	d := was
	for range 1 + s.Pick(3) {
		next, err := pattern.Apply(d, pattern.Command{Name: "group", Text: all[s.Pick(len(all))].Symbol})
		if err != nil {
			return // its cell would be too small or too large
		}
		d = next
	}
	d, err := pattern.Apply(d, pattern.Command{Name: "group", Text: was.Repeat.Group})
	if err != nil {
		c.t.Fatalf("there is no way back to %s: %v", was.Repeat.Group, err)
	}
	if string(d.Encode()) != string(was.Encode()) {
		c.t.Fatalf("there and back from %s gives\n%s\nnot\n%s", was.Repeat.Group, d.Encode(), was.Encode())
	}
}
