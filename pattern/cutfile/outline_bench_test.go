package cutfile

import (
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
)

// ringOf returns a closed ring on the draft's grid, points that repeat the one before left out.
func ringOf(n int, at func(t float64) (x, y float64)) orb.Ring {
	var r orb.Ring
	for i := range n {
		x, y := at(float64(i) / float64(n))
		p := orb.Point{geometry.Snap(x), geometry.Snap(y)}
		if len(r) == 0 || p != r[len(r)-1] {
			r = append(r, p)
		}
	}
	return append(r, r[0])
}

func lobed(n int, size float64, c orb.Point) orb.Ring {
	return ringOf(n, func(t float64) (float64, float64) {
		a := 2 * math.Pi * t
		d := size * (1 + 0.1*math.Sin(5*a))
		return c[0] + d*math.Cos(a), c[1] + d*math.Sin(a)
	})
}

// large are silhouettes of about n corners, 100 mm across, each hard in its own way.
var large = []struct {
	name string
	make func(n int) []orb.MultiPolygon
}{
	{"ring", func(n int) []orb.MultiPolygon { return one(orb.Polygon{lobed(n, 50, orb.Point{})}) }},
	{"spiral", func(n int) []orb.MultiPolygon {
		return one(orb.Polygon{ringOf(n, func(t float64) (float64, float64) {
			// Out along the one side of an arm 1 mm wide, and back along the other.
			s, side := 2*t, 0.0
			if t > 0.5 {
				s, side = 2-2*t, 1
			}
			a := 2 * math.Pi * 16 * s
			d := 2 + 48*s*15.5/16 - side
			return d * math.Cos(a), d * math.Sin(a)
		})})
	}},
	{"comb", func(n int) []orb.MultiPolygon {
		teeth := n / 4
		w := 100 / float64(teeth)
		r := orb.Ring{{-50, -50}, {50, -50}}
		for i := range teeth {
			x := 50 - float64(i)*w
			r = append(r, orb.Point{geometry.Snap(x), 40}, orb.Point{geometry.Snap(x - 0.4*w), 40},
				orb.Point{geometry.Snap(x - 0.5*w), -40}, orb.Point{geometry.Snap(x - 0.9*w), -40})
		}
		return one(orb.Polygon{append(r, r[0])})
	}},
	{"noise", func(n int) []orb.MultiPolygon {
		rnd := rand.New(rand.NewPCG(11, 5))
		ring := ringOf(n, func(t float64) (float64, float64) {
			a := 2 * math.Pi * t
			d := 50*(1+0.1*math.Sin(5*a)) + 0.01*(2*rnd.Float64()-1)
			return d * math.Cos(a), d * math.Sin(a)
		})
		return one(orb.Polygon{ring})
	}},
	{"holes", func(n int) []orb.MultiPolygon {
		p := orb.Polygon{lobed(n/2, 50, orb.Point{})}
		for i := 0; len(p) <= 500; i++ {
			x, y := float64(i%30)*2.6-38, float64(i/30)*2.6-38
			if math.Hypot(x, y) < 43 {
				p = append(p, lobed(max(8, n/1000), 0.8, orb.Point{x, y}))
			}
			if i > 900 {
				break
			}
		}
		return one(p)
	}},
	{"several", func(n int) []orb.MultiPolygon {
		var out []orb.MultiPolygon
		for range 8 {
			out = append(out, geometry.Orient(orb.MultiPolygon{{lobed(n/8, 12, orb.Point{})}}))
		}
		return out
	}},
}

func one(p orb.Polygon) []orb.MultiPolygon {
	return []orb.MultiPolygon{geometry.Orient(orb.MultiPolygon{p})}
}

// laid puts each silhouette once on a panel, or so many times that there are copies of each.
func laid(tb testing.TB, shapes []orb.MultiPolygon, copies int, kerf float64) *pattern.Layout {
	d := draft.Default()
	across := int(math.Ceil(math.Sqrt(float64(copies))))
	down := (copies + across - 1) / across
	const cell = 120.0
	d.Panel = draft.Panel{Width: cell*float64(across) + 40, Height: cell*float64(down) + 40}
	d.Field.Origin = [2]float64{20, 20}
	d.Repeat = draft.Repeat{Group: "p1", A: cell, B: cell, Gamma: 90}
	d.Sheet.Kerf = kerf
	side := int(math.Ceil(math.Sqrt(float64(len(shapes)))))
	for i, s := range shapes {
		id := fmt.Sprintf("s%d", i)
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Outline: s})
		step := cell / float64(side)
		d.Motifs = append(d.Motifs, draft.Motif{ID: "m" + id, Silhouette: id, Scale: 1,
			At: [2]float64{(float64(i%side) + 0.5) * step, (float64(i/side) + 0.5) * step}})
	}
	l, err := pattern.NewLayout(d, pattern.NewShapes())
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// BenchmarkLarge writes the cut file of large outlines: the time and the memory should grow with their number of
// corners.
func BenchmarkLarge(b *testing.B) {
	for _, f := range large {
		for _, n := range []int{1000, 8000, 64000, 200000} {
			for _, copies := range []int{1, 50} {
				for _, kerf := range []float64{0, 0.2} {
					for _, polygons := range []bool{false, true} {
						name := fmt.Sprintf("%s/%d/copies=%d/kerf=%g/polygons=%v", f.name, n, copies, kerf, polygons)
						b.Run(name, func(b *testing.B) { benchWrite(b, f.make(n), copies, kerf, polygons) })
					}
				}
			}
		}
	}
}

func benchWrite(b *testing.B, shapes []orb.MultiPolygon, copies int, kerf float64, polygons bool) {
	l := laid(b, shapes, copies, kerf)
	o := cutplan.Defaults()
	o.Polygons = polygons
	b.ReportAllocs()
	for b.Loop() {
		made, err := Write(l, io.Discard, FormatSVG, o)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(made.Openings), "openings")
		b.ReportMetric(float64(made.Pieces), "pieces")
	}
}

// BenchmarkManyOpenings writes cut files of panels with many small openings.
func BenchmarkManyOpenings(b *testing.B) {
	for _, side := range []int{35, 70, 140} { // 1,225, 4,900 and 19,600 openings
		for _, apart := range []float64{0, 8, 60, 1000} {
			for _, f := range []Format{FormatSVG, FormatDXF, FormatPDF} {
				b.Run(fmt.Sprintf("%d/apart=%g/%s", side*side, apart, f), func(b *testing.B) {
					d := draft.Default()
					d.Panel = draft.Panel{Width: 5*float64(side) + 40, Height: 5*float64(side) + 40}
					d.Field.Origin = [2]float64{20, 20}
					d.Repeat = draft.Repeat{Group: "p1", A: 5, B: 5, Gamma: 90}
					d.Sheet.Kerf = 0.2
					d.Silhouettes = []draft.Silhouette{{ID: "s",
						Outline: one(orb.Polygon{lobed(40, 1.5, orb.Point{})})[0]}}
					d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1, At: [2]float64{2.5, 2.5}}}
					l, err := pattern.NewLayout(d, pattern.NewShapes())
					if err != nil {
						b.Fatal(err)
					}
					o := cutplan.Defaults()
					o.Apart = apart
					b.ReportAllocs()
					for b.Loop() {
						made, err := Write(l, io.Discard, f, o)
						if err != nil {
							b.Fatal(err)
						}
						b.ReportMetric(float64(made.Openings), "openings")
						b.ReportMetric(made.Travel, "travel-mm")
						b.ReportMetric(float64(made.Near), "near")
					}
				})
			}
		}
	}
}
