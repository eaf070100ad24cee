package cutfile

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
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
			if f, err := FormatOf("a." + strings.ToUpper(string(r.name))); f != r.name || err != nil || f.Type() != r.media {
				t.Errorf("its ending is that of %q, %v", f, err)
			}
			var b bytes.Buffer
			if made, err := Write(l, &b, r.name, cutplan.Defaults()); err != nil || made.Openings == 0 || b.Len() == 0 {
				t.Errorf("%d openings, %d bytes, %v", made.Openings, b.Len(), err)
			}
		})
	}
	if _, err := Write(l, &bytes.Buffer{}, "doc", cutplan.Defaults()); err == nil || err.Error() != `there is no format "doc"; there are svg, dxf and pdf` {
		t.Errorf("%v", err)
	}
}

func TestFormatsByEnding(t *testing.T) {
	for name, want := range map[string]Format{"a.SVG": FormatSVG, "b.dxf": FormatDXF, "c.x.pdf": FormatPDF, "d.doc": "", "svg": ""} {
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
	s.Openings = []panel.Opening{{Shape: geometry.NewShape(geometry.RectOutline(orb.Bound{Max: orb.Point{20, 10}})), Shift: orb.Point{100, 80}}}
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
	l, err := pattern.NewLayout(patterntest.Demo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	o := cutplan.Defaults()
	o.Unsound = []string{"An island drops out at (30, 40) -- here."}
	for f, want := range map[Format]string{FormatSVG: "<desc>This sheet does not hold: An island", FormatDXF: "999\nThis sheet does not hold: An island", FormatPDF: "/Subject <FEFF00540068"} {
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
	l, err := pattern.NewLayout(patterntest.Demo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	o := cutplan.Defaults()
	o.Unchecked = true
	for f, want := range map[Format]string{FormatSVG: "<desc>It was not checked", FormatDXF: "999\nIt was not checked", FormatPDF: "/Subject <FEFF00490074"} {
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
	d := patterntest.Demo(t)
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
			if _, err := Write(l, &b, FormatSVG, cutplan.Defaults()); err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
				t.Errorf("%v, and %d bytes", err, b.Len())
			}
		})
	}
}

// Contours that go on past where they began, or are parted by tabs, are read back from every format as they were meant.
func TestFilesOfEachWayOfCutting(t *testing.T) {
	d := plantest.Rings()
	for _, how := range []draft.How{draft.Laser, draft.Knife, draft.Waterjet} {
		d.Sheet.Cut = how
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range Formats() {
			t.Run(string(how)+" "+string(f), func(t *testing.T) {
				var b bytes.Buffer
				if _, err := Write(l, &b, f, cutplan.Options{Weed: 20}); err != nil || b.Len() == 0 {
					t.Errorf("%d bytes, %v", b.Len(), err)
				}
			})
		}
	}
}

// Every format says what a shop asks: who takes the kerf, stock, thickness, tolerance, date, link and a checksum that is
// the same in all of them and on the label, and another for another kerf.
func TestFactsInEveryFormat(t *testing.T) {
	d := plantest.Rings()
	d.Sheet.Stock, d.Sheet.Kerf = "card & <board>", 0.254
	sum := map[string]string{}
	for _, kerf := range []float64{0.254, 0.3} {
		d.Sheet.Kerf = kerf
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range Formats() {
			o := cutplan.Defaults()
			o.Units, o.Link, o.Label.Date = "in", "https://openwork.example/#ow1."+strings.Repeat("Ab-_", 120), "2026-11-27"
			var b bytes.Buffer
			made, err := Write(l, &b, f, o)
			if err != nil {
				t.Fatal(err)
			}
			key := fmt.Sprint(kerf)
			if sum[key] == "" {
				sum[key] = made.Checksum
			}
			if made.Checksum != sum[key] || len(made.Checksum) != 8 {
				t.Errorf("%s: the checksum is %q, it was %q", f, made.Checksum, sum[key])
			}
			text := strings.ReplaceAll(b.String(), "\n999\n", "")
			if f == FormatPDF {
				_, hex, _ := strings.Cut(text, "/Keywords <FEFF")
				hex, _, _ = strings.Cut(hex, ">")
				var plain strings.Builder
				for k := 0; k+4 <= len(hex); k += 4 {
					v, err := strconv.ParseUint(hex[k:k+4], 16, 16)
					if err != nil {
						t.Fatal(err)
					}
					plain.WriteRune(rune(v))
				}
				text = plain.String()
			}
			for _, want := range []string{"0.010 in, taken already", "nothing is to be compensated again", "0.014 in",
				"curves within 0.001 in", "2026-11-27", made.Checksum, "laser", strings.Repeat("Ab-_", 120), "card &"} {
				if kerf == 0.3 {
					want = strings.ReplaceAll(want, "0.010", "0.012")
				}
				if f == FormatSVG {
					want = strings.ReplaceAll(want, "&", "&amp;")
				}
				if !strings.Contains(text, want) {
					t.Errorf("%s with a kerf of %g: %q is not in it", f, kerf, want)
				}
			}
		}
	}
	if sum["0.254"] == sum["0.3"] {
		t.Error("another kerf has the same checksum")
	}
}

// A shop's own table of lines comes through in every format, and is read back; the usual one is pure red and blue at a
// thousandth of an inch.
func TestAShopsLines(t *testing.T) {
	l, err := pattern.NewLayout(plantest.Rings(), nil)
	if err != nil {
		t.Fatal(err)
	}
	own := cutplan.Defaults()
	own.Lines.Cut = cutplan.Line{Colour: "#00ffff", Width: 0.2, Name: "Through 1"}
	own.Lines.Mark.Name = "engrave_2"
	usual := cutplan.Defaults()
	mixed := cutplan.Defaults()
	mixed.Lines.Cut.Colour, mixed.Colours.Cut = "#00ffff", "#ff00ff"
	for _, c := range []struct {
		name   string
		o      cutplan.Options
		format Format
		want   []string
	}{
		{"usual", usual, FormatSVG, []string{`id="cut" fill="none" stroke="#ff0000" stroke-width="0.025"`,
			`id="mark" fill="none" stroke="#0000ff" stroke-width="0.025"`}},
		{"usual", usual, FormatDXF, []string{"\n2\nCUT\n70\n0\n62\n1\n6\nContinuous\n370\n0\n",
			"\n2\nMARK\n70\n0\n62\n5\n", "\n8\nCUT\n"}},
		{"own", own, FormatSVG, []string{`id="Through 1" fill="none" stroke="#00ffff" stroke-width="0.2"`,
			`id="engrave_2" fill="none" stroke="#0000ff"`}},
		{"own", own, FormatDXF, []string{"\n2\nThrough 1\n70\n0\n62\n4\n6\nContinuous\n370\n20\n", "\n8\nThrough 1\n",
			"\n8\nengrave_2\n"}},
		{"own", own, FormatPDF, []string{"/Type /OCG /Name <FEFF005400680072006F00750067006800200031>"}},
		{"mixed", mixed, FormatSVG, []string{`id="cut" fill="none" stroke="#ff00ff"`}},
	} {
		t.Run(c.name+" "+string(c.format), func(t *testing.T) {
			var b bytes.Buffer
			if _, err := Write(l, &b, c.format, c.o); err != nil {
				t.Fatal(err)
			}
			for _, want := range c.want {
				if !strings.Contains(b.String(), want) {
					t.Errorf("%q is not in it", want)
				}
			}
		})
	}
	for words, lines := range map[string]cutplan.Lines{
		`both called "Cut"`:        {Mark: cutplan.Line{Name: "Cut"}},
		"its lines are -1 mm":      {Cut: cutplan.Line{Width: -1}},
		"its lines are NaN mm":     {Cut: cutplan.Line{Width: math.NaN()}},
		`"a<b" is no name`:         {Cut: cutplan.Line{Name: "a<b"}},
		`"red" is no colour`:       {Score: cutplan.Line{Colour: "red"}},
		`" edge" is no name for i`: {Score: cutplan.Line{Name: " edge"}},
	} {
		o := cutplan.Options{Lines: lines}
		if _, err := Write(l, &bytes.Buffer{}, FormatSVG, o); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%v, want %q", err, words)
		}
	}
}
