package main

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"

	"github.com/fogleman/gg"
)

// The scan's measures: 300 dots to the inch, the drawing's centre in the middle of the sheet of paper.
const (
	dotsPerMM    = 300 / 25.4
	dotsPerMetre = 11811 // as the PNG's pHYs chunk says it
	scanWidth    = 1300  // px
	scanHeight   = 840   // px
	scanSeed     = 1887
)

// The greys, 0 black to 255 white.
const (
	paperGrey = 231.0
	inkGrey   = 38.0
	shadow    = 44.0 // how much darker the paper is at the fold, on the left
	fibre     = 2.6  // deviation of the paper's grain
	mottle    = 4.0  // deviation of the ink's unevenness
)

// scan draws a silhouette in ink on paper as a scanner sees it: grain, a soft shadow at the fold, a few specks and
// strokes of pencil beside the figure, a smudge, and the slight blur of the lens. The same every time.
func scan(d drawing) ([]byte, error) {
	rng := rand.New(rand.NewPCG(scanSeed, 1))
	ink := inked(d)
	grain, coarse, uneven := noise(rng, 1), noise(rng, 6), noise(rng, 9)
	light := make([]float64, scanWidth*scanHeight)
	for y := 0; y < scanHeight; y++ {
		for x := 0; x < scanWidth; x++ {
			i := y*scanWidth + x
			u, v := float64(x)/scanWidth, float64(y)/scanHeight
			fold := shadow * math.Exp(-u*5.5)
			corner := 9 * u * u * v * v
			p := paperGrey - fold - corner + fibre*grain[i] + 1.5*coarse[i]
			q := inkGrey - 0.2*fold + mottle*uneven[i] + fibre*grain[i]
			light[i] = p + (q-p)*ink[i]
		}
	}
	pencil(light, d, rng)
	light = blurred(light, 0.9)
	img := image.NewGray(image.Rect(0, 0, scanWidth, scanHeight))
	for i, l := range light {
		// even levels only: a scanner's last bit is noise, and without it the file is half the size
		img.Pix[i] = uint8(math.Max(0, math.Min(254, 2*math.Round(l/2))))
	}
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, img); err != nil {
		return nil, err
	}
	return withDensity(b.Bytes()), nil
}

// inScan carries a point of the drawing, in mm, to the scan's pixels.
func inScan(p point) (x, y float64) {
	return scanWidth/2 + p.x*dotsPerMM, scanHeight/2 - p.y*dotsPerMM
}

// inked is how much of each pixel the figure covers, 0 to 1.
func inked(d drawing) []float64 {
	c := gg.NewContext(scanWidth, scanHeight)
	c.SetColor(color.White)
	for _, p := range flatten(d.pieces) {
		c.LineTo(inScan(p))
	}
	c.ClosePath()
	c.Fill()
	out := make([]float64, scanWidth*scanHeight)
	for i := range out {
		_, _, _, a := c.Image().At(i%scanWidth, i/scanWidth).RGBA()
		out[i] = float64(a) / 0xffff
	}
	return out
}

// noise is normal noise of deviation 1, smoothed over about size pixels.
func noise(rng *rand.Rand, size float64) []float64 {
	out := make([]float64, scanWidth*scanHeight)
	for i := range out {
		out[i] = rng.NormFloat64()
	}
	out = blurred(out, size)
	sum := 0.0
	for _, v := range out {
		sum += v * v
	}
	k := 1 / math.Sqrt(sum/float64(len(out)))
	for i := range out {
		out[i] *= k
	}
	return out
}

// blurred smooths by a Gaussian of the given deviation in pixels, rows and then columns; edges repeat.
func blurred(in []float64, deviation float64) []float64 {
	r := int(math.Ceil(3 * deviation))
	weights, sum := make([]float64, 2*r+1), 0.0
	for i := range weights {
		weights[i] = math.Exp(-float64((i-r)*(i-r)) / (2 * deviation * deviation))
		sum += weights[i]
	}
	pass := func(in []float64, n, m, along, across int) []float64 {
		out := make([]float64, len(in))
		for j := 0; j < m; j++ {
			for i := 0; i < n; i++ {
				v := 0.0
				for k, w := range weights {
					v += w * in[j*across+min(max(i+k-r, 0), n-1)*along]
				}
				out[j*across+i*along] = v / sum
			}
		}
		return out
	}
	return pass(pass(in, scanWidth, scanHeight, 1, scanWidth), scanHeight, scanWidth, scanWidth, 1)
}

// pencil leaves specks, two light strokes and a smudge on the paper, all at least 2.5 mm from the figure.
func pencil(light []float64, d drawing, rng *rand.Rand) {
	const clear = 2.5 // mm
	dab := func(p point, radius, dark float64) {
		cx, cy := inScan(p)
		r := radius * dotsPerMM
		for y := max(0, int(cy-3*r)); y <= min(scanHeight-1, int(cy+3*r)); y++ {
			for x := max(0, int(cx-3*r)); x <= min(scanWidth-1, int(cx+3*r)); x++ {
				t := math.Hypot(float64(x)-cx, float64(y)-cy) / r
				light[y*scanWidth+x] -= dark * math.Exp(-t*t*t*t)
			}
		}
	}
	off := func(p point) bool {
		for i := 1; i < len(d.ring); i++ {
			if toSide(p, d.ring[i-1], d.ring[i]) < clear {
				return false
			}
		}
		return !inside(p, d.ring)
	}
	w, h := scanWidth/dotsPerMM/2-2, scanHeight/dotsPerMM/2-2
	for n := 0; n < 17; {
		p := point{(2*rng.Float64() - 1) * w, (2*rng.Float64() - 1) * h}
		if !off(p) {
			continue
		}
		n++
		dab(p, 0.08+0.2*rng.Float64()*rng.Float64(), 60+90*rng.Float64())
	}
	stroke := func(a, b, c point) {
		for t := 0.0; t <= 1; t += 0.002 {
			if p := mix(mix(a, b, t), mix(b, c, t), t); off(p) {
				dab(p, 0.1, 7*(0.5+rng.Float64())*math.Sin(math.Pi*t))
			}
		}
	}
	stroke(point{-40, 13}, point{-26, 27}, point{-2, 28})
	stroke(point{-20, -29}, point{4, -30}, point{24, -22})
	for k := 0; k < 60; k++ {
		t := float64(k) / 60
		dab(point{30 + 14*t, -26 + 3*t}, 1.6, 0.9*math.Sin(math.Pi*t))
	}
}

// inside counts crossings of a ray to the right.
func inside(p point, ring []point) bool {
	in := false
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(p.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}

// withDensity puts the pHYs chunk after the header: pixels a metre, both ways (W3C, Portable Network Graphics,
// 11.3.4.3).
func withDensity(file []byte) []byte {
	const header = 8 + 25 // signature and IHDR
	chunk := []byte("\x00\x00\x00\x09pHYs")
	chunk = binary.BigEndian.AppendUint32(chunk, dotsPerMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, dotsPerMetre)
	chunk = append(chunk, 1) // the unit is the metre
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	out := append([]byte(nil), file[:header]...)
	out = append(out, chunk...)
	return append(out, file[header:]...)
}
