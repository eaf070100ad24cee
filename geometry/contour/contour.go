// Package contour follows lines of equal value through a grid of samples, between the samples: sub-pixel outlines of
// what is high.
//
// Sample k of row j lies at (k, j) in grid units, and y grows with j: the first row is the lowest. Around the grid lies
// an endless border of one value, so that every line closes. In each square of four neighbouring samples a line runs
// straight between points interpolated linearly on the square's sides. Where two opposite corners are high and the
// other two low, the mean of the four decides whether the high ones are joined; each square is decided by itself and
// alike from whichever side it is entered, so lines never cross.
//
// Time grows with the number of samples plus the points of all lines; memory beside the grid is one bit a sample and
// the points of one line.
package contour

import (
	"errors"
	"math"

	"github.com/paulmach/orb"
)

// Sample is what a grid may hold.
type Sample interface {
	~uint8 | ~uint16 | ~float32 | ~float64
}

// Grid is Width × Height samples, row by row, the lowest row first.
type Grid[T Sample] struct {
	Width, Height int
	Values        []T
	Outside       T // of all points that are not in the grid

	// Plain, where it is not nil, says which blocks of PlainSide × PlainSide samples, row by row from the first sample
	// on and the last ones cut off by the grid's edge, no line comes near: all their samples and all that are
	// neighbours of these, across a corner too, lie on one side of the level. Such blocks are passed over.
	Plain     []bool
	PlainSide int
}

// plainColumns returns how many blocks lie beside each other.
func (g Grid[T]) plainColumns() int { return (g.Width + g.PlainSide - 1) / g.PlainSide }

// Walk calls yield with each line at the given level, one after another, as a closed ring (the last point repeats the
// first), until yield returns false. What is high (value ≥ level) lies to the left: outer rings run counter-clockwise,
// holes clockwise. Rings touch neither themselves nor each other. The ring is only valid during the call; area is its
// signed area in square grid units.
//
// A ring comes before every ring inside it. Nest finds which lies in which.
//
// A grid whose Values or Plain do not fit its size, or a level that is not a number, is an error. A border of high
// value is an error too, as its line would not close.
func Walk[T Sample](g Grid[T], level float64, yield func(ring orb.Ring, area float64) bool) error {
	switch {
	case g.Width < 0 || g.Height < 0 || len(g.Values) != g.Width*g.Height:
		return errors.New("the grid's values do not fit its width and height")
	case g.Plain != nil && (g.PlainSide < 1 || len(g.Plain) != g.plainColumns()*((g.Height+g.PlainSide-1)/g.PlainSide)):
		return errors.New("the grid's plain blocks do not fit its width and height")
	case math.IsNaN(level):
		return errors.New("the level is not a number")
	case float64(g.Outside) >= level:
		return errors.New("the border around the grid is not below the level")
	}
	w := &walker[T]{Grid: g, level: level, seen: make([]uint64, ((g.Width+1)*g.Height+63)/64)}
	for j := range g.Height {
		if !w.row(j, yield) {
			return nil
		}
	}
	return nil
}

// row follows the lines that are first met in row j. It returns false when yield does.
func (w *walker[T]) row(j int, yield func(ring orb.Ring, area float64) bool) bool {
	row := w.Values[j*w.Width : (j+1)*w.Width]
	side, plain := w.Width, []bool(nil)
	if w.Plain != nil {
		side = w.PlainSide
		n := w.plainColumns()
		plain = w.Plain[j/side*n : (j/side+1)*n]
	}
	low := true
	for c, from := 0, 0; from < w.Width; c, from = c+1, from+side {
		to := min(from+side, w.Width)
		if plain != nil && plain[c] {
			low = float64(row[to-1]) < w.level
			continue
		}
		for i, v := range row[from:to] {
			high := float64(v) >= w.level
			if high && low && !w.visited(from+i, j) {
				w.follow(from+i, j)
				if !yield(w.ring, w.area()) {
					return false
				}
			}
			low = !high
		}
	}
	return true
}

// walker follows one line at a time. A line is started, and known again, by where it crosses a row from low to high:
// crossing (i, j) lies between the samples i−1 and i of row j. Every ring has one: round what is high at its left end,
// round a hole at its right.
type walker[T Sample] struct {
	Grid[T]
	level float64
	seen  []uint64 // one bit for each crossing
	ring  orb.Ring
}

func (w *walker[T]) visited(i, j int) bool {
	k := j*(w.Width+1) + i
	return w.seen[k/64]&(1<<(k%64)) != 0
}

func (w *walker[T]) at(i, j int) float64 {
	if i < 0 || j < 0 || i >= w.Width || j >= w.Height {
		return float64(w.Outside)
	}
	return float64(w.Values[j*w.Width+i])
}

// The sides of a square.
const (
	bottom = iota
	right
	top
	left
)

// follow writes the line through crossing (i, j) into w.ring. High lies to the left of the way, so a row crossed from
// low to high is crossed downward: the first square entered is the one below the crossing, through its top.
func (w *walker[T]) follow(i, j int) {
	w.ring = w.ring[:0]
	// The square (x, y) has its lower left corner at sample (x, y).
	x, y, from := i-1, j-1, top
	a, b, c, d := w.at(x, y), w.at(x+1, y), w.at(x+1, y+1), w.at(x, y+1) // counter-clockwise from the lower left
	for {                                                                // ends: a line passes a side of a square once
		if from == top {
			k := (y+1)*(w.Width+1) + x + 1
			w.seen[k/64] |= 1 << (k % 64)
			w.ring = append(w.ring, orb.Point{float64(x) + w.between(d, c), float64(y + 1)})
		}
		to := w.leave(a, b, c, d, from)
		switch to {
		case bottom:
			y--
			c, d = b, a
			a, b = w.at(x, y), w.at(x+1, y)
			from = top
		case right:
			w.ring = append(w.ring, orb.Point{float64(x + 1), float64(y) + w.between(b, c)})
			x++
			a, d = b, c
			b, c = w.at(x+1, y), w.at(x+1, y+1)
			from = left
		case top:
			w.ring = append(w.ring, orb.Point{float64(x) + w.between(d, c), float64(y + 1)})
			y++
			a, b = d, c
			c, d = w.at(x+1, y+1), w.at(x, y+1)
			from = bottom
		case left:
			w.ring = append(w.ring, orb.Point{float64(x), float64(y) + w.between(a, d)})
			x--
			b, c = a, d
			a, d = w.at(x, y), w.at(x, y+1)
			from = right
		}
		if from == top && x == i-1 && y == j-1 {
			break
		}
	}
	w.ring = append(w.ring, w.ring[0])
}

// leave returns the side through which the line that entered a square leaves it, high to its left: it turns towards
// whichever neighbouring side it meets first. a, b, c, d are the corners counter-clockwise from the lower left.
func (w *walker[T]) leave(a, b, c, d float64, from int) int {
	// Side s lies between corners s and s+1. Coming in through side from, corner from is near on the left and high,
	// corner from+1 near on the right and low.
	corners := [4]float64{a, b, c, d}
	farLeft, farRight := corners[(from+3)%4] >= w.level, corners[(from+2)%4] >= w.level
	switch {
	case farLeft && farRight:
		return (from + 1) % 4
	case !farLeft && !farRight:
		return (from + 3) % 4
	case farLeft:
		return (from + 2) % 4
	}
	// High on the left near and on the right far: the two are joined, or not.
	if (a+b+c+d)/4 >= w.level {
		return (from + 1) % 4
	}
	return (from + 3) % 4
}

// between returns how far along a side from p to q the level is met.
func (w *walker[T]) between(p, q float64) float64 {
	t := (w.level - p) / (q - p)
	switch {
	case !(t > cornerClearance): // infinite values and those that are not numbers end here
		return cornerClearance
	case t > 1-cornerClearance:
		return 1 - cornerClearance
	}
	return t
}

// area returns the signed area of the ring, about its first point.
func (w *walker[T]) area() float64 {
	o, sum := w.ring[0], 0.0
	for k := 1; k+1 < len(w.ring); k++ {
		p, q := w.ring[k], w.ring[k+1]
		sum += (p[0]-o[0])*(q[1]-o[1]) - (q[0]-o[0])*(p[1]-o[1])
	}
	return sum / 2
}
