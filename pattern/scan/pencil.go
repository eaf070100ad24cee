package scan

import (
	"fmt"
	"math"
	"sort"

	"openwork/geometry/contour"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// What a sample of a drawing of lines is.
const (
	bareFace   = iota // surrounded by no line, or by an even number of them
	filledFace        // surrounded by an odd number of closed lines that do not touch each other
	onLine
)

// closedLines returns the outlines of what the lines of a drawing surround, from the outlines of the lines themselves.
//
// Each face between the lines is filled or bare by the number of connected pieces of line around it. The ink of the
// lines is then shared out: what is nearer to a filled face than to a bare one belongs to it. So the outline runs along
// the middle of a line with a bare face on one side and a filled one on the other, and nowhere else: lines that end
// freely or part what is filled leave no trace. At a sharp corner of the line the middle is rounded off: at an angle φ
// it is (1/sin(φ/2) − 1)/4 of the line's width short of where the line turned, a quarter of it at 60°.
func (t *lines) closedLines(r *outline.Result, g contour.Grid[uint16], level float64, scale [2]float64,
	o outline.Options) (lines, error) {
	quiet := o
	quiet.Progress = nil // which has come past following lines already
	if gap := o.GapMM / ((scale[0] + scale[1]) / 2); gap > 0 {
		n := t.closeGaps(g, gap)
		if n > 0 {
			r.Left = append(r.Left, fmt.Sprintf("%s of up to %.3g mm in a line closed.", outline.Count(n, "gap"),
				o.GapMM))
			again := lines{specks: t.specks, pinholes: t.pinholes}
			if err := again.follow(g, level, scale, quiet); err != nil {
				return again, err
			}
			*t = again
		}
	}

	r.Gaps = t.openGaps(scale, r.Frame)
	p := pencil{lines: t, width: g.Width, height: g.Height}
	open := p.sort(o)
	if open > 0 {
		what := fmt.Sprintf("%s that close nothing", outline.Count(open, "line"))
		if open == 1 {
			what = "1 line that closes nothing"
		}
		r.Left = append(r.Left, what+" left out.")
	}
	p.faces()
	report := o.Progress.Within(partFollowed, partPencil)
	report.At(1. / 4)
	near := [2][]int32{bareFace: p.nearest(bareFace)}
	report.At(1. / 2)
	near[filledFace] = p.nearest(filledFace)
	report.At(3. / 4)
	out := lines{specks: t.specks, pinholes: t.pinholes}
	field := contour.Grid[uint16]{Width: g.Width, Height: g.Height, Values: make([]uint16, len(p.face))}
	for k, face := range p.face {
		d := float64(-clearOfLine)
		switch face {
		case filledFace:
			d = clearOfLine
		case onLine:
			x, y := float64(k%g.Width), float64(k/g.Width)
			d = p.distance(near[bareFace][k], x, y) - p.distance(near[filledFace][k], x, y)
			d = math.Max(-clearOfLine, math.Min(clearOfLine, d))
		}
		field.Values[k] = uint16(middleOfLine + middleOfLine/2*d/clearOfLine)
	}
	return out, out.follow(field, middleOfLine, scale, quiet)
}

// pencil are the lines of a drawing and the faces between them.
type pencil struct {
	*lines
	width, height int
	kept          []bool  // of rings
	beside        []uint8 // of rings: the face on the side that is not ink
	face          []uint8 // of samples
	points        []orb.Point
}

// sort drops specks and pinholes, finds for each ring the face beside it, and returns how many pieces of line close
// nothing.
func (p *pencil) sort(o outline.Options) (open int) {
	parent := contour.Nest(p.rings)
	order := make([]int, len(p.rings))
	for k := range order {
		order[k] = k
	}
	sort.SliceStable(order, func(i, j int) bool { return math.Abs(p.area[order[i]]) > math.Abs(p.area[order[j]]) })
	p.kept, p.beside = make([]bool, len(p.rings)), make([]uint8, len(p.rings))
	depth := make([]int, len(p.rings)) // how many pieces of line are around what is within the ring
	closes := make([]bool, len(p.rings))
	for _, k := range order { // a ring after the one around it
		up := parent[k]
		if up >= 0 && !p.kept[up] || p.small(p.area[k], o) {
			continue
		}
		p.kept[k] = true
		if p.area[k] > 0 {
			if up >= 0 {
				depth[k] = depth[up]
			}
			p.beside[k] = uint8(depth[k] % 2)
			depth[k]++
		} else {
			depth[k] = depth[up]
			p.beside[k] = uint8(depth[k] % 2)
			closes[up] = true
		}
	}

	for k := range p.rings {
		if p.kept[k] && p.area[k] > 0 && !closes[k] {
			open++
		}
	}
	return open
}

// rowCrossing is where a ring crosses a row of samples.
type rowCrossing struct {
	y      int
	x      float64
	ring   int
	rising bool // ink is to the right
}

// faces finds what each sample is, row by row from one crossing to the next.
func (p *pencil) faces() {
	var all []rowCrossing
	for k, r := range p.rings {
		if !p.kept[k] {
			continue
		}
		for i, v := range r[:len(r)-1] {
			if v[1] == math.Floor(v[1]) && v[0] != math.Floor(v[0]) {
				all = append(all, rowCrossing{int(v[1]), v[0], k, r[i+1][1] < v[1]})
			}
		}
	}

	sort.Slice(all, func(i, j int) bool { return all[i].y < all[j].y || all[i].y == all[j].y && all[i].x < all[j].x })
	p.face = make([]uint8, p.width*p.height)
	for len(all) > 0 {
		y, x, now := all[0].y, 0, uint8(bareFace)
		row := p.face[y*p.width : (y+1)*p.width]
		for len(all) > 0 && all[0].y == y {
			c := all[0]
			all = all[1:]
			for ; x < p.width && float64(x) < c.x; x++ {
				row[x] = now
			}
			if now = p.beside[c.ring]; c.rising {
				now = onLine
			}
		}
		for ; x < p.width; x++ {
			row[x] = now
		}
	}
}

// nearest returns for each sample on a line which of p.points, of those on the side of a face, is nearest, −1 where
// none is known. Nearest points are handed on from sample to sample, as in P.-E. Danielsson, "Euclidean distance
// mapping", Computer Graphics and Image Processing 14 (1980); a point may be missed for one hardly farther.
func (p *pencil) nearest(face uint8) []int32 {
	near := make([]int32, len(p.face))
	for k := range near {
		near[k] = -1
	}
	offer := func(k int, n int32) {
		x, y := float64(k%p.width), float64(k/p.width)
		if p.distance(n, x, y) < p.distance(near[k], x, y) {
			near[k] = n
		}
	}
	for k, r := range p.rings {
		if !p.kept[k] || p.beside[k] != face {
			continue
		}
		for _, v := range r[:len(r)-1] {
			n := int32(len(p.points))
			p.points = append(p.points, v)
			for _, at := range [2][2]int{{int(math.Floor(v[0])), int(math.Floor(v[1]))},
				{int(math.Ceil(v[0])), int(math.Ceil(v[1]))}} {
				if at[0] >= 0 && at[0] < p.width && at[1] >= 0 && at[1] < p.height &&
					p.face[at[1]*p.width+at[0]] == onLine {
					offer(at[1]*p.width+at[0], n)
				}
			}
		}
	}

	for range 2 {
		p.handOn(near, offer, 1)
		p.handOn(near, offer, -1)
	}
	return near
}

// handOn goes through all rows upward (way 1) or downward (−1) and offers each sample on a line what its neighbours on
// the row before and to both sides know.
func (p *pencil) handOn(near []int32, offer func(k int, n int32), way int) {
	first := 0
	if way < 0 {
		first = p.height - 1
	}

	for y := first; y >= 0 && y < p.height; y += way {
		row := y * p.width
		from := func(k, x, y int) {
			if x >= 0 && x < p.width && y >= 0 && y < p.height {
				if n := near[y*p.width+x]; n >= 0 {
					offer(k, n)
				}
			}
		}
		for x := range p.width {
			if p.face[row+x] == onLine {
				from(row+x, x-1, y)
				from(row+x, x-1, y-way)
				from(row+x, x, y-way)
				from(row+x, x+1, y-way)
			}
		}
		for x := p.width - 1; x >= 0; x-- {
			if p.face[row+x] == onLine {
				from(row+x, x+1, y)
			}
		}
	}
}

// distance returns how far a point of p.points is, in pixels; very far for none.
func (p *pencil) distance(n int32, x, y float64) float64 {
	if n < 0 {
		return farOff
	}
	dx, dy := p.points[n][0]-x, p.points[n][1]-y
	return math.Sqrt(dx*dx + dy*dy)
}
