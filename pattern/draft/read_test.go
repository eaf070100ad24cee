package draft_test

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// whole is a draft with every key; tests change one thing in it.
const whole = `{
  "openwork": 1,
  "title": "Heron over carp",
  "units": "mm",
  "panel": {"width": 600, "height": 900},
  "field": {"margin": 20, "origin": [300, 450], "turn": 0, "edge": "crop"},
  "repeat": {"group": "p2gg", "a": 180, "b": 150, "gamma": 90},
  "silhouettes": [{"id": "carp", "name": "Carp", "outline": [[[[0, 0], [80, 0], [80, 30], [0, 0]], [[60, 10], [65, ` +
	`15], [65, 10], [60, 10]]]]}],
  "motifs": [{"id": "m1", "silhouette": "carp", "at": [40, 30], "turn": 15, "scale": 1.5, "mirrored": true}],
  "sheet": {"stock": "polyester film", "thickness": 0.35, "kerf": 0.2, "bridge": 3, "opening": 1.5, "width": 640, ` +
	`"height": 940, "bed": {"width": 900, "height": 1200}}
}
`

// least is a draft with nothing that may be left out.
const minimal = `{"openwork":1,"panel":{"width":400,"height":500},"repeat":{"group":"pmm","a":100,"b":80,"gamma":90},
"silhouettes":[{"id":"leaf","outline":[[[[0,0],[0,10],[10,10],[10,10],[10,0],[0,0]]]]}],
"motifs":[{"id":"m1","silhouette":"leaf","at":[5,6]}]}`

func TestDecodeWhole(t *testing.T) {
	d, err := draft.Decode(strings.NewReader("\ufeff" + whole))
	if err != nil {
		t.Fatal(err)
	}
	want := draft.Draft{
		Openwork: 1, Title: "Heron over carp", Units: "mm", Panel: draft.Panel{Width: 600, Height: 900},
		Field:       draft.Field{Margin: 20, Origin: [2]float64{300, 450}, Edge: draft.Crop},
		Repeat:      draft.Repeat{Group: "p2gg", A: 180, B: 150, Gamma: 90},
		Silhouettes: []draft.Silhouette{{ID: "carp", Name: "Carp", Outline: d.Silhouettes[0].Outline}},
		Motifs: []draft.Motif{{ID: "m1", Silhouette: "carp", At: [2]float64{40, 30}, Turn: 15, Scale: 1.5,
			Mirrored: true}},
		Sheet: draft.Sheet{Stock: "polyester film", Thickness: 0.35, Kerf: 0.2, Bridge: 3, Opening: 1.5, Width: 640,
			Height: 940,
			Bed:    &draft.Bed{Width: 900, Height: 1200}},
	}
	if !reflect.DeepEqual(d, want) {
		t.Errorf("got %+v", d)
	}
	if got := fmt.Sprint(d.Silhouettes[0].Outline); got != "[[[[0 0] [80 0] [80 30] [0 0]] [[60 10] [65 15] [65 10] "+
		"[60 10]]]]" {
		t.Errorf("outline %s", got)
	}
}

func TestDecodeFillsIn(t *testing.T) {
	d, err := draft.DecodeBytes([]byte(minimal))
	if err != nil {
		t.Fatal(err)
	}
	want := draft.Default()
	want.Panel = draft.Panel{Width: 400, Height: 500}
	want.Field.Origin = [2]float64{200, 250}
	want.Repeat = draft.Repeat{Group: "p2mm", A: 100, B: 80, Gamma: 90}
	want.Silhouettes = []draft.Silhouette{{ID: "leaf", Name: "leaf", Outline: d.Silhouettes[0].Outline}}
	want.Motifs = []draft.Motif{{ID: "m1", Silhouette: "leaf", At: [2]float64{5, 6}, Scale: 1}}
	if !reflect.DeepEqual(d, want) {
		t.Errorf("got %+v", d)
	}
	// The ring ran clockwise and said one point twice.
	if got := fmt.Sprint(d.Silhouettes[0].Outline); got != "[[[[0 0] [10 0] [10 10] [0 10] [0 0]]]]" {
		t.Errorf("outline %s", got)
	}
}

func TestDecodeKeepsDigits(t *testing.T) {
	d, err := draft.DecodeBytes([]byte(strings.Replace(whole, "[80, 30]", "[80.1234567890123, 3.00000000000000031e1]",
		1)))
	if err != nil {
		t.Fatal(err)
	}
	if p := d.Silhouettes[0].Outline[0][0][2]; p != [2]float64{80.1234567890123, 30.0000000000000031} {
		t.Errorf("got %v", p)
	}
}

// endless gives spaces for ever and counts them.
type endless struct{ n int }

func (e *endless) Read(p []byte) (int, error) {
	e.n += len(p)
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

func TestDecodeStopsReading(t *testing.T) {
	e := &endless{}
	_, err := draft.Decode(e)
	if err == nil || err.Error() != "the draft has more than 64 MB" {
		t.Errorf("got %v", err)
	}
	if e.n > draft.MaxDraftBytes+2 {
		t.Errorf("%d bytes were read", e.n)
	}
	broken := errors.New("the disk is gone")
	if _, err := draft.Decode(io.MultiReader(strings.NewReader(whole[:100]), &failing{broken})); !errors.Is(err,
		broken) {
		t.Errorf("got %v", err)
	}
}

type failing struct{ err error }

func (f *failing) Read([]byte) (int, error) { return 0, f.err }

func TestDecodeTheDraftsOfTheProject(t *testing.T) {
	files, err := filepath.Glob("../../testdata/drafts/*.openwork.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no drafts to read: %v", err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := draft.DecodeBytes(text); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(whole))
	f.Add([]byte(minimal))
	r := rand.New(rand.NewPCG(52, 0))
	for range 6 {
		f.Add(oddDraft(r).Encode())
	}
	for _, c := range edits {
		f.Add([]byte(strings.Replace(whole, c.old, c.new, 1)))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		d, err := draft.DecodeBytes(text)
		if err != nil {
			var place *draft.PlaceError
			if !errors.As(err, &place) || place.Text == "" {
				t.Fatalf("the error names no place: %#v", err)
			}
			return
		}
		if err := d.Check(); err != nil {
			t.Fatalf("a draft was read that is none: %v", err)
		}
		back, err := draft.DecodeBytes(d.Encode())
		if err != nil {
			t.Fatalf("%v in %s", err, d.Encode())
		}
		if !reflect.DeepEqual(back, d) {
			t.Fatalf("%+v came back as %+v", d, back)
		}
	})
}

func BenchmarkDecode(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	d := draft.Default()
	for i := range 3 {
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: fmt.Sprint(i),
			Outline: patterntest.Smooth(r, 40, 300)})
	}
	text := d.Encode()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := draft.DecodeBytes(text); err != nil {
			b.Fatal(err)
		}
	}
}
