//go:build !js

package main

import (
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/joined"
	"openwork/pattern/stepping"
)

// twoNumbers reads "600x900".
func twoNumbers(s string) (a, b float64, err error) {
	left, right, ok := strings.Cut(strings.ToLower(s), "x")
	if ok {
		if a, err = strconv.ParseFloat(left, 64); err == nil {
			b, err = strconv.ParseFloat(right, 64)
		}
	}
	if !ok || err != nil {
		return 0, 0, fmt.Errorf("%w: %.40q is not two numbers; write them as 600x900", errUsage, s)
	}
	return a, b, nil
}

// bedFlag declares -bed; nil until it is given.
func bedFlag(f *flag.FlagSet) **pattern.Bed {
	bed := new(*pattern.Bed)
	f.Func("bed", "what the machine takes, in mm, either way round: 600x900; otherwise the draft's sheet.bed", func(s string) error {
		w, h, err := twoNumbers(s)
		*bed = &pattern.Bed{Width: w, Height: h}
		return err
	})
	return bed
}

// sheetFlags are the flags that steps and join have in common.
type sheetFlags struct {
	path    *string
	bed     **pattern.Bed
	cut     *cutfile.Options
	unsound *bool
}

func newSheetFlags(f *flag.FlagSet, about string) sheetFlags {
	s := sheetFlags{path: f.String("o", "", about), bed: bedFlag(f)}
	s.cut, s.unsound = cutFlags(f)
	return s
}

// read parses the arguments and returns the draft and the format.
func (s sheetFlags) read(f *flag.FlagSet, args []string) (pattern.Draft, cutfile.Format, error) {
	d, err := oneDraft(f, args)
	if err != nil {
		return d, "", err
	}
	format, err := cutfile.FormatOf(*s.path)
	if err != nil {
		return d, "", fmt.Errorf("%w: %w; give -o FILE.svg", errUsage, err)
	}
	s.cut.Unsound, err = holding(d, *s.unsound)
	return d, format, err
}

func runSteps(f *flag.FlagSet, args []string, out io.Writer) error {
	s := newSheetFlags(f, "the file to write; its ending says what it is: svg, dxf or pdf")
	repeats := f.String("repeats", "", "cells along a and b on the sheet, as 2x3, or most for as many as fit the bed; otherwise the smallest piece")
	margin := f.Float64("margin", 0, "of sheet round the openings, in mm; 0: 20")
	mapPath := f.String("map", "", "the PDF to write the map of the places to")
	paper := f.String("paper", "A4", "of the map: A4, A3, Letter or Tabloid")
	d, format, err := s.read(f, args)
	if err != nil {
		return err
	}
	if *mapPath != "" {
		if err := isPDF("steps' map", *mapPath); err != nil {
			return err
		}
	}
	o := stepping.Options{Bed: *s.bed, Margin: *margin, Cut: *s.cut}
	switch *repeats {
	case "":
	case "most":
		o.Most = true
	default:
		a, b, err := twoNumbers(*repeats)
		if o.Repeats = [2]int{int(a), int(b)}; err == nil && (float64(o.Repeats[0]) != a || float64(o.Repeats[1]) != b) {
			err = fmt.Errorf("%w: repeats are counted in whole numbers, as 2x3", errUsage)
		}
		if err != nil {
			return err
		}
	}
	answer, data, err := steps(d, o, format, *paper, nil)
	if err != nil {
		return err
	}
	files := []outFile{{*s.path, data[:answer.Map]}}
	if *mapPath != "" {
		files = append(files, outFile{*mapPath, data[answer.Map:]})
	}
	if err := writeFiles(files...); err != nil {
		return err
	}
	return printJSON(out, answer)
}

func runJoin(f *flag.FlagSet, args []string, out io.Writer) error {
	s := newSheetFlags(f, "the files to write; -1, -2 and so on come before the ending, which says what they are: svg, dxf or pdf")
	d, format, err := s.read(f, args)
	if err != nil {
		return err
	}
	answer, data, err := join(d, joined.Options{Bed: *s.bed, Cut: *s.cut}, format, nil)
	if err != nil {
		return err
	}
	ending := filepath.Ext(*s.path)
	var files []outFile
	for _, p := range answer.Files {
		name := fmt.Sprintf("%s-%d%s", strings.TrimSuffix(*s.path, ending), p.Part, ending)
		files = append(files, outFile{name, data[p.Offset : p.Offset+p.Length]})
	}
	if err := writeFiles(files...); err != nil {
		return err
	}
	return printJSON(out, answer)
}
