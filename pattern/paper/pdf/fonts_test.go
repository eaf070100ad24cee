package pdf

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/letters"
)

// Poppler, which reads the widths and the letters out of the file, finds every letter as wide as TextWidth says.
func TestWidths(t *testing.T) {
	d := New("Widths", "")
	letters := strings.Split(some, "")
	const size = 5.0
	for f := range faces {
		p := d.Page(200, 4000)
		for i, l := range letters {
			p.Text(Font(f), size, 10, float64(10+20*i), "H"+strings.Repeat(l, 10)+"H")
		}
	}
	data, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	out := run(t, data, "poppler-utils", "pdftotext", "-bbox", "FILE", "-")
	found := word.FindAllStringSubmatch(out, -1)
	if len(found) != len(faces)*len(letters) {
		t.Fatalf("%d words found, want %d", len(found), len(faces)*len(letters))
	}
	for k, m := range found {
		from, _ := strconv.ParseFloat(m[1], 64)
		to, _ := strconv.ParseFloat(m[2], 64)
		// Words come from above, the last written first.
		l := letters[len(letters)-1-k%len(letters)]
		f := Font(k / len(letters))
		got, want := (to-from)/PointsPerMM, TextWidth(f, size, "H"+strings.Repeat(l, 10)+"H")
		if math.Abs(got-want) > 0.01 || html.UnescapeString(m[3]) != "H"+strings.Repeat(l, 10)+"H" {
			t.Errorf("font %d, ten times %s: %s, %.3f mm wide, TextWidth says %.3f", f, l, m[3], got, want)
		}
	}
	if size := len(data); size > 90_000 {
		t.Errorf("two fonts of %d letters make %d bytes", len(letters), size)
	}
}

// Every font of a file is embedded, a part of it alone, with a table of the letters; poppler draws it.
func TestFontsAreEmbedded(t *testing.T) {
	d := New("Цапля", "")
	p := d.Page(100, 50)
	p.Text(Title, 9, 10, 30, "Цапля над карпом")
	p.Text(SansBold, 3, 10, 20, "Ερωδιός")
	d.Page(100, 50).Text(Sans, 3, 10, 20, "Ёж")
	data, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	out := run(t, data, "poppler-utils", "pdffonts", "FILE")
	rows := strings.Split(strings.TrimSpace(out), "\n")[2:]
	if len(rows) != 2 {
		t.Errorf("%d fonts:\n%s", len(rows), out)
	}
	for _, r := range rows {
		if !strings.Contains(r, "yes yes yes") || !regexp.MustCompile(`^[A-Z]{6}\+Go`).MatchString(r) {
			t.Errorf("not embedded in part and with its letters: %s", r)
		}
	}

	// The capital Ж of a font of 9 mm is as wide as the font says, in ink.
	d = New("Ink", "")
	d.Page(40, 40).Text(Title, 20, 10, 10, "Ж")
	if data, err = d.Bytes(); err != nil {
		t.Fatal(err)
	}
	const k = 8
	ppm := run(t, data, "poppler-utils", "pdftoppm", "-gray", "-r", fmt.Sprint(25.4*k), "FILE")
	var wide, high int
	if _, err := fmt.Sscanf(ppm[:20], "P5\n%d %d\n", &wide, &high); err != nil {
		t.Fatal(err)
	}
	px := ppm[len(ppm)-wide*high:]
	left, right, top, bottom := wide, 0, high, 0
	for i := range px {
		if px[i] < 128 {
			x, y := i%wide, i/wide
			left, right, top, bottom = min(left, x), max(right, x), min(top, y), max(bottom, y)
		}
	}
	face := faces[Title]()
	o := face.outline(int(face.glyphs['Ж']))
	at := func(k int) float64 { return float64(int16(be16(o, k))) * 20 / face.em }
	for _, v := range [][2]float64{{float64(left) / k, 10 + at(2)}, {float64(right+1) / k, 10 + at(6)},
		{float64(high-1-bottom) / k, 10 + at(4)}, {float64(high-top) / k, 10 + at(8)}} {
		if math.Abs(v[0]-v[1]) > 0.2 {
			t.Errorf("Ж reaches from (%d, %d) to (%d, %d) px of %d to the mm: %.2f, want %.2f mm", left, top, right,
				bottom, k, v[0], v[1])
		}
	}
}

// Composed letters bring their parts, without instructions.
func TestSubset(t *testing.T) {
	for f := range faces {
		face := faces[f]()
		if len(face.glyphs) < 600 || face.em != 2048 {
			t.Fatalf("%s has %d letters, %g units", face.name, len(face.glyphs), face.em)
		}
		var all []uint16
		for _, g := range face.glyphs {
			all = append(all, g)
		}
		slices.Sort(all)
		part := newFace("part", fontFileWithLetters(face, face.subset(all)))
		for r, g := range face.glyphs {
			if part.width(g) != face.width(g) {
				t.Errorf("%c is %g wide in the part, %g in the whole", r, part.width(g), face.width(g))
			}
			whole, of := face.plainOutline(g)
			if got := part.outline(int(g)); !bytes.HasPrefix(got, whole) || len(got) > len(whole)+3 {
				t.Errorf("%c has another outline in the part", r)
			}
			for _, p := range of {
				if len(part.outline(int(p))) == 0 {
					t.Errorf("%c lacks its part %d", r, p)
				}
			}
		}
		if s := sum(face.subset(all)); s != 0xb1b0afba {
			t.Errorf("the sum over the font is %x", s)
		}
	}
}

// fontFileWithLetters adds a font's table of letters to a part of it, which has none.
func fontFileWithLetters(f *face, part []byte) []byte {
	tables := map[string][]byte{"cmap": f.tables["cmap"]}
	for k := range be16(part, 4) {
		row := part[12+16*k:]
		tables[string(row[:4])] = part[be32(row, 8) : be32(row, 8)+be32(row, 12)]
	}
	return fontFile(tables)
}

// What the fonts have comes back out of the file; what they lack becomes the nearest letters or is left out, and is
// told.
func TestLetters(t *testing.T) {
	for in, want := range map[string]string{
		"Größe (ü) \\ “ç” €5 – ½": "Größe (ü) \\ “ç” €5 – ½", "Łódź, Škoda, ığ": "Łódź, Škoda, ığ",
		"Цапля над карпом, Чапля": "Цапля над карпом, Чапля", "Ερωδιός": "Ερωδιός",
		"Diệc trên cá chép": "Diec trên cá chép", "鶴 and carp": "and carp", "e\u0301tude\x00": "etude",
		"one\ntwo": "one two", "": "", "鷺": "",
	} {
		t.Run(in, func(t *testing.T) {
			d := New(in, "")
			d.Page(300, 50).Text(Title, 5, 10, 10, in)
			data, err := d.Bytes()
			if err != nil {
				t.Fatal(err)
			}
			if out := run(t, data, "qpdf", "qpdf", "--check", "FILE"); strings.Contains(out, "WARNING") {
				t.Errorf("%s", out)
			}
			if got := strings.TrimSpace(run(t, data, "poppler-utils", "pdftotext", "-enc", "UTF-8", "FILE",
				"-")); got != want {
				t.Errorf("%q comes back as %q, want %q", in, got, want)
			}
			lacks := ""
			for _, r := range in {
				if r == '鶴' || r == '鷺' {
					lacks = string(r)
				}
			}
			if got := string(Lacking(Title, in+in)); got != lacks {
				t.Errorf("%q lacks %q, want %q", in, got, lacks)
			}
		})
	}
	d := New("Reiher über 鶴 🐟", "a subject")
	d.Page(10, 10)
	data, _ := d.Bytes()
	if out := run(t, data, "poppler-utils", "pdfinfo", "-enc", "UTF-8", "FILE"); !strings.Contains(out,
		"Reiher über 鶴 🐟") || !strings.Contains(out, "a subject") {
		t.Errorf("the title is not in %s", out)
	}
}

// A title whose letters no font here has is drawn from outlines that are handed in: they are embedded as a font, stand
// where letters would, and are found again as the letters they are.
func TestDrawnLetters(t *testing.T) {
	square := orb.MultiPolygon{{{{0.1, 0}, {0.9, 0}, {0.9, 0.8}, {0.1, 0.8}, {0.1, 0}}}}
	drawn := []letters.Drawn{{Text: "鯉", Width: 1, Outline: square}, {Text: "鷺", Width: 1.5, Outline: square},
		{Text: "مالك الحزين", Width: 4, Outline: square}, {Text: "not in it", Width: 1}}
	title := letters.Mark("鷺 and 鯉, مالك الحزين", drawn)
	d := New("鷺", "")
	d.Draw(drawn)
	p := d.Page(200, 60)
	p.Ink(RGB{})
	const size = 10.0
	p.Text(Title, size, 10, 20, title)
	between := TextWidth(Title, size, " and ") + TextWidth(Title, size, ", ")
	if got, want := p.Width(Title, size, title), between+(1+1.5+4)*size; math.Abs(got-want) > 1e-9 {
		t.Errorf("%.3f mm wide, want %.3f", got, want)
	}
	if lines := p.Wrap(Title, size, 45, title); len(lines) != 3 || strings.Join(lines, " ") != title {
		t.Errorf("wrapped into %q", lines)
	}
	if s := p.Fit(Title, size, 40, title); !strings.HasPrefix(title, strings.TrimSuffix(s, "…")) ||
		p.Width(Title, size, s) > 40 {
		t.Errorf("fitted to %q", s)
	}

	data, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if out := run(t, data, "qpdf", "qpdf", "--check", "FILE"); strings.Contains(out, "WARNING") {
		t.Errorf("%s", out)
	}
	text := run(t, data, "poppler-utils", "pdftotext", "-enc", "UTF-8", "FILE", "-")
	for _, want := range []string{"鷺 and 鯉,"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
	fonts := run(t, data, "poppler-utils", "pdffonts", "FILE")
	if !regexp.MustCompile(`Type 3 +Custom +yes no +yes`).MatchString(fonts) {
		t.Errorf("the fonts are %s", fonts)
	}
	const k = 8
	pgm := run(t, data, "poppler-utils", "pdftoppm", "-gray", "-r", fmt.Sprint(25.4*k), "FILE")
	var wide, high int
	if _, err := fmt.Sscanf(pgm[:20], "P5\n%d %d\n", &wide, &high); err != nil {
		t.Fatal(err)
	}
	px := pgm[len(pgm)-wide*high:]
	at := func(x, y float64) bool { return px[int((60-y)*k)*wide+int(x*k)] < 128 }
	carp := 10 + 1.5*size + TextWidth(Title, size, " and ")
	for _, v := range []struct {
		x, y float64
		ink  bool
	}{{11.5, 20.5, true}, {18.5, 27.5, true}, {19.5, 24, false}, {10.5, 24, false}, {carp + 1.5, 27.5, true},
		{carp + 8.5, 20.5, true}, {carp + 0.5, 24, false}} {
		if at(v.x, v.y) != v.ink {
			t.Errorf("ink at (%.1f, %.1f) is %v", v.x, v.y, !v.ink)
		}
	}

	for words, all := range map[string][]letters.Drawn{
		"has no letters": {{Width: 1}}, "a width of NaN": {{Text: "a", Width: math.NaN()}},
		"256 pieces": make([]letters.Drawn, 256),
		"reaches to": {{Text: "a", Width: 1, Outline: orb.MultiPolygon{{{{0, 1e9}}}}}},
	} {
		if err := letters.CheckDrawn(all); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%v, want %q", err, words)
		}
	}
}
