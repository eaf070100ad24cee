package cutfile

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/patterntest"
)

func built(t *testing.T, d pattern.Draft, o Options) (*Job, *pattern.Layout) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	j, err := Build(l, o, curve.Cubic)
	if err != nil {
		t.Fatal(err)
	}
	return j, l
}

// unordered returns the travel of the same contours in the order of the layout's copies, in which panel.Openings gives the
// openings and the job numbers them, what drops out of each first and the sheet last.
func unordered(l *pattern.Layout, j *Job) float64 {
	cs := slices.Clone(j.Contours)
	slices.SortStableFunc(cs, func(a, b Contour) int {
		if (a.Class == classSheet) != (b.Class == classSheet) {
			if a.Class == classSheet {
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
	for i, d := range append([]pattern.Draft{patterntest.Demo(t)}, randomDrafts(t, 7, 17)...) {
		j, l := built(t, d, Options{Polygons: true})
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

// ringed is a draft of large rings with small discs inside what drops out of them.
func ringed() pattern.Draft {
	round := func(r float64, n int) orb.Ring {
		var out orb.Ring
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			out = append(out, orb.Point{r * c, r * s})
		}
		return append(out, out[0])
	}
	hole := round(14, 60)
	for i, k := 0, len(hole)-1; i < k; i, k = i+1, k-1 {
		hole[i], hole[k] = hole[k], hole[i]
	}
	d := pattern.Default()
	d.Panel = pattern.Panel{Width: 220, Height: 180}
	d.Field.Origin = [2]float64{110, 90}
	d.Field.Edge = pattern.Whole
	d.Repeat = pattern.Repeat{Group: "p1", A: 45, B: 45, Gamma: 90}
	d.Silhouettes = []pattern.Silhouette{{ID: "ring", Outline: orb.MultiPolygon{{round(18, 80), hole}}}, {ID: "disc", Outline: orb.MultiPolygon{{round(4, 24)}}}}
	d.Motifs = []pattern.Motif{{ID: "a", Silhouette: "ring", Scale: 1}, {ID: "b", Silhouette: "disc", At: [2]float64{6, 0}, Scale: 1},
		{ID: "c", Silhouette: "disc", At: [2]float64{-6, 1}, Scale: 1}}
	return d
}

func TestInnerBeforeOuterAndTheSheetLast(t *testing.T) {
	for _, apart := range []float64{0, 10} {
		o := Defaults()
		o.Apart = apart
		j, _ := built(t, ringed(), o)
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
					t.Errorf("apart %g: contour %d (%s) lies inside %d (%s), which is cut before it", apart, i, c.Class, k, j.Contours[k].Class)
				}
				if within(boxes[k], b) && c.Class != classSheet {
					nested++
				}
			}
			boxes = append(boxes, b)
		}
		if last := j.Contours[len(j.Contours)-1]; last.Class != classSheet {
			t.Errorf("the last contour is %s", last.Class)
		}
		if nested == 0 {
			t.Error("nothing lies inside anything: the test shows nothing")
		}
		if apart > 0 {
			near := 0
			var last *orb.Bound
			for i, c := range j.Contours {
				if c.Layer != Cut || c.Class == classSheet {
					continue
				}
				if last != nil && gapOf(*last, boxes[i]) < apart {
					near++
				}
				last = &boxes[i]
			}
			if near != j.Made.Near {
				t.Errorf("%d cuts near the one before, the job says %d", near, j.Made.Near)
			}
			if n := j.Made.Piercings; near > n/10 {
				t.Errorf("%d of %d cuts follow a near one", near, n)
			}
		}
	}
}

// tour against the best of all orders, on few stops, and against itself: a second run gives the same.
func TestTourAgainstAllOrders(t *testing.T) {
	r := randomPoints(7)
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

func TestReadBackSeesWhatIsWrong(t *testing.T) {
	l, err := pattern.NewLayout(ringed(), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, old, new string
		format         Format
	}{
		{"a point moved", "L", "L", FormatSVG},
		{"a contour open", "Z\"/>", "\"/>", FormatSVG},
		{"another size", "viewBox=\"0 0 220.2", "viewBox=\"0 0 221.2", FormatSVG},
		{"another layer", "<g id=\"cut\"", "<g id=\"score\"", FormatSVG},
		{"an open polyline", "\n70\n1\n43\n", "\n70\n0\n43\n", FormatDXF},
		{"inches", "$INSUNITS\n70\n4", "$INSUNITS\n70\n1", FormatDXF},
		{"a bulge lost", "\n42\n", "\n40\n", FormatDXF},
		{"another page", "/MediaBox [ 0 0 6", "/MediaBox [ 0 0 7", FormatPDF},
	} {
		kind := curve.Cubic
		if c.format == FormatDXF {
			kind = curve.Arc
		}
		j, err := Build(l, Defaults(), kind)
		if err != nil {
			t.Fatal(err)
		}
		data, err := Encode(j, c.format)
		if err != nil {
			t.Fatal(err)
		}
		if err := ReadBack(j, c.format, data); err != nil {
			t.Fatalf("%s: what is right is refused: %v", c.name, err)
		}
		bad := bytes.ReplaceAll(data, []byte(c.old), []byte(c.new))
		if c.old == c.new { // the first curve's first number
			at := bytes.Index(data, []byte("class=\"opening\" d=\"M")) + len("class=\"opening\" d=\"M")
			bad = append(append(append([]byte{}, data[:at]...), '9'), data[at:]...)
		}
		if bytes.Equal(bad, data) {
			t.Fatalf("%s: nothing was changed", c.name)
		}
		if err := ReadBack(j, c.format, bad); err == nil {
			t.Errorf("%s: not seen", c.name)
		}
	}
}

func TestUnsoundSheetsSayWhy(t *testing.T) {
	l, err := pattern.NewLayout(patterntest.Demo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	o := Defaults()
	o.Unsound = []string{"An island drops out at (30, 40) -- here."}
	for f, want := range map[Format]string{FormatSVG: "<desc>This sheet does not hold: An island", FormatDXF: "999\nThis sheet does not hold: An island", FormatPDF: "/Subject <FEFF00540068"} {
		var b bytes.Buffer
		if _, err := Write(l, &b, f, o); err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(b.Bytes(), []byte(want)) {
			t.Errorf("%s does not carry the reason", f)
		}
		if f == FormatSVG && !bytes.Contains(b.Bytes(), []byte(`class="note"`)) {
			t.Error("the sheet has no note")
		}
	}
}

// A sheet that nobody has looked at says so, in the file and in its margin; one that is known not to hold says that alone.
func TestUncheckedSheetsSayIt(t *testing.T) {
	l, err := pattern.NewLayout(patterntest.Demo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	o := Defaults()
	o.Unchecked = true
	for f, want := range map[Format]string{FormatSVG: "<desc>It was not checked", FormatDXF: "999\nIt was not checked", FormatPDF: "/Subject <FEFF00490074"} {
		for _, reasons := range [][]string{nil, {"An island drops out."}} {
			o.Unsound = reasons
			var b bytes.Buffer
			if _, err := Write(l, &b, f, o); err != nil {
				t.Fatal(err)
			}
			if got := bytes.Contains(b.Bytes(), []byte(want)); got != (reasons == nil) {
				t.Errorf("%s with the reasons %q: says it was not checked: %v", f, reasons, got)
			}
			if f == FormatSVG && !bytes.Contains(b.Bytes(), []byte(`class="note"`)) {
				t.Error("the sheet has no note")
			}
		}
	}
}

func TestNothingToCutIsRefused(t *testing.T) {
	d := patterntest.Demo(t)
	d.Motifs = nil
	narrow := ringed()
	narrow.Silhouettes[0].Outline = orb.MultiPolygon{{{{0, 0}, {3, 0}, {3, 0.15}, {0, 0.15}, {0, 0}}}}
	narrow.Silhouettes[1].Outline = narrow.Silhouettes[0].Outline
	for name, c := range map[string]struct {
		draft pattern.Draft
		want  string
	}{"empty": {d, "no opening lies on this panel"}, "narrower than the kerf": {narrow, "every opening"}} {
		t.Run(name, func(t *testing.T) {
			l, err := pattern.NewLayout(c.draft, nil)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if _, err := Write(l, &b, FormatSVG, Defaults()); err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
				t.Errorf("%v, and %d bytes", err, b.Len())
			}
		})
	}
}

func TestLostOpeningsAreNamedAndBadOptionsRefused(t *testing.T) {
	d := ringed()
	d.Silhouettes[1].Outline = orb.MultiPolygon{{{{0, 0}, {3, 0}, {3, 0.15}, {0, 0.15}, {0, 0}}}}
	j, l := built(t, d, Options{})
	if j.Made.Lost == 0 || len(j.Made.Notes) != mostNamed+1 || !strings.Contains(j.Made.Notes[0], "mm is narrower than the kerf") {
		t.Errorf("%d lost, notes %q", j.Made.Lost, j.Made.Notes)
	}
	for _, o := range []Options{{Colours: Colours{Cut: "red"}}, {Tolerance: math.NaN()}, {Tolerance: 1e-9}, {Apart: -1}, {Holes: Holes{Diameter: 4, Layer: Score}},
		{Label: Label{Height: 3, Layer: "paint"}}, {Holes: Holes{Diameter: 0.2, Layer: Cut}}, {Colours: Colours{Mark: "#12345g"}}} {
		if _, err := Build(l, o, curve.Cubic); err == nil {
			t.Errorf("%+v is taken", o)
		}
	}
	for name, want := range map[string]Format{"a.SVG": FormatSVG, "b.dxf": FormatDXF, "c.x.pdf": FormatPDF, "d.doc": "", "svg": ""} {
		if f, err := FormatOf(name); f != want || (err == nil) != (want != "") {
			t.Errorf("%s is %q, %v", name, f, err)
		}
	}
}
