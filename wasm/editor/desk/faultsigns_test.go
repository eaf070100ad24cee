package desk

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
)

var severities = []sheet.Severity{sheet.Fault, sheet.Warning}

// answered puts a report of these problems on a desk, as the engine's answer.
func answered(t *testing.T, k *Desk, problems ...sheet.Problem) {
	t.Helper()
	var listing sheet.Listing
	for _, p := range problems {
		listing.Add(p)
	}
	r := sheet.Report{Counts: sheet.Counts{Copies: 40, Openings: 40}}
	r.Problems, r.Totals = listing.Result()
	n, _ := r.Count(sheet.Fault)
	r.Sound = n == 0
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	if err := k.Session.Answer(k.Session.token, string(text)); err != nil {
		t.Fatal(err)
	}
}

// No kind goes without a sign, a row in the list and a name; only what is a width between two edges has a dimension
// line.
func TestEveryKindHasASign(t *testing.T) {
	k := demo(t)
	ends := &[2][2]float64{{100, 100}, {101, 100}}
	for _, kind := range sheet.Kinds() {
		for _, severity := range severities {
			t.Run(fmt.Sprintf("%s %s", kind, severity), func(t *testing.T) {
				for _, p := range []sheet.Problem{{Measured: 1, Required: 3, Ends: ends}, {Required: 3}} {
					p.Kind, p.Severity, p.At = kind, severity, [2]float64{100, 100}
					answered(t, k, p)
					sign := signOf(p)
					marks, labels := k.Session.Marks()
					switch whole := kind == sheet.Size || kind == sheet.Empty || kind == sheet.Subject; {
					case sign == "" || whole != (sign == sheet.SignNone):
						t.Fatalf("drawn as %q", sign)
					case whole:
						if len(marks) > 0 {
							t.Errorf("what is about the whole sheet is drawn at one place: %+v", marks)
						}
					case len(marks) != 1 || marks[0].Sign != sign:
						t.Fatalf("drawn as %+v", marks)
					}
					bare := kind == sheet.Bridge || kind == sheet.Island ||
						kind == sheet.Overlap && severity == sheet.Fault
					for _, l := range labels {
						if strings.HasPrefix(l.Text, "1 ") && !bare && kind != sheet.Edge {
							t.Errorf("a bare figure %q stands beside what is no bridge", l.Text)
						}
						if small(sign) != (l.Leader != nil) {
							t.Errorf("%q has the leader %v", l.Text, l.Leader)
						}
					}
					tail := kind == sheet.Opening && severity == sheet.Warning
					if (kind == sheet.Tip || tail) && sign == sheet.SignDimension {
						t.Error("what is held at one end only is drawn as a bridge")
					}
					s := k.State()
					if len(s.Faults) != 1 || len(s.Faults[0].Text) < 10 || s.Which.Rest == "" || s.Which.All == "" {
						t.Errorf("listed as %+v under %+v", s.Faults, s.Which)
					}
				}
			})
		}
	}
}

// Signs of warnings are told apart by their form.
func TestWarningSignsDiffer(t *testing.T) {
	seen := map[sheet.Sign]sheet.Kind{}
	for _, kind := range []sheet.Kind{sheet.Opening, sheet.Tip, sheet.Overlap, say.WeakKind} {
		sign := signOf(sheet.Problem{Kind: kind, Severity: sheet.Warning})
		if other, ok := seen[sign]; ok || !small(sign) {
			t.Errorf("%s is drawn as %s, as is %s", kind, sign, other)
		}
		seen[sign] = kind
	}
}

// Every number that the page shows of one state says the same: the line, the ticket, the list and the way through it.
func TestNumbersAgree(t *testing.T) {
	k := demo(t)
	var problems []sheet.Problem
	add := func(n int, kind sheet.Kind, severity sheet.Severity, measured float64) {
		for i := range n {
			at := [2]float64{float64(30 + 20*i), 100}
			problems = append(problems,
				sheet.Problem{Kind: kind, Severity: severity, Measured: measured, Required: 3, At: at})
		}
	}
	add(16, sheet.Overlap, sheet.Fault, 5)
	add(16, sheet.Overlap, sheet.Fault, 7)
	add(3, sheet.Bridge, sheet.Fault, 2)
	add(8, sheet.Opening, sheet.Warning, 1)
	add(1, sheet.Size, sheet.Warning, 900)
	answered(t, k, problems...)

	s := k.State()
	want := map[string]string{
		s.Verdict.Line:  "3 faults at 35 places: 32 overlaps and 3 bridges too thin",
		s.Lines["make"]: "Not ready: 3 faults at 35 places",
		s.Which.All:     "3 faults at 35 places, 1 warning at 8 places and 1 note.",

		s.Which.Noun + s.Which.Rest: "3 faults",
	}
	for got, want := range want {
		if !strings.HasPrefix(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
	names, shows := []string{}, []string{}
	for range s.Faults {
		if err := k.stepFault(1); err != nil {
			t.Fatal(err)
		}
		now := k.State()
		names = append(names, now.Which.Noun+now.Which.Rest)
		shows = append(shows, now.Faults[now.Fault].Shows)
	}
	all := "fault 1 of 3; fault 2 of 3; fault 3 of 3; warning 1 of 1; note 1 of 1"
	if got := strings.Join(names, "; "); got != all {
		t.Errorf("the way through is %q, want %q", got, all)
	}
	if got, want := strings.Join(shows, "; "), "at 16 places; at 16 places; at 3 places; at 8 places; "; got != want {
		t.Errorf("the places are %q, want %q", got, want)
	}
	if s.Verdict.Step != "" || s.Faults[4].Step != "make" {
		t.Errorf("the cures of a small bed: %+v, %+v", s.Verdict, s.Faults[4])
	}
}

// While a copy is dragged nothing that is shown is of the draft before it.
func TestListFollowsTheHand(t *testing.T) {
	k := demo(t)
	answered(t, k, sheet.Problem{Kind: sheet.Island, Severity: sheet.Fault, Measured: 50, At: [2]float64{100, 100}})
	c := someCopy(t, k, 1)
	p := centre(k, c)
	k.Pointer("down", 1, p[0], p[1], 0, "mouse")
	if s := k.State(); len(s.Faults) != 1 || s.Verdict.State != "fails" {
		t.Errorf("held, but not moved: %+v, %+v", s.Verdict, s.Faults)
	}
	k.Pointer("move", 1, p[0]+3, p[1], 0, "mouse")
	s := k.State()
	for _, f := range s.Faults {
		if f.Kind == string(sheet.Island) {
			t.Errorf("the list still has %+v beside %+v", f, s.Verdict)
		}
	}
	if (s.Verdict.State == "fails") != (len(s.Faults) > 0 && s.Faults[0].Severity == string(sheet.Fault)) {
		t.Errorf("the verdict %+v beside the list %+v", s.Verdict, s.Faults)
	}
	k.Pointer("cancel", 1, 0, 0, 0, "mouse")
}

// A report that lists all it may stays light: a bounded list, and bounded marks.
func TestManyFaultsStayLight(t *testing.T) {
	k := demo(t)
	var problems []sheet.Problem
	for _, kind := range sheet.Kinds() {
		if kind == sheet.Empty {
			continue
		}
		for _, severity := range severities {
			for i := range 300 {
				problems = append(problems, sheet.Problem{
					Kind: kind, Severity: severity, Measured: 0.01 * float64(i+1), Required: 9,
					At: [2]float64{float64(20 + 19*(i%30)), float64(20 + 29*(i/10))}})
			}
		}
	}
	answered(t, k, problems...)
	marks, labels := k.Session.Marks()
	kinds := len(sheet.Kinds()) - 1
	if len(k.Session.faults()) > 2*kinds*21 || len(marks) > maxMarks || len(labels) > len(marks) || len(marks) < 50 {
		t.Errorf("%d rows, %d marks, %d words", len(k.Session.faults()), len(marks), len(labels))
	}
	if s := k.State(); !strings.HasPrefix(s.Which.Rest, fmt.Sprintf("over %d faults", kinds*20)) ||
		s.Faults[20].Shows != "at 280 places" {
		t.Errorf("%+v, the rest of the overlaps shows %q", s.Which, s.Faults[20].Shows)
	}
}

func BenchmarkMarks(b *testing.B) {
	k := New(draft.Default())
	k.Resize(900, 700)
	var problems []sheet.Problem
	for i := range 9 * 400 {
		problems = append(problems, sheet.Problem{
			Kind: sheet.Kinds()[1+i%8], Severity: sheet.Fault, Measured: float64(i%200) + 1, Required: 300,
			At: [2]float64{float64(i*37%600) + 0.5, float64(i*91%900) + 0.5}})
	}
	k.Session.setFaults(say.Gather(problems))
	for b.Loop() {
		k.Session.Marks()
	}
}
