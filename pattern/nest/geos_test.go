package nest

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/patterntest"
)

// piece returns a piece by its outline, which is moved to the corner of its box and closed.
func piece(points ...orb.Point) Piece {
	b := orb.Ring(points).Bound()
	var r orb.Ring
	for _, v := range points {
		r = append(r, geometry.Sub(v, b.Min))
	}
	return Piece{Width: b.Max[0] - b.Min[0], Height: b.Max[1] - b.Min[1], Count: 1,
		Outline: []orb.Ring{append(r, r[0])}}
}

// times returns a piece wanted so often.
func (p Piece) times(n int) Piece {
	p.Count = n
	return p
}

var (
	triangle = piece(orb.Point{0, 0}, orb.Point{300, 0}, orb.Point{0, 200})
	corner   = piece(orb.Point{0, 0}, orb.Point{300, 0}, orb.Point{300, 100}, orb.Point{100, 100},
		orb.Point{100, 200}, orb.Point{0, 200})
	tee = piece(orb.Point{0, 0}, orb.Point{300, 0}, orb.Point{300, 100}, orb.Point{200, 100}, orb.Point{200, 200},
		orb.Point{100, 200}, orb.Point{100, 100}, orb.Point{0, 100})
)

// laidCase is what GEOS is asked about.
type laidCase struct {
	Stock  Stock      `json:"stock"`
	Pieces []Piece    `json:"pieces"`
	Sheets [][]Placed `json:"sheets"`
}

// geosSays fails where GEOS finds that pieces overlap, come nearer than the space or into the edge, by more than a
// hundredth of a micrometre, or that other areas lie on a sheet than Lies says.
func geosSays(t *testing.T, cases []laidCase) {
	t.Helper()
	got, err := patterntest.Ask[struct {
		Near, Into, Over float64
		Areas            []float64
	}]("testdata/lie.py", cases)
	if err != nil {
		t.Fatal(err)
	}
	for i, g := range got {
		c := cases[i]
		if g.Near > 1e-5 || g.Into > 1e-5 || g.Over > 1e-3 {
			t.Errorf("%+v, %d pieces: %+v", c.Stock, len(c.Pieces), g)
		}
		for k, s := range c.Sheets {
			area := 0.0
			for _, p := range s {
				for _, r := range p.Lies(c.Pieces[p.Piece]) {
					area += math.Abs(geometry.RingArea(r))
					if b := r.Bound(); b.Min[0] < p.At[0]-1e-6 || b.Max[0] > p.At[0]+p.Width+1e-6 ||
						b.Min[1] < p.At[1]-1e-6 || b.Max[1] > p.At[1]+p.Height+1e-6 {
						t.Errorf("%+v lies at %v", p, b)
					}
				}
			}
			if math.Abs(area-g.Areas[k]) > 1e-3 {
				t.Errorf("%g mm² lie on sheet %d, GEOS says %g", area, k, g.Areas[k])
			}
		}
	}
}

// wavy cuts a sheet into strips from left to right, and each from below up, along lines that wave, and returns the
// parts in that order.
func wavy(r *rand.Rand, wide, high float64, across, up int) []Piece {
	wave := func(length, amplitude float64) []float64 {
		shift, times := 2*math.Pi*r.Float64(), 1+2*r.Float64()
		out := make([]float64, 61)
		for i := range out {
			s := float64(i) / 60
			out[i] = amplitude * math.Sin(shift+2*math.Pi*times*s) * math.Min(1, 8*math.Min(s, 1-s))
		}
		return out
	}
	at := func(v []float64, s float64) float64 { // between 0 and 1
		k := min(int(60*s), 59)
		return v[k] + (v[k+1]-v[k])*(60*s-float64(k))
	}

	flat := make([]float64, 61)
	uprights := [][]float64{flat}
	for range across - 1 {
		uprights = append(uprights, wave(high, 12))
	}
	uprights = append(uprights, flat)
	var out []Piece
	for i := range across {
		below := flat
		x := func(k int, s float64) float64 { return float64(k)*wide/float64(across) + at(uprights[k], s) }
		for j := range up {
			above := flat
			if j < up-1 {
				above = wave(wide/float64(across), 12)
			}
			from, to := float64(j)/float64(up), float64(j+1)/float64(up)
			var ring []orb.Point
			for k := range 61 { // the lower side, to the right
				s := float64(k) / 60
				left, right := x(i, from), x(i+1, from)
				ring = append(ring, orb.Point{left + (right-left)*s, from*high + below[k]})
			}
			for k := 1; k < 60; k++ {
				s := from + (to-from)*float64(k)/60
				ring = append(ring, orb.Point{x(i+1, s), s * high})
			}
			for k := 60; k >= 0; k-- {
				s := float64(k) / 60
				left, right := x(i, to), x(i+1, to)
				ring = append(ring, orb.Point{left + (right-left)*s, to*high + above[k]})
			}
			for k := 59; k > 0; k-- {
				s := from + (to-from)*float64(k)/60
				ring = append(ring, orb.Point{x(i, s), s * high})
			}
			out = append(out, piece(ring...))
			below = above
		}
	}
	return out
}
