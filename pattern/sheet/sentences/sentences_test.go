package sentences

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
)

var severities = []sheet.Severity{sheet.Fault, sheet.Warning}

// report makes a report of problems, as a check does.
func report(problems ...sheet.Problem) sheet.Report {
	var listing sheet.Listing
	for _, p := range problems {
		listing.Add(p)
	}
	var r sheet.Report
	r.Problems, r.Totals = listing.Result()
	n, _ := r.Count(sheet.Fault)
	r.Sound = n == 0
	return r
}

func verdictOf(w Words, r sheet.Report) Verdict { return w.Verdict(r, Gather(r.Problems), Scope{}) }

// No kind of problem goes without a sentence, and none lets the verdict say that all is well.
func TestEveryKindHasWords(t *testing.T) {
	w := Words{sheet.Words{Draft: patterntest.Demo(t)}}
	for _, kind := range sheet.Kinds() {
		for _, severity := range severities {
			t.Run(fmt.Sprintf("%s %s", kind, severity), func(t *testing.T) {
				words := sheet.SpeechOf(kind, severity)
				if words.One == "" || words.Many == "" || words.One == words.Many {
					t.Errorf("counted as %q and %q", words.One, words.Many)
				}
				for _, p := range []sheet.Problem{{Measured: 1.2345, Required: 3}, {Required: 3},
					{Measured: -1, Required: 3}} {
					p.Kind, p.Severity = kind, severity
					checkSentence(t, w.Sentence(p))

					v := verdictOf(w, report(p))
					if state := stateOf(kind, severity); v.State != state {
						t.Errorf("alone it makes the verdict %+v, want the state %q", v, state)
					}
					if v.State != "holds" && strings.HasPrefix(v.Line, "Nothing runs together") {
						t.Errorf("the line says that all is well: %q", v.Line)
					}
					if v.State != "empty" && !strings.Contains(v.Line, words.One) && !strings.Contains(v.Line,
						"1 place could not be measured") && !strings.Contains(v.Line, "sheet is larger than the bed") {
						t.Errorf("%q is not in the line %q", words.One, v.Line)
					}
				}
				checkSentence(t, w.Fault(Fault{First: sheet.Problem{Kind: kind, Severity: severity}, More: true}))
			})
		}
	}
}

func checkSentence(t *testing.T, said string) {
	t.Helper()
	if len(said) < 10 || !strings.HasSuffix(said, ".") || strings.HasSuffix(said, "..") ||
		said[:1] != strings.ToUpper(said[:1]) {
		t.Errorf("not a sentence: %q", said)
	}
}

func stateOf(kind sheet.Kind, severity sheet.Severity) string {
	switch {
	case severity == sheet.Warning:
		return "holds"
	case kind == sheet.Empty:
		return "empty"
	}
	return "fails"
}

// same are n problems of one figure.
func same(n int, kind sheet.Kind, severity sheet.Severity, measured, required float64) (out []sheet.Problem) {
	for i := range n {
		out = append(out, sheet.Problem{Kind: kind, Severity: severity, Measured: measured, Required: required,
			At: [2]float64{float64(i), 0}})
	}
	return out
}

func TestVerdict(t *testing.T) {
	demo := patterntest.Demo(t)
	demo.Sheet.Bridge, demo.Sheet.Opening = 3, 1.5
	bed := demo
	bed.Sheet.Bed = &draft.Bed{Width: 400, Height: 600}
	whole := demo
	whole.Field.Edge = draft.Whole
	at := func(v float64) *float64 { return &v }
	size := sheet.Problem{Kind: sheet.Size, Severity: sheet.Warning, Measured: 900, Required: 600}
	empty := sheet.Problem{Kind: sheet.Empty, Severity: sheet.Fault}

	for _, c := range []struct {
		name            string
		draft           draft.Draft
		inches          bool
		problems        []sheet.Problem
		between, within *float64
		cell            bool
		state, head     string
		line            string
	}{
		{name: "holds", draft: demo, between: at(3.411), within: at(5), state: "holds", head: "This sheet holds.",
			line: "Nothing runs together or drops out; the narrowest bridge is 3.41 mm, at least 3 needed."},
		{name: "the narrowest is within an opening", draft: demo, between: at(3.411), within: at(3.2), state: "holds",
			head: "This sheet holds.",
			line: "Nothing runs together or drops out; the narrowest bridge is 3.2 mm, at least 3 needed."},
		{name: "one opening has no bridge", draft: demo, state: "holds", head: "This sheet holds.",
			line: "Nothing runs together or drops out."},
		{name: "in inches", draft: demo, inches: true, between: at(25.4), state: "holds", head: "This sheet holds.",
			line: "Nothing runs together or drops out; the narrowest bridge is 1 in, at least 0.118 needed."},
		{name: "holds with warnings", draft: demo, between: at(3.411), state: "holds", head: "This sheet holds.",
			problems: append(same(12, sheet.Opening, sheet.Warning, 0.5, 1.5),
				same(3, sheet.Tip, sheet.Warning, 0.8, 3)...),
			line: "Nothing runs together or drops out; the narrowest bridge is 3.41 mm, at least 3 needed. 2 " +
				"warnings at 15 places: " +
				"12 tails of openings that paste will not fill and 3 tongues of sheet held at one end only."},
		{name: "larger than the bed", draft: bed, between: at(4), problems: []sheet.Problem{size}, state: "holds",
			head: "This sheet holds.",
			line: "Nothing runs together or drops out; the narrowest bridge is 4 mm, at least 3 needed. " +
				"The sheet is larger than the bed: lay it with a stepping sheet or in joined parts,"},
		{name: "two faults at many places", draft: demo, state: "fails", head: "Does not hold yet.",
			problems: append(same(64, sheet.Overlap, sheet.Fault, 12, 0),
				same(16, sheet.Bridge, sheet.Fault, 1.2, 3)...),
			line: "2 faults at 80 places: 64 overlaps and 16 bridges too thin (the thinnest 1.2 mm, 3 needed)."},
		{name: "each fault at one place", draft: demo, state: "fails", head: "Does not hold yet.",
			problems: []sheet.Problem{{Kind: sheet.Island, Severity: sheet.Fault, Measured: 9},
				{Kind: sheet.Bridge, Severity: sheet.Fault, Measured: 2.9996, Required: 3}},
			line: "1 island that would drop out and 1 bridge too thin (just under 3 mm, 3 needed)."},
		{name: "a bridge that is gone", draft: demo, state: "fails", head: "Does not hold yet.",
			problems: same(2, sheet.Bridge, sheet.Fault, 0, 3),
			line:     "1 fault at 2 places: 2 bridges too thin (the thinnest touching, 3 needed)."},
		{name: "an opening too narrow as a whole has no figure", draft: demo, state: "fails",
			head: "Does not hold yet.",
			problems: []sheet.Problem{{Kind: sheet.Opening, Severity: sheet.Fault, Measured: 1, Required: 1.5},
				{Kind: sheet.Opening, Severity: sheet.Fault, Required: 1.5}},
			line: "2 places in openings too narrow for paste."},
		{name: "over the edge", draft: demo, state: "fails", head: "Does not hold yet.",
			problems: same(4, sheet.Edge, sheet.Fault, -2, 3),
			line:     "1 fault at 4 places: 4 openings too near the sheet's edge (the worst 2 mm over it)."},
		{name: "unclear alone", draft: demo, between: at(3.4), state: "fails", head: "Not certain yet.",
			problems: same(2, sheet.Unclear, sheet.Fault, 0, 0),
			line: "2 places could not be measured: move or redraw a little what lies there. " +
				"Elsewhere nothing runs together or drops out; the narrowest bridge is 3.4 mm, at least 3 needed."},
		{name: "unclear among others", draft: demo, state: "fails", head: "Does not hold yet.",
			problems: append(same(1, sheet.Unclear, sheet.Fault, 0, 0), same(1, sheet.Overlap, sheet.Fault, 5, 0)...),
			line:     "1 overlap and 1 place that could not be measured."},
		{name: "more than is listed", draft: demo, state: "fails", head: "Does not hold yet.",
			problems: same(12400, sheet.Overlap, sheet.Fault, 5, 0),
			line:     "Faults at 12,400 places: 12,400 overlaps. Of each kind the 200 worst are listed."},
		{name: "empty, whole copies", draft: whole, state: "empty", head: "Nothing would be cut.",
			problems: []sheet.Problem{empty},
			line: "No copy lies whole inside the margin: make the margin smaller or the panel larger, or let " +
				"copies be cropped at the margin."},
		{name: "the cell holds", draft: demo, between: at(3.4), cell: true, state: "waiting", head: "No fault so far.",
			line: "In the cell nothing runs together or drops out; the narrowest bridge between copies is 3.4 mm, at " +
				"least 3 needed."},
		{name: "the cell fails", draft: demo, cell: true, problems: same(2, sheet.Overlap, sheet.Fault, 5, 0),
			state: "fails", head: "Does not hold yet.",
			line: "In the cell: 2 overlaps."},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := report(c.problems...)
			r.NarrowestBetween, r.NarrowestWithin = c.between, c.within
			v := Words{sheet.Words{Unit: sheet.Unit{Inches: c.inches}, Draft: c.draft}}.Verdict(r, Gather(r.Problems),
				Scope{Cell: c.cell})
			if v.State != c.state || v.Head != c.head || v.Line != c.line {
				t.Errorf("%s: %s %s\nwant %s: %s %s", v.State, v.Head, v.Line, c.state, c.head, c.line)
			}
			if links := slices.Contains([]string{"larger than the bed", "empty, whole copies"},
				c.name); links != (v.Link != "" && v.Step != "") {
				t.Errorf("it leads to %q by %q", v.Step, v.Link)
			}
		})
	}
}

// Counting that ended early is said so in every number it goes into.
func TestAtLeast(t *testing.T) {
	var listing sheet.Listing
	for _, p := range same(300, sheet.Overlap, sheet.Fault, 5, 0) {
		listing.Add(p)
	}
	listing.Count(sheet.Overlap, sheet.Fault, 12100, false)
	for _, p := range same(3, sheet.Bridge, sheet.Fault, 2, 3) {
		listing.Add(p)
	}
	var r sheet.Report
	r.Problems, r.Totals = listing.Result()
	w := Words{sheet.Words{Draft: patterntest.Demo(t)}}
	w.Draft.Sheet.Bridge = 3
	want := "Faults at 12,403 places or more: at least 12,400 overlaps and 3 bridges too thin (the thinnest 2 mm, 3 " +
		"needed). " +
		"Of each kind the 200 worst are listed."
	if v := verdictOf(w, r); v.Line != want {
		t.Errorf("%q, want %q", v.Line, want)
	}
}

// A length below a limit never reads as the limit, nor as nothing.
func TestBelow(t *testing.T) {
	for _, c := range []struct {
		inches    bool
		mm, limit float64
		want      string
	}{
		{false, 1.234, 3, "1.23 mm"}, {false, 2.994, 3, "2.99 mm"}, {false, 2.997, 3, "just under 3 mm"},
		{false, 0.004, 3, "less than 0.01 mm"},
		{false, 12.34, 15, "12.3 mm"}, {false, 14.97, 15, "just under 15 mm"},
		{false, 0.001, 0.002, "less than 0.01 mm"},
		{true, 1.234, 3, "0.049 in"}, {true, 2.997, 3, "just under 0.118 in"}, {true, 0.01, 3, "less than 0.001 in"},
		{true, 25.4, 50.8, "1 in"},
	} {
		t.Run(c.want, func(t *testing.T) {
			if got := (sheet.Unit{Inches: c.inches}).Below(c.mm, c.limit); got != c.want {
				t.Errorf("%g of %g is %q", c.mm, c.limit, got)
			}
		})
	}
}

func TestGather(t *testing.T) {
	many := same(3, sheet.Bridge, sheet.Fault, 1.8, 3)
	for i := range 30 { // thirty different ones, of which ten are not told apart
		many = append(many, same(2, sheet.Island, sheet.Fault, 10+float64(i), 0)...)
	}
	many = append(many, sheet.Problem{Kind: sheet.Overlap, Severity: sheet.Warning, Text: "Motif a."},
		sheet.Problem{Kind: sheet.Overlap, Severity: sheet.Warning, Text: "Motif b."})
	all := Gather(many)
	places := 0
	for i, f := range all {
		places += len(f.Places)
		if i > 0 && f.First.Kind == all[i-1].First.Kind && f.First.Measured > all[i-1].First.Measured {
			t.Errorf("fault %d is worse than the one before", i)
		}
	}
	n, more := Different(all, sheet.Fault)
	warned, moreWarned := Different(all, sheet.Warning)
	if places != len(many) || n != MaxFaults+1 || !more || warned != 2 || moreWarned {
		t.Errorf("%d places of %d; %d faults (more: %v), %d warnings (more: %v)", places, len(many), n, more, warned,
			moreWarned)
	}
	if last := all[MaxFaults]; !last.More || len(last.Places) != 20 || last.First.Measured != 19 {
		t.Errorf("the rest is %d places from %g on", len(last.Places), last.First.Measured)
	}
}

// A report with all that it may list makes a list of a bounded number of rows.
func TestGatherIsBounded(t *testing.T) {
	var all []sheet.Problem
	for _, kind := range sheet.Kinds() {
		for _, severity := range severities {
			for i := range sheet.MaxListed {
				all = append(all, sheet.Problem{Kind: kind, Severity: severity, Measured: 1 + float64(i)*math.Phi})
			}
		}
	}
	if n, limit := len(Gather(all)), 2*len(sheet.Kinds())*(MaxFaults+1); n != limit {
		t.Errorf("%d rows, want %d", n, limit)
	}
}

func BenchmarkGather(b *testing.B) {
	var all []sheet.Problem
	for _, kind := range sheet.Kinds() {
		for i := range sheet.MaxListed {
			all = append(all, sheet.Problem{Kind: kind, Severity: sheet.Fault,
				Measured: float64(i*7919%sheet.MaxListed) + 1})
		}
	}
	for b.Loop() {
		Gather(all)
	}
}
