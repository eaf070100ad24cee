package scan

import "image"

// grey is a picture the right way up, 0 black to 255 white, row by row from the lowest.
type grey struct {
	width, height int
	v             []uint8
}

// placing says where the pixels of a picture as stored are in the upright one: stored pixel (i, j), counted to the
// right and down, is at (x + ia·i + ja·j, y + ib·i + jb·j) there, counted alike. Of ia, ja, ib, jb two are 0, the
// others 1 or −1.
type placing struct {
	width, height  int // of the upright picture
	x, y           int
	ia, ja, ib, jb int
}

// placingOf returns how a picture of this size as stored is turned as its Exif orientation says (1 to 8), and then by
// quarter turns counter-clockwise.
func placingOf(w, h, orientation, quarters int) placing {
	p := placing{width: w, height: h, ia: 1, jb: 1}
	switch orientation {
	case 2:
		p.x, p.ia = w-1, -1
	case 3:
		p.x, p.y, p.ia, p.jb = w-1, h-1, -1, -1
	case 4:
		p.y, p.jb = h-1, -1
	case 5:
		p = placing{h, w, 0, 0, 0, 1, 1, 0}
	case 6:
		p = placing{h, w, h - 1, 0, 0, -1, 1, 0}
	case 7:
		p = placing{h, w, h - 1, w - 1, 0, -1, -1, 0}
	case 8:
		p = placing{h, w, 0, w - 1, 0, 1, -1, 0}
	}
	for range quarters { // what was to the right comes on top
		p = placing{p.height, p.width, p.y, p.width - 1 - p.x, p.ib, p.jb, -p.ia, -p.ja}
	}
	return p
}

// stored returns which pixel of the stored picture is at (x, y) in the upright one.
func (p placing) stored(x, y int) (i, j int) {
	x, y = x-p.x, y-p.y
	return p.ia*x + p.ib*y, p.ja*x + p.jb*y
}

// toGrey returns the part of a picture within crop (of the upright one: left, top, right and bottom in pixels, whose
// differences are multiples of by) in grey, what is transparent over white. Each by × by pixels become one, their mean.
// Grey is the luma of ITU-R BT.601, 0.299 R + 0.587 G + 0.114 B.
func toGrey(p image.Image, to placing, crop [4]int, by int) grey {
	g := grey{width: (crop[2] - crop[0]) / by, height: (crop[3] - crop[1]) / by}
	g.v = make([]uint8, g.width*g.height)
	i0, j0 := to.stored(crop[0], crop[1])
	i1, j1 := to.stored(crop[2]-1, crop[3]-1)
	i0, i1, j0, j1 = min(i0, i1), max(i0, i1)+1, min(j0, j1), max(j0, j1)+1
	b := p.Bounds()
	row, sums := make([]uint8, i1-i0), make([]uint32, (i1-i0)/by)
	step := to.ia - to.ib*g.width // from a pixel to the next along the stored row, in g.v
	for j := j0; j < j1; j += by {
		clear(sums)
		for k := range by {
			greyRow(p, b.Min.X+i0, b.Min.Y+j+k, row)
			if by == 1 {
				break
			}
			for n := range sums {
				for _, v := range row[n*by : (n+1)*by] {
					sums[n] += uint32(v)
				}
			}
		}
		if by > 1 {
			area := uint32(by * by)
			for n, sum := range sums {
				row[n] = uint8((sum + area/2) / area)
			}
		}
		x, y := (to.x+to.ia*i0+to.ja*j-crop[0])/by, (to.y+to.ib*i0+to.jb*j-crop[1])/by
		at := (g.height-1-y)*g.width + x
		if step == 1 {
			copy(g.v[at:at+len(sums)], row)
			continue
		}
		for _, v := range row[:len(sums)] {
			g.v[at] = v
			at += step
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
