package cutfile

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/patterntest"
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
	got, err := patterntest.Ask[truth]("testdata/read_cuts.py", qs)
	if err != nil {
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
	height, err := strconv.ParseFloat(string(regexp.MustCompile(`viewBox="0 0 \S+ ([0-9.]+)"`).FindSubmatch(data)[1]),
		64)
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
