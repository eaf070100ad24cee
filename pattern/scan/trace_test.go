package scan

import (
	"flag"
	"math"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
)

// Figures that a known drawing must come back within.
const (
	areaWithin   = 0.002 // of the area
	awayWithin   = 0.6   // pixels, of any point along the outline from the true curve
	cornerWithin = 1.0   // pixels, of a true corner from the nearest corner of the outline
	pointsWithin = 2.0   // times what leaving out points of the true curve needs
	commonWithin = 0.995 // least overlap over union
)

var allDrawings = flag.Bool("drawings", false, "scan known drawings spoiled in every way at every resolution")

func TestKnownDrawingsComeBack(t *testing.T) {
	type job struct {
		dpi    float64
		spoils []outlinetest.Spoil
	}
	worst := map[string]float64{}
	all := outlinetest.Spoils
	jobs := []job{{150, all}, {300, all}, {600, []outlinetest.Spoil{all[0], all[4]}}}
	if !*allDrawings {
		jobs = []job{{150, all[1:2]}, {300, []outlinetest.Spoil{all[0], all[2], all[3]}}, {600, all[4:5]}}
	}
	for _, j := range jobs {
		truths := outlinetest.Truths()
		if !*allDrawings {
			truths = geometrytest.Share(t, truths, 2)
		}
		for _, tr := range truths {
			need := outlinetest.ChordPoints(tr.Outline, outline.DefaultTolerance)
			fine := outlinetest.Coverage(tr.Outline, int(outlinetest.TruthSize*outlinetest.CommonCells),
				int(outlinetest.TruthSize*outlinetest.CommonCells), outlinetest.CommonCells)
			for _, s := range j.spoils {
				const seed = 7
				r, err := Read(outlinetest.Scan(tr, s, j.dpi, seed), tr.Name, outline.Options{DPI: j.dpi})
				if err != nil {
					t.Errorf("%s, %g dpi, %s: %v", tr.Name, j.dpi, s.Name, err)
					continue
				}
				mp, px := outlinetest.Whole(r), outline.MMPerInch/j.dpi
				if len(mp) != len(tr.Outline) || len(mp[0]) != len(tr.Outline[0]) {
					t.Errorf("%s, %g dpi, %s: %d pieces, the first with %d rings; the drawing has %d and %d",
						tr.Name, j.dpi, s.Name, len(mp), len(mp[0]), len(tr.Outline), len(tr.Outline[0]))
					continue
				}
				outlinetest.Sound(t, tr.Name, mp, false)
				for _, f := range []struct {
					what      string
					got, most float64
				}{
					{"area is off by a part of", math.Abs(geometry.Area(mp)/geometry.Area(tr.Outline) - 1), areaWithin},
					{"pixels from outline to truth:", outlinetest.Farthest(mp, tr.Outline, px/4) / px, awayWithin},
					{"pixels from truth to outline:", outlinetest.Farthest(tr.Outline, mp, px/4) / px, cornerWithin},
					{"not common, as a part of what either covers:", 1 - outlinetest.OverlapOverUnion(mp, fine),
						1 - commonWithin},
					{"pixels from a corner:", outlinetest.CornerMiss(tr.Corners, mp) / px, cornerWithin},
					{"points, times those needed:", float64(geometry.Points(mp)) / float64(need), pointsWithin},
				} {
					worst[f.what] = math.Max(worst[f.what], f.got)
					if f.got > f.most {
						t.Errorf("%s, %g dpi, %s, seed %d: %s %.4g, at most %g", tr.Name, j.dpi, s.Name, seed, f.what,
							f.got, f.most)
					}
				}
			}
		}
	}
	for what, v := range worst {
		t.Logf("at worst, %s %.4g", what, v)
	}
}

func TestPiecesHolesSpecksAndFrame(t *testing.T) {
	mp := orb.MultiPolygon{
		// A hole of 9 mm², a pinhole of 0.09.
		{outlinetest.Box(5, 6, 10, 8), geometry.Reversed(outlinetest.Box(7, 8, 3, 3)),
			geometry.Reversed(outlinetest.Box(12, 12, 0.3, 0.3))},
		{outlinetest.Box(8, 9, 1, 1)},       // an island in the hole
		{outlinetest.Box(20, 2, 4, 4)},      // another piece
		{outlinetest.Box(2, 18, 0.5, 0.5)},  // a speck of 0.25 mm²
		{outlinetest.Box(26, 18, 0.5, 0.5)}, // and another
	}
	data := outlinetest.PngOf(outlinetest.SheetOf(mp, 30, 20, 300, 240, 20, 4))
	r, err := Read(data, "sheet", outline.Options{DPI: 300})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Pieces) != 3 {
		t.Fatalf("%d pieces, not 3", len(r.Pieces))
	}
	for k, want := range []struct {
		area  float64
		rings int
		min   orb.Point
	}{{71, 2, orb.Point{5, 6}}, {16, 1, orb.Point{20, 2}}, {1, 1, orb.Point{8, 9}}} {
		o := r.Pieces[k].Outline
		if a := geometry.Area(o); math.Abs(a-want.area) > 0.02*math.Sqrt(want.area) || len(o) != 1 ||
			len(o[0]) != want.rings {
			t.Errorf("piece %d has %.3f mm² and %d rings, not %g and %d", k, a, len(o[0]), want.area, want.rings)
		}
		if b := o.Bound().Min; math.Hypot(b[0]-want.min[0], b[1]-want.min[1]) > 0.05 {
			t.Errorf("piece %d begins at %v, not %v", k, b, want.min)
		}
	}
	if all := strings.Join(r.Left, " "); !strings.Contains(all, "2 specks under 0.5 mm² left out.") ||
		!strings.Contains(all, "1 pinhole under 0.2 mm² filled.") {
		t.Errorf("what was left out is told as %q", all)
	}
	if r.WidthPX != 354 || r.HeightPX != 236 || math.Abs(r.HeightMM-236*25.4/300) > 1e-9 {
		t.Errorf("size is %d × %d pixels, %g mm high", r.WidthPX, r.HeightPX, r.HeightMM)
	}
	if r, err = Read(data, "sheet", outline.Options{DPI: 300, SpecksMM2: -1, PinholesMM2: -1}); err != nil ||
		len(r.Pieces) != 5 || len(r.Pieces[0].Outline[0]) != 3 {
		t.Errorf("with everything kept: %d pieces (%v), not 5", len(r.Pieces), err)
	}
	if r, err = Read(data, "sheet", outline.Options{DPI: 300, PinholesMM2: 20}); err != nil || len(r.Pieces) != 2 ||
		math.Abs(geometry.Area(r.Pieces[0].Outline)-80) > 0.1 {
		t.Errorf("with the hole filled there are %d pieces (%v); the island in it must go too", len(r.Pieces), err)
	}
}

func TestLevelIsReportedAndRepeats(t *testing.T) {
	tr := outlinetest.Truths()[5]
	data := outlinetest.Scan(tr, outlinetest.Spoils[4], 200, 1)
	first, err := Read(data, "", outline.Options{DPI: 200})
	if err != nil {
		t.Fatal(err)
	}
	if first.Level < 0.3 || first.Level > 0.7 {
		t.Errorf("the level found is %g", first.Level)
	}
	again, err := Read(data, "", outline.Options{DPI: 200, Level: first.Level})
	if err != nil ||
		math.Abs(geometry.Area(outlinetest.Whole(again))/geometry.Area(outlinetest.Whole(first))-1) > 1e-9 {
		t.Errorf("the same level typed gives another outline (%v)", err)
	}
	lighter, err := Read(data, "", outline.Options{DPI: 200, Level: first.Level + 0.15})
	if err != nil || geometry.Area(outlinetest.Whole(lighter)) <= geometry.Area(outlinetest.Whole(first)) {
		t.Errorf("a lighter level must take more for ink (%v)", err)
	}
}

func TestLightOnDark(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Circle(10, 10, 6)}}
	data := outlinetest.PngOf(outlinetest.SheetOf(mp, 20, 20, 300, 30, 220, 4))
	r, err := Read(data, "", outline.Options{DPI: 300, Invert: true})
	if err != nil || len(r.Pieces) != 1 || math.Abs(geometry.Area(outlinetest.Whole(r))/(36*math.Pi)-1) > areaWithin {
		t.Errorf("light on dark: %d pieces (%v)", len(r.Pieces), err)
	}
	again, err := Read(data, "", outline.Options{DPI: 300, Invert: true, Level: r.Level})
	if err != nil || math.Abs(geometry.Area(outlinetest.Whole(again))/geometry.Area(outlinetest.Whole(r))-1) > 1e-9 {
		t.Errorf("the same level typed gives another outline (%v)", err)
	}
	r, err = Read(data, "", outline.Options{DPI: 300})
	if err != nil || !strings.Contains(strings.Join(r.Left, " "), "light on dark") {
		t.Errorf("a dark picture is read without a word: %q (%v)", r.Left, err)
	}
}

// A shape that runs over the picture's edge is closed along it.
func TestPictureBorderIsPaper(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Box(-5, 5, 15, 8)}}
	r, err := Read(outlinetest.PngOf(outlinetest.SheetOf(mp, 20, 20, 254, 255, 0, 0)), "", outline.Options{DPI: 254})
	if err != nil || len(r.Pieces) != 1 {
		t.Fatal(r, err)
	}
	if b := outlinetest.Whole(r).Bound(); math.Abs(b.Min[0]) > 0.02 || math.Abs(b.Max[0]-10) > 0.02 ||
		math.Abs(geometry.Area(outlinetest.Whole(r))-80) > 0.2 {
		t.Errorf("box %v, area %g", b, geometry.Area(outlinetest.Whole(r)))
	}
	if all := strings.Join(r.Left, " "); !strings.Contains(all, "1 piece cut off by the picture's edge.") {
		t.Errorf("told: %q", all)
	}
}
