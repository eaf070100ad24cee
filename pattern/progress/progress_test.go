package progress

import (
	"slices"
	"testing"
)

// Stages fill their share of the whole, in order; small steps are held back, the end is reported once.
func TestStagesAndSteps(t *testing.T) {
	var report []float64
	f := Rising(0.0999, func(part float64) { report = append(report, part) })
	first, second := f.Within(0, 0.5), f.Within(0.5, 1)
	for k := range 11 {
		first.Of(k, 10)
	}
	second.At(0.01)
	second.At(0.5)
	second.Of(0, 0)
	second.At(3)
	if want := []float64{0.1, 0.2, 0.30000000000000004, 0.4, 0.5, 0.75, 1}; !slices.EqualFunc(report, want,
		func(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }) {
		t.Errorf("told %v, want %v", report, want)
	}
	Func(nil).At(1)
	Func(nil).Within(0, 1).Of(1, 2)
}
