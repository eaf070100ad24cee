package main

import (
	"fmt"
	"math"
)

// drawing is one silhouette: its Bézier pieces and the ring cut from them, in mm, y up, about its own frame's origin.
type drawing struct {
	id, name string
	pieces   []cubic
	ring     []point // counter-clockwise, closed: first equals last
}

const (
	flatness = 0.008 // mm; how near the chords lie to the curve before the ring is thinned
	grain    = 100   // coordinates are whole hundredths of a millimetre
)

// finish closes a curve into a drawing: counter-clockwise, centred, rounded, thinned
// as little as leaves at most limit points.
func finish(id, name string, pieces []cubic, centre func([]point) point, limit int) (drawing, error) {
	ring := flatten(pieces)
	if area(ring) < 0 {
		pieces = reversed(pieces)
		ring = flatten(pieces)
	}
	c := centre(ring)
	for i := range pieces {
		for j := range pieces[i] {
			pieces[i][j] = rounded(pieces[i][j].minus(c))
		}
	}
	ring = within(flatten(pieces), limit)
	for i := range ring {
		ring[i] = rounded(ring[i])
	}
	ring = distinct(ring)
	if i, j, bad := selfCrossing(ring); bad {
		return drawing{}, fmt.Errorf("%s: side %d crosses side %d near %.2f, %.2f; move the knots apart", id, i, j,
			ring[i].x, ring[i].y)
	}
	return drawing{id, name, pieces, ring}, nil
}

func rounded(p point) point {
	return point{math.Round(p.x*grain)/grain + 0, math.Round(p.y*grain)/grain + 0}
}

func reversed(pieces []cubic) []cubic {
	out := make([]cubic, len(pieces))
	for i, c := range pieces {
		out[len(pieces)-1-i] = cubic{c[3], c[2], c[1], c[0]}
	}
	return out
}

// flatten cuts the pieces of a closed curve into a ring of chords.
func flatten(pieces []cubic) []point {
	ring := openRing(pieces)
	ring[len(ring)-1] = ring[0]
	return ring
}

// openRing cuts the pieces into chords.
func openRing(pieces []cubic) []point {
	ring := []point{pieces[0][0]}
	for _, c := range pieces {
		// Chords of n equal steps stray at most max|B''|/(8 n²) from the curve.
		bend := 6 * math.Max(c[0].minus(c[1].times(2)).plus(c[2]).length(),
			c[1].minus(c[2].times(2)).plus(c[3]).length())
		n := max(1, int(math.Ceil(math.Sqrt(bend/8/flatness))))
		for i := 1; i <= n; i++ {
			ring = append(ring, c.at(float64(i)/float64(n)))
		}
	}
	return ring
}

// area is the signed area in mm², positive counter-clockwise.
func area(ring []point) float64 {
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		sum += cross(ring[i-1], ring[i])
	}
	return sum / 2
}

// centroid is the centre of the ring's area.
func centroid(ring []point) point {
	var c point
	for i := 1; i < len(ring); i++ {
		c = c.plus(ring[i-1].plus(ring[i]).times(cross(ring[i-1], ring[i])))
	}
	return c.times(1 / (6 * area(ring)))
}

// within thins a ring until it has at most limit points, loosening by a twentieth from the tightest tolerance.
func within(ring []point, limit int) []point {
	out := ring
	for tolerance := flatness; len(out)-1 > limit && tolerance < 1; tolerance *= 1.05 {
		out = thin(ring, tolerance)
	}
	return out
}

// thin draws the longest chords, from the first point on, that stay within tolerance (mm) of the ring.
func thin(ring []point, tolerance float64) []point {
	out := ring[:1:1]
	for i := 0; i < len(ring)-1; {
		j := i + 1
		for j+1 < len(ring) && near(ring[i:j+2], tolerance) {
			j++
		}
		out = append(out, ring[j])
		i = j
	}
	return out
}

// near tells whether every point between the first and the last lies within tolerance of the chord between them.
func near(run []point, tolerance float64) bool {
	a, b := run[0], run[len(run)-1]
	if a.to(b) == 0 {
		return false
	}
	for _, p := range run[1 : len(run)-1] {
		if toSide(p, a, b) > tolerance {
			return false
		}
	}
	return true
}

// toSide is the distance in mm from p to the stretch a–b.
func toSide(p, a, b point) float64 {
	v, w := b.minus(a), p.minus(a)
	l := v.x*v.x + v.y*v.y
	if l == 0 {
		return w.length()
	}
	t := math.Max(0, math.Min(1, (w.x*v.x+w.y*v.y)/l))
	return w.minus(v.times(t)).length()
}

func distinct(ring []point) []point {
	out := ring[:1]
	for _, p := range ring[1:] {
		if p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	return out
}

// selfCrossing looks for two sides that meet elsewhere than at a shared end, every side against every other.
func selfCrossing(ring []point) (int, int, bool) {
	n := len(ring) - 1
	for i := 0; i < n; i++ {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if meet(ring[i], ring[i+1], ring[j], ring[j+1]) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

func meet(a, b, c, d point) bool {
	side := func(p, q, r point) float64 { return cross(q.minus(p), r.minus(p)) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return true
	}
	return toSide(c, a, b) == 0 || toSide(d, a, b) == 0 || toSide(a, c, d) == 0 || toSide(b, c, d) == 0
}

// finishMirrored closes a drawing whose left half is the mirror image of its right half, given from the top of the
// axis to its foot; the frame's y is centred on the area, and x = 0 stays the axis.
func finishMirrored(id, name string, half []cubic, limit int) (drawing, error) {
	c := rounded(centroid(flatten(joined(half))))
	c.x = 0
	for i := range half {
		for j := range half[i] {
			half[i][j] = rounded(half[i][j].minus(c))
		}
	}
	right := openRing(half)
	tolerance := flatness
	thinned := right
	for ; 2*(len(thinned)-1) > limit && tolerance < 1; tolerance *= 1.05 {
		thinned = thin(right, tolerance)
	}
	var ring []point
	for _, p := range thinned {
		ring = append(ring, rounded(flip(p)))
	}
	for i := len(thinned) - 2; i >= 0; i-- {
		ring = append(ring, rounded(thinned[i]))
	}
	if i, j, bad := selfCrossing(ring); bad {
		return drawing{}, fmt.Errorf("%s: side %d crosses side %d near %.2f, %.2f; move the knots apart", id, i, j,
			ring[i].x, ring[i].y)
	}
	return drawing{id, name, reversed(joined(half)), ring}, nil
}
