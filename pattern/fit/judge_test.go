package fit

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// verdict is what testdata/judge.py finds with GEOS for a draft, by its own layout.
type verdict struct {
	Narrowest float64 `json:"narrowest"`
	Cover     float64 `json:"cover"`
}

// askJudge has GEOS (Debian's python3-shapely) measure drafts.
func askJudge(t *testing.T, drafts []draft.Draft) []verdict {
	t.Helper()
	type asked struct {
		Draft json.RawMessage `json:"draft"`
		Ops   [][6]float64    `json:"ops"`
	}
	var cases []asked
	for _, d := range drafts {
		g, err := symmetry.Find(d.Repeat.Group)
		if err != nil {
			t.Fatal(err)
		}
		cases = append(cases, asked{json.RawMessage(d.Encode()), patterntest.Operations(g)})
	}
	var answers []verdict
	askGEOS(t, "testdata/judge.py", cases, &answers)
	if len(answers) != len(drafts) {
		t.Fatal(len(answers), "answers to", len(drafts))
	}
	return answers
}

// askGEOS puts a question to a script that uses GEOS, as JSON, and reads its answer.
func askGEOS(t *testing.T, script string, question, answer any) {
	t.Helper()
	in, err := json.Marshal(question)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("/usr/bin/python3", script)
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal("GEOS could not be asked (python3-shapely is needed): ", err)
	}
	if err := json.Unmarshal(out, answer); err != nil {
		t.Fatal(script, err)
	}
}

// judged holds answers against GEOS: all copies keep the bridge, the narrowest way and the cover are what is said.
func judged(t *testing.T, answers []Answer) {
	t.Helper()
	var drafts []draft.Draft
	for _, a := range answers {
		drafts = append(drafts, a.Draft)
	}
	for i, v := range askJudge(t, drafts) {
		a := answers[i]
		bridge := a.Draft.Sheet.Bridge
		if v.Narrowest < bridge-1e-6 {
			t.Errorf("%s %s: GEOS finds copies %.6f mm apart, the bridge is %g", a.Group, a.Find, v.Narrowest, bridge)
		}
		if math.Abs(v.Narrowest-a.Narrowest) > 1e-6 {
			t.Errorf("%s %s: the narrowest way is %.6f, GEOS finds %.6f", a.Group, a.Find, a.Narrowest, v.Narrowest)
		}
		if math.Abs(v.Cover-a.Cover) > 1e-6 {
			t.Errorf("%s %s: the cover is %.6f, GEOS finds %.6f", a.Group, a.Find, a.Cover, v.Cover)
		}
	}
}

var (
	drafts = flag.Int("drafts", 1, "random drafts to fit in every plane group, for the test against GEOS")
	rounds = flag.Int("effort", 2, "effort of the fits of random drafts")
	seed   = flag.Uint64("seed", 0, "seed of the random tests; 0 chooses one")
)

// randomSource returns a source of random numbers whose seed is printed.
func randomSource(t *testing.T) *rand.Rand {
	t.Helper()
	s := *seed
	if s == 0 {
		s = rand.Uint64()
	}
	t.Logf("seed %d (repeat with -seed %d)", s, s)
	return rand.New(rand.NewPCG(s, 1))
}

// Random silhouettes, one or two of them, in all plane groups and everything that can be found: GEOS, with a layout
// that is not ours, finds no two copies nearer than the bridge in any answer.
func TestAnswersKeepTheBridgeByGEOS(t *testing.T) {
	r := randomSource(t)
	var answers []Answer
	asked := 0
	for range *drafts {
		variant := r.IntN(patterntest.Variants)
		for i, g := range geometrytest.Share(t, symmetry.Groups(), 7) {
			asked++
			d := patterntest.Varied(r, g.Symbol, (variant+i)%patterntest.Variants)
			d.Motifs = d.Motifs[:min(len(d.Motifs), 2)]
			find := Finds()[(variant+i)%3] // each as often
			found, err := Fit(&Question{Draft: d, Find: find, Effort: *rounds, Seed: r.Uint64()}, nil)
			if err != nil {
				if find != Evenest {
					t.Logf("%s %s: %v", g.Symbol, find, err)
				}
				continue
			}
			answers = append(answers, found...)
		}
	}
	if len(answers) < asked/2 {
		t.Errorf("only %d answers", len(answers))
	}
	judged(t, answers)
}
