package cutplan

import (
	"bytes"
	"encoding/json"
	"math"
	"os/exec"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/geometrytest"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
)

// ledBy is what GEOS is asked: does a lead-in lie in the waste, and how near does it come to contours but its own end.
const ledBy = `
import json, sys
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union
out = []
for q in json.load(sys.stdin):
    rings = [Polygon(r) for r in q["rings"]]
    waste = rings[0]
    for r in rings[1:]:
        waste = waste.symmetric_difference(r)
    edges = unary_union([LineString(r) for r in q["rings"]])
    for a, b in q["leads"]:
        run = LineString([a, b])
        far = LineString([a, run.interpolate(run.length - 0.1)])
        out.append([waste.buffer(1e-3).covers(run), far.distance(edges), run.length, Point(b).distance(edges)])
print(json.dumps(out))
`

// Every lead-in lies in what drops out of its opening, crosses no contour, ends on its own, and is as long as was asked
// or half of that; the contour behind it is whole.
func TestLeadInsAgainstGEOS(t *testing.T) {
	type question struct {
		Rings []orb.Ring     `json:"rings"`
		Leads [][2]orb.Point `json:"leads"`
	}
	var qs []question
	ds := append(geometrytest.Share(t, plantest.RandomDrafts(t, 77, 2), 1), plantest.Rings(), window(40))
	const length = 2.0
	contours, led := 0, 0
	for _, d := range ds {
		d.Sheet.Cut = draft.Laser
		d.Sheet.Kerf = 0.2
		was, _ := built(t, d, Options{})
		p, _ := built(t, d, Options{LeadIn: length})
		none := 0
		units := map[int]*question{}
		for _, c := range was.Contours {
			if c.Class == ClassOpening || c.Class == ClassIsland {
				if units[c.unit] == nil {
					units[c.unit] = &question{}
				}
				units[c.unit].Rings = append(units[c.unit].Rings, c.Path.Under(c.Map).Flatten(1e-4))
			}
		}
		longer := 0.0
		for _, c := range p.Contours {
			if c.Class != ClassOpening && c.Class != ClassIsland {
				continue
			}
			contours++
			if c.Path.Closed() {
				none++
				continue
			}
			led++
			q := c.Path.Under(c.Map)
			at := q.Pieces[0].To
			if q.End() != at {
				t.Errorf("%s: a contour with a lead-in begins at %v and ends at %v", d.Title, at, q.End())
			}
			longer += far(q.Start, at)
			units[c.unit].Leads = append(units[c.unit].Leads, [2]orb.Point{q.Start, at})
		}
		if got := p.Made.CutLength - was.Made.CutLength; math.Abs(got-longer) > 1e-6*was.Made.CutLength {
			t.Errorf("%s: %.4f mm longer, the lead-ins are %.4f", d.Title, got, longer)
		}
		if told := strings.Contains(strings.Join(p.Made.Notes, " "), "no lead-in"); told != (none > 0) {
			t.Errorf("%s: %d contours have none, notes %q", d.Title, none, p.Made.Notes)
		}
		for _, q := range units {
			qs = append(qs, *q)
		}
	}
	in, err := json.Marshal(qs)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("/usr/bin/python3", "-c", ledBy)
	cmd.Stdin = bytes.NewReader(in)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("GEOS: %v (Debian's python3-shapely is needed)", err)
	}
	var got [][4]any
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	for _, g := range got {
		clear, long, end := g[1].(float64), g[2].(float64), g[3].(float64)
		if g[0] != true || clear < 0.01 || end > 0.002 ||
			math.Abs(long-length) > 1e-6 && math.Abs(long-length/2) > 1e-6 {
			t.Errorf("a lead-in of %.4f mm: in the waste %v, %.4f mm from contours, ends %.4f mm off", long, g[0],
				clear, end)
		}
	}
	t.Logf("%d of %d contours have a lead-in", led, contours)
	if len(got) != led || led < contours/2 {
		t.Errorf("%d lead-ins on %d contours, %d looked at", led, contours, len(got))
	}
}

// Where tabs hold what drops out, each part has its lead-in; a knife needs none.
func TestLeadInsOfParts(t *testing.T) {
	d := window(100)
	d.Sheet.Cut = draft.Waterjet
	p, _ := built(t, d, Options{LeadIn: 5})
	for _, c := range ofClass(p, ClassOpening) {
		if l := far(c.Path.Start, c.Path.Pieces[0].To); math.Abs(l-5) > 1e-9 {
			t.Errorf("a part's lead-in is %g mm long", l)
		}
	}
	d.Sheet.Cut, d.Sheet.Stock = draft.Knife, "card"
	with, _ := built(t, d, Options{LeadIn: 5})
	without, _ := built(t, d, Options{})
	if with.Made.CutLength != without.Made.CutLength {
		t.Error("a knife has a lead-in")
	}
	if _, err := (Options{LeadIn: 51}).filled("card", draft.Laser); err == nil {
		t.Error("a lead-in of 51 mm is not refused")
	}
}
