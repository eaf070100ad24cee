package overlay

import "math"

// vertices holds points of the grid and finds the one near a given point.
type vertices struct {
	pts   []point
	table []int32 // hashed by cell, open addressing: index + 1, 0 for a free place
}

// cellSize in steps: a neighbour within snapSteps is nearly always in the same cell.
const cellSize = 256

func newVertices(n int) *vertices {
	size := 16
	for size < 2*n {
		size *= 2
	}
	return &vertices{pts: make([]point, 0, n), table: make([]int32, size)}
}

func cellOf(v float64) int64 { return int64(math.Floor(v / cellSize)) }

func hashPair(a, b uint64) uint64 {
	h := a*0x9E3779B97F4A7C15 ^ b*0xC2B2AE3D27D4EB4F
	h ^= h >> 29
	h *= 0xBF58476D1CE4E5B9
	return h ^ h>>32
}

// at returns the index of the nearest point held within reach of p; where there is none, p itself is added.
func (v *vertices) at(p point, reach float64) int32 {
	x0, x1 := cellOf(p.x-reach), cellOf(p.x+reach)
	y0, y1 := cellOf(p.y-reach), cellOf(p.y+reach)
	best, bestD := int32(-1), reach*reach
	mask := uint64(len(v.table) - 1)
	for cx := x0; cx <= x1; cx++ {
		for cy := y0; cy <= y1; cy++ {
			for k := hashPair(uint64(cx), uint64(cy)) & mask; v.table[k] != 0; k = (k + 1) & mask {
				i := v.table[k] - 1
				q := v.pts[i]
				if d := (q.x-p.x)*(q.x-p.x) + (q.y-p.y)*(q.y-p.y); d < bestD || (d == bestD && best < 0) {
					best, bestD = i, d
				}
			}
		}
	}

	if best >= 0 {
		return best
	}
	v.pts = append(v.pts, p)
	if 2*len(v.pts) > len(v.table) {
		v.table = make([]int32, 2*len(v.table))
		for i := range v.pts {
			v.enter(int32(i))
		}
	} else {
		v.enter(int32(len(v.pts) - 1))
	}
	return int32(len(v.pts) - 1)
}

func (v *vertices) enter(i int32) {
	mask := uint64(len(v.table) - 1)
	p := v.pts[i]
	k := hashPair(uint64(cellOf(p.x)), uint64(cellOf(p.y))) & mask
	for v.table[k] != 0 {
		k = (k + 1) & mask
	}
	v.table[k] = i + 1
}
