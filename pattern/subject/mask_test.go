package subject_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/subject"
	"openwork/pattern/symmetry"
)

// stone is a square of 100 mm.
var stone = orb.MultiPolygon{{{{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}}}

// with returns the demonstration with a subject in the middle of its panel.
func with(t testing.TB, outline orb.MultiPolygon, edge draft.Edge) draft.Draft {
	t.Helper()
	d, err := pattern.Apply(patterntest.Demo(t), pattern.Command{Name: "subject", Text: "Stone", Outline: outline})
	if err == nil {
		d, err = pattern.Apply(d, pattern.Command{Name: "subjectEdge", ID: "subject1", Text: string(edge)})
	}
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func sheetOf(t *testing.T, d draft.Draft) cutplan.Sheet {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	s, err := cutplan.OfLayout(l)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The mask of a square is the square grown by what is asked for, to the beam's width: the line runs half a kerf outside
// it. It lies where the subject lies, on the stencil's sheet.
func TestMaskIsTrueToSize(t *testing.T) {
	for _, how := range []draft.How{draft.Laser, draft.Knife} {
		for _, growth := range []float64{-4, 0, 1.5} {
			d := with(t, stone, draft.Behind)
			d.Sheet.Cut = how
			mask, err := subject.Mask(d, growth)
			if err != nil {
				t.Fatal(err)
			}
			if err := mask.Check(); err != nil {
				t.Fatal(err)
			}
			plan, err := cutplan.New(sheetOf(t, mask), cutplan.Options{}, curve.Cubic)
			if err != nil {
				t.Fatal(err)
			}
			want := orb.MultiPolygon(d.Subjects[0].Placed()).Bound().Pad(growth + d.Sheet.KerfTaken()/2)
			found := 0
			for _, c := range plan.Contours {
				if c.Class != cutplan.ClassOpening {
					continue
				}
				found++
				_, pieces := c.Pieces(nil)
				got := orb.Bound{Min: pieces[0].To, Max: pieces[0].To}
				for _, p := range pieces {
					got = got.Extend(p.To)
				}
				if geometry.PointDistance(got.Min, want.Min) > 0.05 ||
					geometry.PointDistance(got.Max, want.Max) > 0.05 {
					t.Errorf("%s, grown by %g: the line runs round %v, not %v", how, growth, got, want)
				}
			}
			if found != 1 {
				t.Errorf("%d openings", found)
			}
			if r, err := subject.CheckMask(mask); err != nil || !r.Sound {
				t.Errorf("the mask of a square does not hold: %v, %v", r.Problems, err)
			}
		}
	}
}

// What a mask cannot be made of is refused in a sentence.
func TestMasksThatCannotBe(t *testing.T) {
	none := patterntest.Demo(t)
	off := with(t, stone, draft.Behind)
	off.Subjects[0].At = [2]float64{-4000, 0}
	for name, c := range map[string]struct {
		d      draft.Draft
		growth float64
		want   string
	}{
		"no subject":  {none, 0, "there is no subject to cut a mask for"},
		"shrunk away": {with(t, stone, draft.Behind), -60, "nothing is left of the mask of Stone"},
		"far away":    {off, 0, "no subject lies on the sheet"},
		"no number":   {with(t, stone, draft.Behind), math.NaN(), "a mask may be up to 100 mm larger"},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := subject.Mask(c.d, c.growth); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}

// Whatever subjects a draft has, its mask is a valid draft whose one layer of openings is the subjects' grown outlines
// within a bridge of the sheet's edge; a leg that is too thin is told in words for a mask.
func TestMasksOfRandomDrafts(t *testing.T) {
	const seed = 71
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	groups := symmetry.Groups()
	cut, thin := 0, 0
	for i := range 24 {
		d := patterntest.Subjects(r, patterntest.Draft(r, groups[i%len(groups)].Symbol), draft.Crop, draft.Whole,
			draft.Behind)
		d.Sheet.Bridge = 1 + 2*r.Float64()
		growth := 3*r.Float64() - 1
		mask, err := subject.Mask(d, growth)
		if err != nil {
			t.Logf("draft %d: %v", i, err)
			continue
		}
		if err := mask.Check(); err != nil {
			t.Fatalf("draft %d: %v", i, err)
		}
		cut++
		s := sheetOf(t, mask)
		want := geometry.RectShape(d.SheetBound().Pad(-d.Sheet.Bridge))
		for _, o := range s.Openings {
			if b := o.Bound(); !within(b, want.Bound().Pad(1e-6)) {
				t.Errorf("draft %d: the mask comes to %v on a sheet of %v", i, b, d.SheetBound())
			}
		}
		for _, k := range subject.Masked(d) { // every point of a subject on the sheet is under the mask
			outline := d.Subjects[k].Placed()
			for range 50 {
				b := outline.Bound()
				p := orb.Point{b.Min[0] + (b.Max[0]-b.Min[0])*r.Float64(), b.Min[1] + (b.Max[1]-b.Min[1])*r.Float64()}
				if growth < 0 || !geometry.Contains(outline, p) || !want.Contains(p) {
					continue
				}
				if !slices.ContainsFunc(s.Openings, func(o panel.Opening) bool {
					return o.Shape.Contains(geometry.Sub(p, o.Shift))
				}) {
					t.Errorf("draft %d: %v of %s is not under the mask", i, p, d.Subjects[k].Name)
				}
			}
		}
		report, err := subject.CheckMask(mask)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range report.Problems {
			if p.Kind == sheet.Opening {
				thin++
				if !strings.Contains(p.Text, "ask") {
					t.Errorf("draft %d: %s", i, p.Text)
				}
			}
		}
	}
	if t.Logf("%d masks, %d thin places", cut, thin); cut < 15 || thin == 0 {
		t.Errorf("%d masks, %d thin places", cut, thin)
	}
}

func within(a, b orb.Bound) bool { return b.Contains(a.Min) && b.Contains(a.Max) }

// The marks of the stencil's plan are those of a plan made for them alone.
func TestRegistrationAlone(t *testing.T) {
	d := with(t, stone, draft.Behind)
	s := sheetOf(t, d)
	plan, err := cutplan.New(s, cutplan.Defaults(), curve.Cubic)
	if err != nil {
		t.Fatal(err)
	}
	marks, err := cutplan.Registration(s, cutplan.Defaults())
	if err != nil || len(marks) != 3 {
		t.Fatalf("%d marks, %v", len(marks), err)
	}
	for _, c := range plan.Contours {
		if c.Class == cutplan.ClassRegistration && c.Path.Closed() {
			at := c.Map.Apply(c.Path.Bound().Center())
			if !slices.ContainsFunc(marks, func(p orb.Point) bool { return geometry.PointDistance(p, at) < 1e-6 }) {
				t.Errorf("the plan has a mark at %v, alone there are %v", at, marks)
			}
		}
	}
}
