//go:build !js

package main

import (
	"flag"

	"openwork/pattern/outline"
)

// traceFlags declares trace's flags; zero leaves a choice to the tracing itself.
func traceFlags(f *flag.FlagSet) *outline.Options {
	o := &outline.Options{}
	f.Float64Var(&o.DPI, "dpi", 0, "resolution in dots to the inch; 0: as the file says, else 300")
	f.Float64Var(&o.HeightMM, "height", 0, "height of the whole picture in mm; 0: from the resolution")
	f.Float64Var(&o.Level, "level", 0, "grey that divides ink from paper, above 0 and below 1; 0: found by itself")
	f.Float64Var(&o.ToleranceMM, "tolerance", 0, "how far outlines may be simplified, in mm; 0: 0.05")
	f.Float64Var(&o.SpecksMM2, "specks", 0, "ink up to this area in mm² is dropped; 0: the usual size, negative: none")
	f.Float64Var(&o.PinholesMM2, "pinholes", 0, "holes up to this area in mm² are filled; 0: the usual size, negative: none")
	f.BoolVar(&o.Invert, "invert", false, "the drawing is light on dark")
	return o
}
