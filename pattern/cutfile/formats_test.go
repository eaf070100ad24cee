package cutfile

import (
	"bytes"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
)

// Each row of the table says all that a format needs, and what it writes is read back.
func TestTheTableOfFormats(t *testing.T) {
	l, err := pattern.NewLayout(plantest.Rings(), nil)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[Format]bool{}
	for _, r := range formats {
		t.Run(string(r.name), func(t *testing.T) {
			if r.name == "" || seen[r.name] || !strings.Contains(r.media, "/") || r.encode == nil || r.read == nil ||
				r.curves != curve.Cubic && r.curves != curve.Arc {
				t.Fatalf("the row %+v is not complete, or there twice", r)
			}
			seen[r.name] = true
			if f, err := FormatOf("a." + strings.ToUpper(string(r.name))); f != r.name || err != nil ||
				f.Type() != r.media {
				t.Errorf("its ending is that of %q, %v", f, err)
			}
			var b bytes.Buffer
			if made, err := Write(l, &b, r.name, cutplan.Defaults()); err != nil || made.Openings == 0 || b.Len() == 0 {
				t.Errorf("%d openings, %d bytes, %v", made.Openings, b.Len(), err)
			}
		})
	}
	if _, err := Write(l, &bytes.Buffer{}, "doc", cutplan.Defaults()); err == nil ||
		err.Error() != `there is no format "doc"; there are svg, dxf and pdf` {
		t.Errorf("%v", err)
	}
}

func TestFormatsByEnding(t *testing.T) {
	for name, want := range map[string]Format{"a.SVG": FormatSVG, "b.dxf": FormatDXF, "c.x.pdf": FormatPDF,
		"d.doc": "", "svg": ""} {
		if f, err := FormatOf(name); f != want || (err == nil) != (want != "") {
			t.Errorf("%s is %q, %v", name, f, err)
		}
	}
}

// A sheet that is no rectangle is written in every format.
func TestSheetThatIsNoRectangle(t *testing.T) {
	s := cutplan.PartOf(draft.Default())
	s.Title = "Elbow"
	s.Outline = orb.MultiPolygon{{{{50, 30}, {350, 30}, {350, 130}, {200, 130}, {200, 230}, {50, 230}, {50, 30}}}}
	s.Openings = []panel.Opening{{Shape: geometry.NewShape(geometry.RectOutline(orb.Bound{Max: orb.Point{20, 10}})),
		Shift: orb.Point{100, 80}}}
	s.Field = orb.Bound{Min: orb.Point{70, 50}, Max: orb.Point{330, 210}}
	s.Holes = []orb.Point{{60, 220}, {340, 40}, {60, 40}}
	for _, f := range Formats() {
		t.Run(string(f), func(t *testing.T) {
			var b bytes.Buffer
			if _, err := WriteSheet(s, &b, f, cutplan.Defaults()); err != nil || b.Len() == 0 {
				t.Errorf("%d bytes, %v", b.Len(), err)
			}
		})
	}
}

func TestReadBackSeesWhatIsWrong(t *testing.T) {
	l, err := pattern.NewLayout(plantest.Rings(), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, old, new string
		format         Format
	}{
		{"a point moved", "L", "L", FormatSVG},
		{"a contour open", "Z\"/>", "\"/>", FormatSVG},
		{"another size", "viewBox=\"0 0 220.2", "viewBox=\"0 0 221.2", FormatSVG},
		{"another layer", "<g id=\"cut\"", "<g id=\"score\"", FormatSVG},
		{"an open polyline", "\n70\n1\n43\n", "\n70\n0\n43\n", FormatDXF},
		{"inches", "$INSUNITS\n70\n4", "$INSUNITS\n70\n1", FormatDXF},
		{"a bulge lost", "\n42\n", "\n40\n", FormatDXF},
		{"another page", "/MediaBox [ 0 0 6", "/MediaBox [ 0 0 7", FormatPDF},
	} {
		kind := curve.Cubic
		if c.format == FormatDXF {
			kind = curve.Arc
		}
		j, err := cutplan.ForLayout(l, cutplan.Defaults(), kind)
		if err != nil {
			t.Fatal(err)
		}
		data, err := Encode(j, c.format)
		if err != nil {
			t.Fatal(err)
		}
		if err := ReadBack(j, c.format, data); err != nil {
			t.Fatalf("%s: what is right is refused: %v", c.name, err)
		}
		bad := bytes.ReplaceAll(data, []byte(c.old), []byte(c.new))
		if c.old == c.new { // the first curve's first number
			at := bytes.Index(data, []byte("class=\"opening\" d=\"M")) + len("class=\"opening\" d=\"M")
			bad = append(append(append([]byte{}, data[:at]...), '9'), data[at:]...)
		}
		if bytes.Equal(bad, data) {
			t.Fatalf("%s: nothing was changed", c.name)
		}
		if err := ReadBack(j, c.format, bad); err == nil {
			t.Errorf("%s: not seen", c.name)
		}
	}
}

func TestUnsoundSheetsSayWhy(t *testing.T) {
	l, err := pattern.NewLayout(patterntest.SmallDemo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	o := cutplan.Defaults()
	o.Unsound = []string{"An island drops out at (30, 40) -- here."}
	for f, want := range map[Format]string{FormatSVG: "<desc>This sheet does not hold: An island",
		FormatDXF: "999\nThis sheet does not hold: An island", FormatPDF: "/Subject <FEFF00540068"} {
		var b bytes.Buffer
		if _, err := Write(l, &b, f, o); err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(b.Bytes(), []byte(want)) {
			t.Errorf("%s does not carry the reason", f)
		}
		if f == FormatSVG && !bytes.Contains(b.Bytes(), []byte(`class="note"`)) {
			t.Error("the sheet has no note")
		}
	}
}

// A sheet that nobody has looked at says so, in the file and in its margin; one that is known not to hold says that
// alone.
func TestUncheckedSheetsSayIt(t *testing.T) {
	l, err := pattern.NewLayout(patterntest.SmallDemo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	o := cutplan.Defaults()
	o.Unchecked = true
	for f, want := range map[Format]string{FormatSVG: "<desc>It was not checked", FormatDXF: "999\nIt was not checked",
		FormatPDF: "/Subject <FEFF00490074"} {
		for _, reasons := range [][]string{nil, {"An island drops out."}} {
			o.Unsound = reasons
			var b bytes.Buffer
			if _, err := Write(l, &b, f, o); err != nil {
				t.Fatal(err)
			}
			if got := bytes.Contains(b.Bytes(), []byte(want)); got != (reasons == nil) {
				t.Errorf("%s with the reasons %q: says it was not checked: %v", f, reasons, got)
			}
			if f == FormatSVG && !bytes.Contains(b.Bytes(), []byte(`class="note"`)) {
				t.Error("the sheet has no note")
			}
		}
	}
}

func TestNothingToCutIsRefused(t *testing.T) {
	d := patterntest.SmallDemo(t)
	d.Motifs = nil
	narrow := plantest.Rings()
	narrow.Silhouettes[0].Outline = orb.MultiPolygon{{{{0, 0}, {3, 0}, {3, 0.15}, {0, 0.15}, {0, 0}}}}
	narrow.Silhouettes[1].Outline = narrow.Silhouettes[0].Outline
	for name, c := range map[string]struct {
		draft draft.Draft
		want  string
	}{"empty": {d, "no opening lies on this panel"}, "narrower than the kerf": {narrow, "every opening"}} {
		t.Run(name, func(t *testing.T) {
			l, err := pattern.NewLayout(c.draft, nil)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if _, err := Write(l, &b, FormatSVG, cutplan.Defaults()); err == nil ||
				!strings.Contains(err.Error(), c.want) || b.Len() > 0 {
				t.Errorf("%v, and %d bytes", err, b.Len())
			}
		})
	}
}
