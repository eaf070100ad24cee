package overlay

import (
	"math"
	"math/rand/v2"
	"slices"

	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// blocks is a union of unit squares of a small chess board: full of touching corners and shared edges.
func blocks(rng *rand.Rand, k int, fill float64) orb.MultiPolygon {
	var rings []orb.Ring
	for i := range k {
		for j := range k {
			if rng.Float64() < fill {
				x, y := float64(i), float64(j)
				rings = append(rings, orb.Ring{{x, y}, {x + 1, y}, {x + 1, y + 1}, {x, y + 1}, {x, y}})
			}
		}
	}
	mp, err := Positive(rings)
	if err != nil {
		panic(err)
	}
	return mp
}

// coarse is a star-shaped ring with corners on whole numbers, freed of its own crossings: corners on edges abound.
func coarse(rng *rand.Rand) orb.MultiPolygon {
	r := geostest.Blob(rng, orb.Point{}, 6, 0.7, 4+rng.IntN(14), false)
	for i := range r {
		r[i] = orb.Point{math.Round(r[i][0]), math.Round(r[i][1])}
	}
	mp, err := Positive([]orb.Ring{r})
	if err != nil {
		panic(err)
	}
	return mp
}

func corner(rng *rand.Rand, mp orb.MultiPolygon) (int, orb.Ring) {
	p := mp[rng.IntN(len(mp))]
	r := p[rng.IntN(len(p))]
	return rng.IntN(len(r) - 1), r
}

// family makes the shapes of one case.
type family struct {
	name  string
	make  func(rng *rand.Rand) []orb.MultiPolygon
	loose string // why the numbers of polygons and holes may differ from those of GEOS; empty: they may not
}

func two(a, b orb.MultiPolygon) []orb.MultiPolygon { return []orb.MultiPolygon{a, b} }

const belowSnap = "what GEOS keeps of gaps and overlaps below the snapping distance of 1e-8 mm is joined or dropped " +
	"here"

var pairFamilies = []family{
	{"blobs anywhere", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(geostest.RandomBlob(rng), randomIsometry(rng, 40).shape(geostest.RandomBlob(rng)))
	}, ""},
	{"with holes", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(geostest.Annulus(rng, rng.IntN(2) == 0), randomIsometry(rng, 40).shape(geostest.Annulus(rng, true)))
	}, ""},
	{"identical", func(rng *rand.Rand) []orb.MultiPolygon { a := geostest.Annulus(rng, true); return two(a, a) }, ""},
	{"moved by 1e-12 to 1e-6 mm", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.Annulus(rng, true)
		d := math.Pow(10, -12+6*rng.Float64())
		return two(a, isometry{shift: orb.Point{d, d * (rng.Float64() - 0.5)}}.shape(a))
	}, belowSnap},
	{"turned by 1e-12 to 1e-7", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.Annulus(rng, true)
		return two(a, turnAbout(orb.Point{}, math.Pow(10, -12+5*rng.Float64())).shape(a))
	}, belowSnap},
	{"mirrored in an own edge", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.RandomBlob(rng)
		k, r := corner(rng, a)
		return two(a, mirrorIn(r[k], r[k+1]).shape(a))
	}, "the common edge is common to 1e-14 mm only, and GEOS may see a gap in it"},
	{"corner to corner", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.RandomBlob(rng)
		b := randomIsometry(rng, 0).shape(geostest.RandomBlob(rng))
		i, r := corner(rng, a)
		j, s := corner(rng, b)
		b = isometry{shift: orb.Point{r[i][0] - s[j][0], r[i][1] - s[j][1]}}.shape(b)
		moved := b[0][0]
		moved[j] = r[i] // exactly, not to the last bit but one
		moved[len(moved)-1] = moved[0]
		return two(a, b)
	}, ""},
	{"turned by 60° about a corner", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.RandomBlob(rng)
		k, r := corner(rng, a)
		m := turnAbout(r[k], math.Pi/3)
		b := m.shape(a)
		for i := range r {
			if r[i] == r[k] {
				b[0][0][i] = r[k]
			}
		}
		return two(a, b)
	}, ""},
	{"spikes", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(geostest.Spiky(rng), randomIsometry(rng, 10).shape(geostest.Spiky(rng)))
	}, ""},
	{"spikes about one point", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.Spiky(rng)
		return two(a, turnAbout(orb.Point{}, 0.1*rng.Float64()).shape(a))
	}, ""},
	{"sieves", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.Sieve(rng, 6)
		return two(a, isometry{turn: 0.3 * rng.Float64(), shift: orb.Point{rng.Float64(), rng.Float64()}}.shape(a))
	}, ""},
	{"sieves moved by one mesh", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(geostest.Sieve(rng, 5), isometry{shift: orb.Point{float64(rng.IntN(3)),
			float64(rng.IntN(3))}}.shape(geostest.Sieve(rng, 5)))
	}, ""},
	{"a plug in its hole", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.Annulus(rng, false)
		plug := slices.Clone(a[0][1])
		slices.Reverse(plug)
		return two(a, orb.MultiPolygon{{plug}})
	}, ""},
	{"discs and rings in and round the holes of a sieve", func(rng *rand.Rand) []orb.MultiPolygon {
		const k = 4
		a := geostest.Sieve(rng, k)
		var b orb.MultiPolygon
		for i := range k {
			for j := range k {
				c := orb.Point{float64(i) + 0.5, float64(j) + 0.5}
				switch rng.IntN(5) {
				case 0: // in the hole
					b = append(b, orb.Polygon{geostest.Blob(rng, c, 0.05, 0, 12, false)})
				case 1: // round the hole
					b = append(b, orb.Polygon{geostest.Blob(rng, c, 0.48, 0, 24, false)})
				case 2: // a ring round the hole
					b = append(b, orb.Polygon{geostest.Blob(rng, c, 0.485, 0, 24, false),
						geostest.Blob(rng, c, 0.47, 0, 24, true)})
				case 3: // a ring round it, and a disc in it
					b = append(b, orb.Polygon{geostest.Blob(rng, c, 0.485, 0, 24, false),
						geostest.Blob(rng, c, 0.47, 0, 24, true)},
						orb.Polygon{geostest.Blob(rng, c, 0.05, 0, 12, false)})
				}
			}
		}
		if rng.IntN(2) == 0 {
			b = append(b, frameOf(-9, 1, -1, 2)[0])
			b = append(b, frameOf(k-0.004, -1, k+2, k+1)[0])
		}
		return two(a, b)
	}, ""},
	{"blocks of squares", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(blocks(rng, 6, rng.Float64()), isometry{shift: orb.Point{float64(rng.IntN(3)),
			float64(rng.IntN(3))}}.shape(blocks(rng, 6, rng.Float64())))
	}, ""},
	{"blocks of squares at half a step", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(blocks(rng, 6, rng.Float64()), isometry{shift: orb.Point{0.5,
			float64(rng.IntN(3)) / 2}}.shape(blocks(rng, 6, rng.Float64())))
	}, ""},
	{"corners on whole numbers", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(coarse(rng), isometry{shift: orb.Point{float64(rng.IntN(5)),
			float64(rng.IntN(5))}}.shape(coarse(rng)))
	}, ""},
	{"apart", func(rng *rand.Rand) []orb.MultiPolygon {
		return two(geostest.RandomBlob(rng), isometry{shift: orb.Point{100, 3}}.shape(geostest.RandomBlob(rng)))
	}, ""},
}

// about lays k copies about c, mirrored ones between them when mirror is set.
func about(a orb.MultiPolygon, c orb.Point, k int, mirror bool) []orb.MultiPolygon {
	var out []orb.MultiPolygon
	for i := range k {
		angle := 2 * math.Pi * float64(i) / float64(k)
		out = append(out, turnAbout(c, angle).shape(a))
		if mirror {
			out = append(out, mirrorIn(c, orb.Point{c[0] + math.Cos(angle/2), c[1] + math.Sin(angle/2)}).shape(a))
		}
	}
	return out
}

var manyFamilies = []family{
	{"a heap of blobs", func(rng *rand.Rand) []orb.MultiPolygon {
		var out []orb.MultiPolygon
		for range 3 + rng.IntN(40) {
			out = append(out, randomIsometry(rng, 200*rng.Float64()).shape(geostest.RandomBlob(rng)))
		}
		return out
	}, ""},
	{"a heap of rings", func(rng *rand.Rand) []orb.MultiPolygon {
		var out []orb.MultiPolygon
		for range 3 + rng.IntN(20) {
			out = append(out, randomIsometry(rng, 200*rng.Float64()).shape(geostest.Annulus(rng, true)))
		}
		return out
	}, ""},
	{"a rosette about a point", func(rng *rand.Rand) []orb.MultiPolygon {
		return about(geostest.RandomBlob(rng), orb.Point{30 * rng.Float64(), 3 * rng.Float64()},
			[]int{2, 3, 4, 6, 12}[rng.IntN(5)], false)
	}, ""},
	{"a rosette with mirrors", func(rng *rand.Rand) []orb.MultiPolygon {
		return about(geostest.RandomBlob(rng), orb.Point{30 * rng.Float64(), 3 * rng.Float64()},
			[]int{1, 2, 3, 4, 6}[rng.IntN(5)], true)
	}, ""},
	{"a rosette about a corner", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.RandomBlob(rng)
		k, r := corner(rng, a)
		return about(a, r[k], []int{2, 3, 4, 6}[rng.IntN(4)], rng.IntN(2) == 0)
	}, "the corners meet to 1e-14 mm only, and GEOS may see them overlap or part"},
	{"p6mm", func(rng *rand.Rand) []orb.MultiPolygon {
		var out []orb.MultiPolygon
		for _, s := range about(geostest.RandomBlob(rng), orb.Point{20 * rng.Float64(), 10 * rng.Float64()}, 6, true) {
			for i := range 3 {
				for j := range 2 {
					d := 40.0
					out = append(out, isometry{shift: orb.Point{d*float64(i) - d/2*float64(j),
						d * math.Sqrt(3) / 2 * float64(j)}}.shape(s))
				}
			}
		}
		return out
	}, ""},
	{"wedges that fill a disc", func(rng *rand.Rand) []orb.MultiPolygon {
		k := 3 + rng.IntN(20)
		a := 2 * math.Pi / float64(k)
		w := orb.Ring{{0, 0}, {20, 0}, {20 * math.Cos(a), 20 * math.Sin(a)}, {0, 0}}
		return about(orb.MultiPolygon{{w}}, orb.Point{}, k, false)
	}, "the common edges are common to 1e-14 mm only, and GEOS may see gaps in them"},
	{"tiles in a row, mirrored and turned", func(rng *rand.Rand) []orb.MultiPolygon {
		// A tile with two ragged sides, the second the first moved along: neighbours share every point of a side.
		n := 2 + rng.IntN(8)
		var side []orb.Point
		for i := range n {
			side = append(side, orb.Point{geostest.OnGrid(3 * rng.Float64()),
				geostest.OnGrid(10 * (float64(i) + 0.5*rng.Float64()) / float64(n))})
		}
		var r orb.Ring
		for _, p := range side {
			r = append(r, orb.Point{p[0] + 12, p[1]})
		}
		for _, p := range slices.Backward(side) {
			r = append(r, p)
		}
		tile := orb.MultiPolygon{{append(r, r[0])}}
		turn := isometry{turn: rng.Float64()}
		var out []orb.MultiPolygon
		for i := range 6 {
			out = append(out, turn.shape(isometry{shift: orb.Point{12 * float64(i), 0}}.shape(tile)))
		}
		return out
	}, "the common edges are common to 1e-14 mm only, and GEOS may see gaps in them"},
	{"blocks of squares", func(rng *rand.Rand) []orb.MultiPolygon {
		var out []orb.MultiPolygon
		for range 2 + rng.IntN(5) {
			out = append(out, isometry{shift: orb.Point{float64(rng.IntN(6)), float64(rng.IntN(6))}}.shape(blocks(rng,
				5, 0.4)))
		}
		return out
	}, ""},
	{"copies within 1e-12 to 1e-6 mm", func(rng *rand.Rand) []orb.MultiPolygon {
		a := geostest.Annulus(rng, true)
		out := []orb.MultiPolygon{a}
		for range 2 + rng.IntN(6) {
			d := math.Pow(10, -12+6*rng.Float64())
			out = append(out, isometry{turn: d * (rng.Float64() - 0.5) / 20,
				shift: orb.Point{d * (rng.Float64() - 0.5), d * (rng.Float64() - 0.5)}}.shape(a))
		}
		return out
	}, belowSnap},
	{"a chain of rings touching at corners", func(rng *rand.Rand) []orb.MultiPolygon {
		// Diamonds on a circle of whole-number steps: the pieces meet at points only and enclose a hole or not.
		var out []orb.MultiPolygon
		k := 2 + rng.IntN(4)
		for i := range k {
			for j := range k {
				if i > 0 && j > 0 && i < k-1 && j < k-1 {
					continue
				}
				x, y := 2*float64(i), 2*float64(j)
				out = append(out, orb.MultiPolygon{{{{x - 1, y}, {x, y - 1}, {x + 1, y}, {x, y + 1}, {x - 1, y}}}})
			}
		}
		return out
	}, ""},
}
