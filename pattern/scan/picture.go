package scan

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"math"
	"strings"

	"openwork/pattern/outline"
	"openwork/pattern/progress"

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
func readPicture(data []byte, d *decoder, name string, o outline.Options) (outline.Result, error) {
	var c image.Config
	if err := guarded(func() (err error) {
		c, err = d.config(bytes.NewReader(data))
		return err
	}); err != nil {
		return outline.Result{}, damaged(name, d.kind, err)
	}
	density := densityOf(data, d.kind)
	width, height := c.Width, c.Height
	switch {
	case width <= 0 || height <= 0:
		return outline.Result{}, fmt.Errorf("%s is a %s picture of %d × %d pixels; there is nothing to read", name,
			d.kind, width, height)
	case width > maxSide || height > maxSide || width*height > maxDecoded:
		return outline.Result{}, fmt.Errorf("%s has %d × %d pixels; pictures up to %d million pixels and %d along a "+
			"side are read; scan it at a lower resolution, or only the part that is needed", name, width, height,
			int(maxDecoded/1e6), maxSide)
	case width*height > maxMemory/pixelBytes(c.ColorModel, density.progressive):
		return outline.Result{}, fmt.Errorf("%s has %d × %d pixels of a kind that takes %d bytes each, more than "+
			"there is room for; save it in grey, scan it at a lower resolution, or only the part that is needed",
			name, width, height, pixelBytes(c.ColorModel, density.progressive))
	}

	placed := placingOf(width, height, density.turn, o.Upright)
	if o.Upright%2 == 1 {
		density.across, density.down = density.down, density.across
	}
	r := outline.Result{WidthPX: placed.width, HeightPX: placed.height}
	scale, err := setScale(&r, density, o)
	if err != nil {
		return outline.Result{}, err
	}
	by, err := setCrop(&r, o)
	if err != nil {
		return outline.Result{}, err
	}
	var p image.Image
	if err := guarded(func() (err error) {
		p, err = d.decode(&progressReader{data: data, report: o.Progress.Within(0, partDecoded)})
		return err
	}); err != nil {
		return outline.Result{}, damaged(name, d.kind, err)
	}
	if b := p.Bounds(); b.Dx() != width || b.Dy() != height {
		return outline.Result{}, damaged(name, d.kind, errors.New("its size is not what it says"))
	}
	o.Progress.At(partDecoded)
	if o.Look {
		r.Look = look(p, placed)
	}
	g := toGrey(p, placed, r.Crop, by)
	p = nil // what follows needs the room
	o.Progress.At(partGrey)
	r.Frame = outline.Frame{Scale: scale, Turn: o.Turn * math.Pi / 180, Crop: r.Crop}
	if err := trace(&r, g, [2]float64{scale[0] * float64(by), scale[1] * float64(by)}, name, o); err != nil {
		return r, err
	}
	return r, nil
}

// look returns a picture upright, in grey and reduced. A rest of pixels at the right and at the top is left out.
func look(p image.Image, to placing) *image.Gray {
	by := (max(to.width, to.height) + lookSide - 1) / lookSide
	if by > min(to.width, to.height) {
		by = 1 // a strip
	}
	g := toGrey(p, to, [4]int{0, to.height % by, to.width - to.width%by, to.height}, by)
	out := image.NewGray(image.Rect(0, 0, g.width, g.height))
	for y := range g.height {
		copy(out.Pix[y*out.Stride:], g.v[(g.height-1-y)*g.width:][:g.width])
	}
	return out
}

// pixelBytes returns how many bytes of memory a decoder takes for a pixel.
func pixelBytes(m color.Model, progressive bool) int {
	n := 4
	switch m {
	case color.GrayModel:
		n = 1
	case color.Gray16Model:
		n = 2
	case color.YCbCrModel:
		n = 3
	case color.RGBA64Model, color.NRGBA64Model:
		n = 8
	default:
		if _, palette := m.(color.Palette); palette {
			n = 1
		}
	}
	if progressive { // all coefficients, four bytes each, are kept until the last pass
		n += 4 * n
	}
	return n
}

// setCrop writes the part of the picture that is read into r, and returns how many pixels a side become one so that it
// is not more than can be followed.
func setCrop(r *outline.Result, o outline.Options) (by int, err error) {
	r.Crop = [4]int{0, 0, r.WidthPX, r.HeightPX}
	if c := o.Crop; c != [4]int{} {
		if c[0] < 0 || c[1] < 0 || c[2] > r.WidthPX || c[3] > r.HeightPX || c[2]-c[0] < minCrop || c[3]-c[1] < minCrop {
			return 1, fmt.Errorf("the part to read, from %d, %d to %d, %d, is not a part of the picture of %d × %d "+
				"pixels that is at least %d pixels wide and high; "+
				"draw it again", c[0], c[1], c[2], c[3], r.WidthPX, r.HeightPX, minCrop)
		}
		r.Crop = c
	}
	limit := float64(maxPixels)
	if o.Pencil {
		limit = maxPencilPixels
	}
	w, h := r.Crop[2]-r.Crop[0], r.Crop[3]-r.Crop[1]
	by = int(math.Ceil(math.Sqrt(float64(w) * float64(h) / limit)))
	if by > 1 { // the lower left corner stays
		r.Crop[2] -= w % by
		r.Crop[1] += h % by
		r.Left = append(r.Left,
			fmt.Sprintf("What is read has %d million pixels; each %d × %d of them were taken as one.", w*h/1e6, by, by))
	}
	return by, nil
}

// progressReader reads bytes and reports how far it has come.
type progressReader struct {
	data   []byte
	at     int
	report progress.Func
}

func (r *progressReader) Read(p []byte) (int, error) {
	if r.at >= len(r.data) {
		return 0, io.EOF
	}
	n := copy(p, r.data[r.at:])
	r.at += n
	r.report.Of(r.at, len(r.data))
	return n, nil
}

// ReadAt is what the TIFF decoder asks for.
func (r *progressReader) ReadAt(p []byte, at int64) (int, error) {
	if at < 0 || at >= int64(len(r.data)) {
		return 0, io.EOF
	}
	n := copy(p, r.data[at:])
	r.at = max(r.at, int(at)+n)
	r.report.Of(r.at, len(r.data))
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

// guarded calls f and turns a panic into an error: a decoder that stumbles over a damaged file must not take the
// program down.
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
	return fmt.Errorf("%s is a %s picture that is damaged or of a sort that is not read (%w); save it again as PNG",
		name, kind, err)
}
