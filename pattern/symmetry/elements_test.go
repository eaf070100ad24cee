package symmetry

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"openwork/geometry"
)

// grain divides the cell into points among which every rotation point is.
const grain = 24

// onGrain calls f with every point of the cell at multiples of 1/grain.
func onGrain(f func(p [2]Fraction)) {
	for i := range grain {
		for j := range grain {
			f([2]Fraction{Frac(i, grain), Frac(j, grain)})
		}
	}
}

// inManyCells returns the seventeen; each again written in a cell of twice the sides, where there are more lines, more
// points, and translations along lines shorter than the cell; and each from an origin where nothing is.
func inManyCells() []Group {
	out := Groups()
	for _, g := range Groups() {
		h := fourfold(g)
		h.Symbol += " in a cell of four"
		m := moved(g, Frac(1, 8), Frac(1, 24))
		m.Symbol += " from another origin"
		out = append(out, h, m)
	}
	return out
}

func modPoint(p [2]Fraction) [2]Fraction { return [2]Fraction{p[0].Mod1(), p[1].Mod1()} }

// Brute force beside the elements: what every point of a fine grid has of rotations and mirrors is counted from the
// operations, and every listed point must be on that grid.
func TestRotationPointsByBruteForce(t *testing.T) {
	for _, g := range inManyCells() {
		listed := map[[2]Fraction]Element{}
		for _, e := range g.Elements() {
			if e.Kind != Turn {
				continue
			}
			if _, twice := listed[e.At]; twice {
				t.Errorf("%s: the rotation point %v is listed twice", g.Symbol, e.At)
			}
			listed[e.At] = e
			if e.Along != [2]int{} || e.Shift != [2]Fraction{Frac(0, 1), Frac(0, 1)} || e.At != modPoint(e.At) {
				t.Errorf("%s: %v is not as promised", g.Symbol, e)
			}
		}
		found := 0
		onGrain(func(p [2]Fraction) {
			turns, mirrors := 0, 0
			for _, f := range g.Fixing(p[0], p[1]) {
				if g.Ops[f.Op].Det() > 0 {
					turns++
				} else {
					mirrors++
				}
			}
			e, ok := listed[p]
			if ok != (turns > 1) {
				t.Errorf("%s: %v is left alone by %d rotations; listed: %v", g.Symbol, p, turns, ok)
			}
			if ok {
				found++
				if e.Order != turns || e.OnMirror != (mirrors > 0) {
					t.Errorf("%s: %v is left alone by %d rotations and %d mirrorings", g.Symbol, e, turns, mirrors)
				}
			}
		})
		if found != len(listed) {
			t.Errorf("%s: %d rotation points listed, %d of them on the grid", g.Symbol, len(listed), found)
		}
	}
}

// lineOf finds the listed line, if any, that a mirroring operation with whole cells added has: the midpoint of every
// point and its image lies on it. It returns the part of the translation along the line.
func lineOf(elements []Element, op Op) (line int, along [2]Fraction) {
	o, p := [2]Fraction{Frac(0, 1), Frac(0, 1)}, [2]Fraction{Frac(2, 7), Frac(3, 5)}
	line = slices.IndexFunc(elements, func(e Element) bool {
		if e.Kind == Turn {
			return false
		}
		for _, q := range [][2]Fraction{o, p} {
			r := op.Of(q)
			if !e.through([2]Fraction{product(q[0].Plus(r[0]), Frac(1, 2)), product(q[1].Plus(r[1]), Frac(1, 2))}) {
				return false
			}
		}
		return true
	})
	// Twice applied, the operation moves by twice the translation along the line.
	twice := op.Of(op.Of(o))
	return line, [2]Fraction{product(twice[0], Frac(1, 2)), product(twice[1], Frac(1, 2))}
}

// Brute force the other way: every mirroring operation, with whole cells added, has a listed line; a mirror is one that
// some operation leaves alone, and a glide has the least translation that occurs.
func TestLinesByBruteForce(t *testing.T) {
	for _, g := range inManyCells() {
		elements := g.Elements()
		shortest := make([]Fraction, len(elements)) // of the squares of the translations; Den 0 while none is met
		for _, op := range g.Ops {
			for m := -reach; m <= reach && op.Det() < 0; m++ {
				for n := -reach; n <= reach; n++ {
					moved := Op{W: op.W, T: [2]Fraction{op.T[0].Plus(Frac(m, 1)), op.T[1].Plus(Frac(n, 1))}}
					i, along := lineOf(elements, moved)
					if i < 0 {
						t.Errorf("%s: no line listed for %v", g.Symbol, moved)
						continue
					}
					e := elements[i]
					if product(along[0], Frac(e.Along[1], 1)) != product(along[1], Frac(e.Along[0], 1)) {
						t.Errorf("%s: %v moves by %v, which is not along %v", g.Symbol, moved, along, e.Along)
					}
					length := product(along[0], along[0]).Plus(product(along[1], along[1]))
					if shortest[i].Den == 0 || minus(length, shortest[i]).Num < 0 {
						shortest[i] = length
					}
				}
			}
		}
		for i, e := range elements {
			if e.Kind == Turn {
				continue
			}
			want := product(e.Shift[0], e.Shift[0]).Plus(product(e.Shift[1], e.Shift[1]))
			if shortest[i] != want || (e.Kind == Mirror) != (want.Num == 0) {
				t.Errorf("%s: %v, but the least translation met, squared, is %v", g.Symbol, e, shortest[i])
			}
			if e.At != modPoint(e.At) || !primitive(e.Along) || e.Along[0] < 0 || e.Order != 0 {
				t.Errorf("%s: %v is not as promised", g.Symbol, e)
			}
			for j, f := range elements[:i] {
				if f.Along == e.Along && f.through(e.At) {
					t.Errorf("%s: elements %d and %d are one line", g.Symbol, i, j)
				}
			}
		}
	}
}

// primitive says whether a direction's numbers have no common divisor.
func primitive(u [2]int) bool { d := geometry.GCD(u[0], u[1]); return d == 1 || d == -1 }

// imageIn returns the place in the list of the image of an element, worked out from points, not by what made the list.
func imageIn(elements []Element, op Op, e Element) int {
	at := op.Of(e.At)
	end := op.Of([2]Fraction{e.At[0].Plus(Frac(e.Along[0], 1)), e.At[1].Plus(Frac(e.Along[1], 1))})
	return slices.IndexFunc(elements, func(f Element) bool {
		if f.Kind != e.Kind || f.Order != e.Order || f.OnMirror != e.OnMirror {
			return false
		}
		if e.Kind == Turn {
			return f.At == modPoint(at)
		}
		run := [2]int{minus(end[0], at[0]).Num, minus(end[1], at[1]).Num}
		return f.through(at) && across(f.Along, run) == 0
	})
}

// The operations carry elements to elements of the same class, and reach all of the class.
func TestClassesAreOrbits(t *testing.T) {
	for _, g := range inManyCells() {
		elements := g.Elements()
		for i, e := range elements {
			reached := map[int]bool{}
			for k, op := range g.Ops {
				j := imageIn(elements, op, e)
				if j < 0 || !e.sameClass(elements[j]) {
					t.Errorf("%s: operation %d carries element %d out of its class", g.Symbol, k, i)
				}
				reached[j] = true
			}
			for j, f := range elements {
				if e.sameClass(f) && !reached[j] {
					t.Errorf("%s: elements %d and %d are of one class, but no operation carries one to the other",
						g.Symbol, i, j)
				}
			}
		}
	}
}

// The elements in one cell as the diagrams of the International Tables, volume A, show them, counted by hand: rotation
// points by order, then lines by direction as mirrors/glides.
var diagrams = map[string]string{
	"p1":   "",
	"p2":   "2:4",
	"pm":   "[0 1]:2/0",
	"pg":   "[0 1]:0/2",
	"cm":   "[0 1]:2/2",
	"p2mm": "2:4 [1 0]:2/0 [0 1]:2/0",
	"p2mg": "2:4 [0 1]:2/0 [1 0]:0/2",
	"p2gg": "2:4 [1 0]:0/2 [0 1]:0/2",
	"c2mm": "2:8 [1 0]:2/2 [0 1]:2/2",
	"p4":   "4:2 2:2",
	"p4mm": "4:2 2:2 [1 0]:2/0 [0 1]:2/0 [1 1]:1/1 [1 -1]:1/1",
	"p4gm": "4:2 2:2 [1 1]:1/1 [1 -1]:1/1 [1 0]:0/2 [0 1]:0/2",
	"p3":   "3:3",
	"p3m1": "3:3 [1 -1]:1/1 [2 1]:1/1 [1 2]:1/1",
	"p31m": "3:3 [1 0]:1/1 [0 1]:1/1 [1 1]:1/1",
	"p6":   "6:1 3:2 2:3",
	"p6mm": "6:1 3:2 2:3 [1 0]:1/1 [0 1]:1/1 [1 1]:1/1 [1 -1]:1/1 [2 1]:1/1 [1 2]:1/1",
}

func TestElementsAgreeWithTheDiagrams(t *testing.T) {
	for _, g := range Groups() {
		var keys []string
		points := map[string]int{}
		lines := map[string][2]int{}
		for _, e := range g.Elements() {
			key := fmt.Sprint(e.Along)
			n := lines[key]
			switch e.Kind {
			case Turn:
				key = fmt.Sprint(e.Order)
				points[key]++
			case Mirror:
				n[0]++
				lines[key] = n
			case Glide:
				n[1]++
				lines[key] = n
			}
			if !slices.Contains(keys, key) {
				keys = append(keys, key)
			}
		}
		var words []string
		for _, key := range keys {
			if n, ok := lines[key]; ok {
				words = append(words, fmt.Sprintf("%s:%d/%d", key, n[0], n[1]))
			} else {
				words = append(words, fmt.Sprintf("%s:%d", key, points[key]))
			}
		}
		if got := strings.Join(words, " "); got != diagrams[g.Symbol] {
			t.Errorf("%s has %q, want %q", g.Symbol, got, diagrams[g.Symbol])
		}
		if !slices.Equal(g.Elements(), g.Elements()) {
			t.Errorf("%s: the elements come differently each time", g.Symbol)
		}
	}
}

// Lines whose places a reader can check against the diagrams.
func TestKnownLines(t *testing.T) {
	for _, c := range []struct {
		group string
		kind  Kind
		along [2]int
		at    string // where the lines cross the axis they must cross
	}{
		{"cm", Mirror, [2]int{0, 1}, "0,0 1/2,0"},
		{"cm", Glide, [2]int{0, 1}, "1/4,0 3/4,0"},
		{"p2mg", Mirror, [2]int{0, 1}, "1/4,0 3/4,0"},
		{"p2mg", Glide, [2]int{1, 0}, "0,0 0,1/2"},
		{"p2gg", Glide, [2]int{1, 0}, "0,1/4 0,3/4"},
		{"p4mm", Glide, [2]int{1, 1}, "0,1/2"},
		{"p4gm", Mirror, [2]int{1, -1}, "0,1/2"},
		{"p31m", Glide, [2]int{1, 1}, "0,1/2"},
		{"p3m1", Glide, [2]int{2, 1}, "0,1/4"},
		{"p6mm", Glide, [2]int{1, 2}, "0,1/2"},
	} {
		t.Run(c.group, func(t *testing.T) {
			g, err := Find(c.group)
			if err != nil {
				t.Fatal(err)
			}
			var at []string
			for _, e := range g.Elements() {
				if e.Kind == c.kind && e.Along == c.along {
					at = append(at, e.At[0].String()+","+e.At[1].String())
				}
			}
			slices.Sort(at)
			if got := strings.Join(at, " "); got != c.at {
				t.Errorf("%s lines along %v: at %s, want %s", c.kind, c.along, got, c.at)
			}
		})
	}
}
