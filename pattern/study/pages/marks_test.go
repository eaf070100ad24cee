package pages

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

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
