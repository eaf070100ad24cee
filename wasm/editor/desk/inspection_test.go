package desk

import (
	"reflect"
	"testing"
	"time"

	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
)

// Where a look takes long, what an earlier step of the same hand showed stays until the page has the panel looked at;
// then it is painted once more. A hand that lets go, and a look that takes no time, are never shown with anything old.
func TestLooksAreHadWhenTheHandCanWait(t *testing.T) {
	k := demo(t)
	p := centre(k, someCopy(t, k, 0))
	k.Pointer("down", 1, p[0], p[1], 0, "mouse")
	looks := func() int { return k.Session.inspection.looks }
	painted := func() (shown []say.Fault, live sheet.Live) {
		k.Session.Show(func() { shown, live = k.Session.shown(), k.Session.Live() })
		return shown, live
	}
	step := func(dx float64, cost time.Duration) {
		t.Helper()
		k.Session.inspection.cost = cost
		k.Pointer("move", 1, p[0]+dx, p[1], 0, "mouse")
		k.Session.Redraw, k.Session.Changed = false, false
	}

	step(4, time.Hour)
	faults, live := painted() // the first step of a hand is looked at, whatever it takes
	before := looks()
	step(9, time.Hour)
	nowFaults, nowLive := painted()
	if !reflect.DeepEqual(nowFaults, faults) || !reflect.DeepEqual(nowLive, live) || looks() != before ||
		k.Session.Redraw {
		t.Errorf("painted after %d looks, though the look before took an hour", looks()-before)
	}

	step(14, time.Hour)
	k.Session.LookAgain()
	if looks() != before+1 || !k.Session.Redraw || !k.Session.Changed {
		t.Errorf("%d looks; to be painted once more: %v", looks()-before, k.Session.Redraw)
	}
	if nowFaults, nowLive = painted(); reflect.DeepEqual(nowLive, live) || reflect.DeepEqual(nowFaults, faults) {
		t.Error("the panel was looked at, and what was there before is shown")
	}

	step(19, affordable/2)
	before = looks()
	if painted(); looks() != before+1 {
		t.Error("a look that takes no time is put off")
	}
	step(24, time.Hour)
	k.Pointer("up", 1, p[0]+24, p[1], 0, "mouse")
	k.Session.inspection.cost = time.Hour
	if painted(); k.Session.inspection.layout != nil {
		t.Error("the hand has let go, and the panel is not looked at")
	}
}
