package study

import (
	"image"
	"image/color"
	"math"
)

// How paste stands on the panel: light comes from the upper left, so that its edges there are bright and those across
// dark, and it throws a shadow to the lower right. The figures are taste.
const (
	edgeLight   = 0.45 // how much brighter or darker an edge is that faces the light, or away from it
	shadowDepth = 0.30 // how much darker the ground is in the shadow
	leastHeight = 1.2  // px that paste is drawn high, however small the picture
	tall        = 1.5  // times as high as it is
)

// coverOf returns how much of each px of an image in two plain colours is paste, of 255; nil where the two are one
// colour: paste in the ground's own cannot be told from it.
func coverOf(img *image.RGBA, base, paint color.RGBA) []uint8 {
	channel, span := widestChannel(base, paint)
	if span == 0 {
		return nil
	}
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	from := float64([3]uint8{base.R, base.G, base.B}[channel])
	cover := make([]uint8, w*h)
	for y := range h {
		row := img.Pix[y*img.Stride:]
		for x := range w {
			part := (float64(row[4*x+channel]) - from) / span
			cover[y*w+x] = uint8(math.Round(255 * math.Max(0, math.Min(1, part))))
		}
	}
	return cover
}

// relief gives an image of paste on a ground the look of paste that stands height px high where it covers the ground.
func relief(img *image.RGBA, cover []uint8, height float64) {
	if cover == nil {
		return
	}
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	at := func(x, y int) float64 {
		if x < 0 || y < 0 || x >= w || y >= h {
			return 0
		}
		return float64(cover[y*w+x]) / 255
	}

	height = math.Max(leastHeight, tall*height)
	step, far := max(1, int(height/2)), max(1, int(math.Round(height)))
	for y := range h {
		row := img.Pix[y*img.Stride:]
		for x := range w {
			here := at(x, y)
			// The slope along the light: positive where the surface rises away from it, and so faces it.
			slope := (at(x+step, y) - at(x-step, y) + at(x, y+step) - at(x, y-step)) / 2
			cast := (at(x-far, y-far) + at(x-far+1, y-far+1)) / 2
			shade := 1 + edgeLight*slope*here - shadowDepth*math.Max(0, cast-here)*(1-here)
			if shade == 1 {
				continue
			}
			for k := range 3 {
				v := float64(row[4*x+k])
				if shade > 1 { // towards white, so that dark paste shows its bright edges too
					v += (255 - v) * (shade - 1)
				} else {
					v *= shade
				}
				row[4*x+k] = uint8(math.Round(v))
			}
		}
	}
}

// widestChannel returns the channel in which two colours differ most, and by how much.
func widestChannel(base, paint color.RGBA) (channel int, span float64) {
	for k, pair := range [3][2]uint8{{base.R, paint.R}, {base.G, paint.G}, {base.B, paint.B}} {
		if d := float64(pair[1]) - float64(pair[0]); math.Abs(d) > math.Abs(span) {
			channel, span = k, d
		}
	}
	return channel, span
}
