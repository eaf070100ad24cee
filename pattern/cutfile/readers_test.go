package cutfile

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"math"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
)

// tool fails the test with the Debian package to install when a program is missing.
func tool(t *testing.T, name, pkg string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is missing: install Debian's package %s", name, pkg)
	}
}

// options are the usual ones, now and then others, so that all of them are read back.
func options(i int) cutplan.Options {
	o := cutplan.Defaults()
	o.Label.Date = "2025-03-01"
	switch i % 6 {
	case 1:
		o.Polygons = true
	case 2:
		o.Holes = cutplan.Holes{Diameter: 2, Layer: cutplan.Cut}
		o.Colours = cutplan.Colours{Cut: "#0000ff", Mark: "#00ff00"}
	case 3:
		o.Apart = 2
		o.Label.Layer = cutplan.Score
	case 4:
		o.Unsound = []string{"A bridge is 0.8 mm wide; this sheet needs 2 -- see (12, 40).", "An island drops out."}
	}
	return o
}

// core returns what the contours on the layer cut must enclose, from the openings and the library's offset alone.
func core(t *testing.T, l *pattern.Layout) (openings, all float64) {
	t.Helper()
	os, err := panel.Openings(l)
	if err != nil {
		t.Fatal(err)
	}
	half, sheet := l.Draft.Sheet.Kerf/2, l.Draft.SheetBound()
	var over orb.MultiPolygon
	known := map[*geometry.Shape]float64{}
	for _, o := range os {
		if b := o.Bound(); b.Min[0] <= sheet.Min[0]+1e-6 || b.Min[1] <= sheet.Min[1]+1e-6 ||
			b.Max[0] >= sheet.Max[0]-1e-6 || b.Max[1] >= sheet.Max[1]-1e-6 {
			over = append(over, geometry.Transform(o.Shape.Outline(), geometry.Translate(o.Shift[0], o.Shift[1]))...)
			continue
		}
		if _, ok := known[o.Shape]; !ok {
			mp, err := offset.Offset(o.Shape.Outline(), -half, 0.0005)
			if err != nil {
				t.Fatal(err)
			}
			known[o.Shape] = geometry.Area(mp)
		}
		openings += known[o.Shape]
	}
	rim := geometry.RectOutline(sheet.Pad(half))
	if len(over) > 0 {
		rest, err := overlay.Difference(geometry.RectOutline(sheet), over)
		if err != nil {
			t.Fatal(err)
		}
		if rim, err = offset.Offset(rest, half, 0.0005); err != nil {
			t.Fatal(err)
		}
	}
	return openings, openings + geometry.Area(rim)
}

// found is what another reader finds on the layer cut.
type found struct {
	contours     int
	area, length float64
	box          orb.Bound
}

func (f found) String() string {
	return fmt.Sprintf("%d contours, %.4f mm², %.4f mm, %v", f.contours, f.area, f.length, f.box)
}

// contour is what fontTools finds one contour of path data to be. Its area is counter-clockwise positive where y runs
// upward.
type contour struct {
	Closed       bool
	Area, Length float64
	Box          [4]float64 // mm: left, lower, right and upper side, y as in the data
}

// sumUp puts together what fontTools finds the contours of path data to be. A height turns y upward; 0 leaves it as it
// is.
func sumUp(t *testing.T, data []string, height float64) found {
	t.Helper()
	read, err := patterntest.Ask[[]contour]("testdata/read_paths.py", data)
	if err != nil {
		t.Fatal(err)
	}
	var f found
	for i, contours := range read {
		for _, c := range contours {
			if !c.Closed {
				t.Fatalf("an open contour: %.60s", data[i])
			}
			box := orb.Bound{Min: orb.Point{c.Box[0], c.Box[1]}, Max: orb.Point{c.Box[2], c.Box[3]}}
			if height > 0 {
				box.Min[1], box.Max[1] = height-box.Max[1], height-box.Min[1]
				c.Area = -c.Area
			}
			f.area += c.Area
			f.length += c.Length
			if f.contours == 0 {
				f.box = box
			}
			f.box = f.box.Union(box)
			f.contours++
		}
	}
	return f
}

// svgByOthers reads a cut file by encoding/xml and another library's path reader.
func svgByOthers(t *testing.T, data []byte) found {
	t.Helper()
	var s read
	if err := xml.Unmarshal(data, &s); err != nil {
		t.Fatal(err)
	}
	var w, h float64
	if _, err := fmt.Sscanf(s.ViewBox, "0 0 %f %f", &w, &h); err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, g := range s.Groups {
		for _, p := range g.Paths {
			if g.ID == "cut" {
				paths = append(paths, p.D)
			}
		}
	}
	return sumUp(t, paths, h)
}

// uncompressed returns a PDF as qpdf lays it open, after qpdf has found no fault in it.
func uncompressed(t *testing.T, path string) string {
	t.Helper()
	if out, err := exec.Command("qpdf", "--check", path).CombinedOutput(); err != nil {
		t.Fatalf("qpdf --check: %v\n%s", err, out)
	}
	out, err := exec.Command("qpdf", "--qdf", "--object-streams=disable", path, "-").Output()
	if err != nil {
		t.Fatalf("qpdf --qdf: %v", err)
	}
	return string(out)
}

// pdfByOthers reads the operators that qpdf lays open as path data.
func pdfByOthers(t *testing.T, text string) found {
	t.Helper()
	_, cut, _ := strings.Cut(text, "/OC /cut BDC\n")
	cut, _, ok := strings.Cut(cut, "EMC")
	if !ok {
		t.Fatal("the PDF has no layer cut")
	}
	if !regexp.MustCompile(`(?m)^2\.8346456693 0 0 2\.8346456693 0 0 cm$`).MatchString(text) {
		t.Fatal("the page is not scaled to millimetres")
	}
	var paths []string
	var b strings.Builder
	for _, line := range strings.Split(cut, "\n") {
		at := strings.LastIndexByte(line, ' ')
		switch op := line[at+1:]; op {
		case "m", "l", "c":
			fmt.Fprintf(&b, "%s%s ", strings.ToUpper(op), line[:max(at, 0)])
		case "s":
			b.WriteString("Z")
			paths = append(paths, b.String())
			b.Reset()
		case "RG", "":
		default:
			t.Fatalf("the layer cut holds %q", line)
		}
	}
	return sumUp(t, paths, 0)
}

// dxfFound is what ezdxf finds in a file.
type dxfFound struct {
	Errors        []string
	Version       string
	Units, Metric int
	Extents       [4]float64
	Colours       map[string]int
	Others        int
	Layers        map[string]struct {
		Contours, Open         int
		Area, Length, FlatArea float64
		Box                    *[4]float64
	}
}

func dxfByOthers(t *testing.T, paths []string) []dxfFound {
	t.Helper()
	if err := exec.Command("/usr/bin/python3", "-c", "import ezdxf").Run(); err != nil {
		t.Fatal("ezdxf for /usr/bin/python3 is missing: install Debian's package python3-ezdxf")
	}
	cmd := exec.Command("/usr/bin/python3", append([]string{"testdata/read_dxf.py"}, paths...)...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("ezdxf: %v\n%s", err, stderr.String())
	}
	var found []dxfFound
	if err := json.Unmarshal(out, &found); err != nil {
		t.Fatal(err)
	}
	return found
}

func near(a, b, slack float64) bool { return math.Abs(a-b) <= slack }

// sameBoxes compares boxes to 0.01 mm.
func sameBoxes(a, b orb.Bound) bool {
	return near(a.Min[0], b.Min[0], 0.01) && near(a.Min[1], b.Min[1], 0.01) && near(a.Max[0], b.Max[0], 0.01) &&
		near(a.Max[1], b.Max[1], 0.01)
}
