package geostest

import (
	"math"
	"math/rand/v2"

	"github.com/paulmach/orb"
)

// maxBytes is how many bytes FromBytes looks at: brute force has to keep up.
const maxBytes = 48

// FromBytes makes an outline of a fuzzer's bytes, some tens of mm across and not yet sure to be valid. The mode, by its
// remainder: 0 takes pairs of bytes for corners; 1 puts points along the edges of such a ring and shakes them by up to
// 0.02 mm; 2 takes bytes for distances from the middle, with a smooth curve between them; 3 shakes that curve.
// Coordinates lie on the grid of 1e-4 mm, and no point follows itself.
func FromBytes(mode byte, data []byte) orb.Ring {
	data = data[:min(len(data), maxBytes)]
	rng := rand.New(rand.NewPCG(uint64(mode), uint64(len(data))))
	shake := 0.0
	if mode%2 == 1 {
		shake = 0.02 * float64(mode) / 255
	}

	var r orb.Ring
	add := func(x, y float64) {
		p := orb.Point{OnGrid(x + shake*(2*rng.Float64()-1)), OnGrid(y + shake*(2*rng.Float64()-1))}
		if len(r) == 0 || p != r[len(r)-1] {
			r = append(r, p)
		}
	}
	if mode%4 >= 2 {
		const steps = 12
		n := len(data)
		for i := range n {
			a, b := float64(data[i]), float64(data[(i+1)%n])
			for k := range steps {
				t := float64(k) / steps
				d := 3 + (a+(b-a)*(1-math.Cos(math.Pi*t))/2)/12
				s, c := math.Sincos(2 * math.Pi * (float64(i) + t) / float64(n))
				add(d*c, d*s)
			}
		}
	} else {
		at := func(i int) orb.Point { return orb.Point{float64(int8(data[i])) / 8, float64(int8(data[i+1])) / 8} }
		for i := 0; i+1 < len(data); i += 2 {
			p := at(i)
			q := at((i + 2) % (len(data) &^ 1))
			steps := 1
			if mode%4 == 1 {
				steps = 1 + int(math.Hypot(q[0]-p[0], q[1]-p[1])/0.5)
			}
			for k := range steps {
				t := float64(k) / float64(steps)
				add(p[0]+t*(q[0]-p[0]), p[1]+t*(q[1]-p[1]))
			}
		}
	}

	for len(r) > 1 && r[0] == r[len(r)-1] {
		r = r[:len(r)-1]
	}
	if len(r) == 0 {
		return nil
	}
	return append(r, r[0])
}
