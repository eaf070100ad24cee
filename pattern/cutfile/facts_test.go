package cutfile

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
)

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

// Every format says what a shop asks: who takes the kerf, stock, thickness, tolerance, date, link and a checksum that
// is the same in all of them and on the label, and another for another kerf.
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
			o.Units, o.Label.Date = "in", "2026-11-27"
			o.Link = "https://openwork.example/#ow1." + strings.Repeat("Ab-_", 120)
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

// Reasons stand once in a file, in the unit asked for.
func TestReasonsOnce(t *testing.T) {
	l, err := pattern.NewLayout(plantest.Rings(), nil)
	if err != nil {
		t.Fatal(err)
	}
	o := cutplan.Defaults()
	o.Units = "in"
	o.Unsound = []string{"A bridge is 2.54 mm wide; this sheet needs 5.08.",
		"A bridge is 2.54 mm wide; this sheet needs 5.08.", "An island drops out."}
	for _, f := range Formats()[:2] {
		var b bytes.Buffer
		if _, err := Write(l, &b, f, o); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(b.String(), "A bridge is 0.100 in wide; this sheet needs 0.200. An island"); n != 1 ||
			strings.Count(b.String(), "A bridge is") != 1 {
			t.Errorf("%s says the reason %d times", f, strings.Count(b.String(), "A bridge is"))
		}
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
