package symmetry

import (
	"slices"
	"strings"
	"testing"
)

// Sentences a reader can check beside the element they are about.
func TestSentences(t *testing.T) {
	for _, c := range []struct {
		group    string
		kind     Kind
		order    int
		along    [2]int
		sentence string
	}{
		{"pm", Mirror, 0, [2]int{0, 1}, "Mirror: what lies on one side lies on the other too, reversed."},
		{"pg", Glide, 0, [2]int{0, 1}, "Glide: mirrored here and moved along by half a cell, in the direction of b."},
		{"p2mg", Glide, 0, [2]int{1, 0}, "Glide: mirrored here and moved along by half a cell, in the direction of a."},
		{"p4mm", Glide, 0, [2]int{1, -1}, "Glide: mirrored here and moved along by half the cell's diagonal."},
		{"p6mm", Glide, 0, [2]int{2, 1},
			"Glide: mirrored here and moved along by half the way to the corner 2 along a and 1 along b."},
		{"p2", Turn, 2, [2]int{},
			"Rotation point: given a half turn (180°) about it, the field falls on itself; no mirror goes through it."},
		{"p4mm", Turn, 4, [2]int{},
			"Rotation point: given a quarter turn (90°) about it, the field falls on itself; 4 mirrors cross here."},
		{"p3m1", Turn, 3, [2]int{}, "Rotation point: given a third of a turn (120°) about it, the field falls on " +
			"itself; 3 mirrors cross here."},
		{"p6", Turn, 6, [2]int{}, "Rotation point: given a sixth of a turn (60°) about it, the field falls on " +
			"itself; no mirror goes through it."},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			g, err := Find(c.group)
			if err != nil {
				t.Fatal(err)
			}
			elements := g.Elements()
			i := slices.IndexFunc(elements, func(e Element) bool {
				return e.Kind == c.kind && e.Order == c.order && e.Along == c.along
			})
			if i < 0 {
				t.Errorf("%s has no such %s", c.group, c.kind)
			} else if got := elements[i].Sentence(); got != c.sentence {
				t.Errorf("%q, want %q", got, c.sentence)
			}
		})
	}
}

// Every element has a whole sentence; the number of mirrors it speaks of is the number of lines through the point.
func TestEveryElementHasASentence(t *testing.T) {
	for _, g := range Groups() {
		elements := g.Elements()
		for _, e := range elements {
			s := e.Sentence()
			if !strings.HasSuffix(s, ".") || strings.Contains(s, "/") || strings.Contains(s, "  ") ||
				strings.Contains(s, "given about") {
				t.Errorf("%s: %q", g.Symbol, s)
			}
			if e.OnMirror {
				lines := 0
				for _, m := range elements {
					if m.Kind == Mirror && m.through(e.At) {
						lines++
					}
				}
				if lines != e.Order {
					t.Errorf("%s: %d mirrors go through %v, its sentence says %q", g.Symbol, lines, e.At, s)
				}
			}
		}
	}
	for _, e := range []Element{{}, {Kind: Glide}, {Kind: Turn, Order: 5}} {
		t.Logf("not an element, and no panic: %q", e.Sentence())
	}
}
