// Package outline is what a drawing on paper or in a file becomes: closed, clean outlines in millimetres, one for each
// connected piece of ink. It holds the choices a person can make, the result, and what the readers have in common;
// package scan reads pictures, package svgin SVG drawings, and package trace whichever of the two a file is.
package outline

import (
	"errors"
	"fmt"
	"image"
	"math"

	"openwork/pattern/progress"

	"github.com/paulmach/orb"
)

// Options are the choices a person can make. The zero value of each means its default, so Options{} is a sane request.
type Options struct {
	// DPI is the resolution of the picture in pixels per inch (25.4 mm), when the file's own is missing or wrong; of an
	// SVG drawing, how many of its own units (those of its viewBox) make an inch. 0: what the file says, else 300.
	DPI float64
	// HeightMM is the height in mm of the whole picture, as another way to say its scale; of an SVG drawing, the height
	// of its page. 0: not given. Of DPI, HeightMM and DistanceMM one at most is given.
	HeightMM float64
	// DistanceMM is how far apart in mm two Points of a picture are, as a third way; Points are in pixels of the
	// upright picture, x from its left and y from its top. 0: not given.
	DistanceMM float64
	Points     [2][2]float64

	// What follows, down to BridgeMM, is for pictures; an SVG drawing is read without.

	// Upright is how many quarter turns counter-clockwise (0 to 3) make the picture upright, after what the file says
	// of its own orientation; for a photo whose own is wrong.
	Upright int
	// Crop is the part of the upright picture to read: left, top, right and bottom in pixels from its upper left
	// corner. Outlines then have their origin at the part's lower left corner, and only its light is looked at. Zeros:
	// all of it.
	Crop [4]int
	// Turn is the angle in degrees, counter-clockwise, that straightens the drawing: outlines are turned by it about
	// the middle of what is read. Crop and Points are of the picture before.
	Turn float64
	// Flat leaves the light as it is: one level of grey all over the picture. Else uneven light is taken out first.
	Flat bool
	// Pencil reads a drawing of lines: what a closed line surrounds is ink, to the middle of the line. What a further
	// closed line surrounds within, touching none of the outer ones, is a hole, and so on by turns; lines from side to
	// side part nothing. Lines that close nothing are left out.
	Pencil bool
	// GapMM is the width in mm up to which a gap in a line counts as closed. 0: 1 mm; negative: none does.
	GapMM float64
	// SmoothingMM is how far in mm an outline may be moved, beyond the tolerance, to round what a hand's line jitters.
	// Sharp corners stay. 0: it is not moved.
	SmoothingMM float64

	// OpeningMM and BridgeMM are the sheet's least widths in mm of ink and of what is between it; places that are
	// narrower are listed in Result.Narrow. 0: they are not looked for.
	OpeningMM, BridgeMM float64

	// ToleranceMM is how far in mm an outline may run from the ink's edge for the sake of fewer points. 0: 0.05 mm.
	ToleranceMM float64
	// SpecksMM2 is the area in mm² below which a piece of ink in a picture is dust. 0: 0.5 mm²; negative: everything is
	// kept. An SVG drawing has no dust; only what is under 0.001 mm² is dropped there.
	SpecksMM2 float64
	// PinholesMM2 is the area in mm² below which a hole in the ink is a flaw and is filled. 0: 0.2 mm²; negative: every
	// hole is kept.
	PinholesMM2 float64
	// Level is the grey between ink and paper once the light is levelled: 0 black, 1 white; what is darker is ink. 0:
	// it is found by itself. For an SVG drawing it is not used.
	Level float64
	// Invert takes what is light for ink and what is dark for paper. In an SVG drawing, black then covers as paper
	// does, and white is ink.
	Invert bool
	// Look asks for Result.Look, for a kind of picture that whoever asks cannot show by itself.
	Look bool
	// Progress receives how far the reading of a picture has come. nil: nobody listens.
	Progress progress.Func
}

// Piece is one connected piece of ink: one polygon with its holes, in mm, origin at the lower left corner of the
// picture or of the part that was read, y up. The outer ring runs counter-clockwise, holes clockwise, every ring is
// closed, no ring crosses itself or another of the same result, and all coordinates lie on the draft's grid of 1e-4 mm.
// Rings touch nowhere, but for an SVG drawing whose own lines meet in a point.
type Piece struct {
	Outline orb.MultiPolygon
}

// Where a picture's scale came from; see Result.DPISource.
const (
	DPITyped   = "typed"   // Options.DPI
	DPIHeight  = "height"  // Options.HeightMM
	DPIPoints  = "points"  // Options.Points and DistanceMM
	DPIFile    = "file"    // the file's own resolution, or an SVG drawing's own sizes
	DPIAssumed = "assumed" // the file has none and nothing was typed: 300 dpi, or an SVG drawing's 96
)

// Result is what was read.
type Result struct {
	Pieces []Piece // largest first; never empty when there is no error

	// DPI is the resolution that was used, in pixels per inch down the picture; of an SVG drawing, how many of the
	// drawing's own units (those of its viewBox) make an inch down the page. DPISource is one of the DPI constants.
	DPI       float64
	DPISource string

	// Level is the grey between ink and paper that was used (Options.Level says how it counts); given back as
	// Options.Level it brings the same outlines. 0 for an SVG drawing.
	Level float64

	// WidthPX and HeightPX are the upright picture's size in pixels; of an SVG drawing, its page in CSS pixels (96 to
	// the inch), rounded up. WidthMM and HeightMM are the same in mm; Pixel is where on it outlines lie.
	WidthPX, HeightPX int
	WidthMM, HeightMM float64

	// Crop is the part of the upright picture that was read, as Options.Crop; zeros for an SVG drawing.
	Crop [4]int

	// Look is the whole upright picture in grey, reduced to at most 1,600 pixels along a side; nil unless Options.Look
	// asks for it, and for an SVG drawing.
	Look *image.Gray

	// Narrow are the places narrower than Options.OpeningMM or BridgeMM, the narrowest first.
	Narrow []Narrow

	// Gaps are the gaps in the lines of a drawing read with Options.Pencil that stayed open, the narrowest first; they
	// are there too when nothing closes and an error says so.
	Gaps []Gap

	// Left says in sentences what was left out, and what was assumed.
	Left []string

	// LeftNarrow says in sentences how many narrow places there are.
	LeftNarrow []string

	Frame Frame
}

// Gap is a gap in a line: its ends in the outlines' frame, in mm, and how wide it is. A wider Options.GapMM closes it.
type Gap struct {
	Ends  [2]orb.Point
	Width float64
}

// Reader reads one kind of file under options that are filled in.
type Reader func(data []byte, name string, o Options) (Result, error)

// ReadWith reads a file with a reader, and does what is common to all: the options' defaults and bounds, the file's
// size, narrow places in what was read, progress to its end. An empty name means "the file" in messages.
func ReadWith(read Reader, data []byte, name string, o Options) (Result, error) {
	o, err := o.filled()
	if err != nil {
		return Result{}, err
	}

	if name == "" {
		name = "the file"
	}
	switch {
	case len(data) == 0:
		return Result{}, fmt.Errorf("%s is empty", name)
	case len(data) > MaxBytes:
		return Result{}, fmt.Errorf("%s has %d MB; files up to %d MB are read", name, len(data)>>20, MaxBytes>>20)
	}

	r, err := read(data, name, o)
	if err != nil {
		return r, err
	}
	r.findNarrow(o)
	o.Progress.At(1)
	return r, nil
}

// Unknown is the sentence for a file that is neither picture nor SVG drawing.
func Unknown(name string) error {
	return fmt.Errorf("%s is not a picture or an SVG drawing this program reads; it reads PNG, JPEG, GIF, BMP, TIFF, "+
		"WebP and SVG", name)
}

// filled returns the options with defaults in place of zeros.
func (o Options) filled() (Options, error) {
	for _, f := range []struct {
		name  string
		value *float64
		low   float64
		high  float64
		unset float64
		unit  string
	}{
		{"resolution", &o.DPI, MinDPI, MaxDPI, 0, "dpi"},
		{"height", &o.HeightMM, minHeightMM, maxHeightMM, 0, "mm"},
		{"tolerance", &o.ToleranceMM, minTolerance, maxTolerance, DefaultTolerance, "mm"},
		{"speck size", &o.SpecksMM2, math.Inf(-1), maxSpeck, DefaultSpecks, "mm²"},
		{"pinhole size", &o.PinholesMM2, math.Inf(-1), maxSpeck, DefaultPinholes, "mm²"},
		{"level", &o.Level, 0, 1, 0, "(0 is black, 1 is white)"},
		{"turn", &o.Turn, -360, 360, 0, "degrees"},
		{"gap", &o.GapMM, math.Inf(-1), maxGap, DefaultGap, "mm"},
		{"smoothing", &o.SmoothingMM, 0, maxSmoothing, 0, "mm"},
		{"least opening", &o.OpeningMM, 0, maxNarrow, 0, "mm"},
		{"least bridge", &o.BridgeMM, 0, maxNarrow, 0, "mm"},
		{"distance between the two points", &o.DistanceMM, minHeightMM, maxHeightMM, 0, "mm"},
	} {
		v := *f.value
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return o, fmt.Errorf("the %s is not a number", f.name)
		case v == 0:
			*f.value = f.unset
		case v < f.low || v > f.high:
			return o, fmt.Errorf("the %s is %g; it may be from %g to %g %s", f.name, v, f.low, f.high, f.unit)
		}
	}

	if o.Upright < 0 || o.Upright > 3 {
		return o, fmt.Errorf("%d quarter turns are asked for; it may be 0 to 3", o.Upright)
	}
	for _, p := range o.Points {
		if v := p[0] + p[1]; math.IsNaN(v) || math.IsInf(v, 0) {
			return o, errors.New("a point that gives the scale is not a pair of numbers")
		}
	}
	switch {
	case o.DPI > 0 && o.HeightMM > 0:
		return o, errors.New("both a resolution and a height are given; give one of them")
	case o.DistanceMM > 0 && (o.DPI > 0 || o.HeightMM > 0):
		return o, errors.New("both a distance between two points and a resolution or a height are given; give one of " +
			"them")
	}
	return o, nil
}
