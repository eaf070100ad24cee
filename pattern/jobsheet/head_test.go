package jobsheet

import (
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
	"openwork/pattern/letters"
)

// What a shop would phone about is answered on the sheet, and read back from it; what is not said is said to be open.
func TestTheShopsQuestions(t *testing.T) {
	d := squares()
	d.Title = "Цапля над карпом"
	d.Sheet.Kerf, d.Sheet.Opening, d.Sheet.Thickness = 0.254, 1.5875, 0.25
	o := Defaults()
	o.Units, o.CutFile, o.Date = "in", "heron.dxf", "27 November 2026"
	o.Head = Head{Customer: "Étude Ltd", Contact: "Ада, +44 20 7946 0000", Quantity: 4, Due: "11 December 2026",
		Revision: "C", Shows: "label", Film: "off", Dropouts: "keep", Tolerance: "±0.005 in", Approval: true}
	m, path := written(t, d, o)
	text := words(t, path)
	for question, answers := range map[string][]string{
		"Kerf in or out?": {"0.010 in, taken already", "nothing is to be compensated again",
			"Kerf allowed for 0.010 in"},
		"How is it cut?": {"by laser"},
		"Which file?":    {"heron.dxf, checksum " + m.Checksum},
		"How many?":      {"How many? 4 ", "Quantity 4"},
		"By when?":       {"By when? 11 December 2026", "Due 11 December 2026"},
		"Which colour?": {"red #ff0000 (layer cut) is cut through, blue #0000ff (layer mark) is marked",
			"lines of 0.001 in"},
		"Which stock?":   {"polyester film, 0.010 in thick"},
		"Tolerance?":     {"within 0.001 in of the outlines; of the cut sheet: ±0.005 in"},
		"Which side?":    {"the side with the label shows", "reads the right way round on the side that is up"},
		"Why this size?": {"the sheet is the panel's size, 7.874 × 7.874 in; the file's page is 7.884 × 7.884 in"},
		"Job sheet": {"Цапля над карпом", "27 November 2026", "Customer Étude Ltd",
			"Contact Ада, +44 20 7946 0000"},
		"Approved for":     {"Signature", "Name"},
		"Protective film":  {"take it off before cutting"},
		"Drop-outs":        {"keep them and send them along"},
		"Revision C":       {"Revision C"},
		"Cautions":         {"Thin film and card can ignite", "clear the drop-outs first"},
		"How to lay it":    {"The panel is 7.874 × 7.874 in."},
		"Narrowest bridge": {"0.787 in"},
	} {
		for _, want := range append(answers, question) {
			if !strings.Contains(text, want) {
				t.Errorf("%s %q is not in %q", question, want, text)
			}
		}
	}
	for _, wrong := range []string{"?? ", " mm", "mm/s"} {
		if strings.Contains(text, wrong) {
			t.Errorf("%q is in %q", wrong, text)
		}
	}
	if out := run(t, "poppler-utils", "pdfinfo", path); !strings.Contains(out, "612 x 792 pts (letter)") {
		t.Errorf("the paper for inches: %s", out)
	}

	// The advice for the hand stands on a sheet of its own, and nothing of it on the shop's.
	for page, lays := range map[int]bool{1: false, 2: false, 3: true} {
		out, err := exec.Command("pdftotext", "-f", fmt.Sprint(page), "-l", fmt.Sprint(page), path, "-").Output()
		if err != nil || strings.Contains(string(out), "How to lay it") != lays {
			t.Errorf("page %d: %v, %s", page, err, out)
		}
	}

	o = Defaults()
	o.Head = Head{}
	_, path = written(t, d, o)
	text = words(t, path)
	for _, want := range []string{"How many? not said here", "By when? not said here",
		"of the cut sheet: not said here"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
	for _, wrong := range []string{"Customer", "Signature", "Protective film"} {
		if strings.Contains(text, wrong) {
			t.Errorf("%q is in %q", wrong, text)
		}
	}
	if fonts := run(t, "poppler-utils", "pdffonts", path); strings.Count(fonts, "yes yes yes") != 2 ||
		len(strings.Split(strings.TrimSpace(fonts), "\n")) != 4 {
		t.Errorf("the fonts are %s", fonts)
	}
}

// Each way of cutting has its words; what is narrower than asked for is told as such.
func TestWaysAndWidths(t *testing.T) {
	d := squares()
	for how, want := range map[draft.How][]string{
		draft.Laser:    {"by laser", "hydrogen chloride"},
		draft.Knife:    {"by knife", "takes no material away", "The blade"},
		draft.Waterjet: {"by waterjet", "tabs hold what drops out", "The jet cuts"},
	} {
		d.Sheet.Cut = how
		_, path := written(t, d, Defaults())
		text := words(t, path)
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: %q is not in %q", how, w, text)
			}
		}
		if strings.Contains(text, "hydrogen chloride") != (how == draft.Laser) {
			t.Errorf("%s and chlorine: %q", how, text)
		}
	}

	d.Sheet.Cut = ""
	o := Defaults()
	o.Cut.LeadIn, o.Cut.Mirrored = 1.5, true
	if _, path := written(t, d, o); !strings.Contains(words(t, path), "the cut runs in by 1.5 mm from inside") ||
		!strings.Contains(words(t, path), "the sheet is cut from its back") {
		t.Errorf("neither lead-in nor back are in %q", words(t, path))
	}
	d.Sheet.Bridge = 21
	m, path := written(t, d, Defaults())
	if text := words(t, path); len(m.Under) != 1 || m.Under[0] != "bridge" ||
		!strings.Contains(text, "Narrowest bridge 20.00 mm, under the 21 mm asked for") {
		t.Errorf("%v, in %q", m.Under, text)
	}
}

func TestRefusalsOfTheHead(t *testing.T) {
	for words, h := range map[string]Head{
		`the side that shows is "left"`: {Shows: "left"}, "protective film is": {Film: "maybe"},
		"what drops out is": {Dropouts: "burn"}, "the quantity is -1": {Quantity: -1},
		"the customer has 501 letters": {Customer: strings.Repeat("a", 501)},
	} {
		if err := h.check(); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%v, want %q", err, words)
		}
	}
}

// A title in letters that no font here has: left out and told, with what is lacking; or drawn as it is handed in.
func TestTitleInOtherLetters(t *testing.T) {
	d := squares()
	d.Title = "鷺 over 鯉"
	o := Defaults()
	m, path := written(t, d, o)
	text := words(t, path)
	if m.Lacks != "鷺鯉" || strings.Contains(text, "?? ") ||
		!strings.Contains(text, "U+9DFA and U+9BC9 are not printed") ||
		!strings.Contains(text, "Job sheet over ") {
		t.Errorf("%q lacks, in %q", m.Lacks, text)
	}
	bird := orb.MultiPolygon{{{{0.1, 0}, {0.9, 0}, {0.5, 0.8}, {0.1, 0}}}}
	o.Lettering = []letters.Drawn{{Text: "鷺", Width: 1, Outline: bird}, {Text: "鯉", Width: 1, Outline: bird}}
	m, path = written(t, d, o)
	if text = words(t, path); m.Lacks != "" || !strings.Contains(text, "鷺 over 鯉") ||
		strings.Contains(text, "not printed") {
		t.Errorf("%q lacks, in %q", m.Lacks, text)
	}
	if fonts := run(t, "poppler-utils", "pdffonts", path); strings.Contains(fonts, " no  no ") ||
		!strings.Contains(fonts, "Type 3") {
		t.Errorf("the fonts are %s", fonts)
	}
	o.Lettering = []letters.Drawn{{Text: "鷺 over 鯉", Width: 60, Outline: bird}} // wider than the page: set smaller
	written(t, d, o)
}

// Where a sheet is stepped or joined, the shop's page says what is cut, and that the figures and the checksum are not
// those of the files.
func TestWhatIsCutInstead(t *testing.T) {
	o := Defaults()
	o.Chosen, o.CutFile = []string{"A stepping sheet of 300 × 200 mm is laid 9 times."}, "heron-stepping.svg"
	m, path := written(t, squares(), o)
	out, err := exec.Command("pdftotext", "-f", "2", "-l", "2", "-layout", path, "-").Output()
	shop := strings.Join(strings.Fields(string(out)), " ")
	for _, want := range []string{"What is cut A stepping sheet of 300 × 200 mm is laid 9 times.",
		"heron-stepping.svg, each file says its own checksum", "makes up a panel of 200 × 200 mm"} {
		if err != nil || !strings.Contains(shop, want) {
			t.Errorf("%v: %q is not in %q", err, want, shop)
		}
	}
	if text := words(t, path); strings.Contains(text, m.Checksum) ||
		!strings.Contains(text, "of the whole sheet in one piece") {
		t.Errorf("the whole sheet's checksum or figures stand without a word in %q", text)
	}
}
