//go:build !js

package main

import (
	"flag"

	"openwork/pattern/cutfile"
)

// cutFlags declares cut's flags.
func cutFlags(f *flag.FlagSet) (o *cutfile.Options, unsound *bool) {
	usual := cutfile.Defaults()
	o = &usual
	f.BoolVar(&o.Polygons, "polygons", false, "straight edges only, no curves")
	f.Float64Var(&o.Tolerance, "tolerance", 0, "how far curves may lie from the outlines, in mm, from 0.001; 0: 0.02")
	f.Float64Var(&o.Apart, "apart", 0, "how far two cuts in a row lie apart, in mm, so that none is hot; 0: no care")
	f.StringVar(&o.Colours.Cut, "cut-colour", "", "of the layer cut, as #rrggbb")
	f.StringVar(&o.Colours.Score, "score-colour", "", "of the layer score")
	f.StringVar(&o.Colours.Mark, "mark-colour", "", "of the layer mark")
	f.Float64Var(&o.Holes.Diameter, "holes", o.Holes.Diameter, "diameter of the registration holes in mm; 0: none")
	f.StringVar((*string)(&o.Holes.Layer), "holes-on", string(o.Holes.Layer), "the layer they are on: cut, or mark")
	f.Float64Var(&o.Label.Height, "label", o.Label.Height, "height of the label's letters in mm; 0: no label")
	f.StringVar((*string)(&o.Label.Layer), "label-on", string(o.Label.Layer), "the layer it is on: mark, score or cut")
	f.StringVar(&o.Label.Date, "date", "", "the date on the label")
	f.BoolVar(&o.Bar, "bar", o.Bar, "a check bar of 100 mm")
	unsound = f.Bool("unsound", false, "write the file even though the sheet does not hold; it carries the reasons")
	return o, unsound
}
