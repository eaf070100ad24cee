package cutfile

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/cutplan/plantest"
)

// Where the stock's own edge is the sheet's, other readers find the openings alone on the layer cut of every format,
// and the outline on the layer mark where it is asked for there.
func TestFilesWithoutAnOutlineToCut(t *testing.T) {
	tool(t, "qpdf", "qpdf")
	d := plantest.Rings()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	openings, _ := core(t, l)
	b := d.SheetBound()
	wide, high := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	dir := t.TempDir()
	for _, trim := range []cutplan.Trim{cutplan.TrimMark, cutplan.TrimNone} {
		t.Run(string(trim), func(t *testing.T) {
			data, made := threeFiles(t, l, cutplan.Options{Trim: trim})
			drawing, page := filepath.Join(dir, string(trim)+".dxf"), filepath.Join(dir, string(trim)+".pdf")
			for path, b := range map[string][]byte{drawing: data[FormatDXF], page: data[FormatPDF]} {
				if err := os.WriteFile(path, b, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			svg, pdf := svgByOthers(t, data[FormatSVG]), pdfByOthers(t, uncompressed(t, page))
			dxf := dxfByOthers(t, []string{drawing})[0]
			cut, mark := dxf.Layers["CUT"], dxf.Layers["MARK"]
			if len(dxf.Errors) > 0 || cut.Open > 0 {
				t.Errorf("ezdxf finds %+v", dxf)
			}
			for what, f := range map[Format]found{FormatSVG: svg, FormatPDF: pdf,
				FormatDXF: {contours: cut.Contours, area: cut.Area, length: cut.Length}} {
				m := made[what]
				if f.contours != m.Piercings || !near(f.area, openings, 1e-3*openings) ||
					!near(f.length, m.CutLength, 1e-3*m.CutLength) {
					t.Errorf("%s: %v; meant %d cuts, %g mm² and %g mm", what, f, m.Piercings, openings, m.CutLength)
				}
			}
			if want := map[cutplan.Trim]float64{cutplan.TrimMark: 2 * (wide + high)}[trim]; !near(mark.Length, want,
				1e-3) {
				t.Errorf("%g mm are marked, want %g", mark.Length, want)
			}
			if got := fmt.Sprint(dxf.Extents); got != fmt.Sprint([4]float64{0, 0, wide, high}) {
				t.Errorf("the DXF says it reaches to %s", got)
			}
		})
	}
}
