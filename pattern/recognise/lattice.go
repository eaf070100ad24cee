package recognise

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// refineLattice goes on to the finest lattice that carries the set to itself. A finer lattice has a vector of prime
// order modulo the one at hand, and that order divides the number of pieces; each found divides that number, so this
// ends.
func (f *field) refineLattice() {
	for f.divide() {
	}
}

// divide looks for a translation of prime order modulo the lattice and takes it in; false when there is none.
func (f *field) divide() bool {
	a, like := f.anchor()
	for _, p := range primesOf(len(f.pieces)) {
		for _, q := range like {
			// The translation must be a p-th part of a lattice vector; the anchor's way to q says which.
			x := f.basis.fraction(geometry.Sub(f.pieces[q].at, f.pieces[a].at))
			s := orb.Point{math.Round(x[0] * float64(p)), math.Round(x[1] * float64(p))}
			if math.Mod(s[0], float64(p)) == 0 && math.Mod(s[1], float64(p)) == 0 {
				continue
			}
			t := f.basis.at(times(1/float64(p), s))
			if geometry.PointDistance(t, f.basis.at(x)) > centreSlack {
				continue
			}
			to, ok := f.carries(translation(t))
			if !ok {
				continue
			}
			if kept, ok := f.oneOfEach(to, p); ok {
				f.keep(f.basis.divided(p, [2]int{int(s[0]), int(s[1])}), kept)
				return true
			}
		}
	}
	return false
}

// oneOfEach returns a piece of each cycle of a permutation, all of which must have p pieces.
func (f *field) oneOfEach(to []int, p int) (kept []piece, ok bool) {
	seen := make([]bool, len(to))
	for i := range to {
		if seen[i] {
			continue
		}
		n := 0
		for j := i; !seen[j]; j = to[j] {
			seen[j] = true
			n++
		}
		if n != p {
			return nil, false
		}
		kept = append(kept, f.pieces[i])
	}
	return kept, true
}

// primesOf returns the primes that divide n, smallest first.
func primesOf(n int) []int {
	var out []int
	for p := 2; p*p <= n; p++ {
		if n%p == 0 {
			out = append(out, p)
			for n%p == 0 {
				n /= p
			}
		}
	}
	if n > 1 {
		out = append(out, n)
	}
	return out
}
