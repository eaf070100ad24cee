package cutfile

import (
	"bytes"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"
	"openwork/pattern/trace"
)

// measured is what is found of one draft's file.
type measured struct {
	figures
	points      int     // corners of the openings' polygons as they are drawn
	there, back float64 // mm from the file to GEOS's boundary at most, and from there to the file
	told        bool    // the notes say that something was left out
	made        cutplan.Made
}

// leftOut reports whether the notes say that pieces were left out, which GEOS's offset still has.
func leftOut(notes []string) bool {
	return slices.ContainsFunc(notes, func(n string) bool { return strings.Contains(n, "left out") })
}

// measure writes drafts as DXF and SVG, has ezdxf and its own reader read them, and holds them against GEOS.
func measure(t *testing.T, ds []draft.Draft) map[Format][]measured {
	t.Helper()
	dir := t.TempDir()
	var qs []question
	svg := make([][]curve.Path, len(ds))
	out := map[Format][]measured{FormatDXF: make([]measured, len(ds)), FormatSVG: make([]measured, len(ds))}
	for i, d := range ds {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		s, err := cutplan.OfLayout(l)
		if err != nil {
			t.Fatal(err)
		}
		q := question{Outline: s.Outline, Kerf: s.Kerf, Grown: s.Kerf / 2,
			DXF: filepath.Join(dir, fmt.Sprintf("%d.dxf", i))}
		points := 0
		for _, o := range s.Openings {
			mp := geometry.Transform(o.Shape.Outline(), geometry.Translate(o.Shift[0], o.Shift[1]))
			q.Openings = append(q.Openings, mp)
			points += geometry.Points(mp)
		}
		qs = append(qs, q)
		for f := range out {
			var b bytes.Buffer
			made, err := Write(l, &b, f, cutplan.Options{})
			if err != nil {
				t.Fatalf("%s: %v", d.Title, err)
			}
			out[f][i] = measured{points: points, told: leftOut(made.Notes), made: made}
			if f == FormatSVG {
				svg[i] = pathsOfSVG(t, b.Bytes())
			} else if err := os.WriteFile(q.DXF, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}

	for i, truth := range asked(t, qs) {
		if len(truth.Errors) > 0 {
			t.Errorf("%s: ezdxf finds %q", ds[i].Title, truth.Errors)
		}
		rings := append(truth.Openings, truth.Sheet...)
		from := qs[i].Outline.Bound().Pad(qs[i].Grown).Min
		for f, paths := range map[Format][]curve.Path{FormatDXF: pathsOfDXF(truth.Cut), FormatSVG: svg[i]} {
			for k := range paths {
				paths[k] = paths[k].Under(geometry.Translate(from[0], from[1]))
			}
			m := &out[f][i]
			m.figures = segments(paths)
			flat := flattened(paths)
			m.there, _ = farthest(flat, boundary(rings))
			m.back, _ = farthest(rings, boundary(flat))
		}
	}
	return out
}

// promised holds what is measured against what is promised, and returns nodes to the points of the polygons as drawn
// and to those of the polygons that are cut.
func promised(t *testing.T, ds []draft.Draft, got map[Format][]measured) map[Format][2]float64 {
	t.Helper()
	medians := map[Format][2]float64{}
	for f, ms := range got {
		var drawn, cut []float64
		worst, told := 0.0, 0
		for i, m := range ms {
			drawn = append(drawn, float64(m.nodes)/float64(m.points))
			cut = append(cut, float64(m.nodes)/float64(m.made.Points))
			worst = max(worst, m.there)
			if m.short+m.wide+m.loops > 0 {
				t.Errorf("%s as %s: %d segments under %g mm (the shortest %.4f), %d arcs above %g mm, %d contours "+
					"that cross themselves", ds[i].Title, f, m.short, leastSegment, m.shortest, m.wide, widestArc,
					m.loops)
			}
			if m.there > curve.DefaultTolerance {
				t.Errorf("%s as %s: lies %.4f mm from GEOS's offset", ds[i].Title, f, m.there)
			}
			if m.told {
				told++
			} else if m.back > curve.DefaultTolerance {
				t.Errorf("%s as %s: GEOS's offset lies %.4f mm from it; notes %q", ds[i].Title, f, m.back, m.made.Notes)
			} else {
				worst = max(worst, m.back)
			}
		}
		slices.Sort(drawn)
		slices.Sort(cut)
		medians[f] = [2]float64{drawn[len(drawn)/2], cut[len(cut)/2]}
		t.Logf("%s: %d drafts, %d with pieces left out; %.4f mm off at most; nodes to points at the median "+
			"%.3f as drawn, %.3f as cut", f, len(ms), told, worst, medians[f][0], medians[f][1])
	}
	return medians
}

// usualCurves is how many random drafts there are usually, of which every run takes one.
const usualCurves = 4

// curvesOf is how many random drafts, and all animals where it is above 17, are held against GEOS: 300 take some
// minutes.
var curvesOf = flag.Int("curves", usualCurves, "random drafts whose curves are held against GEOS's offset")

// Random drafts of all groups: jagged, crowded, cropped. Segments, arcs, loops and the deviation from GEOS's offset
// both ways, sampled every 0.02 mm.
func TestCurvesAgainstGEOS(t *testing.T) {
	ds := plantest.RandomDrafts(t, 414, *curvesOf)
	if *curvesOf == usualCurves {
		ds = geometrytest.Share(t, ds, 1)
	}
	for i := range ds {
		ds[i].Panel = draft.Panel{Width: 80, Height: 70}
		ds[i].Field.Origin = [2]float64{40, 35}
	}
	var usable []draft.Draft
	for _, d := range ds {
		if l, err := pattern.NewLayout(d, nil); err == nil {
			if j, err := cutplan.ForLayout(l, cutplan.Options{}, curve.Arc); err == nil && j.Made.Openings > 0 {
				usable = append(usable, d)
			}
		}
	}
	if len(usable) < len(ds)/2 {
		t.Fatalf("only %d of %d drafts have an opening", len(usable), len(ds))
	}
	promised(t, usable, measure(t, usable))
}

// Animals of two icon packages, traced: the same, and few nodes.
func TestCurvesOfTracedAnimals(t *testing.T) {
	icons := outlinetest.AnimalIcons(t)
	names := slices.Sorted(maps.Keys(icons))
	step := 12
	if *curvesOf > 17 {
		step = 1
	}
	var some []string
	for i := 0; i < len(names); i += step {
		some = append(some, names[i])
	}
	if step > 1 {
		some = geometrytest.Share(t, some, (len(some)+2)/3)
	}
	var ds []draft.Draft
	for _, name := range some {
		r, err := trace.Read(icons[name], name, outline.Options{HeightMM: 60})
		if err != nil {
			t.Fatal(err)
		}
		var mp orb.MultiPolygon
		for _, s := range r.Pieces {
			mp = append(mp, s.Outline...)
		}
		d := alone(mp, 0.2)
		d.Title = name
		ds = append(ds, d)
	}
	for f, m := range promised(t, ds, measure(t, ds)) {
		if m[1] > 0.35 {
			t.Errorf("%s: %.3f nodes to a point of the polygons that are cut, at the median", f, m[1])
		}
	}
}

// alone is a draft of one copy of an outline.
func alone(mp orb.MultiPolygon, kerf float64) draft.Draft {
	d := draft.Default()
	mp = geometry.SnapOutline(mp)
	b := mp.Bound()
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	d.Panel = draft.Panel{Width: math.Ceil(w) + 60, Height: math.Ceil(h) + 60}
	d.Field.Origin = [2]float64{d.Panel.Width / 2, d.Panel.Height / 2}
	d.Repeat = draft.Repeat{Group: "p1", A: w + 60, B: h + 60, Gamma: 90}
	d.Sheet.Kerf = kerf
	c := b.Center()
	d.Silhouettes = []draft.Silhouette{{ID: "s",
		Outline: geometry.SnapOutline(geometry.Transform(mp, geometry.Translate(-c[0], -c[1])))}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	return d
}
