package scan

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
)

// lineAlong is a line of a width along points, as one ring for each step: a drawing of it by coverage is what they
// cover together, which drawnLines takes care of.
func lineAlong(width float64, points ...orb.Point) []orb.MultiPolygon {
	var out []orb.MultiPolygon
	for k := 0; k+1 < len(points); k++ {
		a, b := points[k], points[k+1]
		d := math.Hypot(b[0]-a[0], b[1]-a[1])
		if d == 0 {
			continue
		}
		angle := math.Atan2(b[1]-a[1], b[0]-a[0])
		var r orb.Ring
		for _, end := range []struct {
			at   orb.Point
			from float64
		}{{b, angle - math.Pi/2}, {a, angle + math.Pi/2}} {
			for i := range 13 {
				t := end.from + math.Pi*float64(i)/12
				r = append(r, orb.Point{end.at[0] + width/2*math.Cos(t), end.at[1] + width/2*math.Sin(t)})
			}
		}
		out = append(out, orb.MultiPolygon{{append(r, r[0])}})
	}
	return out
}

// drawnLines draws lines in grey on paper of size mm; grain makes them uneven as pencil is.
func drawnLines(lines []orb.MultiPolygon, size, dpi, paper, ink, grain float64, seed int64) []byte {
	n := int(math.Round(size * dpi / outline.MMPerInch))
	all := make([]float64, n*n)
	perMM := dpi / outline.MMPerInch
	for _, mp := range lines {
		b := mp.Bound()
		x0, y0 := max(int(b.Min[0]*perMM)-1, 0), max(int(b.Min[1]*perMM)-1, 0)
		x1, y1 := min(int(b.Max[0]*perMM)+2, n), min(int(b.Max[1]*perMM)+2, n)
		moved := mapped(mp, func(p orb.Point) orb.Point {
			return orb.Point{p[0] - float64(x0)/perMM, p[1] - float64(y0)/perMM}
		})
		w, h := x1-x0, y1-y0
		for k, c := range outlinetest.Coverage(moved, w, h, perMM) {
			x, y := x0+k%w, n-1-y0-(h-1-k/w)
			all[y*n+x] = math.Max(all[y*n+x], c)
		}
	}
	all = outlinetest.GaussBlur(all, n, n, 0.6)
	p := outlinetest.Flat(0, n, n)
	rng := rand.New(rand.NewSource(seed))
	for k, c := range all {
		p.Pix[k] = uint8(math.Max(0, math.Min(255, paper*(1-c)+ink*c+grain*rng.NormFloat64()*(0.3+0.7*c))))
	}
	return outlinetest.PngOf(p)
}

// arc returns points along part of a circle, from and to in degrees.
func arc(x, y, radius, from, to float64) []orb.Point {
	var out []orb.Point
	for k := range 181 {
		a := (from + (to-from)*float64(k)/180) * math.Pi / 180
		out = append(out, orb.Point{x + radius*math.Cos(a), y + radius*math.Sin(a)})
	}
	return out
}

// awayFromMiddle in mm is how far an outline may run from the middle of an even line, besides a tenth of its width.
const awayFromMiddle = 0.06

func TestPencilLinesAreFilled(t *testing.T) {
	const size, dpi, seed = 40.0, 300.0, 6
	ring := func(x, y, r float64) orb.Polygon { return orb.Polygon{outlinetest.Circle(x, y, r)} }
	body, eye := arc(20, 20, 14, 0, 360), arc(26, 22, 3, 0, 360)
	holed := orb.MultiPolygon{{outlinetest.Circle(20, 20, 14), geometry.Reversed(outlinetest.Circle(26, 22, 3))}}
	leg := []orb.Point{{10, 8}, {18, 8}, {18, 30}, {10, 30}, {10, 8}}
	var star []orb.Point
	for k := range 11 {
		a, r := math.Pi*float64(k)/5+0.3, []float64{17, 8}[k%2]
		star = append(star, orb.Point{20 + r*math.Cos(a), 20 + r*math.Sin(a)})
	}
	join := func(parts ...[]orb.MultiPolygon) (out []orb.MultiPolygon) {
		for _, p := range parts {
			out = append(out, p...)
		}
		return out
	}
	widths := []float64{0.35, 0.7}
	chosen := geometrytest.Share(t, []int{0, 1}, 1)[0] // every drawing by one of the two, in turn
	for w, width := range widths {
		for i, c := range []struct {
			name   string
			lines  []orb.MultiPolygon
			o      outline.Options
			want   orb.MultiPolygon
			report string
		}{
			{"a closed line", lineAlong(width, body...), outline.Options{}, orb.MultiPolygon{ring(20, 20, 14)}, ""},
			{"a star", lineAlong(width, star...), outline.Options{}, orb.MultiPolygon{{outlinetest.RingOf(star[:10])}},
				""},
			{"a line within", join(lineAlong(width, body...), lineAlong(width, eye...)), outline.Options{}, holed, ""},
			{"a gap of 0.8 mm", join(lineAlong(width, arc(20, 20, 14, 0, 360-(0.8+width)/14*180/math.Pi)...),
				lineAlong(width, eye...)), outline.Options{}, holed, "1 gap of up to 1 mm in a line closed."},
			{"a gap of 1.8 mm", lineAlong(width, arc(20, 20, 14, 0, 360-(1.8+width)/14*180/math.Pi)...),
				outline.Options{GapMM: 2}, orb.MultiPolygon{ring(20, 20, 14)}, "1 gap"},
			{"two gaps", join(lineAlong(width, arc(20, 20, 14, 0, 178-width*2)...),
				lineAlong(width, arc(20, 20, 14, 180, 358-width*2)...)), outline.Options{},
				orb.MultiPolygon{ring(20, 20, 14)}, "2 gaps"},
			{"a line from side to side", join(lineAlong(width, body...), lineAlong(width, orb.Point{6, 20},
				orb.Point{34, 21})), outline.Options{}, orb.MultiPolygon{ring(20, 20, 14)}, ""},
			{"open lines", join(lineAlong(width, body...), lineAlong(width, orb.Point{15, 15}, orb.Point{22, 18}),
				lineAlong(width, orb.Point{2, 2}, orb.Point{9, 3})),
				outline.Options{}, orb.MultiPolygon{ring(20, 20, 14)}, "2 lines that close nothing left out."},
			{"a line that sticks out", join(lineAlong(width, body...), lineAlong(width, orb.Point{20, 34},
				orb.Point{24, 38})), outline.Options{}, orb.MultiPolygon{ring(20, 20, 14)}, ""},
			{"two shapes side by side, nearer than the gap",
				join(lineAlong(width, leg...), lineAlong(width, []orb.Point{{18.8 + width, 8}, {28, 8}, {28, 30},
					{18.8 + width, 30}, {18.8 + width, 8}}...)), outline.Options{},
				orb.MultiPolygon{{outlinetest.Box(10, 8, 8, 22)}, {outlinetest.Box(18.8+width, 8, 9.2-width, 22)}}, ""},
		} {
			if !geometrytest.Long() && (w+i+chosen)%2 > 0 {
				continue
			}
			c.o.DPI, c.o.Pencil = dpi, true
			r, err := Read(drawnLines(c.lines, size, dpi, 232, 90, 22, seed), c.name, c.o)
			if err != nil {
				t.Errorf("%s, %g mm, seed %d: %v", c.name, width, seed, err)
				continue
			}
			mp := outlinetest.Whole(r)
			rings := 0
			for _, p := range mp {
				rings += len(p)
			}
			want := 0
			for _, p := range c.want {
				want += len(p)
			}
			area, away := geometry.Area(mp)/geometry.Area(c.want)-1, outlinetest.Farthest(mp, c.want, 0.05)
			most := awayFromMiddle + 0.1*width
			if strings.Contains(c.name, "gap") && !strings.Contains(c.name, "nearer") {
				most += 0.15 // what closes a gap does not know how the line went there, and its ends are round
			}
			if c.name == "a star" { // its tips retreat by half the line's width, see closedLines
				most += 0.5 * width
			}
			if c.name == "a line that sticks out" { // the middle bulges by as much where it leaves
				most += 0.2 * width
			}
			if len(mp) != len(c.want) || rings != want || math.Abs(area) > 0.01 || away > most {
				t.Errorf("%s, %g mm, seed %d: %d pieces of %d rings, not %d of %d; area off by %.2f %%, outline by "+
					"%.3f mm; %q",
					c.name, width, seed, len(mp), rings, len(c.want), want, 100*area, away, r.Left)
			}
			if all := strings.Join(r.Left, " "); !strings.Contains(all, c.report) || c.report == "" &&
				(strings.Contains(all, "gap") || strings.Contains(all, "nothing")) {
				t.Errorf("%s, %g mm: told %q, not %q", c.name, width, all, c.report)
			}
			outlinetest.Sound(t, fmt.Sprint(c.name, " ", width), mp, false)
		}
	}
	open := drawnLines(lineAlong(0.5, arc(20, 20, 14, 0, 355)...), size, dpi, 232, 90, 22, seed)
	r, err := Read(open, "open.png", outline.Options{DPI: dpi, Pencil: true, GapMM: -1})
	if err == nil || !strings.Contains(err.Error(), "no line in open.png closes") {
		t.Errorf("with no gap closed: %v", err)
	}

	// The gap is named with where it is and how wide: a chord of 5° of a circle of 14 mm, less the line's round ends.
	want := 2*14*math.Sin(2.5*math.Pi/180) - 0.5
	if len(r.Gaps) != 1 || math.Abs(r.Gaps[0].Width-want) > 0.15 {
		t.Fatalf("gaps %+v, one of %.2f mm is drawn", r.Gaps, want)
	}
	for _, end := range r.Gaps[0].Ends {
		if off := math.Hypot(end[0]-(20+14*math.Cos(2.5*math.Pi/180)),
			end[1]-(20-14*math.Sin(2.5*math.Pi/180))); off > 1 {
			t.Errorf("an end of it is said to be at %v, %.2f mm from its middle", end, off)
		}
	}
	closes := outline.Options{DPI: dpi, Pencil: true, GapMM: r.Gaps[0].Width + 0.1}
	if r, err = Read(open, "open.png", closes); err != nil || len(r.Pieces) != 1 || len(r.Gaps) != 0 {
		t.Errorf("the gap's own width closes nothing: %v, %+v", err, r.Gaps)
	}
}
