package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
	"openwork/pattern/study"
	"openwork/pattern/symmetry"
)

// picturesInput asks for the seventeen small pictures, of a size in px.
type picturesInput struct {
	drafted
	Width  int `json:"width"`
	Height int `json:"height"`
}

// smallPictures are PNGs end to end in one block of bytes.
type smallPictures struct {
	Rows []pictureRow
	all  []byte
}

// pictureRow says where a group's picture stands in the block.
type pictureRow struct {
	Symbol string `json:"symbol"`
	Offset int    `json:"offset"`
	Length int    `json:"length"`
}

// maxSmall in px of a side of the small pictures: a card of them on a fine screen, and more.
const maxSmall = 2048

func (*picturesInput) usual() *picturesInput { return &picturesInput{} }

// run draws a draft's motifs in each of the seventeen groups.
func (in *picturesInput) run(progress.Func) (*smallPictures, error) {
	out := &smallPictures{}
	cache := pattern.NewShapes()
	for _, g := range symmetry.Groups() {
		all, row, err := addSmall(out.all, in.draft, g.Symbol, in.Width, in.Height, cache)
		if err != nil {
			return nil, err
		}
		out.all, out.Rows = all, append(out.Rows, row)
	}
	return out, nil
}

// addSmall draws a draft's motifs small in a group and adds the picture to a block of them.
func addSmall(block []byte, d draft.Draft, symbol string, width, height int, cache *pattern.Shapes) ([]byte, pictureRow,
	error) {
	if min(width, height) < 1 || max(width, height) > maxSmall {
		return block, pictureRow{}, fmt.Errorf("small pictures of %d × %d px cannot be had; both sides lie between 1 "+
			"and %d",
			width, height, maxSmall)
	}
	img, err := study.Small(d, symbol, width, height, cache)
	if err != nil {
		return block, pictureRow{}, err
	}
	from := len(block)
	block, err = fastPNG(block, img)
	return block, pictureRow{symbol, from, len(block) - from}, err
}

// fastPNG appends a picture as PNG to dst, packed for speed.
func fastPNG(dst []byte, img image.Image) ([]byte, error) {
	b := bytes.NewBuffer(dst)
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	err := e.Encode(b, img)
	return b.Bytes(), err
}

func (p *smallPictures) MarshalJSON() ([]byte, error) { return json.Marshal(p.Rows) }

func (p *smallPictures) block() []byte { return p.all }
