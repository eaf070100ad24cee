package cutplan

import (
	"math"
	"slices"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// In inches the check bar is four inches long, and what is noted is in inches too.
func TestInchesOnTheSheet(t *testing.T) {
	d := patterntest.Demo(t)
	d.Panel = draft.Panel{Width: 200, Height: 260}
	o := Defaults()
	for units, want := range map[string]float64{"": 100, "mm": 100, "in": 101.6} {
		o.Units = units
		p, _ := built(t, d, o)
		longest := 0.0
		for _, c := range ofClass(p, ClassBar) {
			b := c.Path.Under(c.Map).Bound()
			longest = math.Max(longest, math.Max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))
		}
		if math.Abs(longest-want) > 1e-9 {
			t.Errorf("%q: the bar is %g mm long, want %g", units, longest, want)
		}
	}

	d.Panel = draft.Panel{Width: 90, Height: 90}
	d.Field.Origin = [2]float64{45, 45}
	p, _ := built(t, d, o)
	o.Units = "in"
	q, _ := built(t, d, o)
	if !slices.ContainsFunc(q.Made.Notes, func(s string) bool { return strings.Contains(s, "a check bar of 4 in") }) ||
		strings.Contains(strings.Join(q.Made.Notes, " "), " mm") || len(p.Made.Notes) != len(q.Made.Notes) {
		t.Errorf("noted %q, and in mm %q", q.Made.Notes, p.Made.Notes)
	}
	o.Units = "ell"
	if _, err := o.filled("card", draft.Laser); err == nil || !strings.Contains(err.Error(), `not in "ell"`) {
		t.Errorf("got %v", err)
	}
}
