package evenness

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// maxDirection bounds the lattice directions that are looked along. Rows along a direction of larger numbers lie closer
// than any opening is wide, unless openings are tiny in a large cell.
const maxDirection = 8

// Alley returns the widest straight corridor that meets no opening; false where there is none. A corridor that goes
// on for ever runs along a lattice direction, for along any other the openings of a field lie everywhere across it.
// Openings are thrown on the line across the direction, modulo the distance of its rows; the widest part that none
// covers is it.
func Alley(l *pattern.Layout) (Street, bool) {
	best, found := Street{}, false
	area := l.Cell.Area()
	for m := 0; m <= maxDirection; m++ {
		for n := -maxDirection; n <= maxDirection; n++ {
			if geometry.GCD(m, n) != 1 || m == 0 && n < 0 || m > 0 && n == 0 && m != 1 {
				continue
			}
			v := l.Lattice(m, n)
			length := dist(v)
			rows := area / length
			if found && rows <= best.To-best.From {
				continue
			}
			normal := orb.Point{-v[1] / length, v[0] / length}
			if s, ok := gap(l, normal, rows); ok && (!found || s.To-s.From > best.To-best.From) {
				best, found = s, true
			}
		}
	}
	return best, found
}

// minAlley in mm: what is narrower is nothing that one sees.
const minAlley = 1e-6

// gap returns the widest part across a direction, of one row's height, that no opening covers.
func gap(l *pattern.Layout, normal orb.Point, rows float64) (Street, bool) {
	var covered [][2]float64
	for _, o := range l.Orbits {
		for _, image := range o.Images {
			from, to := math.Inf(1), math.Inf(-1)
			at := geometry.Dot(image.At, normal)
			for _, p := range image.Shape.Outline() {
				for _, q := range p[0] {
					d := geometry.Dot(q, normal)
					from, to = min(from, d), max(to, d)
				}
			}
			if to-from >= rows {
				return Street{}, false
			}
			from, to = from+at, to+at
			back := rows * math.Floor(from/rows)
			covered = append(covered, [2]float64{from - back, to - back})
		}
	}
	if len(covered) == 0 {
		return Street{}, false
	}
	slices.SortFunc(covered, func(a, b [2]float64) int {
		if a[0] < b[0] {
			return -1
		}
		return 1
	})
	best, reach := Street{Normal: normal}, math.Inf(-1)
	for _, c := range covered {
		reach = max(reach, c[1]-rows) // what the last ones cover of the next row
	}
	for _, c := range covered {
		if c[0]-reach > best.To-best.From {
			best.From, best.To = reach, c[0]
		}
		reach = max(reach, c[1])
	}
	return best, best.To-best.From > minAlley
}
