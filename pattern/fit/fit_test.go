package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

func regular(n int, r float64) orb.MultiPolygon {
	var ring orb.Ring
	for i := range n + 1 {
		a := 2 * math.Pi * float64(i%n) / float64(n)
		ring = append(ring, orb.Point{r * math.Cos(a), r * math.Sin(a)})
	}
	return orb.MultiPolygon{{ring}}
}

// draftWith returns a draft in a group with a motif for each outline.
func draftWith(group string, bridge float64, outlines ...orb.MultiPolygon) draft.Draft {
	d := draft.Default()
	d.Silhouettes, d.Motifs = nil, nil
	area := 0.0
	for i, mp := range outlines {
		id := fmt.Sprintf("s%d", i+1)
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Name: id, Outline: mp})
		d.Motifs = append(d.Motifs, draft.Motif{ID: fmt.Sprintf("m%d", i+1), Silhouette: id, Scale: 1, At: [2]float64{17.3 + 5*float64(i), 11.9}})
		area += geometry.Area(mp)
	}
	g, _ := symmetry.Find(group)
	c := symmetry.Cell{A: math.Sqrt(area * 24), B: math.Sqrt(area * 24), Gamma: 90}
	c = g.FitCell(c)
	d.Repeat = draft.Repeat{Group: g.Symbol, A: c.A, B: c.B, Gamma: c.Gamma}
	d.Sheet.Bridge = bridge
	return d
}

func TestTrial(t *testing.T) {
	for _, name := range []string{"p1", "p2", "pg", "p4", "p3", "p6"} {
		for k := range 10 {
			rng := rand.New(rand.NewPCG(uint64(k), 7))
			mp, known := randomTile(rng, name, 3)
			start := time.Now()
			a, err := Fit(&Question{Draft: draftWith(name, 3, mp)}, nil)
			if err != nil {
				t.Log(err)
				continue
			}
			fmt.Printf("%s %d: %.5f of %.5f ratio %.5f narrowest %.5f n %d even %+v %v\n", name, k, a[0].Cover, known, a[0].Cover/known, a[0].Narrowest, len(a), a[0].Evenness, time.Since(start))
		}
	}
}
