package joined

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// demoParts divides the demonstration in four.
func demoParts(t testing.TB) *Joined {
	t.Helper()
	d := patterntest.SmallDemo(t)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	j, err := Join(l, Options{Bed: &draft.Bed{Width: 240, Height: 260}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// Every part is written in every format; its page fits the bed.
func TestPartsAreWritten(t *testing.T) {
	j := demoParts(t)
	openings := 0
	for k, p := range j.Parts {
		for _, f := range []cutfile.Format{cutfile.FormatSVG, cutfile.FormatDXF, cutfile.FormatPDF} {
			var b bytes.Buffer
			made, err := j.Write(k, &b, f)
			if err != nil {
				t.Fatalf("part %d as %s: %v", p.Number, f, err)
			}
			if made.Openings+made.Lost != p.Openings || made.Holes != len(p.Holes) || made.Holes < 3 {
				t.Errorf("part %d as %s: %d openings of %d, %d holes of %d: %v", p.Number, f, made.Openings, p.Openings,
					made.Holes, len(p.Holes), made.Notes)
			}
		}
		openings += p.Openings
	}
	if openings != len(j.room.open) {
		t.Errorf("the parts hold %d openings of %d", openings, len(j.room.open))
	}
}

// What is not the sheet is not handed over: a part left out, or an opening that a joint cuts.
func TestProofSeesABadPart(t *testing.T) {
	j := demoParts(t)
	clean := func() {
		j.Parts = nil
		if err := j.assemble(); err != nil {
			t.Fatal(err)
		}
	}
	clean()
	if err := j.prove(); err != nil {
		t.Error(err)
	}
	clean()
	j.Parts = j.Parts[1:]
	if err := j.prove(); err == nil || !strings.Contains(err.Error(), "the parts together measure") {
		t.Errorf("a part left out: %v", err)
	}
	half := j.sheet.Center()[0]
	left, right := j.sheet, j.sheet
	left.Max[0], right.Min[0] = half, half
	j.Parts = []Part{{outline: geometry.RectOutline(left)}, {outline: geometry.RectOutline(right)}}
	if err := j.prove(); err == nil || !strings.Contains(err.Error(), "not whole in one part") {
		t.Errorf("a joint through openings: %v", err)
	}
}

func TestRefusals(t *testing.T) {
	demo := patterntest.SmallDemo(t)
	demo.Sheet.Bed = nil
	full := demo
	full.Motifs = append([]draft.Motif(nil), demo.Motifs...)
	for i := range full.Motifs {
		full.Motifs[i].Scale *= 2.5
	}
	none := demo
	none.Motifs = nil
	for _, c := range []struct {
		d    draft.Draft
		bed  *draft.Bed
		want string
	}{
		{demo, nil, "say how large the bed is"},
		{demo, &draft.Bed{Width: 300, Height: math.NaN()}, "a bed of"},
		{demo, &draft.Bed{Width: 20, Height: 20}, "more than 40 parts"},
		{full, &draft.Bed{Width: 200, Height: 200}, "no line through sheet alone"},
		{none, &draft.Bed{Width: 400, Height: 600}, "holds no opening"},
	} {
		t.Run(c.want, func(t *testing.T) {
			l, err := pattern.NewLayout(c.d, nil)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := Join(l, Options{Bed: c.bed}, nil); err == nil || !strings.Contains(err.Error(), c.want) ||
				errors.Is(err, errNoWay) {
				t.Errorf("%v: %v, want %q", c.bed, err, c.want)
			}
		})
	}
	l, err := pattern.NewLayout(demo, nil)
	if err != nil {
		t.Fatal(err)
	}
	j, err := Join(l, Options{Bed: &draft.Bed{Width: 1000, Height: 1000}}, nil)
	if err != nil || len(j.Parts) != 1 || len(j.Joints) != 0 {
		t.Errorf("a bed that takes all: %v", err)
	}
}

func BenchmarkJoin(b *testing.B) {
	for b.Loop() {
		demoParts(b)
	}
}
