package desk

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/pen"
	"openwork/wasm/editor/desk/view"
)

// Set by pointer, by key and by number: the same square.
func TestSetPoints(t *testing.T) {
	for name, put := range map[string]func(k *Desk){
		"pressed": func(k *Desk) {
			for _, p := range []orb.Point{{0, 0}, {40, 0}, {40, 40}, {0, 40}} {
				press(k, p, 0)
			}
			press(k, orb.Point{0, 0}, 0)
		},
		"by keys": func(k *Desk) {
			k.View.Centre = orb.Point{}
			key := func(name string, mods, times int) {
				for range times {
					k.Key(name, mods, true, false)
					k.Key(name, mods, false, false)
				}
			}
			key("i", 0, 1)
			key("i", 0, 1)
			key("ArrowRight", view.Shift, 3)
			key("i", 0, 1)
			key("ArrowLeft", 0, 10)
			key("ArrowUp", view.Shift, 4)
			key("i", 0, 1)
			key("ArrowLeft", view.Shift, 5)
			key("Enter", 0, 1)
		},
		"by numbers": func(k *Desk) {
			for _, p := range []orb.Point{{0, 0}, {40, 0}, {40, 40}, {0, 40}} {
				k.Key("i", 0, true, false)
				k.Key("i", 0, false, false)
				_ = k.Pen("x", "", p[0])
				_ = k.Pen("y", "", p[1])
			}
			k.Key("Escape", 0, true, false)
		},
	} {
		t.Run(name, func(t *testing.T) {
			k := drawingDesk(t, 900, 700)
			set(t, k, "way", pen.Points, 0)
			put(k)
			a, b := measure(silhouette(t, k))
			if math.Abs(a-1600) > 1 || math.Abs(b.Max[0]-40) > 0.01 || math.Abs(b.Max[1]-40) > 0.01 {
				t.Errorf("%.2f mm² in %v", a, b)
			}
		})
	}
}

// Points of a square are moved, taken out, set, rounded and sharpened, by pointer and by key; what cannot be is
// refused with its place, and leaves the outline as it was.
func TestMendPoints(t *testing.T) {
	k := New(draft.Default())
	k.Resize(900, 700)
	square := orb.MultiPolygon{{{{0, 0}, {40, 0}, {40, 40}, {0, 40}, {0, 0}}}}
	if err := k.Do(pattern.Command{Name: "draw", Text: "Square", Outline: square}); err != nil {
		t.Fatal(err)
	}
	set(t, k, "open", k.Session.Draft().Silhouettes[0].ID, 0)
	area := func() float64 { return geometry.Area(silhouette(t, k)) }
	act := func(name string) {
		t.Helper()
		if err := k.Act(name); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	if n := len(k.pen.Shape().Rings()[0].Nodes); n != 4 {
		t.Fatalf("a square has %d points", n)
	}
	// A corner dragged by (10, 10).
	from, to := k.View.Map().Apply(orb.Point{40, 40}), k.View.Map().Apply(orb.Point{50, 50})
	drag(k, from, orb.Point{to[0] - from[0], to[1] - from[1]})
	if math.Abs(area()-2000) > 1 {
		t.Errorf("a corner pulled out: %.1f mm²", area())
	}
	act("undo")
	// Across the square: refused.
	to = k.View.Map().Apply(orb.Point{-30, 10})
	drag(k, from, orb.Point{to[0] - from[0], to[1] - from[1]})
	if math.Abs(area()-1600) > 1e-9 || k.Session.message == nil || k.Session.message.Tone != "error" {
		t.Errorf("crossing itself: %.1f mm², message %v", area(), k.Session.message)
	}
	// All corners round: nearly the circle through them.
	press(k, orb.Point{0, 0}, 0)
	press(k, orb.Point{0, 40}, view.Shift)
	act("draw-round")
	if want := math.Pi * 800; math.Abs(area()-want) > 0.003*want {
		t.Errorf("four round points on a circle of %.0f mm² make %.0f", want, area())
	}
	act("draw-corner")
	act("draw-straight")
	if err := k.Act("draw-corner"); err == nil {
		t.Error("corners are made corners, as if that were something")
	}
	if a := area(); a < 1590 || a > 2000 {
		t.Errorf("corners again: %.0f mm²", a)
	}
	for range 3 {
		act("undo")
	}
	// A point set into the pressed side, moved by numbers, and taken out.
	press(k, orb.Point{30, 0}, 0)
	act("draw-set")
	if x := k.State().Pen.X; x == nil || math.Abs(*x-30) > 0.3 {
		t.Errorf("the point was set at %v, not where it was pressed", x)
	}
	set(t, k, "y", "", -10)
	if math.Abs(area()-1800) > 1 {
		t.Errorf("a side pulled out by 10 mm: %.1f mm²", area())
	}
	k.Key("Delete", 0, true, false)
	if math.Abs(area()-1600) > 1e-6 {
		t.Errorf("taken out: %.1f mm²", area())
	}
	// The side bent outward.
	from, to = k.View.Map().Apply(orb.Point{20, 0}), k.View.Map().Apply(orb.Point{20, -10})
	drag(k, from, orb.Point{to[0] - from[0], to[1] - from[1]})
	if a := area(); a < 1800 || a > 1950 {
		t.Errorf("bent out by 10 mm: %.1f mm²", a)
	}
	if err := k.Pen("point", "", 17); err == nil {
		t.Error("there is a point 17")
	}
}
