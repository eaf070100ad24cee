package fit

import (
	"encoding/json"
	"flag"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

var (
	compare   = flag.Int("compare", 0, "silhouettes to fit beside a general optimiser; 0 skips the comparison")
	compareTo = flag.String("compare-to", "", "file for the comparison's rows")
	long      = flag.Duration("long", 60*time.Second, "how long the longest search of the comparison takes")
)

// side is a row of the comparison, as web/bench reads it: times in ms, covers in parts of what the longest search
// found.
type side struct {
	Name  string  `json:"name"`
	Asked int     `json:"asked"`
	MS    float64 `json:"ms"`
	Cover float64 `json:"cover"`
	Least float64 `json:"least"`
}

// Random silhouettes of 300 points, each in one group: the usual effort, a search of a minute, and a general global
// optimiser over GEOS distances with as much time as the usual effort took. Nothing here depends on time but what is
// written to the file.
func TestOursBesideGeneral(t *testing.T) {
	if *compare == 0 {
		t.Skip("only when asked for, by -compare: it takes minutes")
	}
	r := rand.New(rand.NewPCG(*seed, 3))
	ours, general := side{Name: "the usual effort", Least: 1},
		side{Name: "differential evolution over GEOS distances", Least: 1}
	groups := []string{"p1", "p2", "pg", "p4", "p3", "p6", "cm", "p4gm", "p31m", "p2gg"}
	for i := range *compare {
		g, _ := symmetry.Find(groups[i%len(groups)])
		d := draftWith(g.Symbol, 3, patterntest.Smooth(r, 40, 300))
		begun := time.Now()
		usual, err := Fit(&Question{Draft: d}, nil)
		if err != nil {
			t.Fatal(err)
		}
		took := time.Since(begun)
		end := time.Now().Add(*long)
		best, err := Fit(&Question{Draft: d, Effort: MaxEffort, Stop: func() bool { return time.Now().After(end) }},
			nil)
		if err != nil {
			t.Fatal(err)
		}
		theirs := askGeneral(t, d, g, took)
		t.Logf("%s: %.4f in %v, %.4f in %v, general %.4f", g.Symbol, usual[0].Cover, took, best[0].Cover, *long, theirs)
		ours.add(usual[0].Cover/best[0].Cover, took)
		general.add(theirs/best[0].Cover, took)
		if usual[0].Cover > best[0].Cover*(1+1e-6) {
			t.Errorf("%s: a longer search gave less", g.Symbol)
		}
	}
	if *compareTo == "" {
		return
	}
	text, err := json.Marshal([]side{ours.mean(), general.mean()})
	if err == nil {
		err = os.WriteFile(*compareTo, text, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func (s *side) add(part float64, took time.Duration) {
	s.Asked++
	s.Cover += part
	s.Least = min(s.Least, part)
	s.MS += float64(took) / float64(time.Millisecond)
}

func (s *side) mean() side {
	m := *s
	m.Cover, m.MS = m.Cover/float64(m.Asked), m.MS/float64(m.Asked)
	return m
}

// askGeneral has testdata/general.py fit a draft for so long, and returns the cover it reaches.
func askGeneral(t *testing.T, d draft.Draft, g symmetry.Group, time time.Duration) float64 {
	t.Helper()
	question := map[string]any{"draft": json.RawMessage(d.Encode()), "system": string(g.System),
		"seconds": time.Seconds(),
		"seed":    *seed, "ops": patterntest.Operations(g)}
	var answer struct {
		Cover float64 `json:"cover"`
	}
	askGEOS(t, "testdata/general.py", question, &answer)
	return answer.Cover
}
