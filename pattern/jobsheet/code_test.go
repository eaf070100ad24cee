package jobsheet

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/link"
	"openwork/pattern/patterntest"
	"openwork/pattern/qr"
)

// The code on the paper, read by a reader of others, opens the draft.
func TestCodeOpensTheDraft(t *testing.T) {
	const address = "https://openwork.example/page/"
	o := Defaults()
	o.Address = address
	for _, d := range []draft.Draft{squares(), patterntest.SmallDemo(t)} {
		m, path := written(t, d, o)
		if !m.Code {
			t.Fatal("there is no code")
		}
		run(t, "poppler-utils", "pdftoppm", "-gray", "-f", "2", "-r", "220", path, path)
		got := strings.TrimSpace(run(t, "zbar-tools", "zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable",
			path+"-2.pgm"))
		if !strings.HasPrefix(got, address+"#") {
			t.Fatalf("the code holds %.80q", got)
		}
		opened, err := link.Decode(got)
		if err != nil {
			t.Fatal(err)
		}
		if opened.Title != d.Title || !reflect.DeepEqual(opened.Motifs, d.Motifs) ||
			!reflect.DeepEqual(opened.Sheet, d.Sheet) {
			t.Errorf("the code opens another draft: %+v", opened)
		}
	}
}

// A draft whose link no code holds names its file.
func TestLinkTooLong(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	d := squares()
	d.Silhouettes[0].Outline = patterntest.Blob(r, 12, 1500, false)
	o := Defaults()
	o.File = "many corners.openwork.json"
	m, path := written(t, d, o)
	s, err := link.Encode(d)
	if err != nil || len(s) <= qr.MaxBytes {
		t.Fatalf("the link has %d characters, %v", len(s), err)
	}
	if want := fmt.Sprintf("link has %d characters, and a QR code holds 2953. The draft is kept in the file many "+
		"corners.openwork.json.", len(s)); m.Code || !strings.Contains(words(t, path), want) {
		t.Errorf("%q is not in %q", want, words(t, path))
	}
}
