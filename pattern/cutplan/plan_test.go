package cutplan

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

func built(t *testing.T, d draft.Draft, o Options) (*Plan, *pattern.Layout) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	j, err := ForLayout(l, o, curve.Cubic)
	if err != nil {
		t.Fatal(err)
	}
	return j, l
}

// unordered returns the travel of the same contours in the order of the layout's copies, in which panel.Openings gives
// the openings and the plan numbers them, what drops out of each first and the sheet last.
func unordered(l *pattern.Layout, j *Plan) float64 {
	cs := slices.Clone(j.Contours)
	slices.SortStableFunc(cs, func(a, b Contour) int {
		if (a.Class == ClassSheet) != (b.Class == ClassSheet) {
			if a.Class == ClassSheet {
				return 1
			}
			return -1
		}
		return a.unit - b.unit
	})
	at, sum := l.Draft.SheetBound().Min, 0.0
	for _, c := range cs {
		if c.Layer == Cut {
			sum += far(at, c.at())
			at = c.at()
		}
	}
	return sum
}

func TestTravelAgainstTheLayoutsOrder(t *testing.T) {
	total, was := 0.0, 0.0
	for i, d := range append([]draft.Draft{patterntest.Demo(t)},
		geometrytest.Share(t, plantest.RandomDrafts(t, 7, 17), 7)...) {
		j, l := built(t, d, Options{Polygons: true, Order: Shortest})
		u := unordered(l, j)
		t.Logf("%s: %.0f mm of %.0f, %.2f; %d contours", d.Title, j.Made.Travel, u, j.Made.Travel/u, j.Made.Piercings)
		if i == 0 && j.Made.Travel > 0.6*u {
			t.Errorf("the demo travels %.0f mm, in the copies' order %.0f", j.Made.Travel, u)
		}
		total, was = total+j.Made.Travel, was+u
	}
	if total > 0.6*was {
		t.Errorf("altogether %.0f mm, in the copies' order %.0f", total, was)
	}
}

func TestInnerBeforeOuterAndTheSheetLast(t *testing.T) {
	for _, apart := range []float64{0, 10} {
		o := Defaults()
		o.Apart = apart
		j, _ := built(t, plantest.Rings(), o)
		var boxes []orb.Bound
		lastLayer, nested := 0, 0
		for i, c := range j.Contours {
			layer := map[Layer]int{Mark: 0, Score: 1, Cut: 2}[c.Layer]
			if layer < lastLayer {
				t.Fatalf("contour %d on the layer %s comes after a later layer", i, c.Layer)
			}
			lastLayer = layer
			b := c.Path.Under(c.Map).Bound()
			for k := range boxes {
				if c.Layer == Cut && within(b, boxes[k]) && j.Contours[k].Layer == Cut {
					t.Errorf("apart %g: contour %d (%s) lies inside %d (%s), which is cut before it", apart, i, c.Class,
						k, j.Contours[k].Class)
				}
				if within(boxes[k], b) && c.Class != ClassSheet {
					nested++
				}
			}
			boxes = append(boxes, b)
		}
		if last := j.Contours[len(j.Contours)-1]; last.Class != ClassSheet {
			t.Errorf("the last contour is %s", last.Class)
		}
		if nested == 0 {
			t.Error("nothing lies inside anything: the test shows nothing")
		}
		if apart > 0 {
			near := 0
			var last *orb.Bound
			for i, c := range j.Contours {
				if c.Layer != Cut || c.Class == ClassSheet {
					continue
				}
				if last != nil && gapOf(*last, boxes[i]) < apart {
					near++
				}
				last = &boxes[i]
			}
			if near != j.Made.Near {
				t.Errorf("%d cuts near the one before, the plan says %d", near, j.Made.Near)
			}
			if n := j.Made.Piercings; near > n/10 {
				t.Errorf("%d of %d cuts follow a near one", near, n)
			}
		}
	}
}

// tour against the best of all orders, on few stops, and against itself: a second run gives the same.
func TestTourAgainstAllOrders(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 0))
	for n := 1; n <= 7; n++ {
		stops := make([]stop, n)
		for i := range stops {
			stops[i].in = orb.Point{100 * r.Float64(), 100 * r.Float64()}
			stops[i].out = stops[i].in
			if i%3 == 0 {
				stops[i].out = orb.Point{stops[i].in[0] + 5, stops[i].in[1]}
			}
		}
		length := func(way []int) float64 {
			at, sum := orb.Point{}, 0.0
			for _, k := range way {
				sum += far(at, stops[k].in)
				at = stops[k].out
			}
			return sum
		}
		best := math.Inf(1)
		var all func(way []int, left []int)
		all = func(way, left []int) {
			if len(left) == 0 {
				best = math.Min(best, length(way))
			}
			for i := range left {
				rest := append(append([]int{}, left[:i]...), left[i+1:]...)
				all(append(append([]int{}, way...), left[i]), rest)
			}
		}
		left := make([]int, n)
		for i := range left {
			left[i] = i
		}
		all(nil, left)
		way := tour(stops, orb.Point{}, 0)
		seen := map[int]bool{}
		for _, k := range way {
			seen[k] = true
		}
		if len(way) != n || len(seen) != n {
			t.Fatalf("%d stops, the way has %v", n, way)
		}
		if got := length(way); got > 1.25*best+1e-9 {
			t.Errorf("%d stops: %.2f mm, the best is %.2f", n, got, best)
		}
	}
}

func TestLostOpeningsAreNamedAndBadOptionsRefused(t *testing.T) {
	d := plantest.Rings()
	d.Silhouettes[1].Outline = orb.MultiPolygon{{{{0, 0}, {3, 0}, {3, 0.15}, {0, 0.15}, {0, 0}}}}
	j, l := built(t, d, Options{})
	if j.Made.Lost == 0 || len(j.Made.Notes) != maxNamed+1 ||
		!strings.Contains(j.Made.Notes[0], "mm is narrower than the kerf") {
		t.Errorf("%d lost, notes %q", j.Made.Lost, j.Made.Notes)
	}
	for _, o := range []Options{{Colours: Colours{Cut: "red"}}, {Tolerance: math.NaN()}, {Tolerance: 1e-9}, {Apart: -1},
		{Order: "long"},
		{Holes: Holes{Diameter: 4, Layer: Score}},
		{Label: Label{Height: 3, Layer: "paint"}}, {Holes: Holes{Diameter: 0.2, Layer: Cut}},
		{Colours: Colours{Mark: "#12345g"}}} {
		if _, err := ForLayout(l, o, curve.Cubic); err == nil {
			t.Errorf("%+v is taken", o)
		}
	}
}

// The figures asked of 2,000 copies of 300 points: curve pieces at most a third of the polygon's points at the same
// tolerance, for cubics and for arcs, and a way between cuts of at most 60 % of that in the order of the layout.
func TestPiecesAndTravelOfManyCopies(t *testing.T) {
	l, err := pattern.NewLayout(plantest.Many(), nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	was, at := 0.0, l.Draft.SheetBound().Min
	for _, c := range copies {
		p := c.Shape().Bound().Center()
		was += far(at, p)
		at = p
	}
	for _, kind := range []curve.Kind{curve.Cubic, curve.Arc} {
		j, err := ForLayout(l, Options{}, kind)
		if err != nil {
			t.Fatal(err)
		}
		pieces, travel := float64(j.Made.Pieces)/float64(j.Made.Points), j.Made.Travel/was
		t.Logf("kind %d: %.3f pieces to a point, travel %.2f of the copies' order", kind, pieces, travel)
		if pieces > 1./3 || travel > 0.6 || j.Made.Deviation > curve.DefaultTolerance {
			t.Errorf("kind %d: %.3f pieces to a point, travel %.2f, deviation %g", kind, pieces, travel,
				j.Made.Deviation)
		}
	}
}
