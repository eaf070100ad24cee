//go:build js

package main

import (
	"image/color"
	"math"
	"sync"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/paulmach/orb"
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
func (k *batch) drawTo(dst *ebiten.Image) {
	k.flush()
	k.dst = dst
}

// flush draws what was gathered, in its order.
func (k *batch) flush() { k.flushBy(ebiten.BlendSourceOver) }

// flushBy draws what was gathered by a rule for what lay there before.
func (k *batch) flushBy(rule ebiten.Blend) {
	if len(k.indices) > 0 {
		k.dst.DrawTrianglesShader(k.vertices, k.indices, plain(), &ebiten.DrawTrianglesShaderOptions{Blend: rule})
	}
	k.vertices, k.indices = k.vertices[:0], k.indices[:0]
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

// begin is called before each shape, or each part of a long one: it lays what was gathered where no more would go in.
func (k *batch) begin() {
	if len(k.vertices) > fullBatch {
		k.flush()
	}
}

// vertex adds a corner with a share of the colour, and returns its index.
func (k *batch) vertex(x, y float64, col color.RGBA, share float64) uint16 {
	f := float32(share / 255)
	k.vertices = append(k.vertices, ebiten.Vertex{DstX: float32(x), DstY: float32(y),
		ColorR: float32(col.R) * f, ColorG: float32(col.G) * f, ColorB: float32(col.B) * f, ColorA: float32(col.A) * f})
	return uint16(len(k.vertices) - 1)
}

func (k *batch) triangle(a, b, c uint16) { k.indices = append(k.indices, a, b, c) }

// strip fills between two rows of as many vertices, each named by its first.
func (k *batch) strip(a, b uint16, n int) {
	for i := uint16(0); i < uint16(n-1); i++ {
		k.indices = append(k.indices, a+i, a+i+1, b+i, a+i+1, b+i+1, b+i)
	}
}

// across returns how far from the middle of a line of a width its inner and outer edges lie, and the share of the
// colour inside: less than all of it for what is thinner than a px.
func across(width float64) (inner, outer, share float64) {
	return math.Max(0, width/2-feather), width/2 + feather, math.Min(1, width)
}

// row adds four vertices across a line: at a point, along a normal whose length is 1 or, in a mitre, more.
func (k *batch) row(x, y, nx, ny, width float64, col color.RGBA) uint16 {
	inner, outer, share := across(width)
	first := k.vertex(x-nx*outer, y-ny*outer, col, 0)
	k.vertex(x-nx*inner, y-ny*inner, col, share)
	k.vertex(x+nx*inner, y+ny*inner, col, share)
	k.vertex(x+nx*outer, y+ny*outer, col, 0)
	return first
}

// line draws a straight line with straight ends.
func (k *batch) line(a, b orb.Point, width float64, col color.RGBA) {
	k.begin()
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Hypot(dx, dy)
	if l < 1e-9 {
		return
	}

	nx, ny := -dy/l, dx/l
	k.strip(k.row(a[0], a[1], nx, ny, width, col), k.row(b[0], b[1], nx, ny, width, col), 4)
}

// stroke draws a line through points, round at its ends and at sharp turns.
func (k *batch) stroke(points []orb.Point, closed bool, width float64, col color.RGBA) {
	points = apart(points, closed)
	n := len(points)
	if n < 2 {
		return
	}

	sides := n - 1
	if closed && n > 2 {
		sides = n
	}
	normal := func(i int) (x, y float64) {
		a, b := points[i%n], points[(i+1)%n]
		l := math.Hypot(b[0]-a[0], b[1]-a[1])
		return (a[1] - b[1]) / l, (b[0] - a[0]) / l
	}

	// turn returns the normal at the corner that side i begins with, and whether the sides meet there in a mitre.
	turn := func(i int) (x, y float64, mitred bool) {
		x, y = normal(i)
		if i == 0 && sides < n {
			return x, y, false
		}
		px, py := normal(i + n - 1)
		along := x*px + y*py
		if along < sharpTurn {
			return x, y, false
		}
		return (x + px) / (1 + along), (y + py) / (1 + along), true
	}

	for i := range sides {
		k.begin()
		ax, ay, before := turn(i)
		bx, by := normal(i)
		after := false
		if i+1 < sides || sides == n {
			if x, y, mitred := turn((i + 1) % n); mitred {
				bx, by, after = x, y, true
			}
		}
		a, b := points[i], points[(i+1)%n]
		k.strip(k.row(a[0], a[1], ax, ay, width, col), k.row(b[0], b[1], bx, by, width, col), 4)
		if !before && width > 1 {
			k.disc(a, width/2, col)
		}
		if !after && i+1 == sides && sides < n && width > 1 {
			k.disc(b, width/2, col)
		}
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
func (k *batch) ring(at orb.Point, radius, width float64, col color.RGBA) {
	k.begin()
	n := arcs(radius)
	first := uint16(len(k.vertices))
	for i := range n {
		y, x := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		k.row(at[0]+x*radius, at[1]+y*radius, x, y, width, col)
	}
	for i := range uint16(n) {
		k.strip(first+4*i, first+4*((i+1)%uint16(n)), 4)
	}
}

// disc fills a circle.
func (k *batch) disc(at orb.Point, radius float64, col color.RGBA) {
	n := arcs(radius)
	corners := make([]orb.Point, n)
	for i := range corners {
		y, x := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		corners[i] = orb.Point{at[0] + x*radius, at[1] + y*radius}
	}
	k.polygon(corners, col)
}

// polygon fills a convex polygon.
func (k *batch) polygon(corners []orb.Point, col color.RGBA) {
	k.begin()
	corners = apart(corners, true)
	n := len(corners)
	if n < 3 {
		return
	}

	area := 0.0
	for i, p := range corners {
		q := corners[(i+1)%n]
		area += p[0]*q[1] - q[0]*p[1]
	}
	side := math.Copysign(1, area)
	first := uint16(len(k.vertices))
	for i, p := range corners {
		before, after := corners[(i+n-1)%n], corners[(i+1)%n]
		ax, ay := away(before, p, side)
		bx, by := away(p, after, side)
		// The mitre of a corner sharper than 30 degrees is cut short.
		long := 1 / math.Max(1+ax*bx+ay*by, 0.07)
		x, y := (ax+bx)*long*feather, (ay+by)*long*feather
		k.vertex(p[0]-x, p[1]-y, col, 1)
		k.vertex(p[0]+x, p[1]+y, col, 0)
	}

	for i := range uint16(n) {
		k.strip(first+2*i, first+2*((i+1)%uint16(n)), 2)
		if i > 1 {
			k.triangle(first, first+2*(i-1), first+2*i)
		}
	}
}

// away returns the unit normal of a polygon's side that points out of it.
func away(a, b orb.Point, side float64) (x, y float64) {
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	return side * (b[1] - a[1]) / l, side * (a[0] - b[0]) / l
}

// rect fills a rectangle along the px, its edges as hard as they lie.
func (k *batch) rect(x, y, w, h float64, col color.RGBA) {
	k.begin()
	a := k.vertex(x, y, col, 1)
	k.vertex(x+w, y, col, 1)
	b := k.vertex(x, y+h, col, 1)
	k.vertex(x+w, y+h, col, 1)
	k.strip(a, b, 2)
}

// shade fills between two lines, from a share of the colour to none.
func (k *batch) shade(a, b, outA, outB orb.Point, col color.RGBA) {
	k.begin()
	first := k.vertex(a[0], a[1], col, 1)
	k.vertex(b[0], b[1], col, 1)
	outer := k.vertex(outA[0], outA[1], col, 0)
	k.vertex(outB[0], outB[1], col, 0)
	k.strip(first, outer, 2)
}
