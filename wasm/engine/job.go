//go:build !js

package main

import (
	"bytes"
	"flag"
	"io"
	"path/filepath"

	"openwork/pattern/cutfile"
	"openwork/pattern/jobsheet"
)

// jobFlags declares job's flags; those of the cut file that it goes with are cut's.
func jobFlags(f *flag.FlagSet) *jobsheet.Options {
	o := jobsheet.Defaults()
	f.StringVar(&o.Paper, "paper", o.Paper, "A4, A3, Letter or Tabloid")
	f.Float64Var(&o.CutSpeed, "speed", o.CutSpeed, "of cutting, in mm/s")
	f.Float64Var(&o.TravelSpeed, "travel", o.TravelSpeed, "speed between cuts, in mm/s")
	f.Float64Var(&o.Pierce, "pierce", o.Pierce, "time of a piercing, in s")
	f.Float64Var(&o.Rate, "rate", 0, "of the machine, for an hour; 0: not known")
	f.Float64Var(&o.Price, "price", 0, "of the stock for this sheet")
	f.StringVar(&o.Currency, "currency", "", "of rate and price")
	f.Float64Var(&o.Density, "density", 0, "of the stock, in kg/m³; 0: by the stock's name")
	f.StringVar(&o.Address, "address", "", "of the page that opens links, for the QR code")
	f.StringVar(&o.Date, "date", "", "the date on the sheet")
	f.Float64Var(&o.Cut.Holes.Diameter, "holes", o.Cut.Holes.Diameter, "diameter of the cut file's registration holes in mm; 0: none")
	f.StringVar((*string)(&o.Cut.Holes.Layer), "holes-on", string(cutfile.Mark), "the layer they are on: cut, or mark")
	f.Float64Var(&o.Cut.Label.Height, "label", o.Cut.Label.Height, "height of the cut file's label in mm; 0: no label")
	f.Float64Var(&o.Cut.Apart, "apart", 0, "how far two cuts in a row lie apart in the cut file, in mm; 0: no care")
	return &o
}

func runJob(f *flag.FlagSet, args []string, out io.Writer) error {
	path := f.String("o", "", "the PDF to write")
	o := jobFlags(f)
	plain, err := parse(f, args, 1)
	if err != nil {
		return err
	}
	d, err := readDraft(plain[0])
	if err != nil {
		return err
	}
	if err := isPDF("job", *path); err != nil {
		return err
	}
	if plain[0] != "-" {
		o.File = filepath.Base(plain[0])
	}
	o.Cut.Label.Date = o.Date
	l, err := layoutOf(d)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	made, err := jobsheet.Write(l, &b, *o)
	if err != nil {
		return err
	}
	if err := writeFiles(outFile{*path, b.Bytes()}); err != nil {
		return err
	}
	return printJSON(out, made)
}
