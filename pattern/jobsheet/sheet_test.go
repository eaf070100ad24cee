package jobsheet

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/machine"
	"openwork/pattern/patterntest"
)

// run runs a program of a Debian package.
func run(t *testing.T, pkg, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is missing: install Debian's package %s", name, pkg)
	}
	var errs bytes.Buffer
	cmd := exec.Command(name, args...)
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v %s", name, err, &errs)
	}
	return string(out)
}

// written writes a job sheet to a file and has qpdf check it.
func written(t *testing.T, d draft.Draft, o Options) (Made, string) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	m, err := Write(l, &b, o)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, "qpdf", "qpdf", "--check", path)
	return m, path
}

// words returns what pdftotext reads, blanks and line ends made single blanks.
func words(t *testing.T, path string) string {
	t.Helper()
	return strings.Join(strings.Fields(run(t, "poppler-utils", "pdftotext", "-enc", "UTF-8", path, "-")), " ")
}

// squares is a draft whose figures are known by hand: 4 × 4 squares of 20 mm, 40 mm apart, on a panel of 200 × 200 mm.
func squares() draft.Draft {
	d := draft.Default()
	d.Title = "Squares"
	d.Panel = draft.Panel{Width: 200, Height: 200}
	d.Field = draft.Field{Margin: 20, Origin: [2]float64{40, 40}, Edge: draft.Whole}
	d.Repeat = draft.Repeat{Group: "p1", A: 40, B: 40, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square",
		Outline: geometry.RectOutline(orb.Bound{Min: orb.Point{-10, -10}, Max: orb.Point{10, 10}})}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	return d
}

// between returns the straight ways between all contours of a draft's plan, in mm.
func between(t *testing.T, d draft.Draft) float64 {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	p, err := cutplan.ForLayout(l, cutplan.Defaults(), curve.Cubic)
	if err != nil {
		t.Fatal(err)
	}
	sum, at := 0.0, p.Page.Min
	for _, c := range p.Contours {
		from, pieces := c.Pieces(nil)
		sum += math.Hypot(from[0]-at[0], from[1]-at[1])
		at = pieces[len(pieces)-1].To
	}
	return sum
}

func TestFiguresKnownByHand(t *testing.T) {
	d := squares()
	o := Defaults()
	o.CutSpeed, o.TravelSpeed, o.Pierce, o.Rate, o.Price, o.Currency = 10, 100, 0.5, 90, 12, "kr"
	o.Acceleration, o.Cornering, o.MarkSpeed, o.Setup = 1e7, 10, 1e5, 6 // as if there were no mass, and no marks
	var parts []float64
	o.Progress = func(part float64) { parts = append(parts, part) }
	m, path := written(t, d, o)
	if !slices.IsSorted(parts) || len(parts) < 5 || parts[len(parts)-1] != 1 {
		t.Errorf("told %v", parts)
	}
	near := func(what string, got, want float64) {
		if math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Errorf("%s is %.6f, want %.6f", what, got, want)
		}
	}
	// Squares are cut half the kerf of 0.2 mm inside, the sheet half outside.
	const cut = 16*4*19.8 + 4*200.2
	near("the cut length", m.CutLength, cut)
	seconds := cut/10 + between(t, d)/100 + 17*0.5
	if math.Abs(m.Seconds-seconds) > 0.5 { // the marks take some
		t.Errorf("the time is %.4f s, want %.4f", m.Seconds, seconds)
	}
	near("the cost", *m.Cost, (m.Seconds/3600+0.1)*90+12)
	near("the weight", *m.Weight, (200*200-16*400)*0.35*1390e-6)
	near("the narrowest bridge", *m.Bridge, 20)
	if !m.Sound || m.Openings != 16 || m.Piercings != 17 || m.Opening != nil || len(m.Faults) > 0 || m.Pages != 3 ||
		len(m.Holes) != 3 {
		t.Errorf("made %+v", m)
	}
	if m.Travel < 15*20 || m.Travel > 15*40+200 {
		t.Errorf("the travel is %g mm", m.Travel)
	}
	text := words(t, path)
	for _, want := range []string{"The sheet holds.", "200 × 200 mm", "polyester film", "16.3 g, at 1390 kg/m³ by",
		"20.00 mm", "Openings 16", "2.07 m", "Piercings 17",
		"Order of cuts heat spread, 10 mm from cut to cut", "under 0.5 mm warp beside hot cuts (common practice)",
		duration(m.Seconds), fmt.Sprintf("%.2f kr", *m.Cost),
		"10 mm/s, the shop's", "Setting up 6 min 00 s", "Rate 90.00 kr an hour", "Stock 12.00 kr", "(100, 100) mm",
		"at (10, 190), (190, 10), (10, 10) mm", "hydrogen chloride", "fitted respirator", "against a guard"} {
		if !strings.Contains(text, strings.ReplaceAll(want, "\u00a0", " ")) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

// In inches the weight is in ounces, and the order says its figures in inches too; an order that is asked for is told.
func TestWeightInOunces(t *testing.T) {
	o := Defaults()
	o.Units = "in"
	_, path := written(t, squares(), o)
	o.Cut.Order = cutplan.Shortest
	_, short := written(t, squares(), o)
	for _, c := range []struct{ path, want string }{{path, "0.577 oz, at 1390 kg/m³"},
		{path, "0.394 in from cut to cut"},
		{path, "under 0.020 in warp"}, {short, "Order of cuts the shortest way, as asked for"}} {
		if text := words(t, c.path); !strings.Contains(text, c.want) {
			t.Errorf("%q is not in %q", c.want, text)
		}
	}
}

// An outline that is not cut takes no cutting, and the job sheet says so.
func TestOutlineThatIsNotCut(t *testing.T) {
	whole, _ := written(t, squares(), Defaults())
	o := Defaults()
	o.Cut.Trim = cutplan.TrimMark
	m, path := written(t, squares(), o)
	// The sheet's outline of 200.2 mm was cut half the kerf outside; it is the last, and is marked now.
	if saved := whole.CutLength - m.CutLength; math.Abs(saved-4*200.2) > 1e-6 || m.Piercings != whole.Piercings-1 ||
		m.Seconds >= whole.Seconds {
		t.Errorf("%g mm less, %d and %d piercings, %g and %g s", saved, m.Piercings, whole.Piercings, m.Seconds,
			whole.Seconds)
	}
	text := words(t, path)
	for _, want := range []string{"Outline not cut; it is the stock's own edge, drawn on the layer mark",
		"half of it inside the openings; nothing"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

// A sheet that does not hold says so first, with its reasons; what is not known is not made up.
func TestUnsound(t *testing.T) {
	d := squares()
	d.Sheet.Stock, d.Sheet.Bridge = "mystery", 21
	m, path := written(t, d, Defaults())
	if m.Sound || m.FaultPlaces == 0 || m.Cost != nil || m.Weight != nil {
		t.Errorf("made %+v", m)
	}
	text := words(t, path)
	for _, want := range []string{fmt.Sprintf("does not hold: 1 fault at %d places.", m.FaultPlaces), "What is wrong",
		m.Faults[0], "rate is not known", "density not known"} {
		if !strings.Contains(text, strings.ReplaceAll(want, "\u00a0", " ")) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

func TestRefusals(t *testing.T) {
	for words, change := range map[string]func(o *Options, d *draft.Draft){
		"it gives off hydrogen chloride":   func(o *Options, d *draft.Draft) { d.Sheet.Stock = "soft PVC" },
		"the cutting speed is -1 mm/s":     func(o *Options, d *draft.Draft) { o.CutSpeed = -1 },
		"row 1 of the table of speeds has": func(o *Options, d *draft.Draft) { o.Speeds = make([]machine.Speed, 1) },
		"the travel speed is NaN mm/s":     func(o *Options, d *draft.Draft) { o.TravelSpeed = math.NaN() },
		"the machine's rate is -1":         func(o *Options, d *draft.Draft) { o.Rate = -1 },
		`there is no paper "foolscap"`:     func(o *Options, d *draft.Draft) { o.Paper = "foolscap" },
		"the address has 501 letters":      func(o *Options, d *draft.Draft) { o.Address = strings.Repeat("ü", 501) },
		`there is no layer "engrave"`:      func(o *Options, d *draft.Draft) { o.Cut.Holes.Layer = "engrave" },
		"the stock's density is +Inf kg/":  func(o *Options, d *draft.Draft) { o.Density = math.Inf(1) },
	} {
		t.Run(words, func(t *testing.T) {
			d, o := squares(), Defaults()
			change(&o, &d)
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if _, err := Write(l, &b, o); err == nil || !strings.Contains(err.Error(), words) || b.Len() > 0 {
				t.Errorf("%v, want %q and no file", err, words)
			}
		})
	}
}

// Holes that are cut are told as such, in the places asked for; without any the sheet says what to do instead.
func TestRegistration(t *testing.T) {
	o := Defaults()
	o.Cut.Holes = cutplan.Holes{Diameter: 3, Layer: cutplan.Cut, At: []orb.Point{{8, 8}, {192, 8}, {100, 193}}}
	m, path := written(t, squares(), o)
	if len(m.Holes) != 3 || m.Piercings != 20 || !strings.Contains(words(t, path),
		"Registration holes of 3 mm are at (8, 8), (192, 8), (100, 193) mm") {
		t.Errorf("%v, %d piercings, in %s", m.Holes, m.Piercings, words(t, path))
	}
	o.Cut.Holes = cutplan.Holes{}
	if m, path = written(t, squares(), o); len(m.Holes) != 0 ||
		!strings.Contains(words(t, path), "no registration marks: measure") {
		t.Errorf("%v, in %s", m.Holes, words(t, path))
	}
}

func BenchmarkJobSheet(b *testing.B) {
	d := patterntest.Demo(b)
	for b.Loop() {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			b.Fatal(err)
		}
		var out bytes.Buffer
		if _, err := Write(l, &out, Defaults()); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(out.Len()), "bytes")
	}
}
