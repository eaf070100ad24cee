package stepping

import (
	"encoding/json"
	"errors"
	"flag"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// layCase is what testdata/lay.py lays, and layAnswer what it finds with GEOS.
type layCase struct {
	Draft    json.RawMessage    `json:"draft"`
	Ops      [][6]float64       `json:"ops"`
	Sheet    []orb.MultiPolygon `json:"sheet"`
	Width    float64            `json:"width"`
	Height   float64            `json:"height"`
	Turn     float64            `json:"turn"`
	Holes    [][2]float64       `json:"holes"`
	Diameter float64            `json:"diameter"`
	Places   []Place            `json:"places"`
	Surround float64            `json:"surround"`
}

type layAnswer struct {
	Field   float64 `json:"field"`
	Apart   float64 `json:"apart"`
	Twice   float64 `json:"twice"`
	Covered float64 `json:"covered"` // wet paste under a sheet of its own pass, mm²
	Held    int     `json:"held"`    // the least number of a place's marks that lie on the panel or its surround
	Marks   float64 `json:"marks"`   // the least distance of a mark from an opening of the field
	Holes   float64 `json:"holes"`   // of a hole's middle from the sheet's openings
	Rim     float64 `json:"rim"`     // and from its edge
	Unclear string  `json:"unclear"`
}

func caseOf(t *testing.T, d draft.Draft, s *Stepping) layCase {
	t.Helper()
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		t.Fatal(err)
	}
	c := layCase{Draft: d.Encode(), Width: s.Width, Height: s.Height, Turn: s.Turn,
		Holes: append(s.Holes[:len(s.Holes):len(s.Holes)], s.More...), Diameter: s.Diameter, Places: s.Places,
		Surround: s.Surround}
	c.Ops = patterntest.Operations(g)
	for _, o := range s.Sheet().Openings {
		c.Sheet = append(c.Sheet, o.Shape.Place(geometry.Translate(o.Shift[0], o.Shift[1]), nil).Outline())
	}
	return c
}

// layWithGEOS runs the script once for each processor. It needs Debian's package python3-shapely.
func layWithGEOS(t *testing.T, cases []layCase) []layAnswer {
	t.Helper()
	answers := make([]layAnswer, len(cases))
	parts := min(runtime.NumCPU(), len(cases))
	failed := make(chan error, parts)
	for p := range parts {
		from, to := p*len(cases)/parts, (p+1)*len(cases)/parts
		go func() {
			got, err := patterntest.Ask[layAnswer]("testdata/lay.py", cases[from:to])
			copy(answers[from:to], got)
			failed <- err
		}()
	}
	for range parts {
		if err := <-failed; err != nil {
			t.Fatal("sheets could not be laid with GEOS: ", err)
		}
	}
	return answers
}

// judge holds one draft's figures against what the sheet promises.
func judge(t *testing.T, name string, d draft.Draft, s *Stepping, a layAnswer) {
	t.Helper()
	// GEOS and this program round crossings on grids of their own, some 1e-9 mm along all outlines.
	if slack := 1e-6 * (1 + a.Field); a.Apart > slack || a.Twice > slack || a.Covered > slack {
		t.Errorf("%s: of %.6g mm² GEOS finds %.3g laid otherwise, %.3g twice, %.3g covered wet: %s", name, a.Field,
			a.Apart, a.Twice, a.Covered, d.Encode())
	}
	if a.Held < 2 {
		t.Errorf("%s: a place has %d marks on the panel or a surround of %g mm, %d holes: %s", name, a.Held, s.Surround,
			len(s.Holes), d.Encode())
	}
	if len(s.Holes) > 0 && (a.Marks < s.Diameter/2 || a.Holes < s.Diameter/2+d.Sheet.Bridge-1e-6 ||
		a.Rim < s.Diameter/2+d.Sheet.Bridge-1e-6) {
		t.Errorf("%s: holes of %g mm lie %.4g from the sheet's openings, %.4g from its edge, marks %.4g from the field",
			name, s.Diameter, a.Holes, a.Rim, a.Marks)
	}
}

// perGroup drafts are laid with GEOS: 17 usually, 34 in a long run, and 680 with -drafts 40.
var perGroup = flag.Int("drafts", geometrytest.Count(1, 2), "random drafts in each plane group to lay with GEOS")

// loose returns a random draft with more room between the copies, as a sheet that is to be cut has, now and then with a
// tie of the field or of a silhouette across them.
func loose(r *rand.Rand, group string) draft.Draft {
	d := patterntest.Draft(r, group)
	by := 1 + 0.8*r.Float64()
	d.Panel.Width, d.Panel.Height = geometry.Snap(0.65*d.Panel.Width), geometry.Snap(0.65*d.Panel.Height)
	patterntest.Spread(&d, by)
	at := d.Motifs[0].At
	switch r.IntN(4) {
	case 0:
		d.Ties = []draft.Tie{{From: [2]float64{at[0] - 9, at[1] - 1}, To: [2]float64{at[0] + 9, at[1] + 2}, Width: 0.8}}
	case 1:
		d.Ties = []draft.Tie{{Silhouette: d.Silhouettes[0].ID, From: [2]float64{-12, 0.5}, To: [2]float64{12, 1},
			Width: 0.8}}
	}
	return d
}

// TestLaidWithGEOS lays stepping sheets of random drafts in all groups: their openings, moved and masked as the map
// says, are the field's, nothing is laid twice, and no sheet lies on paste of its own pass.
func TestLaidWithGEOS(t *testing.T) {
	const seed = 6
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var drafts []draft.Draft
	var made []*Stepping
	var cases []layCase
	tally := map[string]int{}
	for _, g := range symmetry.Groups() {
		for n := 0; n < *perGroup; {
			d := loose(r, g.Symbol)
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			o := Options{Margin: 4}
			if r.IntN(3) == 0 {
				o.Repeats = [2]int{1 + r.IntN(3), 1 + r.IntN(3)}
			} else if n == 3 {
				side := 2.5*(d.Repeat.A+d.Repeat.B) + 60
				o.Lays, o.Bed = Fewest, &draft.Bed{Width: side, Height: side}
			}
			s, err := Steps(l, o, nil)
			if errors.Is(err, errEndless) {
				tally["endless"]++
				continue
			}
			if err != nil {
				if copies, e := l.Copies(); e == nil && len(copies) == 0 {
					tally["empty"]++
					continue
				}
				t.Fatalf("%s: %v: %s", g.Symbol, err, d.Encode())
			}
			n++
			drafts, made, cases = append(drafts, d), append(made, s), append(cases, caseOf(t, d, s))
		}
	}
	for i, a := range layWithGEOS(t, cases) {
		if a.Unclear != "" {
			tally["unclear"]++
			continue
		}
		d, s := drafts[i], made[i]
		judge(t, d.Title, d, s, a)
		tally[string(d.Field.Edge)]++
		for name, is := range map[string]bool{"fewest": s.o.Lays == Fewest, "more holes": len(s.More) > 0,
			"surround": s.Surround > 0, "turned": d.Field.Turn != 0, "with holes": len(s.Holes) > 0,
			"with parts": parts(s) > 0,
			"joined":     len(s.sheet.f.kinds) < len(s.sheet.f.pieces),
			"tied":       len(d.Ties) > 0} {
			if is {
				tally[name]++
			}
		}
	}
	t.Logf("%d laid: %v", len(made), tally)
	for _, kind := range []string{"crop", "whole", "touching", "turned", "with holes", "with parts", "joined", "tied"} {
		if tally[kind] < len(made)/10 {
			t.Errorf("only %d drafts %s: the comparison says little about them", tally[kind], kind)
		}
	}
	if tally["endless"] > len(made) || tally["unclear"] > len(made)/20 {
		t.Errorf("too many drafts say nothing: %v", tally)
	}
}

func parts(s *Stepping) (n int) {
	for _, p := range s.Places {
		n += len(p.Part)
	}
	return n
}

// TestDemoLaidWithGEOS lays the draft that the page starts on: the smallest sheet, and as many repeats as fit a usual
// bed.
func TestDemoLaidWithGEOS(t *testing.T) {
	d := patterntest.Demo(t)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var made []*Stepping
	var cases []layCase
	for _, o := range []Options{{}, {Most: true, Bed: &draft.Bed{Width: 400, Height: 600}},
		{Lays: Fewest, Bed: &draft.Bed{Width: 400, Height: 600}}} {
		s, err := Steps(l, o, nil)
		if err != nil {
			t.Fatal(err)
		}
		made, cases = append(made, s), append(cases, caseOf(t, d, s))
	}
	for i, a := range layWithGEOS(t, cases) {
		s := made[i]
		judge(t, "the demonstration", d, s, a)
		t.Logf("%.1f × %.1f mm, %d repeats, %d places, %d passes, %d holes of %g mm, most %v", s.Width, s.Height,
			s.Repeats, len(s.Places), len(s.Passes), len(s.Holes), s.Diameter, s.Most)
		if len(s.Holes) != 4 {
			t.Errorf("%d holes: %v", len(s.Holes), s.Notes)
		}
	}
	if a, b := made[0], made[1]; b.Repeats <= a.Repeats || len(b.Places) >= len(a.Places) ||
		math.Max(b.Width, b.Height) > 600 || math.Min(b.Width, b.Height) > 400 {
		t.Errorf("a sheet of %d repeats is laid at %d places, one of %d (%.1f × %.1f mm) at %d", a.Repeats,
			len(a.Places), b.Repeats, b.Width, b.Height, len(b.Places))
	}
}

// The comparison can fail: a place moved by half a millimetre, all places in one pass, and a mask forgotten are seen.
func TestGEOSSeesFaults(t *testing.T) {
	d := patterntest.Demo(t)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Steps(l, Options{Repeats: [2]int{2, 2}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	var cases []layCase
	for k := range 3 {
		c := caseOf(t, d, s)
		c.Places = append([]Place(nil), s.Places...)
		for i := range c.Places {
			switch p := &c.Places[i]; {
			case k == 0 && i == 4:
				p.At[0] += 0.5
			case k == 1:
				p.Pass = 1
			case k == 2:
				p.Mask = []int{}
			}
		}
		cases = append(cases, c)
	}
	a := layWithGEOS(t, cases)
	if a[0].Apart < 1 || a[1].Covered < 1 || a[2].Apart < 1 {
		t.Errorf("moved: %+v; in one pass: %+v; not masked: %+v", a[0], a[1], a[2])
	}
}
