package recognise

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// BenchmarkOf recognises fields of three motifs of 300 points: as drawn, and written in p1 with a motif for every copy.
func BenchmarkOf(b *testing.B) {
	for _, c := range []struct {
		group string
		own   bool // every motif a silhouette of its own
	}{{"p6mm", false}, {"p4gm", false}, {"p1", false}, {"p6mm", true}} {
		r := rand.New(rand.NewPCG(1, 1))
		g, err := symmetry.Find(c.group)
		if err != nil {
			b.Fatal(err)
		}
		cell := patterntest.Cell(r, g, 900*float64(len(g.Ops)))
		var shapes []orb.MultiPolygon
		var places [][]isometry
		for range 3 {
			shapes = append(shapes, patterntest.Smooth(r, 10, 300))
			places = append(places, []isometry{somewhere(r, cell)})
		}
		d := draftOf(c.group, cell, shapes, places)
		name := c.group
		if c.own {
			name += ", a silhouette for each copy"
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				b.Fatal(err)
			}
			d, _ = redescribe(l, unit, "p1", orb.Point{})
			for j := range d.Motifs {
				s, _ := d.Silhouette(d.Motifs[j].Silhouette)
				s.ID = fmt.Sprintf("own%d", j)
				s.Outline = recornered(r, s.Outline)
				d.Silhouettes = append(d.Silhouettes, s)
				d.Motifs[j].Silhouette = s.ID
			}
		}
		b.Run(name, func(b *testing.B) {
			l := layoutOf(b, d)
			for b.Loop() {
				f, err := Of(l)
				if err != nil || f.Actual != c.group {
					b.Fatal(f.Actual, err)
				}
			}
		})
	}
}
