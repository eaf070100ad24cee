package desk

import (
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
)

// With the whole panel in view marks keep apart, also those of different faults; close to, each place has its own.
func TestMarksKeepApart(t *testing.T) {
	k := benchWith(t, "p1", moth, [2]float64{10, 10}, 0)
	if err := k.Do(pattern.Command{Name: "cell", Values: map[string]float64{"a": 42, "b": 24}}); err != nil {
		t.Fatal(err)
	}
	var places []sheet.Problem
	for x := 30.0; x < 570; x += 21 {
		for y := 30.0; y < 870; y += 24 {
			places = append(places,
				sheet.Problem{Kind: sheet.Overlap, Severity: sheet.Fault, At: [2]float64{x, y}, Measured: 5})
		}
	}
	for _, p := range places[:400] { // another fault, at the same places
		p.Kind, p.Measured = sheet.Island, 80
		places = append(places, p)
	}
	k.Session.setFaults(say.Gather(places))
	count := func() (n int, nearest float64) {
		marks, _ := k.Session.Marks()
		nearest = 1e9
		for i, m := range marks {
			for _, o := range marks[:i] {
				nearest = min(nearest, geometry.PointDistance(m.At, o.At))
			}
		}
		return len(marks), nearest
	}
	n, nearest := count()
	if n < 20 || n > 300 || nearest < roomPX {
		t.Errorf("from far off: %d marks, the nearest two %g px apart", n, nearest)
	}
	k.View.Zoom, k.View.Centre = 5, places[300].At
	seen := 0
	for _, p := range k.Session.faults()[0].Places {
		if k.View.Window().Contains(p.At) {
			seen++
		}
	}
	if n, _ := count(); n < seen || seen < 20 {
		t.Errorf("close to: %d marks of %d places", n, seen)
	}
}
