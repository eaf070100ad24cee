package joined

import (
	"bytes"
	"encoding/xml"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
)

// closeGrid is a draft whose bridges leave no room for letters: squares of 27 mm every 30.
func closeGrid() draft.Draft {
	d := draft.Default()
	d.Title = "Close grid"
	d.Panel = draft.Panel{Width: 310, Height: 220}
	d.Field.Margin, d.Field.Origin, d.Field.Edge = 5, [2]float64{5, 5}, draft.Whole
	d.Repeat = draft.Repeat{Group: "p1", A: 30, B: 30, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: geometry.RectOutline(orb.Bound{Min: orb.Point{-13.5, -13.5},
		Max: orb.Point{13.5, 13.5}})}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{15, 15}, Scale: 1}}
	return d
}

// marksOf returns the lines on the layer mark of a part's cut file, in panel mm.
func marksOf(t *testing.T, j *Joined, k int) []orb.LineString {
	t.Helper()
	var b bytes.Buffer
	if _, err := j.Write(k, &b, cutfile.FormatSVG); err != nil {
		t.Fatalf("part %d: %v", k+1, err)
	}
	var file struct {
		Height string `xml:"height,attr"`
		Groups []struct {
			ID    string `xml:"id,attr"`
			Paths []struct {
				D string `xml:"d,attr"`
			} `xml:"path"`
		} `xml:"g"`
	}
	if err := xml.Unmarshal(b.Bytes(), &file); err != nil {
		t.Fatal(err)
	}
	high, err := strconv.ParseFloat(strings.TrimSuffix(file.Height, "mm"), 64)
	if err != nil {
		t.Fatal(err)
	}
	// The file begins at its upper left corner, half the kerf beyond the part's box.
	corner, half := j.Parts[k].cut.Bound().Min, j.l.Draft.Sheet.Kerf/2
	out := []orb.LineString{}
	for _, g := range file.Groups {
		if g.ID != string(cutplan.Mark) {
			continue
		}
		for _, p := range g.Paths {
			var at orb.Point
			var line orb.LineString
			numbers := strings.FieldsFunc(strings.NewReplacer("-", " -", "M", " ", "l", " ", "Z", "").Replace(p.D),
				unicode.IsSpace)
			for i := 0; i+1 < len(numbers); i += 2 {
				x, errX := strconv.ParseFloat(numbers[i], 64)
				y, errY := strconv.ParseFloat(numbers[i+1], 64)
				if errX != nil || errY != nil {
					t.Fatalf("part %d: a mark is no line: %q", k+1, p.D)
				}
				at = orb.Point{at[0] + x, at[1] + y} // the first from 0, the others from the one before
				line = append(line, orb.Point{corner[0] - half + at[0], corner[1] - half + high - at[1]})
			}
			if strings.HasSuffix(p.D, "Z") {
				line = append(line, line[0])
			}
			out = append(out, line)
		}
	}
	return out
}

// strokes returns the lines that a text is drawn by, at its place, from a plan of that text alone.
func strokes(t *testing.T, w cutplan.Written) []orb.LineString {
	t.Helper()
	outline := geometry.RectOutline(orb.Bound{}.Union(w.Box).Pad(50))
	s := cutplan.Sheet{Stock: "card", Outline: outline, Part: true, Written: []cutplan.Written{w}}
	p, err := cutplan.New(s, cutplan.Options{}, curve.Cubic)
	if err != nil {
		t.Fatal(err)
	}
	var out []orb.LineString
	for _, c := range p.Contours {
		if c.Class != cutplan.ClassLabel {
			continue
		}
		from, pieces := c.Pieces(nil)
		line := orb.LineString{from}
		for _, q := range pieces {
			line = append(line, q.To)
		}
		for i := range line {
			line[i] = geometry.Add(line[i], outline.Bound().Min)
		}
		out = append(out, line)
	}
	return out
}

// judgeIdentity holds the parts' files against what each must carry: all its texts stand in it, they say its number,
// side and upper edge and a letter for each part that it meets, letters meet in pairs, and nothing lies on an opening.
func judgeIdentity(t *testing.T, name string, j *Joined, c joinCase, a joinAnswer) {
	t.Helper()
	if a.Marks < 0.99 || a.Rims < 0.99 {
		t.Errorf("%s: a mark lies %.3g mm from an opening, %.3g from an edge", name, a.Marks, a.Rims)
	}
	carried := map[string][]int{} // letters: the parts that have them
	for k, p := range j.Parts {
		said := ""
		for _, w := range p.written {
			said += "\n" + w.Words
			for _, want := range strokes(t, w) {
				if !slices.ContainsFunc(c.Parts[k].Marks, func(l orb.LineString) bool { return sameLine(l, want) }) {
					t.Errorf("%s: part %d: a stroke of %q is not in its file", name, p.Number, w.Words)
					break
				}
			}
		}
		number := strconv.Itoa(p.Number)
		if len(j.Parts) > 1 && !(strings.Contains(said, "part "+number+" of ") || strings.Contains(said, number+"/")) ||
			!strings.Contains(said, "up ↑") {
			t.Errorf("%s: part %d is known by %q", name, p.Number, said)
		}
		words := strings.FieldsFunc(said, func(r rune) bool { return unicode.IsSpace(r) || r == ',' })
		for _, letter := range p.Letters {
			if !slices.Contains(words, letter) {
				t.Errorf("%s: part %d has no letter %s: %q", name, p.Number, letter, said)
			}
			carried[letter] = append(carried[letter], p.Number)
		}
	}

	for _, l := range j.Letters {
		if !slices.Equal(carried[l.Letter], []int{min(l.Parts[0], l.Parts[1]), max(l.Parts[0], l.Parts[1])}) {
			t.Errorf("%s: the letter %s is on the parts %v and joins %v", name, l.Letter, carried[l.Letter], l.Parts)
		}
	}
	for _, m := range a.Meet {
		lettered := slices.ContainsFunc(j.Letters, func(l Letter) bool {
			return min(l.Parts[0], l.Parts[1]) == int(m[0]) && max(l.Parts[0], l.Parts[1]) == int(m[1])
		})
		// A pair may meet along several short stretches; notches take off up to 3 mm each.
		if m[2] > 2*minStretch && !lettered || m[2] < minStretch-7 && lettered {
			t.Errorf("%s: parts %g and %g meet along %.3g mm; lettered: %v", name, m[0], m[1], m[2], lettered)
		}
	}
}

// sameLine reports whether two lines are the same to the steps of a file.
func sameLine(a, b orb.LineString) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if math.Hypot(a[i][0]-b[i][0], a[i][1]-b[i][1]) > 0.003 {
			return false
		}
	}
	return true
}

// The assembly map names every part and every letter, and says in the person's unit how large the parts are.
func TestAssemblyMap(t *testing.T) {
	j := demoParts(t)
	for _, units := range []string{"mm", "in"} {
		j.o.Units = units
		var b bytes.Buffer
		if err := j.Map(&b, "A4"); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "map.pdf")
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("qpdf", "--check", path).CombinedOutput(); err != nil {
			t.Errorf("qpdf: %v\n%s", err, out)
		}
		out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := string(out)
		for _, p := range j.Parts {
			if size := j.unit().Length(p.Width) + " × " + j.unit().Length(p.Height); !strings.Contains(text, size) {
				t.Errorf("%s: part %d of %s is not on the map", units, p.Number, size)
			}
		}
		words := strings.FieldsFunc(text, func(r rune) bool {
			return unicode.IsSpace(r) || strings.ContainsRune(",;", r)
		})
		for _, l := range j.Letters {
			n := 0
			for _, w := range words {
				if w == l.Letter {
					n++
				}
			}
			if n < 4 { // twice in the drawing, twice in the table
				t.Errorf("%s: the letter %s stands %d times on the map", units, l.Letter, n)
			}
		}
	}
	if err := j.Map(&bytes.Buffer{}, "B7"); err == nil {
		t.Error("a map on B7")
	}
}
