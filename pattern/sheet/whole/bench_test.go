package whole

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// field is some 2,000 copies of three motifs of 300 points each, smooth and near one another.
func field(group string, edge draft.Edge, turn float64) draft.Draft {
	r := rand.New(rand.NewPCG(300, 3))
	d := draft.Default()
	d.Panel = draft.Panel{Width: 800, Height: 1100}
	d.Field.Origin, d.Field.Edge, d.Field.Turn = [2]float64{400, 550}, edge, turn
	g, err := symmetry.Find(group)
	if err != nil {
		panic(err) // a slip in a benchmark
	}
	side := 130 * math.Sqrt(float64(len(g.Ops))/12)
	d.Repeat = draft.Repeat{Group: group, A: geometry.Snap(side), B: geometry.Snap(side * math.Sqrt(0.75)), Gamma: 90}
	switch g.System {
	case symmetry.Oblique:
		d.Repeat.Gamma = 80
	case symmetry.Square:
		d.Repeat.A, d.Repeat.B = geometry.Snap(side*0.93), geometry.Snap(side*0.93)
	case symmetry.Hexagonal:
		d.Repeat.B, d.Repeat.Gamma = d.Repeat.A, 120
	}
	places := []orb.Point{{0.28, 0.09}, {0.43, 0.14}, {0.56, 0.23}} // in the asymmetric unit of p6mm
	switch group {
	case "p4":
		places = []orb.Point{{0.13, 0.17}, {0.38, 0.13}, {0.24, 0.38}}
	case "p1":
		places = []orb.Point{{0.2, 0.25}, {0.7, 0.25}, {0.45, 0.75}}
	}
	for i, at := range places {
		p := d.Repeat.Cell().Basis().Apply(at)
		id := fmt.Sprintf("s%d", i)
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Name: id,
			Outline: patterntest.Smooth(r, 9, 300)})
		d.Motifs = append(d.Motifs, draft.Motif{ID: fmt.Sprintf("m%d", i), Silhouette: id,
			At: [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])}, Scale: 1})
	}
	return d
}

// BenchmarkWholeLive is one drag step with the look at the whole panel: the command that moves a motif, the layout, and
// the report.
func BenchmarkWholeLive(b *testing.B) {
	for _, c := range []struct {
		name  string
		group string
		edge  draft.Edge
		turn  float64
		front draft.Edge // of a subject of 1,000 points in front
	}{
		{"p6mm-crop", "p6mm", draft.Crop, 0, ""},
		{"p6mm-crop-turned", "p6mm", draft.Crop, 17, ""},
		{"p6mm-whole", "p6mm", draft.Whole, 0, ""},
		{"p6mm-touching", "p6mm", draft.Touching, 0, ""},
		{"p4-crop", "p4", draft.Crop, 0, ""},
		{"p1-crop", "p1", draft.Crop, 0, ""},
		{"p6mm-crop-subject", "p6mm", draft.Crop, 0, draft.Crop},
		{"p4-crop-subject", "p4", draft.Crop, 0, draft.Crop},
		{"p1-crop-subject", "p1", draft.Crop, 0, draft.Crop},
		{"p4-crop-subject-whole", "p4", draft.Crop, 0, draft.Whole},
	} {
		b.Run(c.name, func(b *testing.B) {
			d := field(c.group, c.edge, c.turn)
			if c.front != "" {
				d.Subjects = []draft.Subject{{ID: "subject1", Name: "Stone", Scale: 1, Room: 10, Edge: c.front,
					Outline: patterntest.Smooth(rand.New(rand.NewPCG(4, 4)), 260, 1000), At: [2]float64{400, 550}}}
			}
			shapes, w, at := pattern.NewShapes(), &Panel{}, d.Motifs[0].At
			partial, faults, copies := 0, 0, 0
			step := func(i int) {
				a := float64(i) / 20
				next, err := pattern.Apply(d, pattern.Command{Name: "place", ID: "m0",
					Values: map[string]float64{"x": at[0] + 2*math.Cos(a), "y": at[1] + 2*math.Sin(a)}})
				if err != nil {
					b.Fatal(err)
				}
				l, err := pattern.NewLayout(next, shapes)
				if err != nil {
					b.Fatal(err)
				}
				r, ok := w.Look(l, i > 0)
				if !ok {
					b.Fatal("not looked at")
				}
				if r.Partial {
					partial++
				}
				n, _ := r.Count("fault")
				faults += n
				copies = r.Counts.Copies
			}
			for range 3 { // at rest, before the hand takes hold
				step(0)
			}
			partial, faults = 0, 0
			for i := 1; b.Loop(); i++ {
				step(i)
			}
			b.ReportMetric(float64(partial)/float64(b.N), "partial/op")
			b.ReportMetric(float64(faults)/float64(b.N), "faults/op")
			b.ReportMetric(float64(copies), "copies")
		})
	}
}
