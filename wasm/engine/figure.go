package main

import (
	"fmt"
	"regexp"

	"openwork/pattern/measure"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/subject"
)

// figureInput asks how the subjects read before the field.
type figureInput struct {
	drafted
	Colour string `json:"colour"` // of the subjects, #rrggbb; empty: as pictures have it
	Units  string `json:"units"`  // of lengths in sentences
}

// figureRead is how one subject reads, with sentences for a person.
type figureRead struct {
	subject.Reading
	Said []string `json:"said"`
}

func (*figureInput) usual() *figureInput { return &figureInput{} }

func (in *figureInput) declare(f flagSet) {
	f.StringVar(&in.Colour, "colour", "", "what the subjects are painted in, as #rrggbb; otherwise as pictures have it")
	f.StringVar(&in.Units, "units", "", "of lengths in sentences: mm or in")
}

// hexColour is a colour as swatches have it.
var hexColour = regexp.MustCompile(`^#[0-9a-f]{6}$`)

// run says how each subject reads.
func (in *figureInput) run(progress.Func) ([]figureRead, error) {
	if in.Colour == "" {
		in.Colour = subject.UsualSubject
	}
	if !hexColour.MatchString(in.Colour) {
		return nil, fmt.Errorf("the subjects' colour is %.20q, which is none; write it as #rrggbb, in small letters",
			in.Colour)
	}
	if err := measure.Check(in.Units); err != nil {
		return nil, err
	}
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	found, err := subject.Read(l, in.Colour)
	if err != nil {
		return nil, err
	}
	out := []figureRead{}
	for _, r := range found {
		out = append(out, figureRead{r, r.Said(sheet.Unit{Inches: in.Units == measure.Inches})})
	}
	return out, nil
}
