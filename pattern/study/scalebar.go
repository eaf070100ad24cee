package study

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"math"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font/gofont/goregular"

	"openwork/pattern/draft"
)

// scaleBar draws a bar of a round length with its figure into the picture's lower right corner; scale is px to the mm.
func scaleBar(c *gg.Context, p draft.Panel, scale float64, inches bool) error {
	length, label := 100.0, "100 mm"
	switch {
	case inches && p.Width >= 300:
		length, label = 4*25.4, "4 in"
	case inches:
		length, label = 25.4, "1 in"
	case p.Width < 300:
		length, label = 10, "10 mm"
	}
	font, err := truetype.Parse(goregular.TTF)
	if err != nil {
		return err
	}

	wide, high := float64(c.Width()), float64(c.Height())
	size := math.Max(10, wide/60)
	c.SetFontFace(truetype.NewFace(font, &truetype.Options{Size: size}))
	right, foot := wide-size, high-size
	left := right - length*scale
	c.SetRGB(1, 1, 1)
	c.DrawRectangle(left-0.5*size, foot-2.1*size, length*scale+size, 2.6*size)
	c.Fill()
	c.SetColor(edgeColour)
	c.SetLineWidth(math.Max(1, wide/900))
	for _, x := range []float64{left, right} {
		c.DrawLine(x, foot-0.5*size, x, foot)
	}
	c.DrawLine(left, foot-0.25*size, right, foot-0.25*size)
	c.Stroke()
	c.DrawStringAnchored(label, (left+right)/2, foot-0.8*size, 0.5, 0)
	return nil
}

// withResolution returns a PNG file with the chunk pHYs, which says how many pixels go to a metre (PNG, third edition,
// 11.3.4.3), right after its head.
func withResolution(file []byte, perMetre float64) []byte {
	const head = 8 + 12 + 13 // the signature and IHDR
	if len(file) < head {
		return file
	}
	body := binary.BigEndian.AppendUint32([]byte("pHYs"), uint32(math.Round(perMetre)))
	body = append(binary.BigEndian.AppendUint32(body, uint32(math.Round(perMetre))), 1)
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)-4))
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	return bytes.Join([][]byte{file[:head], chunk, file[head:]}, nil)
}
