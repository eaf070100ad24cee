package link

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// Swatches and paint come back from a link as they were, in version 4 alone; without them a link is what it was.
func TestPaintThroughALink(t *testing.T) {
	const seed = 155
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	longest := 0
	for _, g := range symmetry.Groups() {
		for range 5 {
			bare := patterntest.Draft(r, g.Symbol)
			plain, err := Encode(bare)
			if err != nil || !strings.HasPrefix(plain, "#ow1.") {
				t.Fatalf("%.10s, %v", plain, err)
			}
			d := patterntest.Coloured(r, bare)
			if r.IntN(3) == 0 {
				d.Paint = nil
			}
			s, err := Encode(d)
			if err != nil || !strings.HasPrefix(s, "#ow4.") {
				t.Fatalf("%.10s, %v", s, err)
			}
			got, err := Decode(s)
			if err != nil {
				t.Fatalf("%v in %s", err, s)
			}
			if !reflect.DeepEqual(got.Swatches, d.Swatches) || !reflect.DeepEqual(got.Paint, d.Paint) {
				t.Fatalf("%+v came back as %+v", d.Paint, got.Paint)
			}
			if again, err := Encode(got); err != nil || again != s {
				t.Fatalf("the link of the draft that %s opens to is %s (%v)", s, again, err)
			}
			longest = max(longest, len(s)-len(plain))
		}
	}
	t.Logf("paint makes a link longer by up to %d characters", longest)
}

func TestPaintedLinkIsRead(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(156, 0)), "p4")
	c := newWriter()
	c.draft(&d, 4)
	refused(t, wrap(4, c.finish()), "it is of the version for swatches or paint or subjects and has none")

	d.Swatches = []draft.Swatch{{ID: "c1", Name: "c1", Colour: "#808080"}}
	d.Paint = draft.NewPaint()
	d.Paint.Ground = "c1"
	c = newWriter()
	c.draft(&d, 4)
	s := wrap(4, c.finish())
	if got, err := Decode(s); err != nil || got.Paint.Ground != "c1" {
		t.Fatalf("%v, %+v", err, got.Paint)
	}
	d.Paint.Density = 1e9
	c = newWriter()
	c.draft(&d, 4)
	refused(t, wrap(4, c.finish()), "paint.density: 1e+09 is out of range")
}

// FuzzPaintedContent goes past the check sum of version 4.
func FuzzPaintedContent(f *testing.F) {
	r := rand.New(rand.NewPCG(157, 0))
	for range 6 {
		d := patterntest.Coloured(r, patterntest.Draft(r, "p4gm"))
		c := newWriter()
		c.draft(&d, 4)
		f.Add(c.finish())
	}
	f.Fuzz(func(t *testing.T, content []byte) { opensSoundly(t, wrap(4, content)) })
}
