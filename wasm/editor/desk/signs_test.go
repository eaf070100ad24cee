package desk

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/symmetry"
)

// Every sign of the cell lies where the operations say: reflected in a drawn mirror, or turned about a drawn point, a
// copy of the field falls on a copy. Looked at close to and from far.
func TestSignsLieOnTheElements(t *testing.T) {
	for _, g := range symmetry.Groups() {
		for _, zoom := range []float64{1.3, 0.2} {
			k := benchWith(t, g.Symbol, leaning, orb.Point{60, 60}, 0)
			if len(k.signs.Shown()) != 0 || k.signs.Unit() != nil {
				t.Fatal("signs before they are switched on")
			}
			if err := k.Act("signs"); err != nil {
				t.Fatal(err)
			}
			k.View.Zoom = zoom
			list := g.Elements()
			seen := map[int]bool{}
			back, _ := k.View.Map().After(k.Session.Draft().FieldMap()).Inverse()
			for _, s := range k.signs.Shown() {
				seen[s.Element] = true
				if b := signBound(k, zoom < 1).Pad(0.01); s.Kind == symmetry.Turn && !b.Contains(s.A) {
					t.Errorf("%s at zoom %g: a rotation point at %v, outside %v", g.Symbol, zoom, s.A, b)
				}
				p := back.Apply(s.A)
				if s.Kind == symmetry.Glide {
					continue
				}
				there, ok := k.Session.layout.Special(p, 0.01)
				if !ok || math.Hypot(there[0]-p[0], there[1]-p[1]) > 1e-6 {
					t.Errorf("%s at zoom %g: a %s at %v where there is none", g.Symbol, zoom, s.Kind, p)
				}
				q := back.Apply(s.B)
				there, ok = k.Session.layout.Special(q, 0.01)
				if !ok || math.Hypot(there[0]-q[0], there[1]-q[1]) > 1e-6 {
					t.Errorf("%s at zoom %g: a %s ends at %v, off the element", g.Symbol, zoom, s.Kind, q)
				}
			}
			if len(seen) != len(list) {
				t.Errorf("%s at zoom %g: %d of %d elements are drawn", g.Symbol, zoom, len(seen), len(list))
			}
			for range 2 * len(list) {
				if err := k.Act("next-sign"); err != nil {
					t.Fatal(err)
				}
				if text := k.State().Signs.Text; text != list[k.signs.Current].Sentence() {
					t.Errorf("%s: %q", g.Symbol, text)
				}
			}
		}
	}
}

// The pointer on a sign reads it.
func TestPointerReadsSigns(t *testing.T) {
	k := benchWith(t, "p4mm", leaning, orb.Point{60, 60}, 0)
	if err := k.Act("signs"); err != nil {
		t.Fatal(err)
	}
	for _, s := range k.signs.Shown() {
		k.Pointer("move", 1, s.A[0]+2, s.A[1]+1, 0, "mouse")
		if k.signs.Current < 0 {
			t.Errorf("nothing is read at %v", s.A)
		} else if e := k.signs.Elements()[k.signs.Current]; s.Kind == symmetry.Turn && e.Order != s.Order {
			t.Errorf("at a point of order %d: %q", s.Order, e.Sentence())
		}
	}
}

// signBound is where signs are drawn, in CSS px: the field as far as it is seen, or the one cell.
func signBound(k *Desk, small bool) orb.Bound {
	if !small {
		return k.signs.Bound()
	}
	h := k.Handles()
	return orb.Bound{Min: h.Origin, Max: h.Origin}.Extend(h.A).Extend(h.B).Extend(h.Far)
}
