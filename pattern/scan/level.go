package scan

import (
	"math"

	"openwork/geometry/contour"
	"openwork/pattern/progress"
)

// The levelled picture holds how much ink is at each pixel: paperLevel for paper, inkLevel for ink.
const (
	paperLevel = 1 << 14
	inkLevel   = 3 << 14
)

// levelling takes the light out of a picture and smooths it, where that matters: within reach of the ink's edge. What
// lies clear of it, by the least and the greatest grey of blocks of levelStep pixels a side, is only known to be ink or
// paper.
type levelling struct {
	g       grey
	k       kernel
	level   float64
	columns int         // of blocks
	rows    int         // of blocks
	base    [][]float32 // of each row of blocks, at the knots between blocks …
	gain    [][]float32 // … levelled is base − gain·grey
	grid    contour.Grid[uint16]

	work, along []float32 // of a run of blocks: levelled, and smoothed along rows
}

// levelled returns the picture with the light taken out and smoothed, as 16-bit numbers between and somewhat beyond
// paperLevel and inkLevel: base − gain·grey, both computed at knots of a fine net and running straight between them
// along rows. In plain blocks it is 0 or 65535.
func levelled(g grey, l light, k kernel, level float64, report progress.Func) contour.Grid[uint16] {
	v := levelling{g: g, k: k, level: level, columns: (g.width + levelStep - 1) / levelStep,
		rows: (g.height + levelStep - 1) / levelStep}
	v.grid = contour.Grid[uint16]{Width: g.width, Height: g.height, Values: make([]uint16, len(g.v)),
		Outside: paperLevel, PlainSide: levelStep}
	v.knots(l)
	sides := v.sides()
	v.grid.Plain = make([]bool, len(sides))
	for k, s := range sides {
		v.grid.Plain[k] = s != edgeSide
	}
	for r := range v.rows {
		v.row(r, sides[r*v.columns:(r+1)*v.columns])
		report.Of(r+1, v.rows)
	}
	return v.grid
}

// knots computes base and gain. Rows are treated alike in rows of blocks: light does not change within one.
func (v *levelling) knots(l light) {
	for r := range v.rows {
		base, gain := make([]float32, v.columns+1), make([]float32, v.columns+1)
		fy := 2*(float64(min(r*levelStep+levelStep/2, v.g.height))+0.5)/float64(v.g.height) - 1
		for c := range base {
			fx := 2*(float64(c*levelStep)+0.5)/float64(v.g.width) - 1
			p := l.paper(fx, fy)
			k := (inkLevel - paperLevel) / math.Max(p-l.inkFor(p), minContrast/2)
			base[c], gain[c] = float32(paperLevel+p*k+0.5), float32(k)
		}
		v.base, v.gain = append(v.base, base), append(v.gain, gain)
	}
}

// Sides of the level that a block lies on, with all that is within reach of it.
const (
	edgeSide = iota
	paperSide
	inkSide
)

// sides tells the side of each block. A smoothed value lies within what there is around it, and beyond by no more than
// the kernel's negative weights allow.
func (v *levelling) sides() []uint8 {
	reach := (len(v.k)-1+1)/levelStep + 1 // blocks: what smoothing reaches, and one sample for the line itself
	lows, highs := v.extremes()
	lows, highs = v.spread(lows, reach, minOf), v.spread(highs, reach, maxOf)
	beyond := float32(v.k.negative())
	out := make([]uint8, len(lows))
	for k, lo := range lows {
		hi := highs[k]
		beside := beyond * (hi - lo)
		c, r := k%v.columns, k/v.columns
		border := c == 0 || r == 0 || c == v.columns-1 || r == v.rows-1 // next to the paper around the picture
		switch {
		case float64(hi+beside) < v.level-1:
			out[k] = paperSide
		case float64(lo-beside) > v.level+1 && !border:
			out[k] = inkSide
		}
	}
	return out
}

// extremes returns the least and the greatest value that each block may have when the light is taken out.
func (v *levelling) extremes() (lows, highs []float32) {
	lows, highs = make([]float32, v.columns*v.rows), make([]float32, v.columns*v.rows)
	lo, hi := make([]uint8, v.columns), make([]uint8, v.columns)
	for r := range v.rows {
		for c := range lo {
			lo[c], hi[c] = 255, 0
		}
		for y := r * levelStep; y < min((r+1)*levelStep, v.g.height); y++ {
			row := v.g.v[y*v.g.width : (y+1)*v.g.width]
			for c := range lo {
				from := c * levelStep
				low, high := lo[c], hi[c]
				for _, g := range row[from:min(from+levelStep, len(row))] {
					low, high = min(low, g), max(high, g)
				}
				lo[c], hi[c] = low, high
			}
		}
		base, gain := v.base[r], v.gain[r]
		for c := range lo {
			k := r*v.columns + c
			bright, dark := float32(hi[c]), float32(lo[c])
			lows[k] = clamped(min(base[c]-gain[c]*bright, base[c+1]-gain[c+1]*bright))
			highs[k] = clamped(max(base[c]-gain[c]*dark, base[c+1]-gain[c+1]*dark))
		}
	}
	return lows, highs
}

func minOf(a, b float32) float32 { return min(a, b) }
func maxOf(a, b float32) float32 { return max(a, b) }

// clamped keeps a value within 16 bits.
func clamped(v float32) float32 {
	switch { // min and max of floats are calls when compiled for the browser
	case v < 0:
		return 0
	case v > 65535:
		return 65535
	}
	return v
}

// spread gives each block the extreme of all blocks within reach, across corners too.
func (v *levelling) spread(of []float32, reach int, extreme func(a, b float32) float32) []float32 {
	along, out := make([]float32, len(of)), make([]float32, len(of))
	for k := range of {
		c, r := k%v.columns, k/v.columns
		e := of[k]
		for i := max(c-reach, 0); i <= min(c+reach, v.columns-1); i++ {
			e = extreme(e, of[r*v.columns+i])
		}
		along[k] = e
	}
	for k := range of {
		c, r := k%v.columns, k/v.columns
		e := along[k]
		for j := max(r-reach, 0); j <= min(r+reach, v.rows-1); j++ {
			e = extreme(e, along[j*v.columns+c])
		}
		out[k] = e
	}
	return out
}

// row fills one row of blocks, run by run of the same side.
func (v *levelling) row(r int, sides []uint8) {
	for c := 0; c < v.columns; {
		to := c + 1
		for to < v.columns && sides[to] == sides[c] {
			to++
		}
		x0, x1 := c*levelStep, min(to*levelStep, v.g.width)
		y0, y1 := r*levelStep, min((r+1)*levelStep, v.g.height)
		switch sides[c] {
		case edgeSide:
			v.smooth(x0, y0, x1, y1)
		case inkSide:
			for y := y0; y < y1; y++ {
				row := v.grid.Values[y*v.g.width+x0 : y*v.g.width+x1]
				for x := range row {
					row[x] = 65535
				}
			}
		} // paper is 0, as made
		c = to
	}
}

// smooth takes the light out of a part of the picture and applies the kernel along rows and columns. Around the picture
// its edge pixels go on.
func (v *levelling) smooth(x0, y0, x1, y1 int) {
	n := len(v.k) - 1
	width, wide, tall := x1-x0, x1-x0+2*n, y1-y0+2*n
	v.along = grown(v.along, width*tall)
	v.work = grown(v.work, wide)
	for j := range tall {
		v.levelRow(min(max(y0-n+j, 0), v.g.height-1), x0-n, v.work)
		convolve(v.along[j*width:(j+1)*width], v.work, 1, v.k)
	}
	v.work = grown(v.work, width)
	for j := range y1 - y0 {
		convolve(v.work, v.along[j*width:(j+2*n+1)*width], width, v.k)
		dst := v.grid.Values[(y0+j)*v.g.width+x0 : (y0+j)*v.g.width+x1]
		for x, s := range v.work[:len(dst)] {
			dst[x] = uint16(clamped(s + 0.5))
		}
	}
}

// grown returns a slice of this length, the same one where it has the room.
func grown(v []float32, n int) []float32 {
	if cap(v) < n {
		return make([]float32, n)
	}
	return v[:n]
}

// levelRow takes the light out of a part of a row, from x on, which may begin or end outside the picture.
func (v *levelling) levelRow(y, x int, out []float32) {
	w := v.g.width
	row := v.g.v[y*w : (y+1)*w]
	base, gain := v.base[y/levelStep], v.gain[y/levelStep]
	first, last := max(x, 0), min(x+len(out), w)
	for from := first; from < last; {
		c := from / levelStep
		to := min((c+1)*levelStep, last)
		b, k := base[c], gain[c]
		db, dk := (base[c+1]-b)/levelStep, (gain[c+1]-k)/levelStep
		at := float32(from - c*levelStep)
		b, k = b+at*db, k+at*dk
		dst := out[from-x : to-x]
		for i, g := range row[from:to] {
			dst[i] = clamped(b - float32(g)*k)
			b += db
			k += dk
		}
		from = to
	}

	for i := range first - x {
		out[i] = out[first-x]
	}
	for i := last - x; i < len(out); i++ {
		out[i] = out[last-x-1]
	}
}

// convolve writes into dst the kernel applied to src, whose samples that belong together lie step apart: dst[x] has its
// middle at src[x + step·(len(k) − 1)].
func convolve(dst, src []float32, step int, k kernel) {
	n := len(k) - 1
	middle := src[n*step : n*step+len(dst)]
	w := float32(k[0])
	for x, m := range middle {
		dst[x] = w * m
	}
	for i := 1; i <= n; i++ {
		w := float32(k[i])
		before, after := src[(n-i)*step:(n-i)*step+len(dst)], src[(n+i)*step:(n+i)*step+len(dst)]
		for x, b := range before {
			dst[x] += w * (b + after[x])
		}
	}
}
