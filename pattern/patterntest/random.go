// Package patterntest makes random drafts for tests and benchmarks. Nothing but tests imports it.
package patterntest

import (
	"fmt"
	"math"
	"math/rand/v2"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// Blob returns a concave outline of n corners round the origin, about size mm from centre to tip, with a hole when
// asked: star-shaped as seen from its middle, so that it never crosses itself. Coordinates lie on the draft's grid.
func Blob(r *rand.Rand, size float64, n int, hole bool) orb.MultiPolygon {
	ring := func(lo, hi float64, corners int) orb.Ring {
		var out orb.Ring
		for i := range corners {
			a := 2 * math.Pi * (float64(i) + 0.7*r.Float64()) / float64(corners)
			d := size * (lo + (hi-lo)*r.Float64())
			out = append(out, orb.Point{geometry.Snap(d * math.Cos(a)), geometry.Snap(d * math.Sin(a))})
		}
		return append(out, out[0])
	}
	p := orb.Polygon{ring(0.45, 1, n)}
	if hole {
		p = append(p, ring(0.15, 0.35, max(4, n/3)))
	}
	return geometry.Orient(orb.MultiPolygon{p})
}

// Smooth returns a wavy outline of n corners on a smooth curve, about size mm from centre to tip.
func Smooth(r *rand.Rand, size float64, n int) orb.MultiPolygon {
	var amp, phase [6]float64
	for k := range amp {
		amp[k], phase[k] = 0.35*r.Float64()/float64(k+1), 2*math.Pi*r.Float64()
	}
	var ring orb.Ring
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := 0.6
		for k := range amp {
			d += amp[k] * math.Cos(float64(k+2)*a+phase[k])
		}
		d = size * math.Max(d, 0.15)
		ring = append(ring, orb.Point{geometry.Snap(d * math.Cos(a)), geometry.Snap(d * math.Sin(a))})
	}
	return geometry.Orient(orb.MultiPolygon{{append(ring, ring[0])}})
}

// Cell returns a random cell that the group allows, of about the given area in mm².
func Cell(r *rand.Rand, g symmetry.Group, area float64) symmetry.Cell {
	s := math.Sqrt(area)
	c := symmetry.Cell{A: geometry.Snap(s * (0.7 + 0.6*r.Float64())), B: geometry.Snap(s * (0.7 + 0.6*r.Float64())),
		Gamma: 90}
	switch g.System {
	case symmetry.Oblique:
		c.Gamma = geometry.Snap(60 + 60*r.Float64())
	case symmetry.Square:
		c.B = c.A
	case symmetry.Hexagonal:
		c.B, c.Gamma = c.A, 120
	}
	return c
}

// Draft returns a random draft in the given group: one to three motifs of concave silhouettes, some with holes, on a
// panel of some cells, from loose to heavily overlapped, with any of the edge rules; now and then with the field
// turned.
func Draft(r *rand.Rand, group string) draft.Draft {
	g, err := symmetry.Find(group)
	if err != nil {
		panic(err) // a slip in a test
	}
	d := draft.Default()
	d.Title = "Random " + group
	d.Panel = draft.Panel{Width: geometry.Snap(90 + 90*r.Float64()), Height: geometry.Snap(90 + 90*r.Float64())}
	d.Field.Margin = geometry.Snap(4 + 8*r.Float64())
	d.Field.Origin = [2]float64{geometry.Snap(d.Panel.Width * r.Float64()), geometry.Snap(d.Panel.Height * r.Float64())}
	d.Field.Edge = []draft.Edge{draft.Crop, draft.Whole, draft.Touching}[r.IntN(3)]
	if r.IntN(3) == 0 {
		d.Field.Turn = geometry.Snap(360*r.Float64() - 180)
	}
	size := 3 + 5*r.Float64()
	motifs := 1 + r.IntN(3)
	room := size * size * (1.6 + 5*r.Float64()) // mm² for each copy
	c := Cell(r, g, room*float64(len(g.Ops)*motifs))
	d.Repeat = draft.Repeat{Group: g.Symbol, A: c.A, B: c.B, Gamma: c.Gamma}
	basis := c.Basis()
	for i := range motifs {
		if i == 0 || r.IntN(2) == 0 {
			d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: fmt.Sprintf("s%d", i), Name: "Blob",
				Outline: Blob(r, size*(0.6+0.4*r.Float64()), 8+r.IntN(50), r.IntN(3) == 0)})
		}
		at := basis.Apply(orb.Point{r.Float64(), r.Float64()})
		d.Motifs = append(d.Motifs, draft.Motif{ID: fmt.Sprintf("m%d", i),
			Silhouette: d.Silhouettes[len(d.Silhouettes)-1].ID,
			At:         [2]float64{geometry.Snap(at[0]), geometry.Snap(at[1])},
			Turn:       geometry.Snap(360*r.Float64() - 180),
			Scale:      geometry.Snap(0.7 + 0.5*r.Float64()), Mirrored: r.IntN(2) == 0})
	}

	d.Sheet.Bridge = geometry.Snap(0.5 + 2*r.Float64())
	d.Sheet.Opening = 0.5
	return d
}

// Spread moves a draft's motifs apart by a factor: its cell is as many times as large, and they are where they were in
// it, as large as before.
func Spread(d *draft.Draft, by float64) {
	d.Repeat.A, d.Repeat.B = geometry.Snap(by*d.Repeat.A), geometry.Snap(by*d.Repeat.B)
	for i := range d.Motifs {
		for k := range d.Motifs[i].At {
			d.Motifs[i].At[k] = geometry.Snap(by * d.Motifs[i].At[k])
		}
	}
}
