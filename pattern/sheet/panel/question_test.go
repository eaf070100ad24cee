package panel

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
)

// TestPanelQuestion writes the outlines of the benchmark's panel, for general libraries to be asked the same: which
// copies are nearer to each other than the bridge, and how large is the union of all? It writes only where
// OPENWORK_PANEL names a file, and always holds the number of near pairs against the check's own report.
func TestPanelQuestion(t *testing.T) {
	l, err := pattern.NewLayout(benchDraft(false), nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Measure(l)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	all, err := pieces(l, copies)
	if err != nil {
		t.Fatal(err)
	}
	met := newMeetings(all, copies).within(l.Draft.Sheet.Bridge)
	within := 0
	for _, p := range r.Problems {
		if p.Between != nil && p.Between[0] != p.Between[1] {
			within++
		}
	}
	if within != len(met) || within < 100 {
		t.Errorf("%d pairs are near, the report has %d", len(met), within)
	}
	path := os.Getenv("OPENWORK_PANEL")
	if path == "" {
		return
	}
	outlines := make([][][]orb.Point, len(all))
	for i := range all {
		for _, ring := range all[i].outline()[0] {
			outlines[i] = append(outlines[i], ring[:len(ring)-1])
		}
	}
	data, err := json.Marshal(map[string]any{"bridge": l.Draft.Sheet.Bridge, "outlines": outlines, "near": len(met),
		"area": r.OpenArea})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}
