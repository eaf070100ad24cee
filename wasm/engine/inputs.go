package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// What inputs and outputs of verbs may have, each by a method:
//
//	open() error               of an input: reads the text of a draft that the page sent
//	bring(bytes []byte)        of an input: takes the bytes that the page sent
//	declare(f flagSet)         of an input: declares its flags on a command line
//	take(arg string) error     of an input: takes the one plain argument of a command line, once the flags are read
//	block() []byte             of an output: the bytes for the page
//	files(in In) []outFile     of an output: the files that a command line writes
//	print(out io.Writer) error of an output: what a command line prints, if it is not the output as indented JSON
//	verdict() error            of an output: the error that a command line ends with all the same
//
// Nothing in the worker calls those of a command line, so that it does not link them.

// writer is an output whose files a command line writes.
type writer[In any] interface{ files(In) []outFile }

// These write files; a slip in the signature would make them print instead.
var (
	_ writer[*cutInput]      = (*cutOutput)(nil)
	_ writer[*jobInput]      = (*jobOutput)(nil)
	_ writer[*joinInput]     = (*joinOutput)(nil)
	_ writer[*evennessInput] = (*evennessFound)(nil)
	_ writer[*nestInput]     = (*nestOutput)(nil)
	_ writer[*pictureInput]  = (*painted)(nil)
	_ writer[*stepsInput]    = (*stepsOutput)(nil)
	_ writer[*studyInput]    = (*studied)(nil)
)

// flagSet is what flags are declared on: a *flag.FlagSet.
type flagSet interface {
	BoolVar(p *bool, name string, value bool, usage string)
	IntVar(p *int, name string, value int, usage string)
	Float64Var(p *float64, name string, value float64, usage string)
	StringVar(p *string, name string, value string, usage string)
	Func(name, usage string, fn func(string) error)
}

// errUnsound is returned where the sheet does not hold: exit status 1. check returns it bare, when its answer is
// printed; where a file was to be written it is wrapped with the reasons.
var errUnsound = errors.New("the sheet does not hold")

// errUsage is bad input or use: exit status 2.
var errUsage = errors.New("bad use")

// drafted is the input of a verb of a draft, alone or as a part of it.
type drafted struct {
	Text string `json:"draft"` // the draft's file, as the page sends it

	draft draft.Draft
}

func (d *drafted) open() error { return decode(d.Text, &d.draft) }

func decode(text string, to *draft.Draft) (err error) {
	*to, err = draft.Decode(strings.NewReader(text))
	return err
}

func (d *drafted) take(path string) (err error) {
	d.draft, err = readDraft(path)
	return err
}

// layout lays the draft out.
func (d drafted) layout() (*pattern.Layout, error) { return layoutOf(d.draft) }

// layoutOf lays a draft out.
func layoutOf(d draft.Draft) (*pattern.Layout, error) {
	return pattern.NewLayout(d, pattern.NewShapes())
}

// readDraft reads a draft from a file, or from standard input for "-".
func readDraft(path string) (draft.Draft, error) {
	if path == "-" {
		return draft.Decode(os.Stdin)
	}

	file, err := os.Open(path)
	if err != nil {
		return draft.Draft{}, err
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.Size() > draft.MaxDraftBytes {
		return draft.Draft{}, fmt.Errorf("%s: the draft has more than %d MB", path, draft.MaxDraftBytes>>20)
	}

	d, err := draft.Decode(file)
	if err != nil {
		return d, fmt.Errorf("%s: %w", path, err)
	}
	return d, nil
}

// choices are options, of which the page sends only what differs from the usual ones.
type choices[O any] struct {
	options O
	what    string // they are for, as "the cut file"
}

// UnmarshalJSON reads what is sent over the options as they are.
func (c *choices[O]) UnmarshalJSON(sent []byte) error {
	return readChoices(sent, &c.options, c.what)
}

func readChoices(sent []byte, to any, what string) error {
	if err := json.Unmarshal(sent, to); err != nil {
		return &choiceError{what, err}
	}
	return nil
}

// optionsFlag declares -options, which reads options from a file of JSON, as the page keeps them. Flags after it go
// before what it says.
func optionsFlag(f flagSet, what string, to any) {
	usage := "a file with options of the " + what + ", as one JSON object; flags after it go before it"
	f.Func("options", usage, func(path string) error {
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return readChoices(text, to, "the "+what)
	})
}

// choiceError says which choices could not be read.
type choiceError struct {
	what string
	err  error
}

func (e *choiceError) Error() string {
	return fmt.Sprintf("the choices for %s could not be read: %v", e.what, e.err)
}

func (e *choiceError) Unwrap() error { return e.err }

// printJSON writes v as one indented JSON value. Numbers are written so that reading gives the same float64 again.
func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(v)
}
