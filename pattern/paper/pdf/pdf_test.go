package pdf

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// run runs a program of a Debian package over a file of the given bytes.
func run(t *testing.T, data []byte, pkg, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is missing: install Debian's package %s", name, pkg)
	}
	path := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = path
		}
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v %s", name, err, out)
	}
	return string(out)
}

var word = regexp.MustCompile(`<word xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="[\d.]+">([^<]*)</word>`)

// some letters of each script that the fonts have, each between others of known width.
const some = "AaĄąÉéŁłŐőŠšßœ0169€½±²³×·–—“”‘’…‰™ΑΒΓΔΩαβγδωάέώЖжЦцЩщЪъЫыЮюЯяЁёЇїЄєҐґЉљЊњЏџ!#$%&()*+,/:;<=>?@[]^_{|}~\\"

func TestWrapAndFit(t *testing.T) {
	text := "A long line of words, with aVeryLongWordThatNoLineHolds in it, and 97\u00a0mm kept together " +
		strings.Repeat("m", 40)
	for _, width := range []float64{12, 20, 33.3, 80} {
		lines := Wrap(Sans, 3, width, text)
		for _, l := range lines {
			if TextWidth(Sans, 3, l) > width {
				t.Errorf("%q is wider than %g mm", l, width)
			}
		}
		if got, want := strings.ReplaceAll(strings.Join(lines, ""), " ", ""),
			strings.ReplaceAll(text, " ", ""); got != want {
			t.Errorf("at %g mm %q became %q", width, want, got)
		}
		if s := Fit(Title, 3, width, text); TextWidth(Title, 3, s) > width || !strings.HasSuffix(s, "…") ||
			!strings.HasPrefix(text, strings.TrimSuffix(s, "…")) {
			t.Errorf("fitted to %g mm: %q", width, s)
		}
	}
	if s := Fit(Sans, 3, 40, "short"); s != "short" {
		t.Errorf("what fits became %q", s)
	}
}

// A form lies where its map puts it: a rectangle turned and mirrored, measured in poppler's rendering.
func TestPlace(t *testing.T) {
	d := New("Form", "")
	f := d.Form(orb.Bound{Min: orb.Point{-1, -1}, Max: orb.Point{31, 11}}, func(c *Content) {
		c.Ink(RGB{})
		c.Rect(orb.Bound{Max: orb.Point{30, 10}})
		c.Rect(orb.Bound{Min: orb.Point{5, 2}, Max: orb.Point{25, 8}}) // even–odd: a hole
		c.Fill()
	})
	p := d.Page(100, 80)
	m := geometry.Translate(70, 50).After(geometry.TurnDegrees(90)).After(geometry.MirrorX)
	p.Place(f, m)
	p.Line(1, RGB{})
	p.Circle(20, 60, 10)
	p.Stroke()
	data, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	const k = 4 // px to the mm
	pgm := run(t, data, "poppler-utils", "pdftoppm", "-gray", "-r", fmt.Sprint(25.4*k), "FILE")
	var wide, high int // rounded up to whole pixels
	if _, err := fmt.Sscanf(pgm[:20], "P5\n%d %d\n", &wide, &high); err != nil {
		t.Fatal(err)
	}
	px := pgm[len(pgm)-wide*high:]
	at := func(x, y float64) bool { return px[int((80-y)*k)*wide+int(x*k)] < 128 }
	for _, v := range []struct {
		q    orb.Point // in the form
		dark bool
	}{{orb.Point{0.5, 0.5}, true}, {orb.Point{29.5, 9.5}, true}, {orb.Point{29.5, 0.5}, true},
		{orb.Point{15, 5}, false}, {orb.Point{5.5, 2.5}, false}, {orb.Point{4.5, 5}, true}, {orb.Point{-0.5, 5}, false},
		{orb.Point{15, 10.5}, false}} {
		t.Run(fmt.Sprintf("at %v", v.q), func(t *testing.T) {
			if q := m.Apply(v.q); at(q[0], q[1]) != v.dark {
				t.Errorf("(%g, %g) of the form, at (%g, %g): dark is %v, want %v", v.q[0], v.q[1], q[0], q[1], !v.dark,
					v.dark)
			}
		})
	}
	for a := 0.1; a < 6.2; a += 0.25 {
		if x, y := 20+10*math.Cos(a), 60+10*math.Sin(a); !at(x, y) || at(20+9*math.Cos(a), 60+9*math.Sin(a)) ||
			at(20+11*math.Cos(a), 60+11*math.Sin(a)) {
			t.Errorf("the circle is not at %g rad", a)
		}
	}
}

func TestRefusals(t *testing.T) {
	if _, err := New("Empty", "").Bytes(); err == nil || !strings.Contains(err.Error(), "needs a page") {
		t.Errorf("no page: %v", err)
	}
	d := New("Wide", "")
	d.Page(6000, 10)
	if _, err := d.Bytes(); err == nil || !strings.Contains(err.Error(), "page 1 would be 6000 × 10 mm") {
		t.Errorf("too wide: %v", err)
	}
}
