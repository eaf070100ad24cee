package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
)

const again = "run `go run ./testdata/draw` from the root of the repository and look at what changed"

// The files in the folder are those this program draws now. Of the picture the pixels and the density are compared,
// since another version of Go may pack the same pixels otherwise.
func TestFilesAreAsDrawn(t *testing.T) {
	files, err := made()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join("..", name))
		if err != nil {
			t.Errorf("%v: %s", err, again)
			continue
		}
		if filepath.Ext(name) != ".png" {
			if !bytes.Equal(got, want) {
				t.Errorf("%s is not what is drawn now: %s", name, again)
			}
			continue
		}
		if !bytes.Equal(pixels(t, got), pixels(t, want)) {
			t.Errorf("%s does not show what is drawn now: %s", name, again)
		}
		if !bytes.Equal(got[33:54], want[33:54]) || string(got[37:41]) != "pHYs" {
			t.Errorf("%s does not say its density as pHYs after the header: %s", name, again)
		}
	}
}

func pixels(t *testing.T, file []byte) []byte {
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	g, ok := img.(*image.Gray)
	if !ok || g.Bounds() != image.Rect(0, 0, scanWidth, scanHeight) {
		t.Fatalf("the scan is %T of %v, not a grey picture of %d × %d", img, img.Bounds(), scanWidth, scanHeight)
	}
	return g.Pix
}

// README names every file in the folders with its checksum.
func TestReadmeNamesEveryFile(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]string{}
	for _, m := range row.FindAllSubmatch(readme, -1) {
		said[string(m[2])] = string(m[3])
	}
	for _, folder := range []string{"drawings", "drafts"} {
		entries, err := os.ReadDir(filepath.Join("..", folder))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if filepath.Ext(e.Name()) == ".go" { // what reads them into programs
				continue
			}
			name := folder + "/" + e.Name()
			file, err := os.ReadFile(filepath.Join("..", name))
			if err != nil {
				t.Fatal(err)
			}
			if sum := fmt.Sprintf("%x", sha256.Sum256(file)); said[name] != sum {
				t.Errorf("README.md says %q of %s, whose SHA-256 is %s: %s", said[name], name, sum, again)
			}
		}
	}
}

func TestOutlinesAreSound(t *testing.T) {
	drawings, err := all() // which refuses an outline that crosses itself
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		id                   string
		fewest, most         int
		width, height, slack float64 // mm
	}{
		{"carp", 120, 160, 84, 47, 3},
		{"heron", 150, 200, 80, 100, 5},
		{"moth", 100, 150, 60, 60, 3},
		{"leaf", 30, 60, 30, 14, 3},
	} {
		d := drawings[c.id]
		n := len(d.ring) - 1
		if d.ring[0] != d.ring[n] || area(d.ring) <= 0 {
			t.Errorf("%s: not closed, or not counter-clockwise", c.id)
		}
		if n < c.fewest || n > c.most {
			t.Errorf("%s: %d points, wanted %d to %d", c.id, n, c.fewest, c.most)
		}
		lo, hi := bounds(d.ring)
		if math.Abs(hi.x-lo.x-c.width) > c.slack || math.Abs(hi.y-lo.y-c.height) > c.slack {
			t.Errorf("%s: %.1f × %.1f mm, wanted about %g × %g", c.id, hi.x-lo.x, hi.y-lo.y, c.width, c.height)
		}
		if m := centroid(d.ring); m.length() > 0.05 {
			t.Errorf("%s: the centre of its area is at %.3f, %.3f, not at the origin", c.id, m.x, m.y)
		}
		for _, p := range d.ring {
			if p != rounded(p) {
				t.Errorf("%s: %v is not in hundredths of a millimetre", c.id, p)
			}
		}
		// Every point of the curve lies near a side.
		worst := 0.0
		for _, p := range flatten(d.pieces) {
			near := math.Inf(1)
			for i := 1; i <= n; i++ {
				near = math.Min(near, toSide(p, d.ring[i-1], d.ring[i]))
			}
			worst = math.Max(worst, near)
		}
		if t.Logf("%s: the ring strays %.3f mm from its curve", c.id, worst); worst > 0.06 {
			t.Errorf("%s: the ring strays %.3f mm from its curve", c.id, worst)
		}
	}
}

func TestSelfCrossingIsSeen(t *testing.T) {
	bow := []point{{0, 0}, {4, 4}, {4, 0}, {0, 4}, {0, 0}}
	touch := []point{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}, {0, 0}}
	square := []point{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}}
	for _, c := range []struct {
		name string
		ring []point
		want bool
	}{{"a bow", bow, true}, {"a corner on a side", touch, true}, {"a square", square, false}} {
		if _, _, got := selfCrossing(c.ring); got != c.want {
			t.Errorf("%s: crossing %v, wanted %v", c.name, got, c.want)
		}
	}
}

func TestMothIsItsOwnMirrorImage(t *testing.T) {
	d, err := moth()
	if err != nil {
		t.Fatal(err)
	}
	have := map[point]bool{}
	for _, p := range d.ring {
		have[p] = true
	}
	for _, p := range d.ring {
		if !have[flip(p)] {
			t.Errorf("%v has no partner across x = 0", p)
		}
	}
}

// The fields, measured side against side over a cell and its neighbours.
func TestFieldsKeepTheirDistance(t *testing.T) {
	drawings, err := all()
	if err != nil {
		t.Fatal(err)
	}
	made := drafts(drawings)
	tight := heronOverCarp(drawings["heron"], drawings["carp"])
	tight.Repeat.A -= 3
	for _, c := range []struct {
		name   string
		d      draft
		inCell int
		least  float64 // mm between copies
		holds  bool
	}{
		{"heron over carp", made["heron-over-carp"], 4, 3.4, true},
		{"heron with room", made["heron-with-room"], 4, 16, true},
		{"moth on mirrors", made["moth-p4mm"], 4, 3.4, true},
		{"leaf, sixfold", made["leaf-p6mm"], 12, 3.4, true},
		{"heron over carp drawn together by 3 mm", tight, 4, 3.2, false},
	} {
		inCell, near := spacing(c.d)
		t.Logf("%s: %d in a cell, nearest %.3f mm", c.name, inCell, near)
		if inCell != c.inCell {
			t.Errorf("%s: %d copies in a cell, wanted %d", c.name, inCell, c.inCell)
		}
		if (near >= c.least) != c.holds {
			t.Errorf("%s: copies come within %.3f mm; at least %g: wanted %v", c.name, near, c.least, c.holds)
		}
	}
}

// same is how near, in mm, the centres and the first corners' images of two copies lie that are one copy.
const same = 1e-6

// spacing counts the different copies in a cell and gives the least distance between any of them and any other copy.
func spacing(d draft) (int, float64) {
	var home, round [][]point
	for i := -2; i <= 2; i++ {
		for j := -2; j <= 2; j++ {
			for _, ring := range inOneCell(d, i, j) {
				round = append(round, ring)
				if i == 0 && j == 0 {
					home = append(home, ring)
				}
			}
		}
	}
	var different [][]point
	for _, r := range home {
		if !seen(different, r) {
			different = append(different, r)
		}
	}
	near := math.Inf(1)
	for _, r := range different {
		for _, s := range round {
			if seen([][]point{r}, s) {
				continue
			}
			near = math.Min(near, apart(r, s, near))
		}
	}
	return len(different), near
}

func seen(rings [][]point, r []point) bool {
	for _, s := range rings {
		a, b := bounds2(r), bounds2(s)
		if a[0].to(b[0]) < same && a[1].to(b[1]) < same && len(r) == len(s) && apart(r, s, 1) == 0 {
			return true
		}
	}
	return false
}

func bounds2(r []point) [2]point {
	lo, hi := bounds(r)
	return [2]point{lo, hi}
}

// apart is the distance between two rings, 0 when one crosses or holds the other; it may stop at enough.
func apart(r, s []point, enough float64) float64 {
	a, b := bounds2(r), bounds2(s)
	if a[0].x > b[1].x+enough || b[0].x > a[1].x+enough || a[0].y > b[1].y+enough || b[0].y > a[1].y+enough {
		return enough
	}
	if inside(r[0], s) || inside(s[0], r) {
		return 0
	}
	near := math.Inf(1)
	for i := 1; i < len(r); i++ {
		for j := 1; j < len(s); j++ {
			if meet(r[i-1], r[i], s[j-1], s[j]) {
				return 0
			}
			near = math.Min(near, math.Min(toSide(r[i], s[j-1], s[j]), toSide(s[j], r[i-1], r[i])))
		}
	}
	return near
}

// The drafts are JSON that reads back as what was written.
func TestDraftsReadBack(t *testing.T) {
	drawings, err := all()
	if err != nil {
		t.Fatal(err)
	}
	for name, d := range drafts(drawings) {
		text, err := d.text()
		if err != nil {
			t.Fatal(err)
		}
		var back draft
		dec := json.NewDecoder(bytes.NewReader(text))
		dec.DisallowUnknownFields()
		if err := dec.Decode(&back); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if fmt.Sprint(back) != fmt.Sprint(d) {
			t.Errorf("%s: reads back otherwise", name)
		}
	}
}
