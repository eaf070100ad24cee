//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/link"
	"openwork/pattern/outline"
	"openwork/pattern/study"
	"openwork/pattern/trace"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		switch {
		case errors.Is(err, errUnsound):
			if err != errUnsound { // otherwise the report is told already
				fmt.Fprintln(os.Stderr, pattern.Sentence(err.Error()))
			}
			os.Exit(1)
		case errors.Is(err, flag.ErrHelp):
			os.Exit(0)
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
}

// run carries out one command line.
func run(args []string, out io.Writer) error {
	if len(args) == 0 {
		return fmt.Errorf("%w: which verb?\n\n%s", errUsage, usage())
	}
	switch args[0] {
	case "-h", "--help", "help":
		_, err := io.WriteString(out, usage())
		return err
	}
	v, ok := findVerb(args[0])
	if !ok {
		return fmt.Errorf("%w: there is no verb %q\n\n%s", errUsage, args[0], usage())
	}
	f := flag.NewFlagSet(v.name, flag.ContinueOnError)
	f.SetOutput(os.Stderr)
	f.Usage = func() {
		fmt.Fprintf(os.Stderr, "%s\n    %s\n", v.use, v.about)
		f.PrintDefaults()
	}
	return v.run(f, args[1:], out)
}

// readDraft reads a draft from a file, or from standard input for "-".
func readDraft(path string) (pattern.Draft, error) {
	if path == "-" {
		return pattern.Decode(os.Stdin)
	}
	file, err := os.Open(path)
	if err != nil {
		return pattern.Draft{}, err
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.Size() > pattern.MaxDraftBytes {
		return pattern.Draft{}, fmt.Errorf("%s: the draft has more than %d MB", path, pattern.MaxDraftBytes>>20)
	}
	d, err := pattern.Decode(file)
	if err != nil {
		return d, fmt.Errorf("%s: %w", path, err)
	}
	return d, nil
}

// oneDraft parses the arguments of a verb that takes one draft.
func oneDraft(f *flag.FlagSet, args []string) (pattern.Draft, error) {
	plain, err := parse(f, args, 1)
	if err != nil {
		return pattern.Draft{}, err
	}
	return readDraft(plain[0])
}

func runGroups(f *flag.FlagSet, args []string, out io.Writer) error {
	if _, err := parse(f, args, 0); err != nil {
		return err
	}
	return printJSON(out, groupRows())
}

func runCopies(f *flag.FlagSet, args []string, out io.Writer) error {
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	rows, err := copyRows(d)
	if err != nil {
		return err
	}
	return printJSON(out, rows)
}

func runCheck(f *flag.FlagSet, args []string, out io.Writer) error {
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	r, err := checkReport(d)
	if err != nil {
		return err
	}
	if err := printJSON(out, r); err != nil {
		return err
	}
	if !r.Sound {
		return errUnsound
	}
	return nil
}

func runRecognise(f *flag.FlagSet, args []string, out io.Writer) error {
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	found, err := recognition(d)
	if err != nil {
		return err
	}
	return printJSON(out, found)
}

func runTrace(f *flag.FlagSet, args []string, out io.Writer) error {
	o := traceFlags(f)
	plain, err := parse(f, args, 1)
	if err != nil {
		return err
	}
	data, err := readFile(plain[0], outline.MaxBytes)
	if err != nil {
		return err
	}
	r, err := trace.Read(data, plain[0], *o)
	if err != nil {
		return fmt.Errorf("%s: %w", plain[0], err)
	}
	for _, s := range r.Left {
		fmt.Fprintln(os.Stderr, s)
	}
	return json.NewEncoder(out).Encode(silhouettes(r, plain[0])) // on one line: outlines are long
}

func runCut(f *flag.FlagSet, args []string, out io.Writer) error {
	path := f.String("o", "", "the file to write; its ending says what it is: svg, dxf or pdf")
	o, unsound := cutFlags(f)
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	format, err := cutfile.FormatOf(*path)
	if err != nil {
		return fmt.Errorf("%w: %w; give -o FILE.svg", errUsage, err)
	}
	if o.Unsound, err = holding(d, *unsound); err != nil {
		return err
	}
	l, err := layoutOf(d)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	made, err := cutfile.Write(l, &b, format, *o)
	if err != nil {
		return err
	}
	if err := writeFiles(outFile{*path, b.Bytes()}); err != nil {
		return err
	}
	return printJSON(out, made)
}

func runPicture(f *flag.FlagSet, args []string, out io.Writer) error {
	path := f.String("o", "", "the PNG or SVG to write")
	var o study.Options
	f.IntVar(&o.Width, "width", 1200, "of the picture, in px, up to 8000")
	f.StringVar(&o.Base, "base", "", "colour of the bare panel, as #rrggbb")
	f.StringVar(&o.Paint, "paint", "", "colour of the paste, as #rrggbb")
	f.BoolVar(&o.Edge, "edge", false, "draw the sheet's edge, and the field's with dashes")
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	ending := strings.ToLower(filepath.Ext(*path))
	if ending != ".png" && ending != ".svg" {
		return fmt.Errorf("%w: picture writes PNG or SVG; give -o FILE.png or -o FILE.svg", errUsage)
	}
	l, err := layoutOf(d)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if ending == ".svg" {
		err = study.SVG(l, &b)
	} else {
		err = study.Picture(l, o, &b)
	}
	if err != nil {
		return err
	}
	return writeFiles(outFile{*path, b.Bytes()})
}

func runLink(f *flag.FlagSet, args []string, out io.Writer) error {
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	s, err := link.Encode(d)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintln(out, s)
	return err
}

func runOpen(f *flag.FlagSet, args []string, out io.Writer) error {
	plain, err := parse(f, args, 1)
	if err != nil {
		return err
	}
	d, err := link.Decode(plain[0])
	if err != nil {
		return err
	}
	_, err = out.Write(d.Encode())
	return err
}
