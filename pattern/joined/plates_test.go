package joined

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

// colouredDraft is a random draft in several colours, spread so that there is room for joints.
func colouredDraft(r *rand.Rand, group string) draft.Draft {
	d := patterntest.Draft(r, group)
	patterntest.Spread(&d, 1.5+0.5*r.Float64())
	return patterntest.Coloured(r, d)
}

// mayBeRefused reports whether an error is one of those that a random draft may well be refused with.
func mayBeRefused(err error) bool {
	return errors.Is(err, errOneColour) || strings.Contains(err.Error(), "no line through sheet alone") ||
		strings.Contains(err.Error(), "holds no opening")
}

// Random coloured drafts in parts, by plate: with GEOS all plates' openings together are the field's, each whole in its
// part, and marks of every plate keep clear of its own openings; each plate has the openings of its colour, and its
// parts have the joints and the holes of the whole.
func TestPlatesJoinedWithGEOS(t *testing.T) {
	const seed = 67
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var cases []joinCase
	var drafts []draft.Draft
	var beds []draft.Bed
	var made []*Joined
	plates := 0
	for i, g := range symmetry.Groups() {
		if i%3 > 0 {
			continue
		}
		d := colouredDraft(r, g.Symbol)
		bed := draft.Bed{Width: geometry.Snap(d.Panel.Width * 0.7), Height: geometry.Snap(d.Panel.Height * 0.8)}
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		j, err := Join(l, Options{Bed: &bed, Plates: true, Cut: cutplan.Defaults()}, nil)
		if err != nil {
			if !mayBeRefused(err) {
				t.Errorf("%s: %v", d.Title, err)
			}
			continue
		}
		c := caseOf(t, d, j)
		for k := range c.Parts {
			c.Parts[k].Open, c.Parts[k].Marks = []orb.MultiPolygon{}, []orb.LineString{}
		}
		for _, p := range j.Plates {
			plates++
			colour := 0
			for d.Paint.Colours[colour] != p.Swatch {
				colour++
			}
			judgePlate(t, l.Only(colour), j, p)
			for k, part := range caseOf(t, d, p.of).Parts {
				c.Parts[k].Open = append(c.Parts[k].Open, part.Open...)
			}
		}
		drafts, beds = append(drafts, d), append(beds, bed)
		made, cases = append(made, j), append(cases, c)
	}
	for i, a := range joinWithGEOS(t, cases) {
		if a.Unclear != "" {
			continue
		}
		if slack := 1e-6 * (1 + a.Field); !a.Valid || a.Parts > slack || a.Openings > slack || a.Outside > slack {
			t.Errorf("%s on %v: %+v", drafts[i].Title, beds[i], a)
		}
	}
	t.Logf("%d drafts, %d plates", len(made), plates)
	if len(made) < 3 {
		t.Errorf("only %d drafts were joined", len(made))
	}
}

// judgePlate holds a plate against the openings of its colour and the whole's parts.
func judgePlate(t *testing.T, one *pattern.Layout, j *Joined, p Plate) {
	t.Helper()
	open, err := panel.Openings(one)
	if err != nil {
		t.Fatal(err)
	}
	want, got, n := 0.0, 0.0, 0
	for _, o := range open {
		want += o.Shape.Area()
	}
	for k, part := range p.Parts {
		if !reflect.DeepEqual(part.Holes, j.Parts[k].Holes) || !reflect.DeepEqual(part.outline, j.Parts[k].outline) {
			t.Errorf("part %d of plate %d is not that of the whole", k+1, p.Number)
		}
		n += part.Openings
		s := j.PlateSheet(p, k)
		for _, o := range s.Openings {
			got += o.Shape.Area()
		}
		if !strings.Contains(s.Title, p.Name) {
			t.Errorf("it is called %q", s.Title)
		}
		o := cutplan.Defaults()
		o.Polygons = true
		if _, err := cutplan.New(s, o, curve.Line); err != nil {
			t.Errorf("part %d of plate %d cannot be cut: %v", k+1, p.Number, err)
		}
	}
	if n != len(open) || math.Abs(got-want) > 1e-6*want {
		t.Errorf("plate %d has %d openings of %.4f mm², its colour %d of %.4f", p.Number, n, got, len(open), want)
	}
}

// A panel of one colour makes no plates.
func TestPlatesOfOneColour(t *testing.T) {
	d := patterntest.Demo(t)
	d.Paint = nil
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Join(l, Options{Bed: &draft.Bed{Width: 400, Height: 600}, Plates: true}, nil); !errors.Is(err,
		errOneColour) {
		t.Errorf("%v", err)
	}
}
