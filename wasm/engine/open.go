package main

import (
	"io"

	"openwork/pattern/draft"
	"openwork/pattern/link"
	"openwork/pattern/progress"
)

// openInput is a link: a whole address, or a fragment.
type openInput struct {
	Link string `json:"link"`
}

func (in *openInput) take(address string) error {
	in.Link = address
	return nil
}

// opened is the draft of a link.
type opened struct{ draft draft.Draft }

func (*openInput) usual() *openInput { return &openInput{} }

// run opens a link.
func (in *openInput) run(progress.Func) (*opened, error) {
	d, err := link.Decode(in.Link)
	return &opened{d}, err
}

func (o *opened) print(out io.Writer) error {
	_, err := out.Write(o.draft.Encode())
	return err
}
