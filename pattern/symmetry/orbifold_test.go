package symmetry

import (
	"slices"
	"testing"
)

// signatures as published: J. H. Conway, D. H. Huson, "The Orbifold Notation for Two-Dimensional Groups", Structural
// Chemistry 13 (2002), beside the Tables' symbols.
var signatures = map[string]string{
	"p1": "o", "p2": "2222", "pm": "**", "pg": "××", "cm": "*×", "p2mm": "*2222", "p2mg": "22*", "p2gg": "22×",
	"c2mm": "2*22", "p4": "442", "p4mm": "*442", "p4gm": "4*2", "p3": "333", "p3m1": "*333", "p31m": "3*3",
	"p6": "632", "p6mm": "*632",
}

// cost returns what a signature costs by Conway's and Huson's list: a ring 2, a star or a cross 1, a number n before
// the stars (n − 1)/n, after one (n − 1)/2n.
func cost(signature string) Fraction {
	sum, factor := Frac(0, 1), 1
	for _, c := range signature {
		switch {
		case c == 'o':
			sum = sum.Plus(Frac(2, 1))
		case c == '*':
			sum, factor = sum.Plus(Frac(1, 1)), 2
		case c == '×':
			sum = sum.Plus(Frac(1, 1))
		default:
			n := int(c - '0')
			sum = sum.Plus(Frac(n-1, n*factor))
		}
	}
	return sum
}

func TestOrbifoldSymbolsAreThePublishedOnes(t *testing.T) {
	for _, g := range Groups() {
		if g.Orbifold != signatures[g.Symbol] {
			t.Errorf("%s: %q computed from the operations, %q published", g.Symbol, g.Orbifold, signatures[g.Symbol])
		}
		if c := cost(g.Orbifold); c != Frac(2, 1) {
			t.Errorf("%s: %q costs %v, want exactly 2", g.Symbol, g.Orbifold, c)
		}
	}
	for _, c := range []struct {
		signature string
		want      Fraction
	}{{"", Frac(0, 1)}, {"532", Frac(59, 30)}, {"*532", Frac(119, 60)}, {"732", Frac(85, 42)}, {"2*2", Frac(7, 4)}} {
		t.Run(c.signature, func(t *testing.T) {
			if got := cost(c.signature); got != c.want {
				t.Errorf("%q costs %v, want %v", c.signature, got, c.want)
			}
		})
	}
}

// A group keeps its signature when its operations come in another order, from another origin, or in a cell with more
// translations; the operations are all the signature is computed from.
func TestOrbifoldSymbolDependsOnTheGroupAlone(t *testing.T) {
	for _, g := range Groups() {
		turned := g
		turned.Ops = slices.Clone(g.Ops)
		slices.Reverse(turned.Ops)
		for name, h := range map[string]Group{
			"operations backwards": turned, "another origin": moved(g, Frac(1, 5), Frac(2, 7)),
			"a cell of four": fourfold(g),
		} {
			t.Run(name, func(t *testing.T) {
				if got := h.signature(); got != g.Orbifold {
					t.Errorf("%s, %s: %q, want %q", g.Symbol, name, got, g.Orbifold)
				}
			})
		}
	}
}

// moved returns the same group with everything moved on by x and y of a cell.
func moved(g Group, x, y Fraction) Group {
	h := g
	h.Ops = nil
	there := Op{W: [2][2]int{{1, 0}, {0, 1}}, T: [2]Fraction{x, y}}
	for _, op := range g.Ops {
		h.Ops = append(h.Ops, there.After(op).After(there.Inverse()).Reduced())
	}
	return h
}

// fourfold returns the same group written in a cell of twice the sides: every operation four times.
func fourfold(g Group) Group {
	h := g
	h.Ops = nil
	for m := range 2 {
		for n := range 2 {
			for _, op := range g.Ops {
				t := [2]Fraction{product(op.T[0].Plus(Frac(m, 1)), Frac(1, 2)),
					product(op.T[1].Plus(Frac(n, 1)), Frac(1, 2))}
				h.Ops = append(h.Ops, Op{W: op.W, T: t})
			}
		}
	}
	return h
}
