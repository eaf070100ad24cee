//go:build !js

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"openwork/pattern"
	"openwork/pattern/cutfile"
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

	v, ok := find[lineSide](args[0])
	if !ok {
		return fmt.Errorf("%w: there is no verb %q\n\n%s", errUsage, args[0], usage())
	}
	f := flag.NewFlagSet(args[0], flag.ContinueOnError)
	f.SetOutput(os.Stderr)
	f.Usage = func() {
		use, about := words(v)
		fmt.Fprintf(os.Stderr, "%s\n    %s\n", use, about)
		f.PrintDefaults()
	}
	return v.line(f, args[1:], out)
}

// usage is the help text: every verb of the command line and what it gives.
func usage() string {
	var b strings.Builder
	b.WriteString("Openwork's engine. A DRAFT is a file, or - for standard input. Lengths are millimetres, y " +
		"upward.\n\n")
	for _, v := range verbs {
		if side, ok := v.(lineSide); ok {
			use, about := words(side)
			fmt.Fprintf(&b, "  %s\n      %s\n", use, about)
		}
	}
	b.WriteString(
		"\nResults go to standard output, errors to standard error. Exit status 0: done (check: it holds);\n" +
			"1: it does not hold, and cut, steps and join wrote no file; 2: bad input or use. " +
			"Files come whole or not at all. -h after a verb explains its flags.\n")
	return b.String()
}

// words returns how a verb's command line is written and what it does, with the endings of cut files put in.
func words(v lineSide) (use, about string) {
	use, about = v.words()
	return strings.ReplaceAll(use, "ENDINGS", cutfile.Named("|", "|", "")),
		strings.ReplaceAll(about, "ENDINGS", cutfile.Named(", ", " or ", ""))
}

// lineSide is what the command line asks of a verb.
type lineSide interface {
	words() (use, about string)
	line(f *flag.FlagSet, args []string, out io.Writer) error
}

func (h *heading) words() (use, about string) { return h.use, h.about }

func (v *onLine[In, Out]) line(f *flag.FlagSet, args []string, out io.Writer) error {
	return line[In](f, args, out)
}

func (v *onBoth[In, Out]) line(f *flag.FlagSet, args []string, out io.Writer) error {
	return line[In](f, args, out)
}

// line carries out a verb's command line: reads flags and argument, runs, writes files, prints.
func line[In input[In, Out], Out any](f *flag.FlagSet, args []string, out io.Writer) error {
	var in In
	in = in.usual()
	if err := fill(in, f, args); err != nil {
		return err
	}
	got, err := in.run(nil)
	if err != nil {
		return err
	}

	if o, ok := any(got).(writer[In]); ok {
		if err := writeFiles(o.files(in)...); err != nil {
			return err
		}
	}
	if o, ok := any(got).(interface{ print(io.Writer) error }); ok {
		err = o.print(out)
	} else {
		err = printJSON(out, got)
	}
	if o, ok := any(got).(interface{ verdict() error }); ok && err == nil {
		err = o.verdict()
	}
	return err
}

// fill reads an input from flags and arguments.
func fill(in any, f *flag.FlagSet, args []string) error {
	if i, ok := in.(interface{ declare(flagSet) }); ok {
		i.declare(f)
	}
	i, takes := in.(interface{ take(string) error })
	if !takes {
		_, err := parse(f, args, 0)
		return err
	}
	plain, err := parse(f, args, 1)
	if err != nil {
		return err
	}
	return i.take(plain[0])
}

// parse reads flags and plain arguments in any order, and checks how many plain ones there are.
func parse(f *flag.FlagSet, args []string, want int) ([]string, error) {
	var plain []string
	for len(args) > 0 {
		if err := f.Parse(args); err != nil {
			return nil, err
		}
		args = f.Args()
		for len(args) > 0 && (args[0] == "-" || !strings.HasPrefix(args[0], "-")) {
			plain = append(plain, args[0])
			args = args[1:]
		}
	}
	if len(plain) != want {
		return nil, fmt.Errorf("%w: %s takes %d argument(s), not %d; -h explains", errUsage, f.Name(), want, len(plain))
	}
	return plain, nil
}
