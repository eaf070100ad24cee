package cutplan

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/geometry/geometrytest"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

type fixingCase struct {
	Draft  json.RawMessage `json:"draft"`
	Ops    [][6]float64    `json:"ops"`
	Kerf   float64         `json:"kerf"`
	Sheet  [4]float64      `json:"sheet"`
	Holes  []orb.Ring      `json:"holes"`
	Others []orb.Ring      `json:"others"`
}

type fixingAnswer struct {
	Openings float64 `json:"openings"`
	Edge     float64 `json:"edge"`
	Apart    float64 `json:"apart"`
	Outside  int     `json:"outside"`
	Unclear  string  `json:"unclear"`
}

// Holes for pins, hanging and a frame keep the bridge from every opening, from the edge and from each other, on random
// drafts, as GEOS measures it; each that is wanted is cut, or left out and said.
func TestFixingsKeepTheBridge(t *testing.T) {
	const seed = 41
	r := rand.New(rand.NewPCG(seed, 0))
	var cases []fixingCase
	var drafts []draft.Draft
	left := regexp.MustCompile(`no room for (\d+) of (\d+) `)
	cut, lacking := 0, 0
	type job struct {
		draft draft.Draft
		o     Options
	}
	var jobs []job
	for i, d := range plantest.RandomDrafts(t, seed, 14) {
		d.Field.Margin = float64(r.IntN(22))
		o := Defaults()
		o.Fixings = Fixings{Pins{2 + r.IntN(3), 0, 0}, Hang{1 + r.IntN(3), 4}, Frame{40 + 40*r.Float64(), 2}}
		o.Polygons = i%8 != 0 // curves of openings take long and do not matter here
		if i%2 == 1 {
			o.Holes = Holes{Diameter: 3, Layer: Cut}
		}
		jobs = append(jobs, job{d, o})
	}
	for _, one := range geometrytest.Share(t, jobs, 7) {
		d, o := one.draft, one.o
		j, l := built(t, d, o)
		c := fixingCase{Draft: d.Encode(), Kerf: d.Sheet.Kerf, Holes: []orb.Ring{}, Others: []orb.Ring{}}
		c.Ops = patterntest.Operations(l.Group)
		b := d.SheetBound()
		c.Sheet = [4]float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
		for _, k := range j.Contours {
			switch ring := k.Path.Under(k.Map).Flatten(0.001); {
			case k.Class == ClassFixing:
				c.Holes = append(c.Holes, ring)
			case k.Class == ClassRegistration && k.Layer == Cut:
				c.Others = append(c.Others, ring)
			}
		}

		f, err := o.Fixings.filled()
		if err != nil {
			t.Fatal(err)
		}
		bd := &build{Sheet: Sheet{Field: d.FieldBound(), Bridge: d.Sheet.Bridge}, box: b}
		wanted := f.Pins.Count + f.Hang.Count + len(bd.frame(f.Frame))
		for _, m := range left.FindAllStringSubmatch(strings.Join(j.Made.Notes, " "), -1) {
			n, err := strconv.Atoi(m[1])
			if err != nil {
				t.Fatal(err)
			}
			wanted, lacking = wanted-n, lacking+n
		}
		if len(c.Holes) != wanted || j.Made.Fixings != wanted {
			t.Errorf("%s: %d holes are cut and %d told, %d are wanted less those said to be left out: %q", d.Title,
				len(c.Holes), j.Made.Fixings, wanted, j.Made.Notes)
		}
		cut += len(c.Holes)
		cases, drafts = append(cases, c), append(drafts, d)
	}

	got, err := patterntest.Ask[fixingAnswer]("testdata/fixings.py", cases)
	if err != nil {
		t.Fatal(err)
	}
	for i, a := range got {
		// What a flattened circle and its buffer differ from round ones by.
		if least := drafts[i].Sheet.Bridge - 0.003; a.Unclear == "" && (a.Openings < least || a.Edge < least ||
			a.Apart < least || a.Outside > 0) {
			t.Errorf("%s: the bridge is %g mm and a hole comes %.4g mm near an opening, %.4g the edge, "+
				"%.4g another hole; %d outside", drafts[i].Title, drafts[i].Sheet.Bridge,
				a.Openings, a.Edge, a.Apart, a.Outside)
		}
	}
	t.Logf("%d holes cut, %d left out", cut, lacking)
	if cut < geometrytest.Count(80, 200) || lacking < geometrytest.Count(1, 15) {
		t.Error("the drafts do not show both what fits and what does not")
	}
}

// Slots point to the round hole, and are as wide as it and longer by what is asked.
func TestSlotsPointToTheRoundHole(t *testing.T) {
	s := Sheet{Stock: "card", Outline: geometry.RectOutline(orb.Bound{Max: orb.Point{400, 300}}), Kerf: 0.2, Bridge: 3,
		Field: orb.Bound{Min: orb.Point{20, 20}, Max: orb.Point{380, 280}}, Part: false}
	s.Openings = elbow().Openings
	for _, kind := range []curve.Kind{curve.Cubic, curve.Arc} {
		p, err := New(s, Options{Fixings: Fixings{Pins: Pins{Count: 4, Diameter: 8, Slot: 5}}}, kind)
		if err != nil {
			t.Fatal(err)
		}
		var at []orb.Point
		for _, c := range p.Contours {
			if c.Class != ClassFixing {
				continue
			}
			at = append(at, c.Path.Bound().Center())
			r, long := 3.9, 5.0 // half the kerf off
			round := math.Pi * r * r
			area := c.Path.Area()
			if math.Abs(area-round) > 0.05 && math.Abs(area-round-long*2*r) > 0.05 {
				t.Errorf("a hole of %g mm²: round it has %g, as a slot %g", area, round, round+long*2*r)
			}
			b := c.Path.Bound()
			w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
			switch m := b.Center(); {
			case m[0] < 100 && m[1] < 100:
				if math.Abs(w-2*r) > 0.01 || math.Abs(h-2*r) > 0.01 {
					t.Errorf("the first hole is %g × %g mm", w, h)
				}
			case m[1] < 100 && (math.Abs(w-2*r-long) > 0.01 || math.Abs(h-2*r) > 0.01),
				m[0] < 100 && (math.Abs(h-2*r-long) > 0.01 || math.Abs(w-2*r) > 0.01):
				t.Errorf("the slot at %v is %g × %g mm", m, w, h)
			case m[0] > 100 && m[1] > 100:
				if slope := (h - 2*r) / (w - 2*r); math.Abs(slope-260.0/360) > 0.05 {
					t.Errorf("the slot across the sheet rises by %g", slope)
				}
			}
		}
		if len(at) != 4 {
			t.Errorf("holes at %v", at)
		}
	}
}

func TestFixingsRefused(t *testing.T) {
	for want, f := range map[string]Fixings{
		"2, 3 or 4 pins": {Pins: Pins{Count: 7}}, "up to 40 holes": {Hang: Hang{Count: 400}},
		"mm apart": {Frame: Frame{Apart: 1}}, "mm wide": {Hang: Hang{Count: 1, Diameter: math.NaN()}},
		"longer": {Pins: Pins{Count: 2, Slot: -3}}, "than the kerf": {Hang: Hang{Count: 1, Diameter: 0.5}},
	} {
		t.Run(want, func(t *testing.T) {
			s := elbow()
			s.Part, s.Kerf = false, 0.6
			if _, err := New(s, Options{Fixings: f}, curve.Cubic); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%+v: %v", f, err)
			}
		})
	}
	p, err := New(elbow(), Options{Fixings: Fixings{Hang: Hang{Count: 2}}}, curve.Cubic)
	if err != nil || p.Made.Fixings != 0 || !strings.Contains(fmt.Sprint(p.Made.Notes), "whole sheets") {
		t.Errorf("a part that is to be hung: %v", err)
	}
}
