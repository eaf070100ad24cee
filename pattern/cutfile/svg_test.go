package cutfile

import (
	"bytes"
	"encoding/xml"
	"image/png"
	"math"
	"math/rand/v2"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
)

// read is a cut file as encoding/xml and another library's path reader see it.
type read struct {
	Width   string `xml:"width,attr"`
	Height  string `xml:"height,attr"`
	ViewBox string `xml:"viewBox,attr"`
	Groups  []struct {
		ID    string `xml:"id,attr"`
		Fill  string `xml:"fill,attr"`
		Width string `xml:"stroke-width,attr"`
		Paths []struct {
			Class string `xml:"class,attr"`
			D     string `xml:"d,attr"`
		} `xml:"path"`
	} `xml:"g"`
}

func write(t *testing.T, d draft.Draft) ([]byte, cutplan.Made, *pattern.Layout) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	made, err := SVG(l, &b)
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes(), made, l
}

func TestCutFileReadBack(t *testing.T) {
	const seed = 6
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	drafts := []draft.Draft{patterntest.SmallDemo(t)}
	var random []draft.Draft
	for _, g := range []string{"p1", "pg", "cm", "p2gg", "p4gm", "p31m", "p6mm"} {
		random = append(random, patterntest.Draft(r, g))
	}
	drafts = append(drafts, geometrytest.Share(t, random, 3)...)
	bare := patterntest.SmallDemo(t)
	bare.Sheet.Kerf = 0
	drafts = append(drafts, bare)
	for _, d := range drafts {
		data, made, l := write(t, d)
		var f read
		if err := xml.Unmarshal(data, &f); err != nil {
			t.Fatal(err)
		}
		// What is cut comes last: marks on a piece that is out would miss it. A sheet without room for marks has none.
		last := len(f.Groups) - 1
		if last < 0 || last > 1 || f.Groups[last].ID != "cut" || last == 1 && f.Groups[0].ID != "mark" {
			t.Fatalf("%s: %d groups", d.Title, len(f.Groups))
		}
		cut := f.Groups[last]
		if w, err := strconv.ParseFloat(cut.Width, 64); cut.Fill != "none" || err != nil || w < 0.01 || w > 0.1 {
			t.Errorf("%s: fill %q, stroke %q; want none and a hairline", d.Title, cut.Fill, cut.Width)
		}
		if last := cut.Paths[len(cut.Paths)-1]; last.Class != "sheet" {
			t.Errorf("%s: the last cut is %q, want the sheet's outline", d.Title, last.Class)
		}
		box := d.SheetBound().Pad(d.Sheet.Kerf / 2)
		if want := number(box.Max[0]-box.Min[0]) + "mm"; f.Width != want ||
			f.ViewBox != "0 0 "+number(box.Max[0]-box.Min[0])+" "+number(box.Max[1]-box.Min[1]) {
			t.Errorf("%s: width %s, viewBox %s", d.Title, f.Width, f.ViewBox)
		}
		var paths []string
		for _, p := range cut.Paths[:len(cut.Paths)-1] {
			paths = append(paths, p.D)
		}
		total := sumUp(t, paths, box.Max[1]-box.Min[1]).area
		if math.Abs(total-made.Area) > 1e-3*made.Area {
			t.Errorf("%s: contours enclose %.6g mm², the core says %.6g", d.Title, total, made.Area)
		}
		report, err := panel.Check(l)
		if err != nil {
			t.Fatal(err)
		}
		if made.Openings+made.Lost != report.Counts.Openings {
			t.Errorf("%s: %d openings written and %d lost, the check counts %d", d.Title, made.Openings, made.Lost,
				report.Counts.Openings)
		}
		if d.Sheet.Kerf == 0 && math.Abs(total-report.OpenArea) > 1e-3*report.OpenArea {
			t.Errorf("%s: without kerf the contours enclose %.6g mm², the check says %.6g", d.Title, total,
				report.OpenArea)
		}
		// Half the kerf off all round takes about its length times that off the area.
		if lost := report.OpenArea - total; d.Sheet.Kerf > 0 && (lost <= 0 || lost > report.OpenArea/2) {
			t.Errorf("%s: the kerf takes %.6g mm² off %.6g", d.Title, lost, report.OpenArea)
		}
	}
}

// rsvg-convert (Debian's librsvg2-bin) renders the file at 10 px to the mm: its size must be true, and with the
// contours filled the area of ink must be the core's within 0.1 %.
func TestCutFileRenderedByAnotherReader(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		t.Fatal("rsvg-convert is missing: install Debian's package librsvg2-bin")
	}
	d := patterntest.SmallDemo(t)
	data, made, _ := write(t, d)
	text := string(data)
	if strings.Count(text, `fill="none"`) != 2 {
		t.Fatal("the groups do not say fill none")
	}
	// Fill the openings, drop what is stroked, and take the sheet's outline out of the picture.
	text = strings.Replace(text, `fill="none" stroke="`+"#ff0000"+`"`,
		`fill="#000" fill-rule="evenodd" stroke="none"`, 1)
	at := strings.Index(text, `<path class="sheet"`)
	text = text[:at] + text[at+strings.Index(text[at:], "/>")+2:]
	text = strings.Replace(text, `stroke="`+"#0000ff"+`"`, `stroke="none"`, 1)
	cmd := exec.Command("rsvg-convert", "-d", "254", "-p", "254", "-b", "white")
	cmd.Stdin = strings.NewReader(text)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("rsvg-convert: %v", err)
	}
	img, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	box := d.SheetBound().Pad(d.Sheet.Kerf / 2)
	b := img.Bounds()
	if math.Abs(float64(b.Dx())-10*(box.Max[0]-box.Min[0])) > 1 ||
		math.Abs(float64(b.Dy())-10*(box.Max[1]-box.Min[1])) > 1 {
		t.Errorf("rendered at 10 px/mm it is %d × %d px, the sheet %g × %g mm", b.Dx(), b.Dy(), box.Max[0]-box.Min[0],
			box.Max[1]-box.Min[1])
	}
	ink := 0.0
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			v, _, _, _ := img.At(x, y).RGBA()
			ink += 1 - float64(v)/0xffff
		}
	}
	if got := ink / 100; math.Abs(got-made.Area) > 1e-3*made.Area {
		t.Errorf("rendered %.6g mm² of ink, the core says %.6g", got, made.Area)
	}
}

func TestStockThatMustNotMeetALaser(t *testing.T) {
	for stock, refused := range map[string]bool{
		"PVC film": true, "self-adhesive vinyl": true, "chlorinated rubber": true, "polycarbonate 1 mm": true,
		"ABS": true, "polyester film": false, "absorbent card": false, "birch ply": false, "cast acrylic": false,
		"": false,
	} {
		d := patterntest.SmallDemo(t)
		d.Sheet.Stock = stock
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if _, err = SVG(l, &b); (err != nil) != refused {
			t.Errorf("%q: %v", stock, err)
		}
		if refused && b.Len() > 0 {
			t.Errorf("%q: refused, but a file was begun", stock)
		}
	}
}
