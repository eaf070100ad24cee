//go:build js

package main

import (
	"image/color"
	"math"
	"sync"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/paulmach/orb"

	"openwork/geometry"
)

// batch gathers flat shapes with smooth edges and draws them together: one call for hundreds of lines. An edge is a
// strip one px wide whose colour runs out, so that no second, larger picture is needed to smooth it: where the graphics
// are drawn by the processor, that picture cost more than all else in a frame.
//
// All lengths are device px. Colours have their alpha multiplied in.
type batch struct {
	dst      *ebiten.Image
	vertices []ebiten.Vertex
	indices  []uint16
}

const (
	// fullBatch keeps one draw call below 65,535 vertices, the most an index of 16 bits can name, with room for the
	// largest single shape.
	fullBatch = 60000
	// feather is half the width in px of the strip in which an edge runs out.
	feather = 0.5
	// sharpTurn is the cosine of the turn, 60 degrees, from which two parts of a stroke meet in a disc and not in a
	// mitre.
	sharpTurn = 0.5
	// arcStep is about how many px of a circle one straight side stands for.
	arcStep = 3.0
)

// drawTo names the image that shapes go to from here on.
func (b *batch) drawTo(dst *ebiten.Image) {
	b.flush()
	b.dst = dst
}

// flush draws what was gathered, in its order.
func (b *batch) flush() { b.flushBy(ebiten.BlendSourceOver) }

// flushBy draws what was gathered by a rule for what lay there before.
func (b *batch) flushBy(rule ebiten.Blend) {
	if len(b.indices) > 0 {
		b.dst.DrawTrianglesShader(b.vertices, b.indices, plain(), &ebiten.DrawTrianglesShaderOptions{Blend: rule})
	}
	b.vertices, b.indices = b.vertices[:0], b.indices[:0]
}

// plain is the shader of flat colours. It reads no picture, which takes two thirds of the time of one that does where
// the graphics are drawn by the processor.
var plain = sync.OnceValue(func() *ebiten.Shader {
	s, err := ebiten.NewShader([]byte(`//kage:unit pixels
package main

func Fragment(dst vec4, src vec2, tint vec4) vec4 {
	return tint
}
`))
	if err != nil {
		panic(err) // the text above is not one of a shader
	}
	return s
})

// begin is called before each shape, or each part of a long one: it draws what was gathered where no more would go in.
func (b *batch) begin() {
	if len(b.vertices) > fullBatch {
		b.flush()
	}
}

// vertex adds a corner with a share of the colour, and returns its index.
func (b *batch) vertex(x, y float64, col color.RGBA, share float64) uint16 {
	f := float32(share / 255)
	b.vertices = append(b.vertices, ebiten.Vertex{DstX: float32(x), DstY: float32(y),
		ColorR: float32(col.R) * f, ColorG: float32(col.G) * f, ColorB: float32(col.B) * f, ColorA: float32(col.A) * f})
	return uint16(len(b.vertices) - 1)
}

// strip fills between two rows of n vertices each, named by their first.
func (b *batch) strip(row, next uint16, n int) {
	for i := uint16(0); i < uint16(n-1); i++ {
		b.indices = append(b.indices, row+i, row+i+1, next+i, row+i+1, next+i+1, next+i)
	}
}

// across returns how far from the middle of a line of a width its inner and outer edges lie, and the share of the
// colour inside: less than all of it for what is thinner than a px.
func across(width float64) (inner, outer, share float64) {
	return math.Max(0, width/2-feather), width/2 + feather, math.Min(1, width)
}

// row adds four vertices across a line: at a point, along a normal whose length is 1 or, in a mitre, more.
func (b *batch) row(x, y, nx, ny, width float64, col color.RGBA) uint16 {
	inner, outer, share := across(width)
	first := b.vertex(x-nx*outer, y-ny*outer, col, 0)
	b.vertex(x-nx*inner, y-ny*inner, col, share)
	b.vertex(x+nx*inner, y+ny*inner, col, share)
	b.vertex(x+nx*outer, y+ny*outer, col, 0)
	return first
}

// line draws a straight line with straight ends.
func (b *batch) line(from, to orb.Point, width float64, col color.RGBA) {
	if from == to {
		return
	}
	b.begin()
	nx, ny := normal(from, to)
	b.strip(b.row(from[0], from[1], nx, ny, width, col), b.row(to[0], to[1], nx, ny, width, col), 4)
}

// normal returns the unit vector to the left of the way from one point to another.
func normal(from, to orb.Point) (x, y float64) {
	l := math.Hypot(to[0]-from[0], to[1]-from[1])
	return (from[1] - to[1]) / l, (to[0] - from[0]) / l
}

// stroke draws a line through points, round at its ends and at sharp turns.
func (b *batch) stroke(points []orb.Point, closed bool, width float64, col color.RGBA) {
	points = apart(points, closed)
	n := len(points)
	if n < 2 {
		return
	}

	sides := n - 1
	if closed && n > 2 {
		sides = n
	}
	side := func(i int) (x, y float64) { return normal(points[i%n], points[(i+1)%n]) }

	// corner returns the normal at the corner that a side begins with, and whether the sides meet there in a mitre.
	corner := func(i int) (x, y float64, mitred bool) {
		x, y = side(i)
		if i == 0 && sides < n {
			return x, y, false
		}
		px, py := side(i + n - 1)
		along := x*px + y*py
		if along < sharpTurn {
			return x, y, false
		}
		return (x + px) / (1 + along), (y + py) / (1 + along), true
	}

	round := func(at orb.Point) {
		if width > 1 { // the end of a thinner line has no shape that is seen
			b.disc(at, width/2, col)
		}
	}
	for i := range sides {
		b.begin()
		ax, ay, mitred := corner(i)
		bx, by := side(i)
		if i+1 < sides || sides == n {
			if x, y, mitred := corner((i + 1) % n); mitred {
				bx, by = x, y
			}
		}
		from, to := points[i], points[(i+1)%n]
		b.strip(b.row(from[0], from[1], ax, ay, width, col), b.row(to[0], to[1], bx, by, width, col), 4)
		if !mitred {
			round(from)
		}
	}
	if sides < n {
		round(points[n-1])
	}
}

// apart leaves out points on their neighbours, nearer than what is seen, and the last one of a closed line where it is
// the first again.
func apart(points []orb.Point, closed bool) []orb.Point {
	const near = 0.75 // px
	var out []orb.Point
	for _, p := range points {
		if len(out) == 0 || math.Hypot(p[0]-out[len(out)-1][0], p[1]-out[len(out)-1][1]) > near {
			out = append(out, p)
		}
	}
	for last := len(out) - 1; closed && last > 0; last-- {
		if math.Hypot(out[last][0]-out[0][0], out[last][1]-out[0][1]) > near {
			break
		}
		out = out[:last]
	}
	return out
}

// arcs returns of how many sides a circle is drawn.
func arcs(radius float64) int {
	return min(256, max(8, int(math.Ceil(2*math.Pi*radius/arcStep))))
}

// ring draws a circle's line.
func (b *batch) ring(at orb.Point, radius, width float64, col color.RGBA) {
	b.begin()
	n := arcs(radius)
	first := uint16(len(b.vertices))
	for i := range n {
		y, x := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		b.row(at[0]+x*radius, at[1]+y*radius, x, y, width, col)
	}
	for i := range uint16(n) {
		b.strip(first+4*i, first+4*((i+1)%uint16(n)), 4)
	}
}

// disc fills a circle.
func (b *batch) disc(at orb.Point, radius float64, col color.RGBA) {
	n := arcs(radius)
	corners := make([]orb.Point, n)
	for i := range corners {
		y, x := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		corners[i] = orb.Point{at[0] + x*radius, at[1] + y*radius}
	}
	b.polygon(corners, col)
}

// polygon fills a convex polygon.
func (b *batch) polygon(corners []orb.Point, col color.RGBA) {
	b.begin()
	corners = apart(corners, true)
	n := len(corners)
	if n < 3 {
		return
	}

	outward := -math.Copysign(1, geometry.RingArea(append(orb.Ring(corners), corners[0])))
	first := uint16(len(b.vertices))
	for i, p := range corners {
		ax, ay := normal(corners[(i+n-1)%n], p)
		bx, by := normal(p, corners[(i+1)%n])
		// The mitre of a corner sharper than 30 degrees is cut short.
		long := outward * feather / math.Max(1+ax*bx+ay*by, 0.07)
		x, y := (ax+bx)*long, (ay+by)*long
		b.vertex(p[0]-x, p[1]-y, col, 1)
		b.vertex(p[0]+x, p[1]+y, col, 0)
	}

	for i := range uint16(n) {
		b.strip(first+2*i, first+2*((i+1)%uint16(n)), 2)
		if i > 1 {
			b.indices = append(b.indices, first, first+2*(i-1), first+2*i)
		}
	}
}

// rect fills a rectangle along the px, its edges as hard as they lie.
func (b *batch) rect(x, y, w, h float64, col color.RGBA) {
	b.shade(orb.Point{x, y}, orb.Point{x + w, y}, orb.Point{x, y + h}, orb.Point{x + w, y + h}, col, 1)
}

// shade fills between two lines, from the colour at the first to a share of it at the second.
func (b *batch) shade(from, to, outFrom, outTo orb.Point, col color.RGBA, share float64) {
	b.begin()
	first := b.vertex(from[0], from[1], col, 1)
	b.vertex(to[0], to[1], col, 1)
	outer := b.vertex(outFrom[0], outFrom[1], col, share)
	b.vertex(outTo[0], outTo[1], col, share)
	b.strip(first, outer, 2)
}
