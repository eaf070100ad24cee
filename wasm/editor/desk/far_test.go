package desk

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/wasm/editor/desk/view"
)

// However far away the view is taken, by whatever the page sends, it stays a view: rulers of a bounded length, a
// state that can be written, the panel found again.
func TestViewsVeryFarAway(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		name string
		do   func(k *Desk)
	}{
		{"panned a long way", func(k *Desk) {
			for range 40 {
				k.Wheel(300, 300, 1e300, -1e300, view.Shift)
			}
		}},
		{"panned by steps", func(k *Desk) {
			for range 20000 {
				k.Wheel(300, 300, 0, 5e4, view.Shift)
			}
		}},
		{"zoomed out at a far point", func(k *Desk) {
			for range 200 {
				k.Wheel(29000, -29000, 0, 1e300, 0)
			}
		}},
		{"zoomed in at a far point", func(k *Desk) {
			for range 200 {
				k.Wheel(-29000, 29000, 0, -1e300, 0)
			}
		}},
		{"a wheel without numbers", func(k *Desk) {
			for _, v := range []float64{nan, inf, -inf, 1e300} {
				k.Wheel(v, 300, 0, 100, 0)
				k.Wheel(300, v, 0, 100, 0)
				k.Wheel(300, 300, v, 100, view.Shift)
				k.Wheel(300, 300, 0, v, 0)
			}
		}},
		{"a pointer without numbers", func(k *Desk) {
			for _, v := range []float64{nan, inf, -inf, 1e300} {
				k.Pointer("down", 1, 200, 200, view.PanKey, "mouse")
				k.Pointer("move", 1, v, 210, view.PanKey, "mouse")
				k.Pointer("move", 1, 210, v, view.PanKey, "mouse")
				k.Pointer("up", 1, v, v, 0, "mouse")
				k.Pointer("cancel", 1, 0, 0, 0, "mouse")
			}
		}},
		{"fingers without numbers", func(k *Desk) {
			k.Pointer("down", 1, 200, 200, 0, "touch")
			k.Pointer("down", 2, 300, 300, 0, "touch")
			for _, v := range []float64{nan, 1e300, 29000} {
				k.Pointer("move", 2, v, -v, 0, "touch")
			}
			k.Pointer("up", 1, 200, 200, 0, "touch")
			k.Pointer("up", 2, 300, 300, 0, "touch")
		}},
		{"a canvas without a size", func(k *Desk) {
			for _, v := range []float64{nan, inf, -1, 1e300} {
				k.Resize(v, 700)
				k.Resize(900, v)
			}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, inches := range []bool{false, true} {
				k := demo(t)
				k.Session.Inches = inches
				c.do(k)
				v := k.View
				if !view.Finite(v.Zoom, v.Centre[0], v.Centre[1]) || v.Zoom < view.MinZoom || v.Zoom > view.MaxZoom ||
					math.Abs(v.Centre[0]) > view.MaxAway || math.Abs(v.Centre[1]) > view.MaxAway {
					t.Fatalf("the view is %+v", v)
				}
				across, up := k.View.Rulers(k.Session.Inches)
				if len(across) == 0 || len(up) == 0 || len(across) > view.MaxTicks+1 || len(up) > view.MaxTicks+1 {
					t.Errorf("%d and %d ticks", len(across), len(up))
				}
				if _, err := json.Marshal(k.State()); err != nil {
					t.Error(err)
				}
				k.fit()
				if len(k.Session.Visible()) == 0 {
					t.Error("the panel does not come back")
				}
			}
		})
	}
}

// A tie of the field as long as a thousand panels is refused in a sentence, and so is one that would become so, or
// that a smaller cell would repeat too often; what was there stays.
func TestTiesLongerThanTheField(t *testing.T) {
	k := demo(t)
	tie := func(to float64) pattern.Command {
		return pattern.Command{Name: "tie",
			Values: map[string]float64{"fromX": 0, "fromY": 0, "toX": to, "toY": 3, "width": 2}}
	}
	if err := k.Do(tie(1e6)); err == nil || !strings.HasPrefix(err.Error(), "ties[0]: the tie is 1000000 mm long") {
		t.Errorf("a tie of a kilometre: %v", err)
	}
	if err := k.Do(tie(700)); err != nil {
		t.Fatalf("a tie across the panel: %v", err)
	}
	before := string(k.Session.Draft().Encode())
	for _, c := range []pattern.Command{
		{Name: "panel", Values: map[string]float64{"width": 20000, "height": 20000}},
		{Name: "cell", Values: map[string]float64{"a": 3, "b": 3}},
		{Name: "retie", Values: map[string]float64{"index": 0, "toX": 1e6}},
	} {
		if err := k.Do(c); err == nil {
			t.Errorf("%s is taken", c.Name)
		}
	}
	if string(k.Session.Draft().Encode()) != before {
		t.Error("what was refused changed the draft")
	}
	if n := len(k.Ties()); n == 0 || n > pattern.MaxTieCopies {
		t.Errorf("%d ties are shown", n)
	}
}
