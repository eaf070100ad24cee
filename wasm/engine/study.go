//go:build !js

package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"openwork/pattern/study/pages"
)

// studyFlags declares study's flags.
func studyFlags(f *flag.FlagSet) *pages.Options {
	o := pages.Defaults()
	f.StringVar(&o.Paper, "paper", o.Paper, "A4, A3, Letter or Tabloid")
	f.StringVar(&o.Way, "way", o.Way, "how pages lie: upright, lying, or fewer for whichever needs fewer pages")
	f.Float64Var(&o.Margin, "margin", o.Margin, "that the printer leaves on every side, in mm")
	f.Float64Var(&o.Overlap, "overlap", o.Overlap, "of neighbouring pages, in mm")
	f.Float64Var(&o.Correction, "correction", o.Correction, "for a printer that is off, in percent: 3.09 where it makes 97 mm of 100")
	f.StringVar((*string)(&o.Draw), "draw", string(o.Draw), "the openings: outlines, light or full")
	f.BoolVar(&o.Pattern, "pattern", o.Pattern, "the openings at all")
	f.BoolVar(&o.Cell, "cell", o.Cell, "the cells of the repeat")
	f.BoolVar(&o.Marks, "marks", o.Marks, "crop and joining marks")
	return &o
}

func runStudy(f *flag.FlagSet, args []string, out io.Writer) error {
	path := f.String("o", "", "the PDF to write")
	o := studyFlags(f)
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	if err := isPDF("study", *path); err != nil {
		return err
	}
	l, err := layoutOf(d)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	made, err := pages.Write(l, &b, *o)
	if err != nil {
		return err
	}
	if err := writeFiles(outFile{*path, b.Bytes()}); err != nil {
		return err
	}
	return printJSON(out, made)
}

// isPDF says when the file asked for is none.
func isPDF(verb, path string) error {
	if strings.ToLower(filepath.Ext(path)) != ".pdf" {
		return fmt.Errorf("%w: %s writes a PDF; give -o FILE.pdf", errUsage, verb)
	}
	return nil
}
