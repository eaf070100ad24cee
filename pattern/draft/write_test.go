package draft_test

import (
	"bytes"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

func TestEncodeReadsLikeTheDesign(t *testing.T) {
	d, err := draft.DecodeBytes([]byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Replace(whole, `[{"id": "carp", "name": "Carp", "outline": [[[[0, 0], [80, 0], [80, 30], [0, `+
		`0]], [[60, 10], [65, 15], [65, 10], [60, 10]]]]}]`, `[
    {"id": "carp", "name": "Carp", "outline": [
      [
        [[0, 0], [80, 0], [80, 30], [0, 0]],
        [[60, 10], [65, 15], [65, 10], [60, 10]]
      ]
    ]}
  ]`, 1)
	want = strings.Replace(want, `[{"id": "m1", "silhouette": "carp", "at": [40, 30], "turn": 15, "scale": 1.5, `+
		`"mirrored": true}]`, `[
    {"id": "m1", "silhouette": "carp", "at": [40, 30], "turn": 15, "scale": 1.5, "mirrored": true}
  ]`, 1)
	if got := string(d.Encode()); got != want {
		t.Errorf("got %s", got)
	}
	if empty := draft.Default(); !strings.Contains(string(empty.Encode()),
		"\"silhouettes\": [],\n  \"motifs\": [],\n") {
		t.Errorf("an empty draft is written as %s", empty.Encode())
	}
}

// oddDraft is a random draft with numbers of any digits and texts of any characters.
func oddDraft(r *rand.Rand) draft.Draft {
	groups := symmetry.Groups()
	d := patterntest.Draft(r, groups[r.IntN(len(groups))].Symbol)
	odd := func(p *float64) {
		switch r.IntN(4) {
		case 0:
			*p += r.NormFloat64() * 1e-9
		case 1:
			*p = float64(float32(*p))
		}
	}
	odd(&d.Panel.Width)
	odd(&d.Field.Origin[0])
	odd(&d.Field.Turn)
	for i := range d.Motifs {
		odd(&d.Motifs[i].At[0])
		odd(&d.Motifs[i].At[1])
		odd(&d.Motifs[i].Turn)
		odd(&d.Motifs[i].Scale)
	}
	d.Title = oddText(r)
	d.Sheet.Stock = oddText(r)
	for i := range d.Silhouettes {
		d.Silhouettes[i].Name = oddText(r)
	}
	switch r.IntN(4) {
	case 0:
		d.Sheet.Width, d.Sheet.Height = 800*(0.5+r.Float64()), 700
	case 1:
		d.Sheet.Bed = &draft.Bed{Width: 600, Height: 900 * (0.5 + r.Float64())}
	case 2:
		d.Field.Turn = r.NormFloat64() * 1e-8
	}
	return d
}

func oddText(r *rand.Rand) string {
	pieces := []string{"", "carp", "Ä", "\"", "\\", "\n", "\x00", "\u2028", "😀", "</script>", "\x7f", " ", "鯉"}
	s := ""
	for range r.IntN(8) {
		s += pieces[r.IntN(len(pieces))]
	}
	return s
}

func TestEncodeAndBack(t *testing.T) {
	const seed = 51
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 1000 {
		d := oddDraft(r)
		if err := d.Check(); err != nil {
			t.Fatalf("%v in %s", err, d.Encode())
		}
		text := d.Encode()
		back, err := draft.DecodeBytes(text)
		if err != nil {
			t.Fatalf("%v in %s", err, text)
		}
		if !reflect.DeepEqual(back, d) {
			t.Fatalf("%+v came back as %+v", d, back)
		}
		if again := back.Encode(); !bytes.Equal(again, text) {
			t.Fatalf("%s\nis written again as\n%s", text, again)
		}
	}
}
