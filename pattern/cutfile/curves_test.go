package cutfile

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"
	"openwork/pattern/trace"
)

// question asks what a cut file holds and should hold; see testdata/read_cuts.py.
type question struct {
	DXF      string             `json:"dxf"`
	Outline  orb.MultiPolygon   `json:"outline"`
	Openings []orb.MultiPolygon `json:"openings"`
	Kerf     float64            `json:"kerf"`
	Grown    float64            `json:"grown"`
}

type truth struct {
	Errors   []string
	Cut      [][][3]float64
	Openings []orb.Ring
	Sheet    []orb.Ring
}

// asked puts all questions in one process.
func asked(t *testing.T, qs []question) []truth {
	t.Helper()
	in, err := json.Marshal(qs)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("/usr/bin/python3", "testdata/read_cuts.py")
	cmd.Stdin = bytes.NewReader(in)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("ezdxf and GEOS: %v (Debian's python3-ezdxf and python3-shapely are needed)\n%s", err, stderr.String())
	}
	var got []truth
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	return got
}

// pathsOfDXF returns the polylines as ezdxf reads them.
func pathsOfDXF(cut [][][3]float64) []curve.Path {
	var out []curve.Path
	for _, c := range cut {
		p := curve.Path{Start: orb.Point{c[0][0], c[0][1]}}
		for i, v := range c {
			to := c[(i+1)%len(c)]
			q := curve.Piece{To: orb.Point{to[0], to[1]}}
			if v[2] != 0 {
				q.Kind, q.Bulge = curve.Arc, v[2]
			}
			p.Pieces = append(p.Pieces, q)
		}
		out = append(out, p)
	}
	return out
}

// figures are what there is to say of a file's contours; lengths in mm.
type figures struct {
	nodes, short, wide, loops int
	shortest                  float64
}

// No segment of a file is shorter than leastSegment, no arc has a radius above widestArc; mm.
const leastSegment, widestArc = 0.05, 10000.0

// segments looks at the contours of a file as another reader found them.
func segments(ps []curve.Path) (f figures) {
	f.shortest = math.Inf(1)
	for _, p := range ps {
		from := p.Start
		for _, q := range p.Pieces {
			f.nodes++
			l := math.Hypot(q.To[0]-from[0], q.To[1]-from[1])
			f.shortest = min(f.shortest, l)
			if l < leastSegment {
				f.short++
			}
			if q.Kind == curve.Arc && l*(1+q.Bulge*q.Bulge)/(4*math.Abs(q.Bulge)) > widestArc {
				f.wide++
			}
			from = q.To
		}
		ring := slices.Compact(p.Flatten(1e-4))
		if geometry.CheckOutline(geometry.Orient(orb.MultiPolygon{{ring}})) != nil {
			f.loops++
		}
	}
	return f
}

// boundary makes rings ready to ask for distances.
func boundary(rings []orb.Ring) *geometry.Shape {
	var mp orb.MultiPolygon
	for _, r := range rings {
		mp = append(mp, orb.Polygon{r})
	}
	return geometry.NewShape(mp)
}

// farthest returns how far points every 0.02 mm along rings lie from a boundary at most.
func farthest(rings []orb.Ring, from *geometry.Shape) (float64, orb.Point) {
	worst, at := 0.0, orb.Point{}
	for _, r := range rings {
		for i := 0; i+1 < len(r); i++ {
			n := max(1, int(math.Ceil(math.Hypot(r[i+1][0]-r[i][0], r[i+1][1]-r[i][1])/0.02)))
			for k := range n {
				p := geometry.Lerp(r[i], r[i+1], float64(k)/float64(n))
				d := from.DistanceTo(p, 5)
				if !d.Found {
					d.D = 5
				}
				if d.D > worst {
					worst, at = d.D, p
				}
			}
		}
	}
	return worst, at
}

// pathsOfSVG reads the paths on the layer cut, y upward: M, l, c and Z with relative coordinates, as SVG defines them.
func pathsOfSVG(t *testing.T, data []byte) []curve.Path {
	t.Helper()
	cut := regexp.MustCompile(`(?s)<g id="cut".*?</g>`).Find(data)
	height, err := strconv.ParseFloat(string(regexp.MustCompile(`viewBox="0 0 \S+ ([0-9.]+)"`).FindSubmatch(data)[1]), 64)
	if err != nil || cut == nil {
		t.Fatal("the SVG has no layer cut or no size", err)
	}
	token := regexp.MustCompile(`[A-Za-z]|-?[0-9.]+`)
	var out []curve.Path
	for _, d := range regexp.MustCompile(` d="([^"]*)"`).FindAllSubmatch(cut, -1) {
		var letter string
		var at orb.Point // y downward
		var p curve.Path
		var pending []float64
		up := func(dx, dy float64) orb.Point { return orb.Point{at[0] + dx, height - at[1] - dy} }
		for _, w := range token.FindAllString(string(d[1]), -1) {
			if w[0] >= 'A' {
				if letter = w; w == "Z" {
					if far := p.End(); math.Hypot(far[0]-p.Start[0], far[1]-p.Start[1]) > 1e-6 {
						p.Pieces = append(p.Pieces, curve.Piece{To: p.Start})
					} else {
						p.Pieces[len(p.Pieces)-1].To = p.Start
					}
					out = append(out, p)
				}
				continue
			}
			v, err := strconv.ParseFloat(w, 64)
			if err != nil {
				t.Fatal(err)
			}
			pending = append(pending, v)
			switch a := pending; {
			case letter == "M" && len(a) == 2:
				at = orb.Point{}
				p = curve.Path{Start: up(a[0], a[1])}
				at = orb.Point{a[0], a[1]}
			case letter == "l" && len(a) == 2:
				p.Pieces = append(p.Pieces, curve.Piece{To: up(a[0], a[1])})
				at = orb.Point{at[0] + a[0], at[1] + a[1]}
			case letter == "c" && len(a) == 6:
				p.Pieces = append(p.Pieces, curve.Piece{Kind: curve.Cubic, C1: up(a[0], a[1]), C2: up(a[2], a[3]),
					To: up(a[4], a[5])})
				at = orb.Point{at[0] + a[4], at[1] + a[5]}
			default:
				continue
			}
			pending = pending[:0]
		}
	}
	return out
}

// flattened returns chords that leave paths by no more than 1e-5 mm.
func flattened(ps []curve.Path) []orb.Ring {
	var out []orb.Ring
	for _, p := range ps {
		out = append(out, p.Flatten(1e-5))
	}
	return out
}

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
		q := question{Outline: s.Outline, Kerf: s.Kerf, Grown: s.Kerf / 2, DXF: filepath.Join(dir, fmt.Sprintf("%d.dxf", i))}
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

// promised holds what is measured against what is promised, and returns nodes to the points of the polygons as drawn and
// to those of the polygons that are cut.
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
				t.Errorf("%s as %s: %d segments under %g mm (the shortest %.4f), %d arcs above %g mm, %d contours that "+
					"cross themselves", ds[i].Title, f, m.short, leastSegment, m.shortest, m.wide, widestArc, m.loops)
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
		t.Logf("%s: %d drafts, %d with pieces left out; %.4f mm off at most; nodes to points at the median %.3f as drawn, "+
			"%.3f as cut", f, len(ms), told, worst, medians[f][0], medians[f][1])
	}
	return medians
}

// curvesOf is how many random drafts, and all animals where it is above 17, are held against GEOS: 300 take some minutes.
var curvesOf = flag.Int("curves", 6, "random drafts whose curves are held against GEOS's offset")

// Random drafts of all groups: jagged, crowded, cropped. Segments, arcs, loops and the deviation from GEOS's offset both
// ways, sampled every 0.02 mm.
func TestCurvesAgainstGEOS(t *testing.T) {
	ds := plantest.RandomDrafts(t, 414, *curvesOf)
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
	var ds []draft.Draft
	for i := 0; i < len(names); i += step {
		r, err := trace.Read(icons[names[i]], names[i], outline.Options{HeightMM: 60})
		if err != nil {
			t.Fatal(err)
		}
		var mp orb.MultiPolygon
		for _, s := range r.Pieces {
			mp = append(mp, s.Outline...)
		}
		d := alone(mp, 0.2)
		d.Title = names[i]
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
	d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: geometry.SnapOutline(geometry.Transform(mp, geometry.Translate(-c[0], -c[1])))}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	return d
}
