package outline

import "image"

// grey is a picture the right way up, 0 black to 255 white, row by row from the lowest.
type grey struct {
	width, height int
	v             []uint8
}

// toGrey returns a picture in grey, what is transparent over white, turned as the Exif orientation says (1 to 8). Grey
// is the luma of ITU-R BT.601, 0.299 R + 0.587 G + 0.114 B.
func toGrey(p image.Image, turn int) grey {
	b := p.Bounds()
	w, h := b.Dx(), b.Dy()
	g := grey{width: w, height: h, v: make([]uint8, w*h)}
	if turn >= 5 {
		g.width, g.height = h, w
	}
	// Where the first pixel of the stored picture goes in the upright one (x to the right, y down), and how it moves on.
	var x, y, right, down int
	switch turn {
	case 2:
		x, y, right, down = w-1, 0, -1, 1
	case 3:
		x, y, right, down = w-1, h-1, -1, -1
	case 4:
		x, y, right, down = 0, h-1, 1, -1
	case 5:
		x, y, right, down = 0, 0, 1, 1
	case 6:
		x, y, right, down = h-1, 0, 1, -1
	case 7:
		x, y, right, down = h-1, w-1, -1, -1
	case 8:
		x, y, right, down = 0, w-1, -1, 1
	default:
		x, y, right, down = 0, 0, 1, 1
	}
	start := (g.height-1-y)*g.width + x
	alongRow, alongColumn := right, -down*g.width
	if turn >= 5 {
		alongRow, alongColumn = -right*g.width, down
	}
	row := make([]uint8, w)
	for j := range h {
		greyRow(p, b.Min.X, b.Min.Y+j, row)
		at := start + j*alongColumn
		if alongRow == 1 {
			copy(g.v[at:at+w], row)
			continue
		}
		for _, v := range row {
			g.v[at] = v
			at += alongRow
		}
	}
	return g
}

// greyRow writes the grey of one row, from x on, into row.
func greyRow(p image.Image, x, y int, row []uint8) {
	switch q := p.(type) {
	case *image.Gray:
		copy(row, q.Pix[q.PixOffset(x, y):])
	case *image.YCbCr:
		copy(row, q.Y[q.YOffset(x, y):])
	case *image.NRGBA:
		s := q.Pix[q.PixOffset(x, y):]
		for i := range row {
			c := s[4*i : 4*i+4 : 4*i+4]
			l := luma(uint32(c[0])*257, uint32(c[1])*257, uint32(c[2])*257)
			a := uint32(c[3])
			row[i] = uint8((65535*255 - (65535-l)*a + 32767) / 65535)
		}
	case *image.RGBA:
		s := q.Pix[q.PixOffset(x, y):]
		for i := range row {
			c := s[4*i : 4*i+4 : 4*i+4]
			row[i] = overWhite(uint32(c[0])*257, uint32(c[1])*257, uint32(c[2])*257, uint32(c[3])*257)
		}
	case *image.Paletted:
		var table [256]uint8
		for i := range table {
			table[i] = 255
			if i < len(q.Palette) {
				table[i] = overWhite(q.Palette[i].RGBA())
			}
		}
		s := q.Pix[q.PixOffset(x, y):]
		for i := range row {
			row[i] = table[s[i]]
		}
	case image.RGBA64Image:
		for i := range row {
			c := q.RGBA64At(x+i, y)
			row[i] = overWhite(uint32(c.R), uint32(c.G), uint32(c.B), uint32(c.A))
		}
	default:
		for i := range row {
			row[i] = overWhite(p.At(x+i, y).RGBA())
		}
	}
}

// luma of 16-bit red, green and blue.
func luma(r, g, b uint32) uint32 { return (19595*r + 38470*g + 7471*b + 1<<15) >> 16 }

// overWhite returns 8-bit grey of a 16-bit colour that is multiplied by its alpha.
func overWhite(r, g, b, a uint32) uint8 {
	v := luma(r, g, b) + 65535 - min(a, 65535)
	return uint8((min(v, 65535)*255 + 32767) / 65535)
}
