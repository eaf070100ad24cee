//go:build js

package main

import (
	"encoding/json"
	"image"
	"image/color"
	"math"
	"syscall/js"
	"time"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk"
)

// colours of the canvas; the page sends its own when its theme is known.
type colours struct {
	ground, sheet, paint, ink, faint, accent, fault, warn, halo color.RGBA
}

var daylight = colours{
	ground: rgb(0xf3, 0xef, 0xe6), sheet: rgb(0xd9, 0xcf, 0xbb), paint: rgb(0x2b, 0x5a, 0x5c),
	ink: rgb(0x22, 0x22, 0x22), faint: rgb(0x9a, 0x93, 0x85), accent: rgb(0x1d, 0x55, 0x58),
	fault: rgb(0xa8, 0x32, 0x1c), warn: rgb(0x8a, 0x5a, 0x00), halo: rgb(0xfb, 0xf8, 0xf1),
}

func rgb(r, g, b uint8) color.RGBA { return color.RGBA{r, g, b, 255} }

// warmUpAfter is how long after the first picture what it did not need is made ready.
const warmUpAfter = time.Second

// canvas is the ebiten game: it only draws. ratio is device px to the CSS px.
type canvas struct {
	desk          *desk.Desk
	colours       colours
	ground        ground // of the draft as it is painted
	ratio         float64
	width, height int
	batch         batch
	sprites       sprites
	overlap       overlap
	gaps          gaps
	drawn         bool
	warmUp        bool // make ready what a drag may need and the first picture did not
	frames        int  // still to draw, counted down: after a change of size the next two
	labels        string
	layer         *ebiten.Image // of the canvas's size, for what is laid on thinly
}

// Update has nothing to do: the page hands every event to the desk itself.
func (c *canvas) Update() error { return nil }

// Layout takes the canvas's size in device px.
func (c *canvas) Layout(w, h int) (int, int) {
	ratio := js.Global().Get("devicePixelRatio").Float()
	if ratio <= 0 || math.IsNaN(ratio) {
		ratio = 1
	}
	if w != c.width || h != c.height || ratio != c.ratio {
		c.width, c.height, c.ratio = w, h, ratio
		c.frames = 2
		c.desk.Resize(float64(w)/ratio, float64(h)/ratio)
	}
	return w, h
}

// Draw tells the page what changed, and has the canvas painted when it must be: a frame in which nothing is drawn here
// ends after a few without painting.
func (c *canvas) Draw(offscreen *ebiten.Image) {
	if c.desk.Session.Changed {
		c.desk.Session.Changed = false
		call("openworkChanged")
	}
	if c.desk.Session.Redraw || c.frames > 0 {
		c.frames = max(0, c.frames-1)
		c.desk.Session.Redraw = false
		offscreen.SubImage(image.Rect(0, 0, 1, 1)).(*ebiten.Image).Fill(color.Black)
	}
}

// DrawFinalScreen paints the canvas itself, which is clear when it begins: a picture of its size that is copied there
// takes as long as half of what is painted, where the graphics are drawn by the processor.
func (c *canvas) DrawFinalScreen(screen ebiten.FinalScreen, _ *ebiten.Image, _ ebiten.GeoM) {
	c.desk.Session.Show(func() { c.paint(screen.(*ebiten.Image)) })
	c.sendLabels()
	if !c.drawn {
		c.drawn = true
		call("openworkStarted")
		time.AfterFunc(warmUpAfter, func() {
			c.warmUp = true
			c.desk.Session.Redrawn()
			call("openworkWake")
		})
	}
	if c.warmUp {
		c.warmUp = false
		c.overlap.warmUp(c)
	}
	if c.frames > 0 {
		call("openworkWake")
	}
}

func call(name string, args ...any) {
	if f := js.Global().Get(name); f.Type() == js.TypeFunction {
		f.Invoke(args...)
	}
}

func (c *canvas) sendLabels() {
	text, err := json.Marshal(c.desk.Labels())
	if err != nil || string(text) == c.labels {
		return
	}
	c.labels = string(text)
	call("openworkLabels", c.labels)
}

// px returns a canvas point in device px.
func (c *canvas) px(p orb.Point) orb.Point {
	return orb.Point{p[0] * c.ratio, p[1] * c.ratio}
}

func (c *canvas) paint(screen *ebiten.Image) {
	c.batch.drawTo(screen)
	defer c.batch.flush()
	if s, drawing := c.desk.Sketch(); drawing {
		c.sketch(screen, s)
		c.rulers()
		return
	}

	k := c.desk
	d, look := k.Session.Draft(), k.Session.Look
	toPX := geometry.Scale(c.ratio).After(k.View.Map())
	palette := appearance.PaletteOf(d, look)
	c.ground = groundOf(d, toPX, palette, look.Of(c.colours.sheet))
	c.fill(c.ground.field, c.translucent(c.ground.bare))
	c.batch.flushBy(ebiten.BlendCopy)
	cropped := d.Field.Edge == draft.Crop && k.Session.Layout() != nil
	if k.Session.Layout() != nil {
		c.gaps.draw(screen, c)
	}
	if !cropped {
		c.surround()
	}
	if k.Session.Layout() != nil {
		copies := k.Session.Visible()
		c.sprites.draw(screen, c, k.Session.Layout(), copies, toPX, palette, look.Of(c.colours.paint))
		if len(k.Session.Live().Overlaps) > 0 {
			within := screen.Bounds()
			if cropped {
				within = c.ground.field
			}
			c.overlap.draw(screen, within, c, copies, toPX)
		}
		c.rooms(screen, toPX)
	}
	if cropped {
		c.surround()
	}
	c.subjects(screen, toPX)

	c.ties(d.SheetBound())
	c.dotted(c.ground.field)
	c.signs()
	c.gapLines()
	c.marks()
	c.tangents()
	if _, taken := c.desk.ChosenSubject(); !taken {
		c.handles()
	}
	c.rulers()
}

// rectPX rounds the box of a rectangle under a map to device px.
func rectPX(m geometry.Map, b orb.Bound) image.Rectangle {
	box := orb.MultiPoint(mapped(b.ToRing(), m)).Bound()
	r := func(v float64) int { return int(math.Round(math.Max(-1e6, math.Min(1e6, v)))) }
	return image.Rect(r(box.Min[0]), r(box.Min[1]), r(box.Max[0]), r(box.Max[1]))
}

// ground is what lies under the pattern, in device px: the sheet on the bench, on it the panel, and on that the field;
// with the colours of the bare sheet and the bare panel.
type ground struct {
	sheet, panel, field image.Rectangle
	paper, bare         color.RGBA
}

func groundOf(d draft.Draft, toPX geometry.Map, palette appearance.Palette, paper color.RGBA) ground {
	g := ground{sheet: rectPX(toPX, d.SheetBound()), panel: rectPX(toPX, d.PanelBound()),
		field: rectPX(toPX, d.FieldBound()), paper: paper, bare: paper}
	if palette.HasGround {
		g.bare = palette.Ground
	}
	return g
}

// translucent returns a colour of bare ground as thin as lets a photograph under the canvas be seen.
func (c *canvas) translucent(bare color.RGBA) color.RGBA { return faded(bare, 1-c.desk.Through()) }

// surround draws all that lies round the field, in place of what the pattern drew there: the library cannot keep what
// is drawn on the canvas itself to a part of it.
func (c *canvas) surround() {
	g := c.ground
	c.batch.flush()
	c.fillBetween(g.panel, g.field, c.translucent(g.bare))
	c.fillBetween(g.sheet, g.panel, c.translucent(g.paper))
	c.fillBetween(image.Rect(0, 0, c.width, c.height), g.sheet, c.colours.ground)
	c.batch.flushBy(ebiten.BlendCopy)
	c.shadow(g.sheet)
	line := int(math.Max(1, math.Round(c.ratio)))
	c.fillBetween(g.panel, g.panel.Inset(line), c.colours.faint)
}

// fillBetween fills a rectangle but for another one in it.
func (c *canvas) fillBetween(outer, inner image.Rectangle, col color.RGBA) {
	inner = inner.Intersect(outer)
	if inner.Empty() {
		c.fill(outer, col)
		return
	}
	c.fill(image.Rect(outer.Min.X, outer.Min.Y, outer.Max.X, inner.Min.Y), col)
	c.fill(image.Rect(outer.Min.X, inner.Max.Y, outer.Max.X, outer.Max.Y), col)
	c.fill(image.Rect(outer.Min.X, inner.Min.Y, inner.Min.X, inner.Max.Y), col)
	c.fill(image.Rect(inner.Max.X, inner.Min.Y, outer.Max.X, inner.Max.Y), col)
}

func (c *canvas) fill(r image.Rectangle, col color.RGBA) {
	if !r.Empty() {
		c.batch.rect(float64(r.Min.X), float64(r.Min.Y), float64(r.Dx()), float64(r.Dy()), col)
	}
}

// shadow lifts the sheet off the bench by a soft edge, beside it and more below it.
func (c *canvas) shadow(r image.Rectangle) {
	x0, y0, x1, y1 := float64(r.Min.X), float64(r.Min.Y), float64(r.Max.X), float64(r.Max.Y)
	beside, below := 2*c.ratio, 4*c.ratio
	dark := color.RGBA{0, 0, 0, 34}
	outLeft, outRight := orb.Point{x0 - beside, y1 + below}, orb.Point{x1 + beside, y1 + below}
	c.batch.shade(orb.Point{x0, y0}, orb.Point{x0, y1}, orb.Point{x0 - beside, y0}, outLeft, dark, 0)
	c.batch.shade(orb.Point{x1, y0}, orb.Point{x1, y1}, orb.Point{x1 + beside, y0}, outRight, dark, 0)
	c.batch.shade(orb.Point{x0, y1}, orb.Point{x1, y1}, outLeft, outRight, dark, 0)
}

// dotted draws the field's edge.
func (c *canvas) dotted(r image.Rectangle) {
	step, dot := 5*c.ratio, math.Max(1, c.ratio)
	along := func(x0, y0, x1, y1 float64) {
		n := int(math.Min(2000, math.Hypot(x1-x0, y1-y0)/step))
		for i := range n {
			t := float64(i) / float64(n)
			x, y := x0+t*(x1-x0), y0+t*(y1-y0)
			if x < -10 || y < -10 || x > float64(c.width)+10 || y > float64(c.height)+10 {
				continue
			}
			c.batch.rect(x, y, dot, dot, c.colours.faint)
		}
	}

	x0, y0, x1, y1 := float64(r.Min.X), float64(r.Min.Y), float64(r.Max.X), float64(r.Max.Y)
	along(x0, y0, x1, y0)
	along(x1, y0, x1, y1)
	along(x1, y1, x0, y1)
	along(x0, y1, x0, y0)
}
