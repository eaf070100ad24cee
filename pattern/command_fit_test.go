package pattern_test

import (
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// fitOf is a fit as the engine could have found it: another cell, and the motifs moved and turned.
func fitOf(d draft.Draft, group string, side float64) pattern.Command {
	c := pattern.Command{Name: "fit", Text: "tightest", Repeat: &draft.Repeat{Group: group, A: side, B: side,
		Gamma: 90}}
	for i, m := range d.Motifs {
		m.At, m.Turn = [2]float64{float64(10 * i), 5}, 30
		c.Motifs = append(c.Motifs, m)
	}
	return c
}

func TestFitTakesRepeatAndMotifs(t *testing.T) {
	was := do(t, patterntest.Demo(t), pattern.Command{Name: "tie", Values: map[string]float64{
		"fromX": 1, "fromY": 2, "toX": 30, "toY": 40, "width": 2}})
	c := fitOf(was, "p4", 240)
	d := do(t, was, c)
	if d.Repeat != *c.Repeat || d.Motifs[0] != c.Motifs[0] || d.Title != was.Title || d.Panel != was.Panel ||
		!pattern.Fitted(d) {
		t.Errorf("the fit gives %+v, %+v", d.Repeat, d.Motifs)
	}
	if want := "fit: tightest in p4"; c.Label() != want {
		t.Errorf("the history calls it %q, not %q", c.Label(), want)
	}
	if pattern.Fitted(do(t, d, pattern.Command{Name: "place", ID: d.Motifs[0].ID,
		Values: map[string]float64{"turn": 31}})) {
		t.Error("a motif was turned since, and the draft is still said to be as it was fitted")
	}
}

// The group that a fitted draft has gives the group with the cell that stood before all fits.
func TestGroupAfterFit(t *testing.T) {
	was := do(t, patterntest.Demo(t), pattern.Command{Name: "tie", Values: map[string]float64{
		"fromX": 1, "fromY": 2, "toX": 30, "toY": 40, "width": 2}})
	want := do(t, was, pattern.Command{Name: "group", Text: "p4gm"})
	d := do(t, do(t, was, fitOf(was, "p4", 240)), fitOf(was, "p4gm", 260))
	if got := do(t, d, pattern.Command{Name: "group", Text: "p4gm"}); string(got.Encode()) != string(want.Encode()) ||
		pattern.Fitted(got) {
		t.Errorf("p4gm pressed again gives\n%s\nand not\n%s", got.Encode(), want.Encode())
	}
	if got := do(t, d, pattern.Command{Name: "group", Text: "p4"}); got.Repeat.A != 260 {
		t.Errorf("another group should keep the fitted cell, and makes it %+v", got.Repeat)
	}

	// A tie set since is not lost.
	tied := do(t, d, pattern.Command{Name: "tie", Values: map[string]float64{"fromX": 5, "fromY": 5, "toX": 9, "toY": 9,
		"width": 3}})
	if got := do(t, tied, pattern.Command{Name: "group", Text: "p4gm"}); len(got.Ties) != 2 ||
		got.Motifs[0] != want.Motifs[0] {
		t.Errorf("of two ties %d are left", len(got.Ties))
	}
}

func TestFitOfAnotherDraft(t *testing.T) {
	d := patterntest.Demo(t)
	for name, spoil := range map[string]func(c *pattern.Command){
		"no repeat":      func(c *pattern.Command) { c.Repeat = nil },
		"a motif less":   func(c *pattern.Command) { c.Motifs = c.Motifs[1:] },
		"another motif":  func(c *pattern.Command) { c.Motifs[0].ID = "other" },
		"no such group":  func(c *pattern.Command) { c.Repeat.Group = "p5" },
		"a cell askew":   func(c *pattern.Command) { c.Repeat.Gamma = 80 },
		"nothing across": func(c *pattern.Command) { c.Repeat.A = 0 },
	} {
		t.Run(name, func(t *testing.T) {
			c := fitOf(d, "p4", 240)
			spoil(&c)
			if _, err := pattern.Apply(d, c); err == nil {
				t.Error("it was taken")
			}
		})
	}
}
