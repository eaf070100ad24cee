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

func TestTiles(t *testing.T) {
	for _, name := range []string{"p1", "p2", "pg", "p4", "p3", "p6", "two"} {
		n99, n97, n := 0, 0, 0
		start := time.Now()
		low := 2.0
		for k := range 15 {
			rng := rand.New(rand.NewPCG(uint64(k), 7))
			var d draft.Draft
			known := 0.0
			if name == "two" {
				both, kn := twoTiles(rng, 3)
				d, known = draftWith("p1", 3, both...), kn
			} else {
				mp, kn := randomTile(rng, name, 3)
				d, known = draftWith(name, 3, mp), kn
			}
			a, err := Fit(&Question{Draft: d}, nil)
			if err != nil {
				t.Log(err)
				continue
			}
			n++
			r := a[0].Cover / known
			low = min(low, r)
			if r > 0.99 {
				n99++
			}
			if r > 0.97 {
				n97++
			}
		}
		fmt.Printf("%s: 99%%: %d, 97%%: %d of %d, low %.4f, %v each\n", name, n99, n97, n, low, time.Since(start)/15)
	}
}

func TestTable(t *testing.T) {
	table := map[string][]float64{
		"p1": {.666667, 1, .817256, 1, .860191, .906164}, "p2": {1, 1, .921311, 1, .892691, .906164},
		"pm": {.5, 1, .690983, .75, .738250, .828427}, "p2mm": {.5, 1, .690983, .75, .738250, .828427},
		"p4mm": {.577350, .5, .555376, .521487, .514462, .568542}, "p3m1": {1, .497423, .538541, .666667, .571966, .579808},
		"p6mm": {.5, .464102, .493728, .48, .490252, .482353},
		"pg":   {0, 0, .9180}, "cm": {0, 0, .7450}, "p2mg": {0, 0, .8539}, "p2gg": {0, 0, .9183}, "p4": {0, 0, .8423}, "p3": {0, 0, .8686}, "p4gm": {0, 0, .6957}, "p6": {0, 0, .7290},
	}
	disc := map[string]float64{"p1": .906900, "p2": .9069, "pg": .9069, "p2gg": .9069, "p3": .9069, "cm": .841787, "p2mg": .841787, "p4": .841787, "pm": .785398, "p2mm": .785398, "c2mm": .785398, "p4gm": .785398, "p6": .777343, "p31m": .729009, "p3m1": .604600, "p4mm": .539012, "p6mm": .486006}
	for _, g := range symmetry.Groups() {
		for n, want := range append(append([]float64(nil), table[g.Symbol]...), disc[g.Symbol]) {
			n += 3
			mp := regular(n, 20)
			if want == disc[g.Symbol] && n != 4 {
				mp = regular(96, 20)
				n = 96
			}
			if want == 0 {
				continue
			}
			start := time.Now()
			a, err := Fit(&Question{Draft: draftWith(g.Symbol, 0, mp)}, nil)
			if err != nil {
				fmt.Println(g.Symbol, n, err)
				continue
			}
			mark := ""
			if a[0].Cover < 0.998*want {
				mark = "LOW"
			}
			fmt.Printf("%s %d: %.5f of %.5f ratio %.5f n %d %v %s\n", g.Symbol, n, a[0].Cover, want, a[0].Cover/want, len(a), time.Since(start), mark)
		}
	}
}
