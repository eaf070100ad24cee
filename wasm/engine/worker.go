package main

import (
	"encoding/json"
	"errors"
	"fmt"

	"openwork/pattern/progress"
)

// reply carries out one request of the page: a verb, its input as JSON, and the bytes of a picture where there is one.
// It returns JSON, and bytes where the answer is a file. It never panics: a panic in the core is a sentence to the
// page, not a dead worker.
func reply(name string, args, bytes []byte, report progress.Func) (text string, data []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			text, data, err = "", nil, fmt.Errorf("something in the engine went wrong (%v); the draft is untouched", r)
		}
	}()

	v, ok := find[pageSide](name)
	if !ok {
		return "", nil, errors.New("the engine has no verb called " + name)
	}
	return v.answer(args, bytes, report)
}

// pageSide is what the worker asks of a verb: JSON in, with the bytes of a picture where there is one, and JSON out,
// with bytes where the answer is a file.
type pageSide interface {
	answer(args, bytes []byte, report progress.Func) (string, []byte, error)
}

func (v *onPage[In, Out]) answer(args, bytes []byte, report progress.Func) (string, []byte, error) {
	return answerTo[In](args, bytes, report)
}

func (v *onBoth[In, Out]) answer(args, bytes []byte, report progress.Func) (string, []byte, error) {
	return answerTo[In](args, bytes, report)
}

func answerTo[In input[In, Out], Out any](args, bytes []byte, report progress.Func) (string, []byte, error) {
	var in In
	in = in.usual()
	if err := read(in, args, bytes); err != nil {
		return "", nil, err
	}
	out, err := in.run(report)
	if err != nil {
		return "", nil, err
	}
	return written(out)
}

// read reads an input as the page sent it.
func read(in any, args, bytes []byte) error {
	if err := json.Unmarshal(args, in); err != nil {
		if c := (*choiceError)(nil); errors.As(err, &c) {
			return c
		}
		return fmt.Errorf("the engine could not read what it was asked: %w", err)
	}

	if i, ok := in.(interface{ bring([]byte) }); ok {
		i.bring(bytes)
	}
	if i, ok := in.(interface{ open() error }); ok {
		return i.open()
	}
	return nil
}

// written returns an output as the page reads it.
func written(out any) (string, []byte, error) {
	text, err := json.Marshal(out)
	if o, ok := out.(interface{ block() []byte }); ok {
		return string(text), o.block(), err
	}
	return string(text), nil, err
}
