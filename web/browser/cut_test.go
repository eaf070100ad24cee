package browser

import (
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"openwork/pattern/draft"
)

// cutPath is one path of a cut file and the id of the group it is in.
type cutPath struct {
	group, class, data string
	fill               string
}

// readCut reads a cut file with readers that know nothing of the program: encoding/xml for what is in it, rsvg-convert
// for its true size.
func readCut(t *testing.T, path string, d draft.Draft, openings int) {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var paths []cutPath
	var size [2]string
	var groups []cutPath // the open groups
	for decoder := xml.NewDecoder(file); ; {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("the cut file is no XML: %v", err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			at := map[string]string{}
			for _, a := range e.Attr {
				at[a.Name.Local] = a.Value
			}
			switch e.Name.Local {
			case "svg":
				size = [2]string{at["width"], at["height"]}
			case "g":
				groups = append(groups, cutPath{group: at["id"], fill: at["fill"]})
			case "path":
				c := cutPath{class: at["class"], data: at["d"]}
				if n := len(groups); n > 0 {
					c.group, c.fill = groups[n-1].group, groups[n-1].fill
				}
				paths = append(paths, c)
			}
		case xml.EndElement:
			if e.Name.Local == "g" {
				groups = groups[:len(groups)-1]
			}
		}
	}
	n, last := 0, ""
	for _, c := range paths {
		if c.group != "cut" {
			continue
		}
		last = c.class
		if c.fill != "none" {
			t.Fatalf("a cut path is filled with %q", c.fill)
		}
		if strings.Count(strings.ToUpper(c.data), "Z") != strings.Count(strings.ToUpper(c.data), "M") ||
			!strings.Contains(c.data, "M") {
			t.Fatalf("a cut path is not closed: %.60s", c.data)
		}
		if c.class == "opening" {
			n++
		}
	}
	if n != openings {
		t.Errorf("the cut file holds %d openings, the check counted %d", n, openings)
	}
	if last != "sheet" {
		t.Errorf("the sheet's outline should come last, there is %q", last)
	}
	// True size: the file says millimetres, and another program draws it at 96 px to the inch.
	sheet := d.SheetBound()
	want := [2]float64{sheet.Max[0] - sheet.Min[0] + d.Sheet.Kerf, sheet.Max[1] - sheet.Min[1] + d.Sheet.Kerf}
	for i := range size {
		var mm float64
		if _, err := fmt.Sscanf(size[i], "%fmm", &mm); err != nil || math.Abs(mm-want[i]) > 1e-3 {
			t.Errorf("the cut file is %s, the sheet with its kerf %.3f mm", size[i], want[i])
		}
	}
	drawn := filepath.Join(t.TempDir(), "cut.png")
	if out, err := exec.Command(rsvg(t), "--dpi-x", "96", "--dpi-y", "96", "-o", drawn,
		path).CombinedOutput(); err != nil {
		t.Fatalf("rsvg-convert: %v: %s", err, out)
	}
	picture, err := os.Open(drawn)
	if err != nil {
		t.Fatal(err)
	}
	defer picture.Close()
	c, err := png.DecodeConfig(picture)
	if err != nil {
		t.Fatal(err)
	}
	for i, px := range []int{c.Width, c.Height} {
		if math.Abs(float64(px)-want[i]*96/25.4) > 1.5 {
			t.Errorf("drawn at 96 px to the inch the cut file is %d px, %.1f mm; the sheet with its kerf is %.1f mm",
				px, float64(px)*25.4/96, want[i])
		}
	}
}
