package desk

import (
	"encoding/json"
	"flag"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/mends"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

var unsoundDrafts = flag.Int("unsound", 6, "how many random unsound drafts have all their mends carried out")

// checked asks the panel's check, as the engine is asked.
func checked(t *testing.T, d draft.Draft) (*pattern.Layout, sheet.Report) {
	t.Helper()
	l, err := pattern.NewLayout(d, pattern.NewShapes())
	if err != nil {
		t.Fatal(err)
	}
	r, err := panel.Check(l)
	if err != nil {
		t.Fatal(err)
	}
	return l, r
}

// toldMends gives a desk what the engine says of its draft: the report and what would mend it.
func toldMends(t *testing.T, k *Desk) sheet.Report {
	t.Helper()
	l, report := checked(t, k.Session.Draft())
	offered, err := mends.Offer(l, report, nil)
	if err != nil {
		t.Fatal(err)
	}
	say := func(v any, take func(int, string) error) {
		text, err := json.Marshal(v)
		if err == nil {
			err = take(k.Session.token, string(text))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	say(report, k.Session.Answer)
	say(offered, k.Session.Mends)
	return report
}

// Every mend that is offered of random drafts that do not hold is carried out on the desk, and the sentence beside it
// is the one that the check of the draft then made gives. The faults are fewer, and the first offer leaves fewest.
func TestMendsDoWhatTheySay(t *testing.T) {
	const seed = 1109
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	groups := symmetry.Groups()
	offers := map[string]int{}
	unsound, mended := 0, 0
	for n := 0; unsound < *unsoundDrafts; n++ {
		d := patterntest.Draft(r, groups[n%len(groups)].Symbol)
		if n%2 == 0 { // a bridge of about a tenth of a silhouette, as in the trade
			d.Sheet.Bridge = 0.5
		}
		k := New(d)
		report := toldMends(t, k)
		if report.Sound {
			continue
		}
		unsound++
		if len(k.Session.mends) > 0 {
			mended++
		}
		offered, fewest := k.Session.mends, -1
		for i, m := range offered {
			offers[m.Command.Name]++
			text := k.Session.words().Effect(m)
			k := New(d)
			k.Session.mends = offered
			k.Session.hold = pattern.KeepArea // what is held of the cell must not change a mend
			if err := k.Mend(i); err != nil {
				t.Fatalf("draft %d, %s: %v", n, k.Session.words().Mend(m.Command), err)
			}
			_, then := checked(t, k.Session.Draft())
			if got := k.Session.words().Effect(sheet.NewMend(m.Command, report, then)); got != text {
				t.Errorf("draft %d (%s), %s: it %s, and was said to: it %s", n, d.Title, m.Command.Name, got, text)
			}
			if !sheet.Lessens(report, then) {
				t.Errorf("draft %d (%s), %s: %v became %v", n, d.Title, m.Command.Name, report.Totals, then.Totals)
			}
			faults, _ := then.Count(sheet.Fault)
			if fewest >= 0 && faults < fewest {
				t.Errorf("draft %d (%s), %s: leaves %d faults, and one before it %d",
					n, d.Title, m.Command.Name, faults, fewest)
			}
			fewest = faults
		}
	}
	t.Logf("%d unsound drafts, %d of them with mends: %v", unsound, mended, offers)
	if mended < unsound/2 {
		t.Error("this says little about mends")
	}
}

// After a drag into overlap the mending button mends: pressed, the panel has fewer faults, and as many as were
// announced.
func TestTheButtonMendsAfterADrag(t *testing.T) {
	for name, by := range map[string]orb.Point{"a little": {6, 5}, "into overlap": {20, 13}, "far": {-30, 8}} {
		t.Run(name, func(t *testing.T) {
			k := demo(t)
			c := someCopy(t, k, 1)
			drag(k, centre(k, c), by)
			before := toldMends(t, k)
			if before.Sound {
				t.Fatal("the drag did no harm")
			}
			state := k.State()
			if state.Mend == "" || state.MendEffect == "" {
				t.Fatalf("nothing is offered: %v", before.Totals)
			}
			if err := k.mendIt(); err != nil {
				t.Fatal(err)
			}
			_, after := checked(t, k.Session.Draft())
			was, _ := before.Count(sheet.Fault)
			is, _ := after.Count(sheet.Fault)
			if is >= was {
				t.Errorf("%q: %d faults became %d", state.Mend, was, is)
			}
			t.Logf("%s: %s", state.Mend, state.MendEffect)
		})
	}
}
