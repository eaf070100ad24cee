package overlay

import (
	"math"
	"math/rand/v2"
	"slices"

	"github.com/paulmach/orb"
)

// isometry maps p to shift + R(turn)·M(p), M mirroring x when mirrored.
type isometry struct {
	turn     float64
	mirrored bool
	shift    orb.Point
}

func (m isometry) point(p orb.Point) orb.Point {
	if m.mirrored {
		p[0] = -p[0]
	}
	s, c := math.Sincos(m.turn)
	return orb.Point{c*p[0] - s*p[1] + m.shift[0], s*p[0] + c*p[1] + m.shift[1]}
}

func (m isometry) shape(mp orb.MultiPolygon) orb.MultiPolygon {
	out := make(orb.MultiPolygon, len(mp))
	for i, p := range mp {
		for _, r := range p {
			q := make(orb.Ring, 0, len(r))
			for _, v := range r[:len(r)-1] {
				q = append(q, m.point(v))
			}
			if m.mirrored {
				slices.Reverse(q)
			}
			out[i] = append(out[i], append(q, q[0]))
		}
	}
	return out
}

// turnAbout returns the turn by angle about c.
func turnAbout(c orb.Point, angle float64) isometry {
	p := isometry{turn: angle}.point(c)
	return isometry{turn: angle, shift: orb.Point{c[0] - p[0], c[1] - p[1]}}
}

// mirrorIn returns the reflection in the line through a and b.
func mirrorIn(a, b orb.Point) isometry {
	m := isometry{mirrored: true, turn: 2*math.Atan2(b[1]-a[1], b[0]-a[0]) - math.Pi}
	p := m.point(a)
	m.shift = orb.Point{a[0] - p[0], a[1] - p[1]}
	return m
}

func randomIsometry(rng *rand.Rand, spread float64) isometry {
	return isometry{2 * math.Pi * rng.Float64(), rng.IntN(2) == 1,
		orb.Point{spread * (rng.Float64() - 0.5), spread * (rng.Float64() - 0.5)}}
}
