package outline

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"strings"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

// decoder reads one kind of picture.
type decoder struct {
	kind   string
	starts []string // a file of this kind starts with one of these; ? stands for any byte
	config func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
}

var decoders = []decoder{
	{"PNG", []string{"\x89PNG\r\n\x1a\n"}, png.DecodeConfig, png.Decode},
	{"JPEG", []string{"\xff\xd8\xff"}, jpeg.DecodeConfig, jpeg.Decode},
	{"GIF", []string{"GIF87a", "GIF89a"}, gif.DecodeConfig, gif.Decode},
	{"TIFF", []string{"II*\x00", "MM\x00*"}, tiff.DecodeConfig, tiff.Decode},
	{"WebP", []string{"RIFF????WEBP"}, webp.DecodeConfig, webp.Decode},
	{"BMP", []string{"BM????\x00\x00\x00\x00"}, bmp.DecodeConfig, bmp.Decode},
}

// pictureDecoder returns the decoder for what the data starts with, or nil.
func pictureDecoder(data []byte) *decoder {
	for k := range decoders {
		for _, start := range decoders[k].starts {
			if len(data) < len(start) {
				continue
			}
			same := true
			for i := range len(start) {
				same = same && (start[i] == '?' || start[i] == data[i])
			}
			if same {
				return &decoders[k]
			}
		}
	}
	return nil
}

// readPicture reads a picture whose kind is known: its size before anything else, then the rest.
func readPicture(data []byte, d *decoder, name string, o Options) (Result, error) {
	var width, height int
	if err := guarded(func() error {
		c, err := d.config(bytes.NewReader(data))
		width, height = c.Width, c.Height
		return err
	}); err != nil {
		return Result{}, damaged(name, d.kind, err)
	}
	switch {
	case width <= 0 || height <= 0:
		return Result{}, fmt.Errorf("%s is a %s picture of %d × %d pixels; there is nothing to read", name, d.kind, width, height)
	case width > maxSide || height > maxSide || width*height > maxPixels:
		return Result{}, fmt.Errorf("%s has %d × %d pixels; pictures up to %d million pixels and %d along a side are read; "+
			"scan it at a lower resolution, or only the part that is needed", name, width, height, int(maxPixels/1e6), maxSide)
	}
	var p image.Image
	if err := guarded(func() (err error) {
		p, err = d.decode(bytes.NewReader(data))
		return err
	}); err != nil {
		return Result{}, damaged(name, d.kind, err)
	}
	if b := p.Bounds(); b.Dx()*b.Dy() > maxPixels || b.Empty() {
		return Result{}, damaged(name, d.kind, errors.New("its size is not what it says"))
	}
	density := densityOf(data, d.kind)
	g := toGrey(p, density.turn)
	p = nil // what follows needs the room
	r := Result{WidthPX: g.width, HeightPX: g.height}
	scale := setScale(&r, density, o)
	return r, trace(&r, g, scale, name, o)
}

// guarded calls f and turns a panic into an error: a decoder that stumbles over a damaged file must not take the program
// down.
func guarded(f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%v", r)
		}
	}()
	return f()
}

// damaged is the sentence for a file that a decoder gave up on.
func damaged(name, kind string, err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || strings.Contains(err.Error(), "not enough") {
		return fmt.Errorf("%s is a %s picture that is cut short; save or send it again", name, kind)
	}
	return fmt.Errorf("%s is a %s picture that is damaged or of a sort that is not read (%w); save it again as PNG", name, kind, err)
}

// setScale writes the picture's resolution into r and returns mm per pixel across and down. A typed height and a typed
// resolution count down the picture; across it the file's own ratio is kept, as some scanners and faxes have one.
func setScale(r *Result, d density, o Options) [2]float64 {
	across, down := d.across, d.down
	r.DPISource = DPIFile
	if across < minDPI || across > maxDPI || down < minDPI || down > maxDPI {
		if across > 0 && down > 0 && o.DPI == 0 && o.HeightMM == 0 {
			r.Left = append(r.Left, fmt.Sprintf("The file says %.4g dpi, which cannot be; 300 dpi is assumed.", down))
		} else if o.DPI == 0 && o.HeightMM == 0 {
			r.Left = append(r.Left, "The file does not say at which resolution it was scanned; 300 dpi is assumed.")
		}
		across, down = DefaultDPI, DefaultDPI
		r.DPISource = DPIAssumed
	}
	switch {
	case o.DPI > 0:
		across, down = across*o.DPI/down, o.DPI
		r.DPISource = DPITyped
	case o.HeightMM > 0:
		typed := float64(r.HeightPX) * mmPerInch / o.HeightMM
		across, down = across*typed/down, typed
		r.DPISource = DPIHeight
	}
	r.DPI = down
	scale := [2]float64{mmPerInch / across, mmPerInch / down}
	r.WidthMM, r.HeightMM = float64(r.WidthPX)*scale[0], float64(r.HeightPX)*scale[1]
	return scale
}
