package stepping

import (
	"bytes"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// square is a draft of squares of a side in a p1 cell of 40 × 30 mm.
func square(side float64) draft.Draft {
	d := draft.Default()
	d.Panel = draft.Panel{Width: 200, Height: 150}
	d.Repeat = draft.Repeat{Group: "p1", A: 40, B: 30, Gamma: 90}
	h := side / 2
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square",
		Outline: orb.MultiPolygon{{{{-h, -h}, {h, -h}, {h, h}, {-h, h}, {-h, -h}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{7, 9}, Scale: 1}}
	return d
}

func layoutOf(t *testing.T, d draft.Draft) *pattern.Layout {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// One square a cell: a sheet of one square, laid once for each square that the field has or crops.
func TestSquaresAreLaidOneByOne(t *testing.T) {
	l := layoutOf(t, square(10))
	s, err := Steps(l, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Places) != len(copies) || len(s.Openings) != 1 || len(s.Passes) != 4 || s.Width < 50 || s.Width > 60 ||
		s.Height < 50 || s.Height > 60 {
		t.Errorf("%d places for %d copies, %d openings, %d passes, %g × %g mm", len(s.Places), len(copies),
			len(s.Openings), len(s.Passes), s.Width, s.Height)
	}
	two, err := Steps(l, Options{Repeats: [2]int{2, 1}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if two.Repeats != 2 || len(two.Openings) != 2 || math.Abs(math.Hypot(two.Steps[0][0], two.Steps[0][1])-30) > 1e-9 ||
		math.Abs(math.Hypot(two.Steps[1][0], two.Steps[1][1])-80) > 1e-9 {
		t.Errorf("two repeats along a: %d, %d openings, steps %v", two.Repeats, len(two.Openings), two.Steps)
	}
}

// In a centred group the smallest piece holds half of the conventional cell.
func TestCentredCellsAreHalved(t *testing.T) {
	for _, group := range []string{"cm", "c2mm"} {
		d := square(4)
		d.Repeat = draft.Repeat{Group: group, A: 60, B: 50, Gamma: 90}
		s, err := Steps(layoutOf(t, d), Options{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if want := len(layoutOf(t, d).Group.Ops) / 2; len(s.Openings) != want {
			t.Errorf("%s: %d openings on the smallest sheet, want %d", group, len(s.Openings), want)
		}
		one, err := Steps(layoutOf(t, d), Options{Repeats: [2]int{1, 1}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if one.Repeats != 2 || len(one.Openings) != 2*len(s.Openings) {
			t.Errorf("%s: a whole cell holds %d repeats and %d openings", group, one.Repeats, len(one.Openings))
		}
	}
}

func TestRefusals(t *testing.T) {
	wide := square(44)
	wide.Sheet.Bed = &draft.Bed{Width: 30, Height: 40}
	small := square(10)
	small.Sheet.Bed = &draft.Bed{Width: 40, Height: 45}
	vinyl := square(10)
	vinyl.Sheet.Stock = "vinyl"
	for _, c := range []struct {
		d    draft.Draft
		o    Options
		want string
	}{
		{wide, Options{}, "on and on across the field"},
		{small, Options{}, "the bed takes 40 × 45 mm"},
		{small, Options{Most: true}, "not one whole cell fits"},
		{square(10), Options{Most: true}, "only when the bed's size is given"},
		{square(10), Options{Margin: 1}, "the bridge of 3 mm"},
		{square(10), Options{Margin: math.NaN()}, "margin"},
		{square(10), Options{Repeats: [2]int{0, 2}}, "between 1 and 1000"},
		{square(10), Options{Repeats: [2]int{1000, 1000}}, "ask for fewer repeats"},
		{square(10), Options{Bed: &draft.Bed{Width: math.Inf(1), Height: 3}}, "bed"},
		{square(10), Options{Cut: cutplan.Options{Holes: cutplan.Holes{Diameter: -1}}}, "registration holes"},
		{draft.Default(), Options{}, "holds no copy"},
	} {
		t.Run(c.want, func(t *testing.T) {
			if _, err := Steps(layoutOf(t, c.d), c.o, nil); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%+v: %v, want %q", c.o, err, c.want)
			}
		})
	}
	if _, err := Steps(layoutOf(t, wide), Options{}, nil); !errors.Is(err, errEndless) {
		t.Errorf("rows of squares that run together: %v", err)
	}
	s, err := Steps(layoutOf(t, vinyl), Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Write(&bytes.Buffer{}, cutfile.FormatSVG); err == nil || !strings.Contains(err.Error(), "chlor") {
		t.Errorf("vinyl is cut: %v", err)
	}
}

// What is not the field's is not handed over: an opening left out of what is laid, or laid twice, is found.
func TestProofSeesWhatIsMissing(t *testing.T) {
	l := layoutOf(t, patterntest.Demo(t))
	s, err := Steps(l, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	all := s.laid
	s.laid = all[1:]
	if err := s.prove(nil); err == nil || !strings.Contains(err.Error(), "missing") || s.Missing < 1 {
		t.Errorf("an opening left out: %v, %g mm²", err, s.Missing)
	}
	s.laid = append(all[:len(all):len(all)], all[0])
	if err := s.prove(nil); err == nil || s.Twice < 1 {
		t.Errorf("an opening laid twice: %v, %g mm²", err, s.Twice)
	}
	s.laid = all
	if err := s.prove(nil); err != nil {
		t.Error(err)
	}
}

// BenchmarkSteps makes the smallest stepping sheet of the demonstration, and the largest that fits a bed of 900 × 1200
// mm.
func BenchmarkSteps(b *testing.B) {
	d := patterntest.Demo(b)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		b.Fatal(err)
	}
	for name, o := range map[string]Options{"smallest": {},
		"most": {Most: true, Bed: &draft.Bed{Width: 900, Height: 1200}}} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Steps(l, o, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The printed map is a PDF that others read; it names every place and every pass, on each paper.
func TestMapIsPrinted(t *testing.T) {
	l := layoutOf(t, patterntest.Demo(t))
	s, err := Steps(l, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, paper := range []string{"A4", "Letter", "A3", "Tabloid"} {
		path := filepath.Join(t.TempDir(), "map.pdf")
		var b bytes.Buffer
		if err := s.Map(&b, paper); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("qpdf", "--check", path).CombinedOutput(); err != nil {
			t.Errorf("%s: qpdf: %v\n%s", paper, err, out)
		}
		out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		words := map[string]bool{}
		for _, w := range strings.Fields(string(out)) {
			words[w] = true
		}
		for _, p := range s.Places {
			if !words[strconv.Itoa(p.Number)] {
				t.Errorf("%s: place %d is not on the map", paper, p.Number)
			}
		}
		if text := string(out); strings.Count(text, "Pass ") != len(s.Passes) {
			t.Errorf("%s: %d passes are told, want %d", paper, strings.Count(text, "Pass "), len(s.Passes))
		}
	}
	if err := s.Map(io.Discard, "B7"); err == nil {
		t.Error("a map on B7")
	}
}
