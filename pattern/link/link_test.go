package link

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

var update = flag.Bool("update", false,
	"write the links of testdata/v1 to v4 that are missing; those that are there never change")

// anyDraft is a random draft in any group, now and then with odd texts, a sheet of its own size, a bed or large motifs.
func anyDraft(r *rand.Rand) draft.Draft {
	groups := symmetry.Groups()
	d := patterntest.Draft(r, groups[r.IntN(len(groups))].Symbol)
	if r.IntN(2) == 0 {
		d.Silhouettes[0].Outline = patterntest.Smooth(r, 5+60*r.Float64(), 20+r.IntN(300))
	}
	switch r.IntN(6) {
	case 0:
		d.Sheet.Width, d.Sheet.Height = 300, 333.25
	case 1:
		d.Sheet.Bed = &draft.Bed{Width: 300, Height: 400}
	case 2:
		d.Title, d.Sheet.Stock = "鯉と鷺 \x00\"", "card"
		d.Silhouettes[0].Name = ""
		d.Motifs[0].ID = "carp, the first one"
	case 3:
		d.Motifs[0].Scale = math.Pow(10, 6*r.Float64()-3)
		d.Motifs[0].At[0] *= math.Pi
		d.Field.Turn = -1e-9 * r.Float64()
	}
	return d
}

// like fails the test unless got is the draft want with its outlines within half a step, point for point, points that
// fall together left out. Half a step is never more than 0.005 mm.
func like(t *testing.T, want, got draft.Draft) {
	t.Helper()
	for i := range got.Silhouettes {
		if i >= len(want.Silhouettes) {
			break
		}
		a, b := want.Silhouettes[i].Outline, got.Silhouettes[i].Outline
		got.Silhouettes[i].Outline = nil
		slack := 0.0
		if k, _ := chooseStep(a, enlarged(&want, want.Silhouettes[i].ID)); k != exact {
			slack = 0.5 / perMM[k] * (1 + 1e-9)
		}
		if len(a) != len(b) {
			t.Fatalf("%d polygons came back as %d", len(a), len(b))
		}
		for p := range a {
			if len(a[p]) != len(b[p]) {
				t.Fatalf("%d rings came back as %d", len(a[p]), len(b[p]))
			}
			for q := range a[p] {
				k := 0
				for _, v := range a[p][q] {
					near := func(w orb.Point) bool {
						return math.Abs(v[0]-w[0]) <= slack && math.Abs(v[1]-w[1]) <= slack
					}
					if k < len(b[p][q]) && near(b[p][q][k]) {
						k++
					} else if k == 0 || !near(b[p][q][k-1]) {
						t.Fatalf("point %v of silhouette %d came back as %v", v, i,
							b[p][q][max(0, k-1):min(k+1, len(b[p][q]))])
					}
				}
				if k != len(b[p][q]) {
					t.Fatalf("silhouette %d came back with %d points more", i, len(b[p][q])-k)
				}
			}
		}
	}
	bare := want
	bare.Silhouettes = nil
	for _, s := range want.Silhouettes {
		s.Outline = nil
		bare.Silhouettes = append(bare.Silhouettes, s)
	}
	if !reflect.DeepEqual(bare, got) {
		t.Fatalf("%+v came back as %+v", bare, got)
	}
}

func TestLinkAndBack(t *testing.T) {
	const seed = 61
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 1500 {
		d := anyDraft(r)
		before := string(d.Encode())
		s, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		if string(d.Encode()) != before {
			t.Fatal("the draft changed while its link was made")
		}
		got, err := Decode("https://example.org/openwork/?a=b" + s)
		if err != nil {
			t.Fatalf("%v in %s", err, s)
		}
		if err := got.Check(); err != nil {
			t.Fatal(err)
		}
		again, err := Encode(got)
		if err != nil || again != s {
			t.Fatalf("the link of the draft that %s opens to is %s (%v)", s, again, err)
		}
		like(t, d, got)
	}
}

// TestLinkLength holds the figures that the job asks for.
func TestLinkLength(t *testing.T) {
	const seed = 63
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	draftOf := func(n, points int, outline func(points int) orb.MultiPolygon) draft.Draft {
		d := draft.Default()
		d.Title = "Heron over carp, for the long wall"
		for i := range n {
			id := fmt.Sprintf("s%d", i+1)
			d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Name: "Carp", Outline: outline(points)})
			d.Motifs = append(d.Motifs, draft.Motif{ID: fmt.Sprintf("m%d", i+1), Silhouette: id,
				At:   [2]float64{geometry.Snap(150 * r.Float64()), geometry.Snap(150 * r.Float64())},
				Turn: geometry.Snap(360 * r.Float64()), Scale: 1})
		}
		return d
	}
	smooth := func(n int) orb.MultiPolygon { return patterntest.Smooth(r, 40, n) }
	ragged := func(n int) orb.MultiPolygon { return patterntest.Blob(r, 40, n, false) }
	for _, c := range []struct {
		name  string
		d     draft.Draft
		below int
	}{
		{"one smooth silhouette of 150 points", draftOf(1, 150, smooth), 500},
		{"three smooth silhouettes of 300 points", draftOf(3, 300, smooth), 1200},
		{"one ragged silhouette of 150 points", draftOf(1, 150, ragged), 2000},
		{"three ragged silhouettes of 300 points", draftOf(3, 300, ragged), 4000},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := Encode(c.d)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%d characters", len(s))
			if len(s) >= c.below {
				t.Errorf("%d characters, want fewer than %d", len(s), c.below)
			}
		})
	}
}

func TestLinkRefusesABadDraft(t *testing.T) {
	d := draft.Default()
	d.Panel.Width = math.NaN()
	if s, err := Encode(d); err == nil ||
		err.Error() != "the draft cannot be put into a link: panel.width: not a number" {
		t.Errorf("got %q, %v", s, err)
	}
}

// TestFrozen reads links as they were written when their version was fixed, and writes the same ones.
func TestFrozen(t *testing.T) {
	drafts, err := filepath.Glob("testdata/v[1-4]/*.openwork.json")
	if err != nil || len(drafts) < 5 {
		t.Fatalf("only %d frozen drafts (%v)", len(drafts), err)
	}
	for _, name := range drafts {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		want, err := draft.DecodeBytes(text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		file := strings.TrimSuffix(name, ".openwork.json") + ".link"
		link, err := os.ReadFile(file)
		if os.IsNotExist(err) && *update {
			s, _ := Encode(want)
			link, err = []byte(s+"\n"), os.WriteFile(file, []byte(s+"\n"), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
		dir := filepath.Base(filepath.Dir(name))
		if !strings.HasPrefix(string(link), "#"+head(int(dir[1]-'0'))) {
			t.Errorf("%s is not a link of version %s", file, dir)
		}
		got, err := Decode(string(link))
		if err != nil {
			t.Errorf("%s: %v", file, err)
		} else if !reflect.DeepEqual(got, want) && // a paint that says nothing is none in a file
			(dir != "v4" || !bytes.Equal(got.Encode(), want.Encode())) {
			t.Errorf("%s opens to another draft:\n%s", file, got.Encode())
		}
		if s, err := Encode(want); err != nil || s != strings.TrimSpace(string(link)) {
			t.Errorf("%s: the link is now %s (%v)", file, s, err)
		}
	}
}

func benchDraft() draft.Draft {
	r := rand.New(rand.NewPCG(1, 1))
	d := draft.Default()
	for i := range 3 {
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: fmt.Sprint(i),
			Outline: patterntest.Smooth(r, 40, 300)})
	}
	return d
}

func BenchmarkEncode(b *testing.B) {
	d := benchDraft()
	for b.Loop() {
		if _, err := Encode(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	s, err := Encode(benchDraft())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Decode(s); err != nil {
			b.Fatal(err)
		}
	}
}
