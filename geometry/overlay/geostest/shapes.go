package geostest

import (
	"math"
	"math/rand/v2"
	"slices"

	"github.com/paulmach/orb"
)

// OnGrid rounds to 1e-4 mm.
func OnGrid(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// Blob returns a star-shaped ring about c; jag 0 is a circle, 1 as ragged as can be. reverse gives a hole.
func Blob(rng *rand.Rand, c orb.Point, radius, jag float64, n int, reverse bool) orb.Ring {
	var r orb.Ring
	phase := rng.Float64() * 2 * math.Pi
	for i := range n {
		a := phase + 2*math.Pi*(float64(i)+0.8*jag*(rng.Float64()-0.5))/float64(n)
		d := radius * (1 - jag*rng.Float64())
		r = append(r, orb.Point{OnGrid(c[0] + d*math.Cos(a)), OnGrid(c[1] + d*math.Sin(a))})
	}
	if reverse {
		slices.Reverse(r)
	}
	return append(r, r[0])
}

// RandomBlob is a star-shaped polygon of any size and raggedness.
func RandomBlob(rng *rand.Rand) orb.MultiPolygon {
	n := 3 + rng.IntN(60)
	return orb.MultiPolygon{{Blob(rng, orb.Point{}, 5+20*rng.Float64(), 0.7*rng.Float64(), n, false)}}
}

// Annulus is a blob with a hole, or with an island in the hole too.
func Annulus(rng *rand.Rand, island bool) orb.MultiPolygon {
	n := 8 + rng.IntN(40)
	mp := orb.MultiPolygon{{Blob(rng, orb.Point{}, 20, 0.2, n, false), Blob(rng, orb.Point{}, 11, 0.3, n, true)}}
	if island {
		mp = append(mp, orb.Polygon{Blob(rng, orb.Point{}, 5, 0.6, n, false)})
	}
	return mp
}

// Spiky is a star of thin spikes.
func Spiky(rng *rand.Rand) orb.MultiPolygon {
	n := 5 + rng.IntN(20)
	var r orb.Ring
	for i := range 2 * n {
		d := 25.0
		if i%2 == 1 {
			d = 0.5 + rng.Float64()
		}
		a := math.Pi * float64(i) / float64(n)
		r = append(r, orb.Point{OnGrid(d * math.Cos(a)), OnGrid(d * math.Sin(a))})
	}
	return orb.MultiPolygon{{append(r, r[0])}}
}

// Sieve is a square plate with k × k holes.
func Sieve(rng *rand.Rand, k int) orb.MultiPolygon {
	w := float64(k)
	p := orb.Polygon{{{0, 0}, {w, 0}, {w, w}, {0, w}, {0, 0}}}
	for i := range k {
		for j := range k {
			p = append(p, Blob(rng, orb.Point{float64(i) + 0.5, float64(j) + 0.5}, 0.45, 0.5, 3+rng.IntN(8), true))
		}
	}
	return orb.MultiPolygon{p}
}
