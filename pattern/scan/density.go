package scan

import (
	"openwork/pattern/outline"

	"encoding/binary"
	"math"
)

// density is what a file says about its own resolution, in pixels per inch across and down the picture as stored, 0
// where it says nothing; which way up it is; and what decoding it takes. turn is the Exif orientation, 1 to 8.
type density struct {
	across, down float64
	turn         int
	progressive  bool // a JPEG file whose picture comes in several passes
}

// densityOf looks for a picture's resolution and orientation: PNG pHYs and eXIf (PNG specification, third edition),
// JPEG JFIF (ITU-T T.871) and Exif (CIPA DC-008), TIFF 6.0 tags, the BMP header, WebP's EXIF chunk. What is damaged is
// passed over; the answer is upright.
func densityOf(data []byte, kind string) density {
	d := density{turn: 1}
	switch kind {
	case "PNG":
		d.fromPNG(data)
	case "JPEG":
		d.fromJPEG(data)
	case "TIFF":
		d.fromTIFF(data)
	case "WebP":
		d.fromWebP(data)
	case "BMP":
		if len(data) >= 46 { // pixels per metre, both as signed 32-bit numbers
			d.across = float64(int32(binary.LittleEndian.Uint32(data[38:]))) * outline.MMPerInch / 1000
			d.down = float64(int32(binary.LittleEndian.Uint32(data[42:]))) * outline.MMPerInch / 1000
		}
	}
	if d.turn >= 5 { // stored lying down
		d.across, d.down = d.down, d.across
	}
	return d
}

// set takes a resolution that can be one.
func (d *density) set(across, down float64) {
	if across > 0 && down > 0 && !math.IsInf(across, 0) && !math.IsInf(down, 0) {
		d.across, d.down = across, down
	}
}

func (d *density) fromPNG(data []byte) {
	for at := 8; at+12 <= len(data); { // ends: at grows by 12 or more
		n := int(binary.BigEndian.Uint32(data[at:]))
		kind := string(data[at+4 : at+8])
		if n < 0 || n > len(data)-at-12 {
			return
		}
		body := data[at+8 : at+8+n]
		switch kind {
		case "pHYs": // pixels per unit across and down, and the unit: 1 is the metre
			if n == 9 && body[8] == 1 {
				perInch := outline.MMPerInch / 1000
				// The file holds whole pixels per metre; 300 dpi becomes 11811, which is 299.9994 dpi.
				d.set(wholeDPI(float64(binary.BigEndian.Uint32(body))*perInch),
					wholeDPI(float64(binary.BigEndian.Uint32(body[4:]))*perInch))
			}
		case "eXIf":
			e := density{turn: 1}
			e.fromTIFF(body)
			d.turn = e.turn
			if d.across == 0 {
				d.set(e.across, e.down)
			}
		case "IEND":
			return
		}
		at += n + 12
	}
}

// wholeDPI rounds a resolution to the nearest whole number of dpi when pixels per metre, rounded, could not tell it
// from that.
func wholeDPI(v float64) float64 {
	if whole := math.Round(v); math.Abs(v-whole) <= outline.MMPerInch/2000 {
		return whole
	}
	return v
}

func (d *density) fromJPEG(data []byte) {
	for at := 2; at+4 <= len(data); { // ends: at grows by 1 or more
		if data[at] != 0xff {
			return
		}
		marker := data[at+1]
		if marker == 0xff { // fill
			at++
			continue
		}
		n := int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == 0xda || marker == 0xd9 || n < 2 || at+2+n > len(data) { // the picture itself begins
			return
		}
		body := data[at+4 : at+2+n]
		switch {
		case marker == 0xc2:
			d.progressive = true
		case marker == 0xe0 && len(body) >= 12 && string(body[:5]) == "JFIF\x00":
			unit := map[byte]float64{1: 1, 2: outline.MMPerInch / 10}[body[7]] // dots per inch, dots per cm
			d.set(unit*float64(binary.BigEndian.Uint16(body[8:])), unit*float64(binary.BigEndian.Uint16(body[10:])))
		case marker == 0xe1 && len(body) > 6 && string(body[:6]) == "Exif\x00\x00":
			e := density{turn: 1}
			e.fromTIFF(body[6:])
			d.turn = e.turn
			if d.across == 0 {
				d.set(e.across, e.down)
			}
		}
		at += 2 + n
	}
}

func (d *density) fromWebP(data []byte) {
	for at := 12; at+8 <= len(data); { // ends: at grows by 8 or more
		n := int(binary.LittleEndian.Uint32(data[at+4:]))
		if n < 0 || n > len(data)-at-8 {
			return
		}
		if string(data[at:at+4]) == "EXIF" {
			body := data[at+8 : at+8+n]
			if len(body) > 6 && string(body[:6]) == "Exif\x00\x00" {
				body = body[6:]
			}
			d.fromTIFF(body)
			return
		}
		at += 8 + n + n%2
	}
}

// fromTIFF reads the first directory of a TIFF file, which is also what Exif is: orientation (tag 274), resolution
// across and down (282, 283) and its unit (296: 1 none, 2 inch, 3 cm).
func (d *density) fromTIFF(data []byte) {
	if len(data) < 8 {
		return
	}
	var order binary.ByteOrder = binary.LittleEndian
	if data[0] == 'M' {
		order = binary.BigEndian
	}
	at := int64(order.Uint32(data[4:]))
	if at+2 > int64(len(data)) {
		return
	}
	count := int64(order.Uint16(data[at:]))
	var across, down float64
	unit := 2
	for k := range count {
		e := at + 2 + 12*k
		if e+12 > int64(len(data)) {
			break
		}
		tag, kind, value := order.Uint16(data[e:]), order.Uint16(data[e+2:]), data[e+8:e+12]
		switch {
		case tag == 274 && kind == 3:
			if v := int(order.Uint16(value)); v >= 1 && v <= 8 {
				d.turn = v
			}
		case tag == 296 && kind == 3:
			unit = int(order.Uint16(value))
		case (tag == 282 || tag == 283) && kind == 5: // a fraction, elsewhere
			v := 0.0
			if f := int64(order.Uint32(value)); f+8 <= int64(len(data)) {
				v = float64(order.Uint32(data[f:])) / float64(order.Uint32(data[f+4:]))
			}
			if tag == 282 {
				across = v
			} else {
				down = v
			}
		}
	}

	switch unit {
	case 2:
		d.set(across, down)
	case 3:
		d.set(across*outline.MMPerInch/10, down*outline.MMPerInch/10)
	}
}
