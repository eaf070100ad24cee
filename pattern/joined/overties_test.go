package joined

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/plates"
	"openwork/pattern/symmetry"
)

// tiedDraft is a random coloured draft with a tie across each silhouette.
func tiedDraft(r *rand.Rand, group string) draft.Draft {
	d := colouredDraft(r, group)
	for _, s := range d.Silhouettes {
		b := s.Outline.Bound()
		c, across := b.Center(), geometry.TurnDegrees(360*r.Float64()).Vector(orb.Point{b.Max[0] - b.Min[0], 0})
		tie := draft.Tie{Silhouette: s.ID, Width: 2, From: geometry.Sub(c, across), To: geometry.Add(c, across)}
		d.Ties = append(d.Ties, tie.Snapped())
	}
	return d
}

// Random coloured drafts with ties, in parts with plates over ties: these have in all the openings that package plates
// gives them, each whole in one part, can be cut, and no joint runs through them or nearer than it says.
func TestPlatesOverTiesJoined(t *testing.T) {
	const seed = 515
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	made, over := 0, 0
	for i, g := range symmetry.Groups() {
		d := tiedDraft(r, g.Symbol)
		if i%2 > 0 {
			continue
		}
		bed := draft.Bed{Width: geometry.Snap(d.Panel.Width * 0.8), Height: geometry.Snap(d.Panel.Height * 0.8)}
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		j, err := Join(l, Options{Bed: &bed, Plates: true, OverTies: true, Lap: 0.5, Cut: cutplan.Defaults()}, nil)
		if err != nil {
			if !mayBeRefused(err) && !strings.Contains(err.Error(), "several colours") {
				t.Errorf("%s: %v", d.Title, err)
			}
			continue
		}
		want, err := plates.Of(l, plates.Options{OverTies: true, Lap: 0.5}, nil)
		if err != nil {
			t.Fatal(err)
		}
		made++
		if len(j.Plates) != len(want) {
			t.Fatalf("%s: %d plates, of the whole sheet %d", d.Title, len(j.Plates), len(want))
		}
		for k, p := range j.Plates {
			if p.Over != want[k].Over || p.Swatch != want[k].Swatch || p.Number != want[k].Number {
				t.Errorf("%s: plate %+v, of the whole sheet %+v", d.Title, p, want[k])
			}
			if p.Over > 0 {
				over++
				judgeOver(t, j, p, want[k])
			}
		}
	}
	t.Logf("%d drafts, %d plates over ties", made, over)
	if made < 3 || over < 3 {
		t.Errorf("this says little: %d drafts, %d plates over ties", made, over)
	}
}

// judgeOver holds the parts of a plate over ties against the whole plate.
func judgeOver(t *testing.T, j *Joined, p Plate, want plates.Plate) {
	t.Helper()
	whole, parted, n := 0.0, 0.0, 0
	for _, o := range want.Sheet.Openings {
		whole += o.Shape.Area()
		for _, joint := range j.Joints {
			for i := 1; i < len(joint.Line); i++ {
				a, b := orb.Point(joint.Line[i-1]), orb.Point(joint.Line[i])
				mid := orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
				line := geometry.NewShape(orb.MultiPolygon{{{a, mid, b, a}}})
				if near := geometry.Distance(line, o.Shape, o.Shift, 100); near.Found && near.D < joint.Clear-1e-6 {
					t.Errorf("%s: a joint that keeps %g mm runs %g mm near an opening over ties", j.l.Draft.Title,
						joint.Clear, near.D)
				}
			}
		}
	}
	for k := range p.Parts {
		s := j.PlateSheet(p, k)
		for _, o := range s.Openings {
			parted, n = parted+o.Shape.Area(), n+1
		}
		if !strings.Contains(s.Title, "over the ties of plate") {
			t.Errorf("it is called %q", s.Title)
		}
		o := cutplan.Defaults()
		o.Polygons = true
		if _, err := cutplan.New(s, o, curve.Line); err != nil {
			t.Errorf("%s: part %d of plate %d cannot be cut: %v", j.l.Draft.Title, k+1, p.Number, err)
		}
	}
	if n != len(want.Sheet.Openings) || math.Abs(whole-parted) > 1e-6*(1+whole) {
		t.Errorf("%s: plate %d has %d openings of %.4f mm² in its parts, and whole %d of %.4f", j.l.Draft.Title,
			p.Number, n, parted, len(want.Sheet.Openings), whole)
	}
}
