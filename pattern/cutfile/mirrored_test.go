package cutfile

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/cutplan/plantest"
)

// A mirrored file is the mirror image of what is cut: as ezdxf reads the DXF, held against GEOS's offset turned over;
// and as rsvg-convert draws the SVG and pdftocairo the PDF, dot for dot but for the edges of lines.
func TestMirroredFiles(t *testing.T) {
	d := plantest.Rings()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	s, err := cutplan.OfLayout(l)
	if err != nil {
		t.Fatal(err)
	}
	write := func(f Format, mirrored bool) []byte {
		var b bytes.Buffer
		if _, err := Write(l, &b, f, cutplan.Options{Mirrored: mirrored}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}

	name := filepath.Join(t.TempDir(), "back.dxf")
	if err := os.WriteFile(name, write(FormatDXF, true), 0o644); err != nil {
		t.Fatal(err)
	}
	box := s.Outline.Bound()
	over := geometry.MirrorX.Moved(box.Min[0]+box.Max[0], 0)
	q := question{Outline: s.Outline, Kerf: s.Kerf, Grown: s.Kerf / 2, DXF: name}
	for _, o := range s.Openings {
		q.Openings = append(q.Openings, geometry.Orient(geometry.Transform(geometry.Transform(o.Shape.Outline(),
			geometry.Translate(o.Shift[0], o.Shift[1])), over)))
	}
	truth := asked(t, []question{q})[0]
	if len(truth.Errors) > 0 {
		t.Errorf("ezdxf finds %q", truth.Errors)
	}
	paths := pathsOfDXF(truth.Cut)
	from := box.Pad(q.Grown).Min
	for k := range paths {
		paths[k] = paths[k].Under(geometry.Translate(from[0], from[1]))
	}
	rings := append(append([]orb.Ring{}, truth.Openings...), truth.Sheet...)
	flat := flattened(paths)
	if there, at := farthest(flat, boundary(rings)); there > curve.DefaultTolerance {
		t.Errorf("the file lies %.4f mm off at %v", there, at)
	}
	if back, at := farthest(rings, boundary(flat)); back > curve.DefaultTolerance {
		t.Errorf("GEOS's offset lies %.4f mm from it at %v", back, at)
	}

	t.Run("SVG", func(t *testing.T) {
		turnedOver(t, drawn(t, write(FormatSVG, false)), drawn(t, write(FormatSVG, true)))
	})
	t.Run("PDF", func(t *testing.T) {
		turnedOver(t, drawnPDF(t, write(FormatPDF, false)), drawnPDF(t, write(FormatPDF, true)))
	})
}

// turnedOver holds that one picture is the other turned over, and not as it is, but for the edges of lines.
func turnedOver(t *testing.T, front, back image.Image) {
	t.Helper()
	wide, high := front.Bounds().Dx(), front.Bounds().Dy()
	if back.Bounds() != front.Bounds() {
		t.Fatalf("the pictures are %v and %v", front.Bounds(), back.Bounds())
	}

	ink, differs, same := 0, 0, 0 // dots, those that differ turned over, and as they are
	far := func(a, b uint32) bool { return max(a, b)-min(a, b) > 0x8000 }
	for y := range high {
		for x := range wide {
			a, b, c := darkness(front.At(x, y)), darkness(back.At(wide-1-x, y)), darkness(back.At(x, y))
			if a > 0x8000 {
				ink++
			}
			if far(a, b) {
				differs++
			}
			if far(a, c) {
				same++
			}
		}
	}
	if differs > ink/50 || same < ink/4 {
		t.Errorf("%d dots of %d differ turned over, %d as they are", differs, ink, same)
	}
}

// darkness of a dot, from 0 where there is nothing or white to 0xffff.
func darkness(c color.Color) uint32 {
	r, g, b, a := c.RGBA()
	return a - (r+g+b)/3
}

// drawnPDF returns a PDF as pdftocairo draws it, as wide as drawn draws an SVG.
func drawnPDF(t *testing.T, pdf []byte) image.Image {
	t.Helper()
	name := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(name, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	text := uncompressed(t, name)
	text = regexp.MustCompile(`(?s)/OC /mark BDC\n.*?EMC`).ReplaceAllString(text, "")
	// Lines of 1 mm, which the file counts in.
	cmd := exec.Command("fix-qdf")
	cmd.Stdin = strings.NewReader(regexp.MustCompile(`(?m)^[\d.]+ w$`).ReplaceAllString(text, "1 w"))
	fixed, err := cmd.Output()
	if err != nil {
		t.Fatalf("fix-qdf: %v (Debian's qpdf is needed)", err)
	}
	if err := os.WriteFile(name, fixed, 0o644); err != nil {
		t.Fatal(err)
	}
	// pdftoppm would move straight lines to whole dots, and mirrored ones elsewhere.
	out, err := exec.Command("pdftocairo", "-scale-to-x", "1101", "-scale-to-y", "-1", "-gray", "-png", "-singlefile",
		name, "-").Output()
	if err != nil {
		t.Fatalf("pdftocairo: %v (Debian's poppler-utils is needed)", err)
	}
	m, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// drawn returns an SVG as rsvg-convert draws it.
func drawn(t *testing.T, svg []byte) image.Image {
	t.Helper()
	cmd := exec.Command("rsvg-convert", "-w", "1101", "-f", "png")
	// The words that say what it is are on the mirrored one alone.
	svg = regexp.MustCompile(`(?s)<g id="mark".*?</g>`).ReplaceAll(svg, nil)
	// Five dots to a millimetre; hairlines would hardly be seen.
	cmd.Stdin = bytes.NewReader(bytes.ReplaceAll(svg, []byte(`stroke-width="0.025"`), []byte(`stroke-width="1"`)))
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("rsvg-convert: %v (Debian's librsvg2-bin is needed)", err)
	}
	m, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	return m
}
