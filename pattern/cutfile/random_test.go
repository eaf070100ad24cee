package cutfile

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// threeFiles makes and encodes one draft's three files as Write does, the cubic job serving two of them.
func threeFiles(t *testing.T, l *pattern.Layout, o cutplan.Options) (map[Format][]byte, map[Format]cutplan.Made) {
	t.Helper()
	data, made := map[Format][]byte{}, map[Format]cutplan.Made{}
	for kind, formats := range map[curve.Kind][]Format{curve.Cubic: {FormatSVG, FormatPDF}, curve.Arc: {FormatDXF}} {
		j, err := cutplan.ForLayout(l, o, kind)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range formats {
			b, err := Encode(j, f)
			if err == nil {
				err = ReadBack(j, f, b)
			}
			if err != nil {
				t.Fatal(err)
			}
			data[f], made[f] = b, j.Made
			if made[f].Deviation > 0.02 {
				t.Errorf("%s: curves leave the outlines by %g mm", f, made[f].Deviation)
			}
		}
	}
	return data, made
}

// row is what was found of one draft.
type row struct {
	title    string
	svg, pdf found
	all      float64
	page     orb.Bound
	made     map[Format]cutplan.Made
}

// usualDrafts is how many random ones other programs read usually, of which every run takes one.
const usualDrafts = 4

// drafts is how many random ones other programs read: 200 with -drafts 200, which takes some minutes.
var drafts = flag.Int("drafts", usualDrafts, "random drafts whose cut files are read by other programs")

// Three formats of many random drafts, read by programs that know nothing of this one: areas are the core's, lengths
// agree, nothing is open, nothing lies outside the sheet.
func TestFilesByOtherReaders(t *testing.T) {
	tool(t, "qpdf", "qpdf")
	dir := t.TempDir()
	random := plantest.RandomDrafts(t, 61, *drafts)
	if *drafts == usualDrafts {
		random = geometrytest.Share(t, random, 1)
	}
	all := append([]draft.Draft{patterntest.SmallDemo(t)}, random...)
	rows, names := make([]row, len(all)), make([]string, len(all))
	t.Run("drafts", func(t *testing.T) {
		for i, d := range all {
			names[i] = filepath.Join(dir, fmt.Sprintf("%d.dxf", i))
			t.Run(fmt.Sprint(i), func(t *testing.T) {
				t.Parallel()
				l, err := pattern.NewLayout(d, nil)
				if err != nil {
					t.Fatal(err)
				}
				r := &rows[i]
				r.title = d.Title
				o := options(i)
				var data map[Format][]byte
				data, r.made = threeFiles(t, l, o)
				page := filepath.Join(dir, fmt.Sprintf("%d.pdf", i))
				for path, b := range map[string][]byte{names[i]: data[FormatDXF], page: data[FormatPDF]} {
					if err := os.WriteFile(path, b, 0o644); err != nil {
						t.Fatal(err)
					}
				}
				box := d.SheetBound().Pad(d.Sheet.Kerf / 2)
				r.page.Max = orb.Point{box.Max[0] - box.Min[0], box.Max[1] - box.Min[1]}
				r.svg = svgByOthers(t, data[FormatSVG])
				r.pdf = pdfByOthers(t, uncompressed(t, page))
				var openings float64
				openings, r.all = core(t, l)
				if o.Holes.Layer == cutplan.Cut {
					r.all += float64(r.made[FormatSVG].Holes) * math.Pi * math.Pow(o.Holes.Diameter/2-d.Sheet.Kerf/2, 2)
				}
				for f, made := range r.made {
					if !near(made.Area, openings, 1e-3*openings) {
						t.Errorf("%s as %s: openings of %g mm², the core says %g", d.Title, f, made.Area, openings)
					}
				}
			})
		}
	})
	if t.Failed() {
		return
	}
	for i, f := range dxfByOthers(t, names) {
		r, title := rows[i], rows[i].title
		made := r.made[FormatSVG]
		cut := f.Layers["CUT"]
		if len(f.Errors) > 0 || f.Version != "AC1015" || f.Units != 4 || f.Metric != 1 || f.Others > 0 || cut.Open > 0 {
			t.Errorf("%s: ezdxf finds %+v", title, f)
		}
		if want := [4]float64{0, 0, r.page.Max[0], r.page.Max[1]}; !near(f.Extents[2], want[2], 1e-3) ||
			!near(f.Extents[3], want[3], 1e-3) {
			t.Errorf("%s: the DXF says it reaches to %v, the sheet to %v", title, f.Extents, want)
		}
		if r.svg.contours != cut.Contours || r.pdf.contours != cut.Contours ||
			r.made[FormatDXF].Piercings != cut.Contours || made.Piercings != cut.Contours {
			t.Errorf("%s: %d, %d and %d contours, %d piercings", title, r.svg.contours, cut.Contours, r.pdf.contours,
				made.Piercings)
		}
		for what, a := range map[string]float64{"SVG": r.svg.area, "DXF": cut.Area, "PDF": r.pdf.area} {
			if !near(a, r.all, 1e-3*r.all) {
				t.Errorf("%s: the %s encloses %.4f mm², the core %.4f", title, what, a, r.all)
			}
		}
		for what, l := range map[string]float64{"SVG": r.svg.length, "DXF": cut.Length, "PDF": r.pdf.length} {
			if !near(l, made.CutLength, 1e-3*made.CutLength) {
				t.Errorf("%s: the %s is %.4f mm long, the job says %.4f", title, what, l, made.CutLength)
			}
		}
		// The sheet's outline gives the extents, where no opening has eaten a whole side of it.
		if !sameBoxes(r.svg.box, r.pdf.box) || made.Notches == 0 && !sameBoxes(r.svg.box, r.page) ||
			!sameBoxes(r.svg.box.Union(r.page), r.page) {
			t.Errorf("%s: SVG %v, PDF %v, page %v", title, r.svg, r.pdf, r.page)
		}
		if b := cut.Box; b != nil {
			if !sameBoxes(orb.Bound{Min: orb.Point{b[0], b[1]}, Max: orb.Point{b[2], b[3]}}, r.svg.box) {
				t.Errorf("%s: ezdxf's box %v, the SVG's %v", title, *b, r.svg.box)
			}
			if !near(cut.FlatArea, cut.Area, 1e-3*cut.Area) {
				t.Errorf("%s: ezdxf's flattening encloses %.4f mm², its arcs %.4f", title, cut.FlatArea, cut.Area)
			}
		}
	}
}
