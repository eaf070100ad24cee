package desk

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/say"
)

// turnNames are the words by which the sentences name a rotation point of each order.
var turnNames = map[int]*regexp.Regexp{
	2: regexp.MustCompile(`[Hh]alf[- ]turn`),
	3: regexp.MustCompile(`[Tt]hird[- ]turn|by thirds`),
	4: regexp.MustCompile(`[Qq]uarter[- ]turn|by quarters`),
	6: regexp.MustCompile(`[Ss]ixth[- ]turn|by sixths`),
}

var numbers = map[string]int{"three": 3, "four": 4, "six": 6, "eight": 8, "twelve": 12}

var (
	notThere  = regexp.MustCompile(`no (mirror|glide|rotation point)s?`)
	howMany   = regexp.MustCompile(`(?i)(three|four|six|eight|twelve) copies`)
	mirrorRun = regexp.MustCompile(`Mirrors run (three|six) ways`)
	shareOf   = regexp.MustCompile(`an? (quarter|eighth|twelfth) of the cell`)
)

// orders returns the orders of rotation that a group has, and whether all its rotation points lie on mirrors.
func orders(g symmetry.Group) (have map[int]bool, allOn, anyOff bool) {
	have, allOn = map[int]bool{}, true
	for _, e := range g.Elements() {
		if e.Kind == symmetry.Turn {
			have[e.Order] = true
			allOn = allOn && e.OnMirror
			anyOff = anyOff || !e.OnMirror
		}
	}
	return have, allOn, anyOff
}

func TestEachGroupHasThreeSentences(t *testing.T) {
	seen := map[string]string{}
	cards := GroupCards()
	if len(cards) != 17 {
		t.Fatalf("%d groups", len(cards))
	}
	for _, c := range cards {
		if len(c.About) != 3 {
			t.Fatalf("%s: %d sentences", c.Symbol, len(c.About))
		}
		for _, s := range c.About {
			if len(s) < 20 || !strings.HasSuffix(s, ".") || strings.Count(s, ".") != 1 || strings.TrimSpace(s) != s {
				t.Errorf("%s: not one sentence: %q", c.Symbol, s)
			}
			if other, ok := seen[s]; ok {
				t.Errorf("%s and %s: the same sentence %q", other, c.Symbol, s)
			}
			seen[s] = c.Symbol
		}
	}
}

// What the sentences say of mirrors, glides and rotation points is so.
func TestSentencesAgreeWithTheFacts(t *testing.T) {
	for _, g := range symmetry.Groups() {
		f := g.Facts()
		about := say.GroupAbout[g.Symbol]
		text := strings.Join(about[:], " ")
		have, allOn, anyOff := orders(g)
		denied := map[string]bool{}
		for _, m := range notThere.FindAllStringSubmatch(text, -1) {
			denied[m[1]] = true
		}
		said := notThere.ReplaceAllString(text, "")
		claims := []struct {
			what   string
			claims bool
			is     bool
		}{
			{"mirrors", strings.Contains(strings.ToLower(said), "mirror"), f.Mirrors},
			{"no mirror", denied["mirror"], !f.Mirrors},
			{"glides", strings.Contains(strings.ToLower(said), "glide"), f.Glides},
			{"no glide", denied["glide"], !f.Glides},
			{"rotation points", strings.Contains(said, "rotation point"), f.Order > 1},
			{"no rotation point", denied["rotation point"], f.Order == 1},
			{"every rotation point on mirrors", strings.Contains(said, "every rotation point"), allOn && f.Order > 1},
			{"points off the mirrors", strings.Contains(said, "off the mirrors"), anyOff},
		}
		for _, c := range claims {
			if c.claims && !c.is {
				t.Errorf("%s has it otherwise: %s: %q", g.Symbol, c.what, text)
			}
		}
		// What is the first to be looked for must be told.
		if f.Mirrors != strings.Contains(strings.ToLower(said), "mirror") || f.Mirrors == denied["mirror"] {
			t.Errorf("%s: whether there are mirrors is not told: %q", g.Symbol, text)
		}
		if f.Order > 1 && !turnNames[f.Order].MatchString(text) {
			t.Errorf("%s: turns of order %d are not told: %q", g.Symbol, f.Order, text)
		}
		for order, name := range turnNames {
			if name.MatchString(text) && !have[order] {
				t.Errorf("%s has no rotation point of order %d: %q", g.Symbol, order, text)
			}
		}
		if m := mirrorRun.FindStringSubmatch(text); m != nil && numbers[m[1]] != f.MirrorWays {
			t.Errorf("%s: mirrors run %d ways: %q", g.Symbol, f.MirrorWays, text)
		}
		if strings.Contains(text, "Mirrors run upright only") && f.MirrorWays != 1 ||
			strings.Contains(text, "Mirrors run upright and level") && f.MirrorWays != 2 ||
			strings.Contains(text, "upright, level and along both diagonals") && f.MirrorWays != 4 ||
			strings.Contains(text, "along the diagonals only") && f.MirrorWays != 2 {
			t.Errorf("%s: mirrors run %d ways: %q", g.Symbol, f.MirrorWays, text)
		}
		// Copies stand about a point in as many images as the place has operations.
		for _, m := range howMany.FindAllStringSubmatch(text, -1) {
			n := numbers[strings.ToLower(m[1])]
			if !slices.ContainsFunc(g.Sites(), func(s symmetry.Site) bool { return s.Order == n }) {
				t.Errorf("%s: nowhere do %d copies stand about a point: %q", g.Symbol, n, text)
			}
		}
		if m := shareOf.FindStringSubmatch(text); m != nil {
			if n := map[string]int{"quarter": 4, "eighth": 8, "twelfth": 12}[m[1]]; len(g.Ops) != n {
				t.Errorf("%s: a copy has a share of 1/%d of the cell: %q", g.Symbol, len(g.Ops), text)
			}
		}
	}
}

// Where the sentences say that things lie, they lie: in shares of the cell.
func TestPlacesInTheSentences(t *testing.T) {
	half, zero := symmetry.Frac(1, 2), symmetry.Frac(0, 1)
	corner, centre := [2]symmetry.Fraction{zero, zero}, [2]symmetry.Fraction{half, half}
	sides := [][2]symmetry.Fraction{{half, zero}, {zero, half}}
	third, twoThirds := symmetry.Frac(1, 3), symmetry.Frac(2, 3)
	triangles := [][2]symmetry.Fraction{{twoThirds, third}, {third, twoThirds}}
	for _, c := range []struct {
		group  string
		order  int
		places [][2]symmetry.Fraction
	}{
		{"p2", 2, append([][2]symmetry.Fraction{corner, centre}, sides...)},
		{"p4", 4, [][2]symmetry.Fraction{corner, centre}},
		{"p4", 2, sides},
		{"p3", 3, append([][2]symmetry.Fraction{corner}, triangles...)},
		{"p31m", 3, append([][2]symmetry.Fraction{corner}, triangles...)},
		{"p6", 6, [][2]symmetry.Fraction{corner}},
		{"p6", 3, triangles},
		{"p6", 2, append([][2]symmetry.Fraction{centre}, sides...)},
	} {
		t.Run(fmt.Sprintf("%s, order %d", c.group, c.order), func(t *testing.T) {
			g, err := symmetry.Find(c.group)
			if err != nil {
				t.Fatal(err)
			}
			n := 0
			for _, e := range g.Elements() {
				if e.Kind == symmetry.Turn && e.Order == c.order {
					n++
					if !slices.Contains(c.places, e.At) {
						t.Errorf("a point lies at %v", e.At)
					}
				}
			}
			if n != len(c.places) {
				t.Errorf("%d points, want %d", n, len(c.places))
			}
		})
	}
	for _, c := range []struct {
		group string
		kind  symmetry.Kind
		at    []symmetry.Fraction // of upright lines, along a
	}{
		{"pm", symmetry.Mirror, []symmetry.Fraction{zero, half}},
		{"pg", symmetry.Glide, []symmetry.Fraction{zero, half}},
		{"cm", symmetry.Mirror, []symmetry.Fraction{zero, half}},
		{"cm", symmetry.Glide, []symmetry.Fraction{symmetry.Frac(1, 4), symmetry.Frac(3, 4)}},
	} {
		t.Run(fmt.Sprintf("%s, %s", c.group, c.kind), func(t *testing.T) {
			g, err := symmetry.Find(c.group)
			if err != nil {
				t.Fatal(err)
			}
			n := 0
			for _, e := range g.Elements() {
				if e.Kind == c.kind {
					n++
					if e.Along != [2]int{0, 1} || !slices.Contains(c.at, e.At[0]) {
						t.Errorf("a line along %v at %v", e.Along, e.At)
					}
				}
			}
			if n != len(c.at) {
				t.Errorf("%d lines, want %d", n, len(c.at))
			}
		})
	}
}
