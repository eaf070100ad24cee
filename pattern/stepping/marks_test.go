package stepping

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// checkMarks holds each place's marks against where its sheet lies, and says which can be found from two places: a
// place that is laid by another's marks shares two with it that both can use.
func checkMarks(t *testing.T, name string, s *Stepping) {
	t.Helper()
	panel := s.l.Draft.PanelBound()
	for _, p := range s.Places {
		turn := geometry.Translate(p.At[0], p.At[1]).After(geometry.TurnDegrees(s.Turn))
		for k, h := range s.points() {
			if q := turn.Apply(h); math.Hypot(q[0]-p.Marks[k][0], q[1]-p.Marks[k][1]) > 1e-9 {
				t.Errorf("%s: place %d, hole %s: the mark is at %v and the hole at %v", name, p.Number, markLetter(k),
					p.Marks[k], q)
			}
		}
		if len(p.Use) < 2 {
			t.Errorf("%s: place %d has %d marks to be laid by", name, p.Number, len(p.Use))
		}
		for _, k := range p.Use {
			inside, around := panel.Pad(-pinRoom), panel.Pad(s.Surround-pinRoom)
			if m := orb.Point(p.Marks[k]); !inside.Contains(m) && !around.Contains(m) {
				t.Errorf("%s: place %d is laid by a mark at %v, off the surround of %g mm", name, p.Number, m,
					s.Surround)
			}
		}
		if p.From == 0 {
			continue
		}
		shared := 0
		from := s.Places[p.From-1]
		for _, k := range p.Use {
			if slices.ContainsFunc(from.Use, func(n int) bool {
				return math.Hypot(from.Marks[n][0]-p.Marks[k][0], from.Marks[n][1]-p.Marks[k][1]) < 1e-9
			}) {
				shared++
			}
		}
		if shared < 2 {
			t.Errorf("%s: place %d is laid by the marks of %d and shares %d that can be used", name, p.Number, p.From,
				shared)
		}
	}
}

// The demonstration on the bed where place 1 had no mark on the panel: the smallest sheet, and the one laid least
// often, need a surround that strips of board can be cut for.
func TestDemoCanBeBegun(t *testing.T) {
	l := layoutOf(t, patterntest.Demo(t))
	for _, lays := range []string{"", Fewest} {
		s, err := Steps(l, Options{Bed: &draft.Bed{Width: 600, Height: 400}, Lays: lays}, nil)
		if err != nil {
			t.Fatal(err)
		}
		checkMarks(t, "the demonstration", s)
		t.Logf("%q: %d places, a surround of %g mm, %d further holes: %s", lays, len(s.Places), s.Surround, len(s.More),
			s.Trade)
		if s.Surround > 60 {
			t.Errorf("%q: a surround of %g mm", lays, s.Surround)
		}
		n := map[string]int{"": 0, Fewest: 1}[lays]
		if len(s.Choices) != 2 || s.Choices[n].Lays != len(s.Places) || s.Choices[0].Lays <= s.Choices[1].Lays ||
			!strings.Contains(s.Trade, times(s.Choices[0].Lays)) ||
			!strings.Contains(s.Trade, times(s.Choices[1].Lays)) {
			t.Errorf("%q, %d places: %+v, %q", lays, len(s.Places), s.Choices, s.Trade)
		}
	}
}

// The sheet with the fewest lays has no more than any number of repeats that fits the bed, as the field's squares show
// that it fills in whole sheets: 4 × 4 of them are laid by a sheet of 2 × 2 at four places, wherever the field begins.
func TestFewestLays(t *testing.T) {
	for _, origin := range [][2]float64{{0, 0}, {40, 0}, {40, 30}} {
		d := square(10)
		d.Panel = draft.Panel{Width: 160, Height: 120}
		d.Field.Margin, d.Field.Origin, d.Field.Edge = 0, origin, draft.Whole
		d.Motifs[0].At = [2]float64{20, 15}
		bed := &draft.Bed{Width: 110, Height: 90}
		l := layoutOf(t, d)
		s, err := Steps(l, Options{Bed: bed, Margin: 5, Lays: Fewest}, nil)
		if err != nil {
			t.Fatal(err)
		}
		least := math.MaxInt
		f := s.sheet.f
		copies, err := l.Copies()
		if err != nil {
			t.Fatal(err)
		}
		open, err := f.opened(copies)
		if err != nil {
			t.Fatal(err)
		}
		for i := range 4 {
			for j := range 4 {
				if sh, err := f.sheet(s.o, [2]int{i + 1, j + 1}); err == nil {
					least = min(least, len(sh.lays(open)), len(sh.fewestLays(open).lays(open)))
				}
			}
		}
		if len(s.Places) != 4 || len(s.Places) > least {
			t.Errorf("origin %v: %d places with %d repeats; by trial %d", origin, len(s.Places), s.Repeats, least)
		}
	}
}

// The map lists where every mark lies that is used, in either unit, and says how wide the surround is.
func TestMapHasCoordinates(t *testing.T) {
	l := layoutOf(t, patterntest.Demo(t))
	for _, units := range []string{"mm", "in"} {
		s, err := Steps(l, Options{Units: units}, nil)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := s.Map(&b, "Letter"); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "map.pdf")
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(string(out), "−", "-")
		if want := "surround of " + s.unit().Measure(s.Surround); s.Surround == 0 || !strings.Contains(text, want) {
			t.Errorf("%s: the map does not say %q", units, want)
		}
		for _, p := range s.Places {
			for _, k := range p.Use {
				if want := s.figure(p.Marks[k][0]) + ", " + s.figure(p.Marks[k][1]); !strings.Contains(text, want) {
					t.Errorf("%s: place %d, mark %s: %q is not on the map", units, p.Number, markLetter(k), want)
				}
			}
		}
	}
}
