package scan

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
)

// jittered is a ring whose points are moved by a random wave of an amplitude in mm, waves of about this length.
func jittered(r orb.Ring, amplitude, wave float64, seed int64) orb.Ring {
	rng := rand.New(rand.NewSource(seed))
	var phase, turns [8]float64
	for k := range phase {
		phase[k], turns[k] = 2*math.Pi*rng.Float64(), (0.7+0.6*rng.Float64())/wave
	}
	out, s := slices.Clone(r), 0.0
	n := len(r) - 1
	for k := range n {
		p, q := r[(k+n-1)%n], r[(k+1)%n]
		dx, dy := q[0]-p[0], q[1]-p[1]
		d := math.Hypot(dx, dy)
		h := 0.0
		for i := range phase {
			h += math.Sin(2*math.Pi*turns[i]*s + phase[i])
		}
		h *= amplitude / 2.5 // of eight waves at random phases the most is about that
		out[k] = orb.Point{r[k][0] - dy/d*h, r[k][1] + dx/d*h}
		s += math.Hypot(r[k+1][0]-r[k][0], r[k+1][1]-r[k][1])
	}
	out[n] = out[0]
	return out
}

// roughness is the sum of all turns of an outline's corners less a full one, in radians: 0 for what is convex.
func roughness(r orb.Ring) float64 {
	n, sum := len(r)-1, 0.0
	for k := range n {
		p, q, s := r[(k+n-1)%n], r[k], r[k+1]
		ux, uy, vx, vy := q[0]-p[0], q[1]-p[1], s[0]-q[0], s[1]-q[1]
		sum += math.Abs(math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy))
	}
	return sum - 2*math.Pi
}

func TestSmoothingRoundsJitterAndKeepsCorners(t *testing.T) {
	const seed, size = 4, 0.3
	// Dense, so that its sides can jitter.
	var square orb.Ring
	corners := []orb.Point{{8, 8}, {38, 10}, {36, 37}, {7, 35}}
	for k, a := range corners {
		b := corners[(k+1)%4]
		for i := range 300 {
			f := float64(i) / 300
			square = append(square, orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])})
		}
	}
	square = append(square, square[0])
	for _, c := range []struct {
		name    string
		ring    orb.Ring
		corners []orb.Point
	}{{"disc", outlinetest.Circle(22, 22, 15), nil}, {"square", square, corners}} {
		drawn := orb.MultiPolygon{{jittered(c.ring, 0.15, 1.5, seed)}}
		data := outlinetest.PngOf(outlinetest.SheetOf(drawn, 44, 44, 300, 240, 30, 3))
		rough, err := Read(data, "", outline.Options{DPI: 300})
		if err != nil {
			t.Fatal(err)
		}
		even, err := Read(data, "", outline.Options{DPI: 300, SmoothingMM: size})
		if err != nil {
			t.Fatal(err)
		}
		outlinetest.Sound(t, c.name, outlinetest.Whole(even), false)
		before, after := roughness(outlinetest.Whole(rough)[0][0]), roughness(outlinetest.Whole(even)[0][0])
		moved := outlinetest.Farthest(outlinetest.Whole(even), outlinetest.Whole(rough), 0.02)
		toTrue, was := outlinetest.Farthest(outlinetest.Whole(even), orb.MultiPolygon{{c.ring}}, 0.02),
			outlinetest.Farthest(outlinetest.Whole(rough), orb.MultiPolygon{{c.ring}}, 0.02)
		miss := outlinetest.CornerMiss(c.corners, outlinetest.Whole(even))
		t.Logf("%s, seed %d: turns %.1f → %.1f rad, moved %.3f mm, from the true shape %.3f → %.3f mm, corners %.3f "+
			"mm off, area %.4f",
			c.name, seed, before, after, moved, was, toTrue, miss,
			geometry.Area(outlinetest.Whole(even))/geometry.Area(orb.MultiPolygon{{c.ring}})-1)
		if after > before/4 || moved > size+2*outline.DefaultTolerance || toTrue > 0.75*was || miss > was+0.05 {
			t.Errorf("%s is not smoothed as it should be", c.name)
		}
	}
	// What is smooth stays.
	clean := orb.MultiPolygon{{square}}
	r, err := Read(outlinetest.PngOf(outlinetest.SheetOf(clean, 44, 44, 300, 240, 30, 3)), "",
		outline.Options{DPI: 300, SmoothingMM: size})
	if err != nil || outlinetest.Farthest(outlinetest.Whole(r), clean, 0.02) > 0.08 ||
		outlinetest.CornerMiss(corners, outlinetest.Whole(r)) > 0.12 {
		t.Errorf("a clean square is moved by %.3f mm, its corners by %.3f (%v)",
			outlinetest.Farthest(outlinetest.Whole(r), clean, 0.02),
			outlinetest.CornerMiss(corners, outlinetest.Whole(r)), err)
	}
}
