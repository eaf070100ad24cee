package link

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/geometry"

	"openwork/pattern/draft"
)

// tiedDraft is a random draft with ties of its silhouettes and of the field, some with odd numbers.
func tiedDraft(r *rand.Rand) draft.Draft {
	d := anyDraft(r)
	for k := range 1 + r.IntN(12) {
		t := draft.Tie{From: [2]float64{geometry.Snap(20 * r.Float64()), geometry.Snap(-20 * r.Float64())},
			To: [2]float64{geometry.Snap(100 * r.Float64()), geometry.Snap(30 + 20*r.Float64())}, Width: 3.01}
		switch r.IntN(4) {
		case 0:
			t.To[0] = t.From[0]
		case 1:
			t.Width = 0.1 + r.Float64()
			t.From[1] *= math.Pi
		}
		if k%2 == 0 {
			t.Silhouette = d.Silhouettes[r.IntN(len(d.Silhouettes))].ID
			t.Width = 0.01 * r.Float64() // no silhouette vanishes under it
			t.Width = max(t.Width, 0.001)
		}
		d.Ties = append(d.Ties, t)
	}
	return d
}

// Ties come back as they were, to the last bit; a draft without them has the link of version 1 that it always had.
func TestTiesThroughALink(t *testing.T) {
	const seed = 67
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	longer := 0
	for range 400 {
		d := tiedDraft(r)
		if d.Check() != nil {
			t.Fatal(d.Check())
		}
		s, err := Encode(d)
		if err != nil || !strings.HasPrefix(s, "#ow2.") {
			t.Fatalf("%.10s, %v", s, err)
		}
		got, err := Decode(s)
		if err != nil {
			t.Fatalf("%v in %s", err, s)
		}
		again, err := Encode(got)
		if err != nil || again != s {
			t.Fatalf("the link of the draft that %s opens to is %s (%v)", s, again, err)
		}
		if !reflect.DeepEqual(got.Ties, d.Ties) {
			t.Fatalf("%v came back as %v", d.Ties, got.Ties)
		}
		like(t, d, got)
		bare := d
		bare.Ties = nil
		plain, err := Encode(bare)
		if err != nil || !strings.HasPrefix(plain, "#ow1.") {
			t.Fatalf("%.10s, %v", plain, err)
		}
		longer += (len(s) - len(plain)) / len(d.Ties)
	}
	t.Logf("a tie makes a link longer by %d characters on the mean", longer/400)
}

// tiedLinks is the version that has ties.
const tiedLinks = 2

func TestTiedLinkIsRead(t *testing.T) {
	r := rand.New(rand.NewPCG(68, 0))
	d := tiedDraft(r)
	s, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	// The version is part of the check sum.
	if _, err := Decode("#ow1." + s[5:]); err == nil || !strings.Contains(err.Error(), "check sum") {
		t.Errorf("read as version 1: %v", err)
	}
	content := func(change func(c *codec)) string {
		c := newWriter()
		bare := d
		bare.Ties = nil
		c.draft(&bare, plainLinks)
		change(c)
		return wrap(tiedLinks, c.finish())
	}
	for _, c := range []struct{ name, link, want string }{
		{"no ties", content(func(c *codec) { n := 0; c.count(sizeCount, &n, 1, "") }),
			"it is of the version for ties and has none"},
		{"too many", content(func(c *codec) { n := 1 << 20; c.count(sizeCount, &n, 1<<30, "") }),
			"it asks for more ties than a draft holds"},
		{"of no silhouette", content(func(c *codec) {
			n, field, which := 1, false, 9
			c.count(sizeCount, &n, 1, "")
			c.flag(&c.model.ofField, &field)
			c.count(sizeCount, &which, 9, "")
		}), "it asks for more silhouettes than a draft holds"},
		{"of no width", content(func(c *codec) {
			bad := d
			bad.Ties = []draft.Tie{{To: [2]float64{1, 1}}}
			c.d = &bad
			c.object(draft.Schema, &bad, 0, 0, tiedLinks)
		}), "ties[0].width: 0 is out of range"},
		{"and more", wrap(tiedLinks, append(tiedContent(d), 1, 2, 3, 4, 5, 6, 7)), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			refused(t, c.link, c.want)
		})
	}
}

func tiedContent(d draft.Draft) []byte {
	c := newWriter()
	c.draft(&d, tiedLinks)
	return c.finish()
}

// FuzzTiedContent goes past the check sum of version 2.
func FuzzTiedContent(f *testing.F) {
	r := rand.New(rand.NewPCG(69, 0))
	for range 6 {
		f.Add(tiedContent(tiedDraft(r)))
	}
	f.Fuzz(func(t *testing.T, content []byte) { opensSoundly(t, wrap(tiedLinks, content)) })
}
