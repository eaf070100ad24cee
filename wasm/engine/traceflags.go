package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// declare declares trace's flags; zero leaves a choice to the tracing itself.
func (in *traceInput) declare(f flagSet) {
	o := &in.Options
	f.Float64Var(&o.DPI, "dpi", 0, "resolution in dots to the inch; 0: as the file says, else 300")
	f.Float64Var(&o.Height, "height", 0, "height of the whole picture in mm; 0: from the resolution")
	f.Func("points", "two points of the upright picture that are -distance apart: x,y,x,y in pixels from its upper "+
		"left corner", func(s string) error {
		v, err := fourNumbers(s)
		o.Points = [2][2]float64{{v[0], v[1]}, {v[2], v[3]}}
		return err
	})
	f.Float64Var(&o.Distance, "distance", 0,
		"how far apart the two points are in mm; another way to say the resolution")
	f.IntVar(&o.Upright, "upright", 0,
		"quarter turns counter-clockwise, 0 to 3, that put the picture upright, after what the file says")
	f.Func("crop",
		"the part of the upright picture to read: left,top,right,bottom in pixels from its upper left corner",
		func(s string) error {
			v, err := fourNumbers(s)
			o.Crop = v
			return err
		})
	f.Float64Var(&o.Turn, "turn", 0, "degrees counter-clockwise that straighten the drawing")
	f.BoolVar(&o.Flat, "flat", false, "leave uneven light as it is: one level all over")
	f.Float64Var(&o.Level, "level", 0, "grey that divides ink from paper, above 0 and below 1; 0: found by itself")
	f.BoolVar(&o.Invert, "invert", false, "the drawing is light on dark")
	f.BoolVar(&o.Pencil, "pencil", false,
		"a drawing of lines: what closed lines surround is filled, what further ones surround within is a hole")
	f.Float64Var(&o.Gap, "gap", 0, "gaps in lines up to this many mm count as closed; 0: 1 mm, negative: none")
	f.Float64Var(&o.Specks, "specks", 0, "ink up to this area in mm² is dropped; 0: the usual size, negative: none")
	f.Float64Var(&o.Pinholes, "pinholes", 0,
		"holes up to this area in mm² are filled; 0: the usual size, negative: none")
	f.Float64Var(&o.Tolerance, "tolerance", 0, "how far outlines may be simplified, in mm; 0: 0.05")
	f.Float64Var(&o.Smoothing, "smoothing", 0,
		"how far in mm outlines may be moved to round what the hand jittered; 0: not")
	f.Float64Var(&o.Opening, "opening", 0, "tell where the ink is narrower than this many mm; 0: do not look")
	f.Float64Var(&o.Bridge, "bridge", 0, "tell where less than this many mm are between ink; 0: do not look")
}

// fourNumbers reads four numbers with commas between.
func fourNumbers(s string) (v [4]float64, err error) {
	parts := strings.Split(s, ",")
	if len(parts) != 4 {
		return v, fmt.Errorf("four numbers with commas between are meant")
	}
	for k, p := range parts {
		if v[k], err = strconv.ParseFloat(strings.TrimSpace(p), 64); err != nil || math.Abs(v[k]) > 1e9 ||
			math.IsNaN(v[k]) {
			return v, fmt.Errorf("%q is not a number of pixels", p)
		}
	}
	return v, nil
}
