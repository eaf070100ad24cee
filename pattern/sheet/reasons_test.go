package sheet

import (
	"strings"
	"testing"
)

// Whatever the report holds, few sentences go into a file, the worst first, and the rest is counted as the report
// counts it.
func TestReasonsAreFewAndTrue(t *testing.T) {
	var l Listing
	for i := range 300 {
		width := 1 + float64(i)/100
		l.Add(Problem{Kind: Bridge, Severity: Fault, Measured: width, Text: strings.Repeat("x", i+1)})
		l.Add(Problem{Kind: Tip, Severity: Warning, Measured: width, Text: "A tip."})
	}
	l.Add(Problem{Kind: Island, Severity: Fault, Measured: 3, Text: "Small."})
	l.Add(Problem{Kind: Island, Severity: Fault, Measured: 9, Text: "Large."})
	l.Count(Overlap, Fault, 5000, false)
	var r Report
	r.Problems, r.Totals = l.Result()
	want := []string{"And at least 5000 more overlaps.", "Large.", "Small.", "x", "xx", "xxx",
		"And 297 more bridges too thin."}
	if got := strings.Join(r.Reasons(), "|"); got != strings.Join(want, "|") {
		t.Errorf("the file says %s", got)
	}
	var counts []string
	for _, k := range r.Faults(5) {
		counts = append(counts, k.Count())
		if want := min(5, k.Total.Count); len(k.Worst) != want && k.Total.Kind != Overlap {
			t.Errorf("%s: %d are written out", k.Count(), len(k.Worst))
		}
	}
	if got := strings.Join(counts,
		", "); got != "at least 5000 overlaps, 2 islands that would drop out, 300 bridges too thin" {
		t.Errorf("counted are %s", got)
	}
}
