package cutfile

import (
	"bytes"
	"compress/zlib"
	"flag"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

var update = flag.Bool("update", false, "write the golden files anew")

// The demo's files on a small part of its panel, as plain text that a diff shows: each stays under 200 kB. Of the PDF
// the page is kept laid open: how it is packed may change with Go.
func TestDemoGoldens(t *testing.T) {
	o := cutplan.Defaults()
	o.Label.Date = "2025-03-01"
	d := patterntest.Demo(t)
	d.Panel = draft.Panel{Width: 200, Height: 260}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}

	for _, f := range []Format{FormatSVG, FormatDXF, FormatPDF} {
		t.Run(string(f), func(t *testing.T) {
			var b bytes.Buffer
			if _, err := Write(l, &b, f, o); err != nil {
				t.Fatal(err)
			}
			got := b.Bytes()
			if f == FormatPDF {
				got = laidOpen(t, got)
			}

			path := filepath.Join("testdata", "heron-over-carp."+string(f))
			if *update {
				if err := os.WriteFile(path, got, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatalf("%v; go test -update writes it", err)
			}
			if bytes.Equal(got, want) {
				return
			}
			at := 0
			for at < min(len(got), len(want)) && got[at] == want[at] {
				at++
			}
			t.Errorf("differs from its golden at byte %d of %d: %.60q, it was %.60q; if that is meant, go test -update",
				at, len(want), got[at:min(len(got), at+60)], want[at:min(len(want), at+60)])
		})
	}
}

// laidOpen returns a PDF up to its table of objects with its stream unpacked and the stream's length left out.
func laidOpen(t *testing.T, data []byte) []byte {
	t.Helper()
	head, rest, ok := bytes.Cut(data, []byte("\nstream\n"))
	packed, rest, ok2 := bytes.Cut(rest, []byte("\nendstream"))
	rest, _, ok3 := bytes.Cut(rest, []byte("xref\n"))
	if !ok || !ok2 || !ok3 {
		t.Fatal("the PDF has no stream or no table")
	}
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	head = regexp.MustCompile(`/Length \d+`).ReplaceAll(head, []byte("/Length"))
	return slices.Concat(head, []byte("\n"), content, rest)
}

// pdftoppm (Debian's poppler-utils) renders the PDF at 600 dpi with the openings filled: the ink is the core's area
// within 0.1 %, the page the sheet's size. It paints what it touches, a sixteenth of a pixel too much all round, hence
// so fine.
func TestPDFRenderedByAnotherReader(t *testing.T) {
	tool(t, "qpdf", "qpdf")
	tool(t, "fix-qdf", "qpdf")
	tool(t, "pdftoppm", "poppler-utils")
	d := patterntest.Demo(t)
	d.Panel = draft.Panel{Width: 180, Height: 150}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	made, err := Write(l, &b, FormatPDF, cutplan.Defaults())
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "a.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	text := uncompressed(t, path)
	// Fill what is cut but for the sheet's outline, which is the last contour; let go of the rest.
	marks, cut, ok := strings.Cut(text, "/OC /cut BDC\n")
	cut, rest, ok2 := strings.Cut(cut, "EMC")
	if !ok || !ok2 {
		t.Fatal("the PDF has no layer cut")
	}
	paint := regexp.MustCompile(`(?m)^[sS]$`)
	n, i := len(paint.FindAllString(cut, -1)), 0
	cut = paint.ReplaceAllStringFunc(cut, func(string) string {
		if i++; i == n {
			return "n"
		}
		return "f"
	})
	cut = regexp.MustCompile(`(?m)^.* RG$`).ReplaceAllString(cut, "0 g")
	cmd := exec.Command("fix-qdf")
	cmd.Stdin = strings.NewReader(paint.ReplaceAllString(marks, "n") + "/OC /cut BDC\n" + cut + "EMC" + rest)
	fixed, err := cmd.Output()
	if err != nil {
		t.Fatalf("fix-qdf: %v", err)
	}
	filled := filepath.Join(dir, "filled.pdf")
	if err := os.WriteFile(filled, fixed, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftoppm", "-r", "600", "-gray", "-png", "-singlefile", filled).Output()
	if err != nil {
		t.Fatalf("pdftoppm: %v", err)
	}
	img, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	ink := 0.0
	r := img.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			v, _, _, _ := img.At(x, y).RGBA()
			ink += 1 - float64(v)/0xffff
		}
	}
	box := d.SheetBound().Pad(d.Sheet.Kerf / 2)
	const px = 600 / 25.4 // to the mm
	if !near(float64(r.Dx()), px*(box.Max[0]-box.Min[0]), 1.01) ||
		!near(float64(r.Dy()), px*(box.Max[1]-box.Min[1]), 1.01) {
		t.Errorf("rendered at 600 dpi it is %d × %d px, the sheet %v", r.Dx(), r.Dy(), box)
	}
	if ink /= px * px; !near(ink, made.Area, 1e-3*made.Area) {
		t.Errorf("rendered %.6g mm² of ink, the core says %.6g", ink, made.Area)
	}
}
