//go:build js

package main

import (
	"encoding/json"
	"image"
	"image/color"
	"math"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
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

// canvas is the ebiten game: it only draws. ratio is device px to the CSS px.
type canvas struct {
	desk          *desk.Desk
	colours       colours
	bare          color.RGBA // of the panel where nothing is painted, as it is looked at
	ratio         float64
	width, height int
	sprites       sprites
	overlap       overlap
	gaps          gaps
	drawn         bool
	frames        int // still to draw, counted down: after a change of size the next two
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

// Draw draws the panel when something changed, and tells the page what changed with it.
func (c *canvas) Draw(screen *ebiten.Image) {
	if c.desk.Session.Redraw || c.frames > 0 {
		if c.frames > 0 {
			c.frames--
		}
		c.desk.Session.Redraw = false
		c.paint(screen)
		c.sendLabels()
	}
	if c.desk.Session.Changed {
		c.desk.Session.Changed = false
		call("openworkChanged")
	}
	if !c.drawn {
		c.drawn = true
		call("openworkStarted")
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
func (c *canvas) px(p orb.Point) (float32, float32) {
	return float32(p[0] * c.ratio), float32(p[1] * c.ratio)
}

func (c *canvas) paint(screen *ebiten.Image) {
	if s, drawing := c.desk.Sketch(); drawing {
		c.sketch(screen, s)
		c.rulers(screen)
		return
	}

	screen.Fill(c.colours.ground)
	k := c.desk
	d := k.Session.Draft()
	toPX := geometry.Scale(c.ratio).After(k.View.Map())
	c.rectShadow(screen, toPX, d.SheetBound())
	look := k.Session.Look
	palette := appearance.PaletteOf(d, look)
	c.bare = look.Of(c.colours.sheet)
	c.fillBare(screen, toPX, d.SheetBound())
	if palette.HasGround {
		c.bare = palette.Ground
		c.fillBare(screen, toPX, d.PanelBound())
	}
	c.strokeRect(screen, toPX, d.PanelBound(), c.colours.faint, 1)
	if k.Session.Layout() != nil {
		target := screen
		if d.Field.Edge == draft.Crop {
			target = screen.SubImage(c.rectPX(toPX, d.FieldBound())).(*ebiten.Image)
		}
		c.gaps.draw(screen.SubImage(c.rectPX(toPX, d.FieldBound())).(*ebiten.Image), c)
		copies := k.Session.Visible()
		c.sprites.draw(target, k.Session.Layout(), copies, toPX, palette, look.Of(c.colours.paint))
		if len(k.Session.Live().Overlaps) > 0 {
			c.overlap.draw(target, c, copies, toPX)
		}
		c.rooms(target, toPX)
	}
	c.subjects(screen, toPX)

	c.ties(screen, c.rectPX(toPX, d.SheetBound()))
	c.dotted(screen, toPX, d.FieldBound())
	c.signs(screen)
	c.gapLines(screen)
	c.marks(screen)
	c.tangents(screen)
	if _, taken := c.desk.ChosenSubject(); !taken {
		c.handles(screen)
	}
	c.rulers(screen)
}

// rectPX rounds a rectangle of the panel to device px.
func (c *canvas) rectPX(m geometry.Map, b orb.Bound) image.Rectangle {
	p, q := m.Apply(b.Min), m.Apply(b.Max)
	r := func(v float64) int { return int(math.Round(math.Max(-1e6, math.Min(1e6, v)))) }
	return image.Rect(r(p[0]), r(q[1]), r(q[0]), r(p[1]))
}

func (c *canvas) fillRect(dst *ebiten.Image, m geometry.Map, b orb.Bound, col color.Color) {
	r := c.rectPX(m, b)
	vector.DrawFilledRect(dst, float32(r.Min.X), float32(r.Min.Y), float32(r.Dx()), float32(r.Dy()), col, false)
}

// rectShadow lifts the sheet off the bench by a soft edge.
func (c *canvas) rectShadow(dst *ebiten.Image, m geometry.Map, b orb.Bound) {
	r := c.rectPX(m, b)
	for i := 4; i > 0; i-- {
		n := float32(float64(i) * c.ratio)
		col := color.RGBA{0, 0, 0, 9}
		x, y, w, h := float32(r.Min.X)-n/2, float32(r.Min.Y), float32(r.Dx())+n, float32(r.Dy())+n
		vector.DrawFilledRect(dst, x, y, w, h, col, false)
	}
}

func (c *canvas) strokeRect(dst *ebiten.Image, m geometry.Map, b orb.Bound, col color.Color, width float64) {
	r := c.rectPX(m, b)
	x, y, w, h := float32(r.Min.X), float32(r.Min.Y), float32(r.Dx()), float32(r.Dy())
	vector.StrokeRect(dst, x, y, w, h, float32(width*c.ratio), col, false)
}

// dotted draws the field's edge.
func (c *canvas) dotted(dst *ebiten.Image, m geometry.Map, b orb.Bound) {
	r := c.rectPX(m, b)
	step, dot := 5*c.ratio, float32(math.Max(1, c.ratio))
	along := func(x0, y0, x1, y1 float64) {
		n := int(math.Min(2000, math.Hypot(x1-x0, y1-y0)/step))
		for i := range n {
			t := float64(i) / float64(n)
			x, y := x0+t*(x1-x0), y0+t*(y1-y0)
			if x < -10 || y < -10 || x > float64(c.width)+10 || y > float64(c.height)+10 {
				continue
			}
			vector.DrawFilledRect(dst, float32(x), float32(y), dot, dot, c.colours.faint, false)
		}
	}

	x0, y0, x1, y1 := float64(r.Min.X), float64(r.Min.Y), float64(r.Max.X), float64(r.Max.Y)
	along(x0, y0, x1, y0)
	along(x1, y0, x1, y1)
	along(x1, y1, x0, y1)
	along(x0, y1, x0, y0)
}
