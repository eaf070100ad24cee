package pages

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/fogleman/gg"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/paper"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// The resolutions at which renderings are compared to a pixel: that of the figure asked for, and one whose pixel is
// less than a tenth of a millimetre, for small panels.
const dpi, fine = 150.0, 300.0

// beyond in mm: what is compared reaches that far beyond the panel, so that the line of its edge is whole.
const beyond = 0.4

// tool fails the test with the Debian package to install when a program is missing.
func tool(t *testing.T, name, pkg string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is missing: install Debian's package %s", name, pkg)
	}
}

// grey is a picture of greys, 0 black.
type grey struct {
	w, h int
	px   []byte
}

func (g grey) at(x, y int) byte {
	if x < 0 || y < 0 || x >= g.w || y >= g.h {
		return 255
	}
	return g.px[y*g.w+x]
}

// ink reports whether a pixel is inked for certain; the hairline of the field's edge is lighter than that.
func (g grey) ink(x, y int) bool { return g.at(x, y) < 70 }

// inkBy reports whether a pixel or one beside it is inked at all.
func (g grey) inkBy(x, y int) bool {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if g.at(x+dx, y+dy) < 200 {
				return true
			}
		}
	}
	return false
}

// rendered returns a file's pages as poppler draws them, after qpdf has found nothing wrong with it.
func rendered(t *testing.T, data []byte, resolution float64) []grey {
	t.Helper()
	tool(t, "pdftoppm", "poppler-utils")
	tool(t, "qpdf", "qpdf")
	dir := t.TempDir()
	path := filepath.Join(dir, "study.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("qpdf", "--check", path).CombinedOutput(); err != nil {
		t.Fatalf("qpdf: %s", out)
	}
	out, err := exec.Command("pdftoppm", "-gray", "-r", fmt.Sprintf("%.8f", resolution), path,
		filepath.Join(dir, "page")).CombinedOutput()
	if err != nil || len(out) > 0 {
		t.Fatalf("pdftoppm: %v %s", err, out)
	}
	names, _ := filepath.Glob(filepath.Join(dir, "page*.pgm"))
	sort.Strings(names)
	var all []grey
	for _, n := range names {
		b, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		var g grey
		if _, err := fmt.Sscanf(string(b[:min(len(b), 40)]), "P5\n%d %d\n255\n", &g.w, &g.h); err != nil {
			t.Fatalf("%s: %v", n, err)
		}
		g.px = b[len(b)-g.w*g.h:]
		all = append(all, g)
	}
	return all
}

// together puts a study's pages together by where each lies, into a picture of the panel of k px to the mm.
func together(s *study, sheets []grey, k float64) grey {
	d := s.l.Draft
	out := grey{w: int((d.Panel.Width + 2*beyond) * k), h: int((d.Panel.Height + 2*beyond) * k)}
	out.px = make([]byte, out.w*out.h)
	seams := s.seams()
	for y := range out.h {
		for x := range out.w {
			p := orb.Point{(float64(x)+0.5)/k - beyond, d.Panel.Height + beyond - (float64(y)+0.5)/k}
			column, row := sort.SearchFloat64s(seams[0], p[0]), s.made.Rows-1-sort.SearchFloat64s(seams[1], p[1])
			i := row*s.made.Columns + column
			page, g := s.made.Places[i], sheets[i]
			// The page is rendered so that a pixel of it is one of the panel's.
			px := (p[0] - page.Window.Min[0] + page.Paper.Min[0]/s.factor) * k
			py := float64(g.h) - (p[1]-page.Window.Min[1]+page.Paper.Min[1]/s.factor)*k
			// Poppler rounds the page's height up to whole pixels, and lays the page's top on the picture's.
			py -= float64(g.h) - s.made.Height/s.factor*k
			out.px[y*out.w+x] = g.at(int(math.Floor(px)), int(math.Floor(py)))
		}
	}
	return out
}

// drawn draws the panel by another library, each copy from its own outline, k px to the mm.
func drawn(t *testing.T, l *pattern.Layout, style Style, k float64) grey {
	t.Helper()
	d := l.Draft
	out := grey{w: int((d.Panel.Width + 2*beyond) * k), h: int((d.Panel.Height + 2*beyond) * k)}
	c := gg.NewContext(out.w, out.h)
	c.SetRGB(1, 1, 1)
	c.Clear()
	m := geometry.Map{A: k, D: -k, X: beyond * k, Y: (d.Panel.Height + beyond) * k}
	path := func(mp orb.MultiPolygon) {
		for _, poly := range mp {
			for _, r := range poly {
				for i, p := range r[:len(r)-1] {
					if q := m.Apply(p); i == 0 {
						c.MoveTo(q[0], q[1])
					} else {
						c.LineTo(q[0], q[1])
					}
				}
				c.ClosePath()
			}
		}
	}
	if d.Field.Edge == draft.Crop {
		path(geometry.RectOutline(d.FieldBound()))
		c.Clip()
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	c.SetRGB(0, 0, 0)
	c.SetFillRuleEvenOdd()
	c.SetLineWidth(lineWidth * k)
	for _, v := range copies {
		path(v.Shape().Outline())
		if style == Full {
			c.Fill()
		} else {
			c.Stroke()
		}
	}
	ties, err := l.TiesIn(d.PanelBound())
	if err != nil {
		t.Fatal(err)
	}
	c.SetRGB(1, 1, 1)
	for _, tie := range ties {
		path(orb.MultiPolygon{tie})
		c.Fill()
	}
	c.ResetClip()
	c.SetRGB(0, 0, 0)
	c.SetLineWidth(lineWidth * k)
	path(geometry.RectOutline(d.PanelBound()))
	c.Stroke()
	for y := range out.h {
		for x := range out.w {
			r, _, _, _ := c.Image().At(x, y).RGBA()
			out.px = append(out.px, byte(r>>8))
		}
	}
	return out
}

// differ counts the pixels with ink in one picture that have none in the other within a pixel, both ways.
func differ(a, b grey) (n int, where string) {
	for y := 1; y < a.h-1; y++ { // at the border a neighbour is missing
		for x := 1; x < a.w-1; x++ {
			if a.ink(x, y) && !b.inkBy(x, y) || b.ink(x, y) && !a.inkBy(x, y) {
				if n++; n == 1 {
					where = fmt.Sprintf("pixel (%d, %d): %d, %d", x, y, a.at(x, y), b.at(x, y))
				}
			}
		}
	}
	return n, where
}

// check writes a study, renders it, puts it together and compares it with the panel drawn by another library.
func check(t *testing.T, d draft.Draft, o Options, dpi float64) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	made, err := Write(l, &b, o)
	if err != nil {
		t.Fatal(err)
	}
	s, err := plan(l, o)
	if err != nil {
		t.Fatal(err)
	}
	sheets := rendered(t, b.Bytes(), dpi/s.factor)
	if len(sheets) != made.Pages || made.Bytes != b.Len() {
		t.Fatalf("%d pages of %d bytes, told %d of %d", len(sheets), b.Len(), made.Pages, made.Bytes)
	}
	got, want := together(s, sheets[1:], dpi/25.4), drawn(t, l, o.Draw, dpi/25.4)
	if n, where := differ(got, want); n > 0 {
		t.Errorf("%d pixels differ by more than one, first %s", n, where)
	}
	// Nothing to compare would be nothing to fail on.
	if dark := bytes.Count(want.px, []byte{0}); dark < (want.w+want.h)/2 {
		t.Errorf("only %d dark pixels were compared", dark)
	}
}

// Pages put together are the panel, for every paper, both ways, with and without a correction and an overlap.
func TestPagesPutTogether(t *testing.T) {
	const seed = 17
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	groups := symmetry.Groups()
	for i, size := range paper.Sizes() {
		for j, way := range []string{Upright, Lying} {
			k := 2*i + j
			d := patterntest.Draft(r, groups[(2*k+1)%len(groups)].Symbol)
			o := Defaults()
			o.Paper, o.Way, o.Marks, o.Draw = size.Name, way, false, []Style{Full, Outlines}[r.IntN(2)]
			o.Correction = []float64{0, 3.09, -2.5, 9.9}[k%4]
			o.Overlap = []float64{10, 0, 25}[k%3]
			o.Margin = []float64{5, 12.7}[j]
			if k%2 == 0 { // over several pages
				d.Panel.Width += 200
				d.Panel.Height += 160
				d.Repeat.A, d.Repeat.B = 2*d.Repeat.A, 2*d.Repeat.B
			}
			t.Run(fmt.Sprintf("%s %s %+g%% %s", size.Name, way, o.Correction, o.Draw),
				func(t *testing.T) { check(t, d, o, dpi) })
		}
	}
}

// Over two pages, corrected, to less than 0.1 mm.
func TestPutTogetherFinely(t *testing.T) {
	const seed = 23
	t.Logf("seed %d", seed)
	d := patterntest.Draft(rand.New(rand.NewPCG(seed, 1)), "p4gm")
	d.Panel, d.Field.Edge = draft.Panel{Width: 240, Height: 120}, draft.Crop
	o := Defaults()
	o.Way, o.Marks, o.Draw, o.Correction = Upright, false, Full, -1.7
	check(t, d, o, fine)
}

func TestDemoPutTogether(t *testing.T) {
	d := patterntest.SmallDemo(t)
	o := Defaults()
	o.Marks, o.Draw, o.Correction = false, Full, 1.2
	// A tie of the field and one of a silhouette are drawn as sheet.
	d.Ties = append(d.Ties, draft.Tie{From: [2]float64{-60, -40}, To: [2]float64{-20, -40}, Width: 3},
		draft.Tie{Silhouette: d.Silhouettes[0].ID, From: [2]float64{-10, -10}, To: [2]float64{20, -10}, Width: 2})
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	check(t, d, o, dpi)
}

// Where neighbours overlap they show the same, marks and cells among it; and there are marks on every seam.
func TestMarksCoincide(t *testing.T) {
	d := patterntest.Demo(t)
	d.Panel = draft.Panel{Width: 560, Height: 520}
	o := Defaults()
	o.Paper, o.Cell, o.Pattern, o.Overlap = "Letter", true, false, 20
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if _, err := Write(l, &b, o); err != nil {
		t.Fatal(err)
	}
	s, err := plan(l, o)
	if err != nil {
		t.Fatal(err)
	}
	const k = 10.0 // px to the mm
	sheets := rendered(t, b.Bytes(), 25.4*k)[1:]
	px := func(i int, p orb.Point) (int, int) {
		page := s.made.Places[i]
		return int(math.Floor((p[0] - page.Window.Min[0] + page.Paper.Min[0]) * k)),
			int(math.Floor((s.made.Height - (p[1] - page.Window.Min[1] + page.Paper.Min[1])) * k))
	}
	compared := 0
	for i := range sheets {
		row, column := i/s.made.Columns, i%s.made.Columns
		for _, j := range []int{i + 1, i + s.made.Columns} {
			if j == i+1 && column+1 == s.made.Columns || j != i+1 && row+1 == s.made.Rows {
				continue
			}
			p, q := s.made.Places[i].Window, s.made.Places[j].Window
			common := orb.Bound{Min: orb.Point{max(p.Min[0], q.Min[0]), max(p.Min[1], q.Min[1])},
				Max: orb.Point{min(p.Max[0], q.Max[0]), min(p.Max[1], q.Max[1])}}.Pad(-0.5)
			dark := 0
			for y := common.Min[1]; y < common.Max[1]; y += 1 / k {
				for x := common.Min[0]; x < common.Max[0]; x += 1 / k {
					ix, iy := px(i, orb.Point{x, y})
					jx, jy := px(j, orb.Point{x, y})
					if a, b := sheets[i].at(ix, iy) < 160, sheets[j].at(jx, jy) < 160; a {
						dark++
						if !sheets[j].inkBy(jx, jy) {
							t.Fatalf("pages %s and %s differ at (%.1f, %.1f) mm", s.made.Places[i].Name,
								s.made.Places[j].Name, x, y)
						}
					} else if b && !sheets[i].inkBy(ix, iy) {
						t.Fatalf("pages %s and %s differ at (%.1f, %.1f) mm", s.made.Places[i].Name,
							s.made.Places[j].Name, x, y)
					}
				}
			}
			if dark < 100 {
				t.Errorf("pages %s and %s have only %d dark pixels in common", s.made.Places[i].Name,
					s.made.Places[j].Name, dark)
			}
			compared++
		}
	}
	if compared < 8 {
		t.Errorf("only %d pairs of neighbours", compared)
	}
}

// Where the person measures in inches, the paper is Letter, every figure is in inches, and the rules are four inches
// long.
func TestInches(t *testing.T) {
	d := patterntest.SmallDemo(t)
	d.Title = "Цапля"
	o := Defaults()
	o.Units, o.Pattern = "in", false
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	made, err := Write(l, &b, o)
	if err != nil || made.Paper != "Letter" {
		t.Fatalf("on %s, %v", made.Paper, err)
	}
	path := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	text := strings.ReplaceAll(string(out), "\u00a0", " ")
	for _, want := range []string{"a panel of 11.811 × 10.236 in", "each is 4 in long", "Neighbours share 0.394 in",
		"4 in: measure it", "Цапля"} {
		if err != nil || !strings.Contains(text, want) {
			t.Errorf("%v: %q is not in %.900q", err, want, text)
		}
	}
	if strings.Contains(text, " mm") {
		t.Errorf("there are millimetres in %q", text)
	}
	const k = 10.0 // px to the mm
	g := rendered(t, b.Bytes(), 25.4*k)[1]
	left := int((o.Margin + band - 1.5) * k)
	for _, got := range []int{longest(g, g.h-left, true), longest(g, left, false)} {
		if abs(got-1016) > 3 {
			t.Errorf("a rule of 4 in is %d px long", got)
		}
	}
}

// Both rules measure 100 mm, corrected, on every page.
func TestRules(t *testing.T) {
	d := patterntest.SmallDemo(t)
	for _, correction := range []float64{0, -4, 3.09} {
		o := Defaults()
		o.Correction, o.Paper, o.Pattern = correction, "A4", false
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if _, err := Write(l, &b, o); err != nil {
			t.Fatal(err)
		}
		const k = 10.0 // px to the mm
		for i, g := range rendered(t, b.Bytes(), 25.4*k) {
			left := int((o.Margin + band - 1.5) * k)
			down := g.h - left
			want := int(math.Round(100 * o.factor() * k))
			if got := longest(g, down, true); abs(got-want) > 3 {
				t.Errorf("%+g %%, page %d: the rule below is %d px long, want %d", correction, i+1, got, want)
			}
			if got := longest(g, left, false); abs(got-want) > 3 {
				t.Errorf("%+g %%, page %d: the rule beside is %d px long, want %d", correction, i+1, got, want)
			}
		}
	}
}

func abs(v int) int { return max(v, -v) }

// longest returns the longest run of ink along a row, or a column, or one next to it.
func longest(g grey, at int, row bool) int {
	best := 0
	for d := -2; d <= 2; d++ {
		run := 0
		n := g.h
		if row {
			n = g.w
		}
		for k := range n {
			x, y := at+d, k
			if row {
				x, y = k, at+d
			}
			if g.at(x, y) < 200 {
				run++
				best = max(best, run)
			} else {
				run = 0
			}
		}
	}
	return best
}

func TestFewerPages(t *testing.T) {
	d := patterntest.Demo(t)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range paper.Sizes() {
		n := map[string]int{}
		for _, way := range []string{Upright, Lying, Fewer, ""} {
			o := Defaults()
			o.Paper, o.Way = p.Name, way
			s, err := plan(l, o)
			if err != nil {
				t.Fatal(err)
			}
			n[way] = s.made.Pages
			last := s.made.Places[len(s.made.Places)-1]
			all := s.made.Places[0].Window.Union(last.Window)
			if panel := d.PanelBound(); !all.Contains(panel.Min) || !all.Contains(panel.Max) {
				t.Errorf("%s %s: the pages do not cover the panel", p.Name, way)
			}
		}
		if n[Fewer] != min(n[Upright], n[Lying]) || n[""] != n[Fewer] {
			t.Errorf("%s: %v pages", p.Name, n)
		}
	}
}

// Progress rises to the end; a draft without motifs has pages all the same.
func TestProgressAndNothing(t *testing.T) {
	d := patterntest.Demo(t)
	d.Motifs, d.Ties = nil, nil
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var report []float64
	o := Defaults()
	o.Cell, o.Progress = true, func(part float64) { report = append(report, part) }
	var b bytes.Buffer
	made, err := Write(l, &b, o)
	if err != nil {
		t.Fatal(err)
	}
	if sheets := rendered(t, b.Bytes(), 20); len(sheets) != made.Pages {
		t.Errorf("%d pages, told %d", len(sheets), made.Pages)
	}
	if !sort.Float64sAreSorted(report) || len(report) < made.Pages-1 || report[len(report)-1] != 1 {
		t.Errorf("told %v", report)
	}
}

func TestNames(t *testing.T) {
	for _, v := range []struct {
		row, column int
		want        string
	}{{0, 0, "A1"}, {1, 2, "B3"}, {25, 9, "Z10"}, {26, 0, "AA1"}, {52, 0, "BA1"}} {
		t.Run(v.want, func(t *testing.T) {
			if got := name(v.row, v.column); got != v.want {
				t.Errorf("row %d, column %d is called %s, want %s", v.row, v.column, got, v.want)
			}
		})
	}
}

// What cannot be is refused in a sentence that says what and how much.
func TestRefusals(t *testing.T) {
	d := patterntest.Demo(t)
	for words, change := range map[string]func(o *Options, d *draft.Draft){
		`there is no paper "A9"`: func(o *Options, d *draft.Draft) { o.Paper = "A9" },
		"the overlap is NaN mm":  func(o *Options, d *draft.Draft) { o.Overlap = math.NaN() },
		"the printer's margin is -1 mm; it must lie between 0 and 40": func(o *Options, d *draft.Draft) {
			o.Margin = -1
		},
		"the correction is 11 %":  func(o *Options, d *draft.Draft) { o.Correction = 11 },
		`not "bold"`:              func(o *Options, d *draft.Draft) { o.Draw = "bold" },
		`not "askew"`:             func(o *Options, d *draft.Draft) { o.Way = "askew" },
		"leaves too little of A4": func(o *Options, d *draft.Draft) { o.Margin, o.Overlap, o.Correction = 40, 60, 9 },
		"pages, 75 rows of 73, and the limit is 600": func(o *Options, d *draft.Draft) {
			o.Way, d.Panel = Upright, draft.Panel{Width: 13200, Height: 20000}
		},
	} {
		t.Run(words, func(t *testing.T) {
			e, o := d, Defaults()
			change(&o, &e)
			l, err := pattern.NewLayout(e, nil)
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

func BenchmarkStudy(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 1))
	d := draft.Default() // no file: a browser has none
	d.Panel, d.Field.Origin = draft.Panel{Width: 600, Height: 900}, [2]float64{300, 450}
	d.Repeat = draft.Repeat{Group: "p2gg", A: 150, B: 108, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: patterntest.Smooth(r, 30, 300)}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{38, 27}, Scale: 1}}
	o := Defaults()
	o.Draw, o.Cell = Light, true
	for b.Loop() {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			b.Fatal(err)
		}
		var out bytes.Buffer
		if _, err := Write(l, &out, o); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(out.Len()), "bytes")
	}
}

// Openings are in their swatches, in the light style paler ones, and outlines have none.
func TestStudyInColours(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(174, 1)), "p4")
	d.Swatches = []draft.Swatch{{ID: "a", Colour: "#ff0000"}, {ID: "b", Colour: "#0000ff"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"a", "b"}
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{1, 1},
		Copies: []draft.HandColour{{Motif: d.Motifs[0].ID, Op: 1, Colour: 1}}}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for style, want := range map[Style][]string{Full: {"1 0 0 rg", "0 0 1 rg"},
		Light: {"1 0.749 0.749 rg", "0.749 0.749 1 rg"}, Outlines: nil} {
		o := Defaults()
		o.Draw = style
		var b bytes.Buffer
		if _, err := Write(l, &b, o); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "study.pdf")
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		plain, err := exec.Command("qpdf", "--qdf", "--object-streams=disable", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range want {
			if !bytes.Contains(plain, []byte(w)) {
				t.Errorf("%s: there is no %q", style, w)
			}
		}
		if style == Outlines && bytes.Contains(plain, []byte("1 0 0 rg")) {
			t.Error("outlines are filled")
		}
	}
}

// With a key each opening has its colour's number, and the map says which is which.
func TestStudyWithAKey(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(174, 1)), "p2")
	d.Panel, d.Field.Edge = draft.Panel{Width: 120, Height: 120}, draft.Whole
	d.Swatches = []draft.Swatch{{ID: "a", Name: "Fir", Colour: "#1d4a3a"}, {ID: "b", Name: "Brick", Colour: "#93402b"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"a", "b"}
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{1, 1},
		Copies: []draft.HandColour{{Motif: d.Motifs[0].ID, Op: 1, Colour: 1}}}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]int{}
	for _, c := range copies {
		want[fmt.Sprint(c.Colour+1)]++
	}
	o := Defaults()
	o.Key, o.Marks, o.Pattern, o.Way = true, false, false, Upright
	var b bytes.Buffer
	made, err := Write(l, &b, o)
	if err != nil || made.Pages != 2 {
		t.Fatalf("%v, %d pages", err, made.Pages)
	}
	path := filepath.Join(t.TempDir(), "study.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	for page := 1; page <= 2; page++ {
		out, err := exec.Command("pdftotext", "-f", fmt.Sprint(page), "-l", fmt.Sprint(page), path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		if text := strings.Join(strings.Fields(strings.ReplaceAll(string(out), "\u00a0", " ")), " "); page == 1 &&
			!strings.Contains(text, "numbered by their colour: 1 Fir, 2 Brick. One stencil serves") {
			t.Errorf("the map says %q", text)
		}
		got := map[string]int{}
		for _, word := range strings.Fields(string(out)) {
			got[word]++
		}
		if page == 2 && (got["1"] != want["1"] || got["2"] != want["2"]) {
			t.Errorf("numbers %d and %d are on the page, copies are %v", got["1"], got["2"], want)
		}
	}
}
