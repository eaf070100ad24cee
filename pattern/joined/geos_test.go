package joined

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

type joinPart struct {
	Outline orb.MultiPolygon   `json:"outline"`
	Open    []orb.MultiPolygon `json:"open"`
	Holes   [][2]float64       `json:"holes"`
	Cut     orb.MultiPolygon   `json:"cut"`   // the outline with its tab
	Marks   []orb.LineString   `json:"marks"` // as they stand in the cut file
}

type joinCase struct {
	Draft  json.RawMessage `json:"draft"`
	Ops    [][6]float64    `json:"ops"`
	Parts  []joinPart      `json:"parts"`
	Joints []Joint         `json:"joints"`
}

type joinAnswer struct {
	Field    float64 `json:"field"`
	Parts    float64 `json:"parts"`    // area by which the parts together are not the sheet, or lie over each other
	Openings float64 `json:"openings"` // the same of their openings and the field's
	Outside  float64 `json:"outside"`  // of openings beyond their part
	Short    float64 `json:"short"`    // by how much a joint comes nearer to an opening than it says
	// least distance of a hole's middle from openings and the part's edge; −1: outside
	Holes float64 `json:"holes"`
	Valid bool    `json:"valid"`
	// least distance of a mark from an opening, and from the edge of what is cut; 0: on an opening, or outside
	Marks   float64      `json:"marks"`
	Rims    float64      `json:"rims"`
	Meet    [][3]float64 `json:"meet"` // numbers of two parts, and along how much they meet
	Unclear string       `json:"unclear"`
}

func caseOf(t *testing.T, d draft.Draft, j *Joined) joinCase {
	t.Helper()
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		t.Fatal(err)
	}
	c := joinCase{Draft: d.Encode(), Joints: j.Joints}
	c.Ops = patterntest.Operations(g)
	for k, p := range j.Parts {
		q := joinPart{Outline: p.outline, Open: []orb.MultiPolygon{}, Holes: p.Holes, Cut: p.cut,
			Marks: marksOf(t, j, k)}
		for _, o := range p.open {
			q.Open = append(q.Open, o.Shape.Place(geometry.Translate(o.Shift[0], o.Shift[1]), nil).Outline())
		}
		c.Parts = append(c.Parts, q)
	}
	return c
}

func joinWithGEOS(t *testing.T, cases []joinCase) []joinAnswer {
	t.Helper()
	got, err := patterntest.Ask[joinAnswer]("testdata/join.py", cases)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func judge(t *testing.T, name string, d draft.Draft, bed draft.Bed, j *Joined, a joinAnswer) {
	t.Helper()
	slack := 1e-6 * (1 + a.Field)
	if !a.Valid || a.Parts > slack || a.Openings > slack || a.Outside > slack || a.Short > 1e-6 {
		t.Errorf("%s: %+v: %s", name, a, d.Encode())
	}
	diameter := j.o.Cut.Holes.Diameter
	if a.Holes < diameter/2+d.Sheet.Bridge {
		t.Errorf("%s: a hole's middle is %.3g mm from an opening or an edge", name, a.Holes)
	}
	for _, p := range j.Parts {
		w, h := p.Width+d.Sheet.Kerf-1e-9, p.Height+d.Sheet.Kerf-1e-9
		if !(w <= bed.Width && h <= bed.Height || w <= bed.Height && h <= bed.Width) {
			t.Errorf("%s: part %d of %g × %g mm does not fit the bed of %v", name, p.Number, p.Width, p.Height, bed)
		}
	}
	for _, t2 := range j.Joints {
		if t2.Clear < tiers[len(tiers)-1]*d.Sheet.Bridge-1e-6 {
			t.Errorf("%s: a joint runs %g mm from an opening", name, t2.Clear)
		}
	}
}

var perGroup = flag.Int("drafts", 1, "random drafts in each plane group to divide and join with GEOS")

// TestJoinedWithGEOS joins the parts of random drafts and of the demonstration again: they are the sheet, their
// openings the field's, each in its part, and joints and holes keep as clear as they say.
func TestJoinedWithGEOS(t *testing.T) {
	const seed = 66
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var names []string
	var drafts []draft.Draft
	var beds []draft.Bed
	var made []*Joined
	var cases []joinCase
	tally := map[string]int{}
	take := func(name string, d draft.Draft, bed draft.Bed) error {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		j, err := Join(l, Options{Bed: &bed, Cut: cutplan.Defaults()}, nil)
		if err == nil {
			names, drafts, beds = append(names, name), append(drafts, d), append(beds, bed)
			made, cases = append(made, j), append(cases, caseOf(t, d, j))
		}
		return err
	}
	if err := take("a close grid", closeGrid(), draft.Bed{Width: 140, Height: 120}); err != nil {
		t.Error(err)
	}
	for _, bed := range geometrytest.Share(t, []draft.Bed{{Width: 300, Height: 400}, {Width: 400, Height: 600}}, 1) {
		if err := take(fmt.Sprint("the demonstration on ", bed), patterntest.Demo(t), bed); err != nil {
			t.Errorf("the demonstration on a bed of %v: %v", bed, err)
		}
	}
	type job struct {
		draft draft.Draft
		bed   draft.Bed
	}
	var jobs []job
	for _, g := range symmetry.Groups() {
		for range *perGroup {
			d := patterntest.Draft(r, g.Symbol)
			patterntest.Spread(&d, 1.3+0.7*r.Float64())
			bed := draft.Bed{Width: geometry.Snap(d.Panel.Width * (0.4 + 0.4*r.Float64())),
				Height: geometry.Snap(d.Panel.Height * (0.5 + 0.4*r.Float64()))}
			jobs = append(jobs, job{d, bed})
		}
	}
	if *perGroup == 1 {
		jobs = geometrytest.Share(t, jobs, 6)
	}
	for _, k := range jobs {
		if err := take(k.draft.Title, k.draft, k.bed); err != nil {
			if !strings.Contains(err.Error(), "no line through sheet alone") &&
				!strings.Contains(err.Error(), "holds no opening") {
				t.Errorf("%s on %v: %v: %s", k.draft.Title, k.bed, err, k.draft.Encode())
			}
			tally["refused"]++
		}
	}
	for i, a := range joinWithGEOS(t, cases) {
		if a.Unclear != "" {
			tally["unclear"]++
			continue
		}
		j := made[i]
		judge(t, names[i], drafts[i], beds[i], j, a)
		judgeIdentity(t, names[i], j, cases[i], a)
		tally["parts"] += len(j.Parts)
		for _, k := range j.Joints {
			if len(k.Line) == 2 {
				tally["straight"]++
			} else {
				tally["bent"]++
			}
		}
		for _, p := range j.Parts {
			if p.Tab {
				tally["tabs"]++
			}
		}
		if i < 2 {
			t.Logf("%s: %d parts, %d joints, %v", names[i], len(j.Parts), len(j.Joints), j.Notes)
			for _, k := range j.Joints {
				t.Logf("    %d points, %.3g mm clear, %d notches", len(k.Line), k.Clear, len(k.Notches))
			}
		}
	}
	t.Logf("%d joined: %v", len(made), tally)
	if tally["refused"] > len(made) || tally["straight"] < geometrytest.Count(1, 5) ||
		tally["bent"] < geometrytest.Count(5, 20) || tally["tabs"] < geometrytest.Count(0, 1) {
		t.Errorf("the drafts say little: %v", tally)
	}
}
