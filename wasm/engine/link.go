package main

import (
	"fmt"
	"io"

	"openwork/pattern/link"
	"openwork/pattern/progress"
)

// fragment is a link from # on.
type fragment string

type linkInput struct{ drafted }

func (*linkInput) usual() *linkInput { return &linkInput{} }

// run makes a draft's link.
func (in *linkInput) run(progress.Func) (*fragment, error) {
	s, err := link.Encode(in.draft)
	f := fragment(s)
	return &f, err
}

func (s *fragment) print(out io.Writer) error {
	_, err := fmt.Fprintln(out, string(*s))
	return err
}
