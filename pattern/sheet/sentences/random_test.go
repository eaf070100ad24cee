package sentences

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

var drafts = flag.Int("drafts", 3, "random drafts of each group whose sentences are held against the report")

// nouns say which number of the report stands before which words; a reader's own list, apart from that of the
// sentences.
var nouns = []struct {
	words    *regexp.Regexp
	kind     sheet.Kind
	severity sheet.Severity
	figure   bool // the worst is told
}{
	{regexp.MustCompile(`([\d,]+) overlaps?`), sheet.Overlap, sheet.Fault, false},
	{regexp.MustCompile(`([\d,]+) islands? that would drop out`), sheet.Island, sheet.Fault, false},
	{regexp.MustCompile(`([\d,]+) bridges? too thin \((?:the thinnest )?(.*?), [\d.]+ needed\)`), sheet.Bridge,
		sheet.Fault, true},
	{regexp.MustCompile(
		`([\d,]+) places? in (?:an opening|openings) too narrow for paste(?: \((?:the narrowest )?(.*?)\))?`),
		sheet.Opening, sheet.Fault, true},
	{regexp.MustCompile(`([\d,]+) openings? too near the sheet's edge \((?:the worst )?(.*?)\)`), sheet.Edge,
		sheet.Fault, true},
	{regexp.MustCompile(`([\d,]+) places?(?: that)? could not be measured`), sheet.Unclear, sheet.Fault, false},
	{regexp.MustCompile(`([\d,]+) motifs? exactly on another's copies`), sheet.Overlap, sheet.Warning, false},
	{regexp.MustCompile(`([\d,]+) tails? of (?:an opening|openings) that paste will not fill`), sheet.Opening,
		sheet.Warning, false},
	{regexp.MustCompile(`([\d,]+) openings? that may hold (?:its|their) paste`), sheet.Release, sheet.Warning, false},
	{regexp.MustCompile(`([\d,]+) tongues? of sheet held at one end only`), sheet.Tip, sheet.Warning, false},
}

var (
	narrowestIs = regexp.MustCompile(`the narrowest bridge is ([\d.]+) (mm|in), at least ([\d.]+) needed`)
	leads       = regexp.MustCompile(`(?:([\d,]+) )?([Ff]ault|[Ww]arning)s? at ([\d,]+) places?: `)
	faultWords  = regexp.MustCompile(`overlap|would drop out|too thin|too narrow|too near|could not|[Ff]ault`)
	aDigit      = regexp.MustCompile(`\d`)
)

// On random drafts of all groups every number in the verdict's line is the report's, every fault of the report is in
// it, and a sheet that holds is told without a word of a fault. The list's sentences have the report's figures.
func TestSentencesOfRandomDrafts(t *testing.T) {
	const seed = 11
	seen := map[string]int{}
	for g, group := range symmetry.Groups() {
		t.Run(group.Symbol, func(t *testing.T) {
			for n := range *drafts {
				r := rand.New(rand.NewPCG(seed, uint64(1000*g+n)))
				d := patterntest.Draft(r, group.Symbol)
				loosen(r, &d)
				l, err := pattern.NewLayout(d, nil)
				if err != nil {
					t.Fatal(err)
				}
				report, err := panel.Measure(l)
				if err != nil {
					t.Fatalf("seed %d, %d, %d: %v", seed, g, n, err)
				}
				for _, inches := range []bool{false, true} {
					w := Words{sheet.Words{Unit: sheet.Unit{Inches: inches}, Draft: d}}
					v := w.Verdict(report, Gather(report.Problems), Scope{})
					seen[v.State]++
					if report.Sound && len(report.Problems) > 0 {
						seen["holds with warnings"]++
					}
					if b, in := report.NarrowestBetween, report.NarrowestWithin; report.Sound && b != nil && in != nil {
						seen["holds, with bridges between and within"]++
					}
					for _, wrong := range append(wrongInVerdict(w, report, v), wrongInList(w, report)...) {
						t.Errorf("seed %d, %d, %d: %s\n%s %s", seed, g, n, wrong, v.Head, v.Line)
					}
				}
			}
		})
	}
	t.Logf("seed %d: %v", seed, seen)
	if seen["holds"] == 0 || seen["holds with warnings"] == 0 || seen["holds, with bridges between and within"] == 0 ||
		seen["fails"] == 0 {
		t.Errorf("only %v were seen", seen)
	}
}

// loosen makes two of three drafts such that most of them hold, some with tails and tongues.
func loosen(r *rand.Rand, d *draft.Draft) {
	way := r.IntN(3)
	if way == 2 {
		return
	}
	d.Sheet.Bridge, d.Sheet.Opening = []float64{0.05, 0.4}[way], []float64{0.05, 0.5}[way]
	d.Field.Edge = draft.Whole // what is cropped leaves slivers
	for i := range d.Motifs {
		d.Motifs[i].Scale *= 0.4
	}
	for i := range d.Silhouettes { // a hole is an island
		d.Silhouettes[i].Outline[0] = d.Silhouettes[i].Outline[0][:1]
	}
	if r.IntN(2) == 0 {
		d.Silhouettes[0].Outline = keyhole
	}
}

// keyhole is a frame with a mouth 1 mm wide: the sheet inside it hangs on a bridge within the opening.
var keyhole = orb.MultiPolygon{{{{-5, -4}, {5, -4}, {5, 4}, {0.5, 4}, {0.5, 2}, {3, 2}, {3, -2}, {-3, -2}, {-3, 2},
	{-0.5, 2}, {-0.5, 4}, {-5, 4}, {-5, -4}}}}

// wrongInVerdict holds a verdict against a report.
func wrongInVerdict(w Words, r sheet.Report, v Verdict) (wrong []string) {
	line := v.Line
	if r.Sound != (v.State == "holds") {
		wrong = append(wrong, fmt.Sprintf("sound is %v and the state %s", r.Sound, v.State))
	}
	if r.Sound && faultWords.MatchString(v.Head+line) {
		wrong = append(wrong, "a fault is spoken of on a sheet that holds")
	}
	if v.State == "empty" {
		return wrong
	}
	told := map[sheet.Total]bool{}
	for _, n := range nouns {
		m := n.words.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		line = strings.Replace(line, m[0], "", 1)
		total := r.Of(n.kind, n.severity)
		told[total] = true
		if parse(m[1]) != float64(total.Count) {
			wrong = append(wrong, fmt.Sprintf("%q, and the report counts %d", m[0], total.Count))
		}
		if n.figure {
			wrong = append(wrong, wrongFigure(w.Unit, m[0], m[2], worst(r, n.kind))...)
		}
	}
	for _, total := range r.Totals {
		if want := total.Severity == sheet.Fault || r.Sound; want != told[total] {
			wrong = append(wrong, fmt.Sprintf("%d of %s, %s: in the line is %v", total.Count, total.Kind,
				total.Severity, told[total]))
		}
	}
	if m := leads.FindStringSubmatch(line); m != nil {
		line = strings.Replace(line, m[0], "", 1)
		places, _ := r.Count(sheet.Severity(strings.ToLower(m[2])))
		if parse(m[3]) != float64(places) || m[1] != "" && parse(m[1]) > float64(places) {
			wrong = append(wrong, fmt.Sprintf("%q, and there are %d places", m[0], places))
		}
	}
	if m := narrowestIs.FindStringSubmatch(line); m != nil {
		line = strings.Replace(line, m[0], "", 1)
		narrowest := math.Inf(1)
		for _, d := range []*float64{r.NarrowestBetween, r.NarrowestWithin} {
			if d != nil {
				narrowest = math.Min(narrowest, *d)
			}
		}
		if m[2] != w.Sign() || !near(w.Unit, parse(m[1]), narrowest) ||
			!near(w.Unit, parse(m[3]), w.Draft.Sheet.Bridge) {
			wrong = append(wrong, fmt.Sprintf("%q, and the narrowest is %g mm", m[0], narrowest))
		}
		if narrowest < w.Draft.Sheet.Bridge {
			wrong = append(wrong, fmt.Sprintf("the sheet holds with a bridge of %g mm, which needs %g", narrowest,
				w.Draft.Sheet.Bridge))
		}
	}
	line = strings.Replace(line, "Of each kind the 200 worst are listed.", "", 1)
	if aDigit.MatchString(line) {
		wrong = append(wrong, fmt.Sprintf("a number nobody asked for: %q", line))
	}
	return wrong
}

// worst is the least measure of a kind's faults, NaN where one of an opening was not measured.
func worst(r sheet.Report, kind sheet.Kind) float64 {
	narrowest := math.Inf(1)
	for _, p := range r.Problems {
		if p.Kind == kind && p.Severity == sheet.Fault {
			narrowest = math.Min(narrowest, p.Measured)
			if kind == sheet.Opening && p.Measured == 0 {
				return math.NaN()
			}
		}
	}
	return narrowest
}

var figureIs = regexp.MustCompile(`^(just under |less than )?([\d.]+) (mm|in)( over it)?$`)

// wrongFigure holds a figure in words against a length in mm.
func wrongFigure(u sheet.Unit, where, said string, mm float64) []string {
	switch {
	case math.IsNaN(mm) && said == "":
		return nil
	case mm == 0 && strings.HasPrefix(said, "touching"):
		return nil
	}
	m := figureIs.FindStringSubmatch(said)
	if m == nil {
		return []string{fmt.Sprintf("%q is no figure, in %q; it should be %g mm", said, where, mm)}
	}
	v, ok := parse(m[2]), false
	switch m[1] {
	case "just under ":
		ok = mm < inMM(u, v)+half(u, mm) && near(u, v, mm)
	case "less than ":
		ok = mm < inMM(u, v)
	default:
		ok = near(u, v, math.Abs(mm)) && (mm < 0) == (m[4] != "")
	}
	if !ok || m[3] != u.Sign() {
		return []string{fmt.Sprintf("%q in %q should be %g mm", said, where, mm)}
	}
	return nil
}

// wrongInList holds the list's sentences against the problems they are about.
func wrongInList(w Words, r sheet.Report) (wrong []string) {
	listed := 0
	for _, f := range Gather(r.Problems) {
		listed += len(f.Places)
		said := w.Fault(f)
		if f.More {
			continue
		}
		for _, p := range f.Places {
			if math.Abs(p.Measured-f.First.Measured) > measuredSlack || p.Kind != f.First.Kind ||
				p.Severity != f.First.Severity {
				wrong = append(wrong, fmt.Sprintf("%s of %g is no place of %q", p.Kind, p.Measured, said))
			}
		}
		numbers := regexp.MustCompile(`[\d.]*\d`).FindAllString(said, -1)
		if f.First.Measured == 0 || len(numbers) == 0 || strings.Contains(said, "less than") {
			continue
		}
		v, limit := parse(numbers[0]), f.First.Measured
		switch {
		case f.First.Kind.LargerIsWorse(): // an area
			if w.Inches {
				v *= sheet.MMPerInch * sheet.MMPerInch
			}
			if slack := map[bool]float64{false: 0.051,
				true: 0.00051 * sheet.MMPerInch * sheet.MMPerInch}[w.Inches]; math.Abs(v-limit) > slack {
				wrong = append(wrong, fmt.Sprintf("%q should be %g mm²", said, limit))
			}
		case !near(w.Unit, v, math.Abs(limit)):
			wrong = append(wrong, fmt.Sprintf("%q should be %g mm", said, limit))
		}
	}
	if listed != len(r.Problems) {
		wrong = append(wrong, fmt.Sprintf("%d of %d problems are listed", listed, len(r.Problems)))
	}
	return wrong
}

func parse(s string) float64 {
	v, err := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

func inMM(u sheet.Unit, v float64) float64 {
	if u.Inches {
		return v * 25.4
	}
	return v
}

// half is half of the last figure that is written, in mm.
func half(u sheet.Unit, mm float64) float64 {
	switch {
	case u.Inches:
		return 0.000501 * 25.4
	case math.Abs(mm) < 10:
		return 0.00501
	}
	return 0.0501
}

func near(u sheet.Unit, said, mm float64) bool { return math.Abs(inMM(u, said)-mm) <= half(u, mm) }
