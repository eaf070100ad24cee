package pages

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
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
