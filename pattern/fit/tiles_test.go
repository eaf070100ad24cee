package fit

import (
	"math"
	"math/rand/v2"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
)

// A tile is a silhouette that fills the plane by a group, its edges deformed in the way that the operations carry on,
// drawn in by half the bridge. Its best repeat with that bridge is the one it came from, for nothing is left over
// there.

// wave is a random way from p to q that strays up to a part of their distance.
func wave(rng *rand.Rand, p, q orb.Point, strays float64) []orb.Point {
	d := geometry.Sub(q, p)
	across := orb.Point{-d[1], d[0]}
	n := 2 + rng.IntN(4)
	way := []orb.Point{p}
	for i := 1; i <= n; i++ {
		t := (float64(i) + 0.6*(rng.Float64()-0.5)) / float64(n+1)
		h := strays * 2 * (rng.Float64() - 0.5)
		way = append(way, geometry.Add(geometry.Lerp(p, q, t), geometry.Times(across, h)))
	}
	return append(way, q)
}

// halfTurned is a wave from p to q that a half-turn about its middle carries to itself.
func halfTurned(rng *rand.Rand, p, q orb.Point, strays float64) []orb.Point {
	m := geometry.Midpoint(p, q)
	half := wave(rng, p, m, strays)
	way := append([]orb.Point(nil), half...)
	for i := len(half) - 2; i >= 0; i-- {
		way = append(way, geometry.Sub(geometry.Times(m, 2), half[i]))
	}
	return way
}

// carried is a way mapped on, run backward if asked.
func carried(way []orb.Point, m geometry.Map, backward bool) []orb.Point {
	var out []orb.Point
	for _, p := range way {
		out = append(out, m.Apply(p))
	}
	if backward {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}

func about(c orb.Point, degrees float64) geometry.Map {
	return geometry.Translate(c[0], c[1]).After(geometry.TurnDegrees(degrees)).After(geometry.Translate(-c[0], -c[1]))
}

// rawTile returns a ring that fills the plane by the group; its operations are in general not in the standard place.
func rawTile(rng *rand.Rand, group string) orb.Ring {
	const size, strays = 60.0, 0.22
	var ways [][]orb.Point
	rect := func(w, h, shear float64) (a, b, c, d orb.Point) {
		return orb.Point{}, orb.Point{w, 0}, orb.Point{w + shear, h}, orb.Point{shear, h}
	}
	w, h := size*(0.7+0.6*rng.Float64()), size*(0.7+0.6*rng.Float64())
	switch group {
	case "p1":
		a, b, c, d := rect(w, h, 0.4*w*(rng.Float64()-0.5))
		bottom, right := wave(rng, a, b, strays), wave(rng, b, c, strays)
		ways = [][]orb.Point{bottom, right, carried(bottom, geometry.Translate(d[0], d[1]), true),
			carried(right, geometry.Translate(-w, 0), true)}
	case "p2":
		j := func() float64 { return 0.4 * size * (rng.Float64() - 0.5) }
		a, b, c, d := orb.Point{j(), j()}, orb.Point{w + j(), j()}, orb.Point{w + j(), h + j()}, orb.Point{j(), h + j()}
		ways = [][]orb.Point{halfTurned(rng, a, b, strays), halfTurned(rng, b, c, strays),
			halfTurned(rng, c, d, strays), halfTurned(rng, d, a, strays)}
	case "pg":
		a, b, c, _ := rect(w, h, 0)
		bottom, right := wave(rng, a, b, strays), wave(rng, b, c, strays)
		glide := geometry.Map{A: -1, D: 1, X: w, Y: h}
		ways = [][]orb.Point{bottom, right, carried(bottom, glide, false),
			carried(right, geometry.Translate(-w, 0), true)}
	case "p4":
		a, b, c, d := rect(w, w, 0)
		bottom := wave(rng, a, b, strays)           // from the centre a
		right := wave(rng, b, c, strays)            // to the centre c
		left := carried(bottom, about(a, 90), true) // from d to a
		top := carried(right, about(c, -90), true)
		_ = d
		ways = [][]orb.Point{bottom, right, top, left}
	case "p3":
		a, b := orb.Point{}, orb.Point{w, 0}
		d := orb.Point{-w / 2, w * math.Sqrt(3) / 2} // 120 degrees at a
		c := geometry.Add(b, d)
		bottom, right := wave(rng, a, b, strays), wave(rng, b, c, strays)
		ways = [][]orb.Point{bottom, right, carried(right, about(c, -120), true), carried(bottom, about(a, 120), true)}
	case "p6":
		a := orb.Point{}
		b := orb.Point{w, 0}
		apex := orb.Point{w / 2, w / (2 * math.Sqrt(3))}
		base := halfTurned(rng, a, b, strays*0.6)
		right := wave(rng, b, apex, strays)
		ways = [][]orb.Point{base, right, carried(right, about(apex, -120), true)}
		_ = a
	}
	var ring orb.Ring
	for _, way := range ways {
		ring = append(ring, way[:len(way)-1]...)
	}
	return append(ring, ring[0])
}

// randomTile returns a tile drawn in by half the bridge, and the cover of its known repeat.
func randomTile(rng *rand.Rand, group string, bridge float64) (orb.MultiPolygon, float64) {
	for {
		ring := rawTile(rng, group)
		mp := orb.MultiPolygon{{ring}}
		if geometry.RingArea(ring) < 0 || geometry.CheckOutline(mp) != nil {
			continue
		}
		in, err := offset.Offset(mp, -bridge/2, 0.01)
		if err != nil || len(in) != 1 {
			continue
		}
		return in, geometry.Area(in) / geometry.Area(mp)
	}
}

// twoTiles returns two silhouettes that fill the plane together by translations, drawn in, and their known cover.
func twoTiles(rng *rand.Rand, bridge float64) (both []orb.MultiPolygon, cover float64) {
	const size, strays = 60.0, 0.22
	for {
		w, h := size*(1.2+0.6*rng.Float64()), size*(0.7+0.6*rng.Float64())
		shear := 0.4 * h * (rng.Float64() - 0.5)
		a, m, b := orb.Point{}, orb.Point{w * (0.4 + 0.2*rng.Float64()), 10 * (rng.Float64() - 0.5)}, orb.Point{w, 0}
		up := orb.Point{shear, h}
		left, right := wave(rng, a, m, strays), wave(rng, m, b, strays)
		cut, side := wave(rng, m, geometry.Add(m, up), strays), wave(rng, b, geometry.Add(b, up), strays)
		lift := geometry.Translate(up[0], up[1])
		one := loop(left, cut, carried(left, lift, true), carried(side, geometry.Translate(-w, 0), true))
		two := loop(right, side, carried(right, lift, true), carried(cut, geometry.Identity, true))
		whole, in := 0.0, 0.0
		both = nil
		for _, ring := range []orb.Ring{one, two} {
			mp := orb.MultiPolygon{{ring}}
			if geometry.RingArea(ring) < 0 || geometry.CheckOutline(mp) != nil {
				break
			}
			drawn, err := offset.Offset(mp, -bridge/2, 0.01)
			if err != nil || len(drawn) != 1 {
				break
			}
			both = append(both, drawn)
			whole, in = whole+geometry.Area(mp), in+geometry.Area(drawn)
		}
		if len(both) == 2 {
			return both, in / whole
		}
	}
}

func loop(ways ...[]orb.Point) orb.Ring {
	var ring orb.Ring
	for _, way := range ways {
		ring = append(ring, way[:len(way)-1]...)
	}
	return append(ring, ring[0])
}
