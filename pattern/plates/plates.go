// Package plates parts a panel's stencil by colour: a sheet for each, all of one outline and with registration at the
// same places, so that they fall together.
package plates

import (
	"errors"
	"fmt"
	"strings"

	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/paint"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// Plate is the stencil of one colour.
type Plate struct {
	Number   int     `json:"number"` // from 1, in the order of the paint's colours
	Lay      int     `json:"lay"`    // from 1, in the order of laying (paint.Order)
	Swatch   string  `json:"swatch"`
	Name     string  `json:"name"`
	Value    float64 `json:"value"` // L*
	Openings int     `json:"openings"`
	Sound    bool    `json:"sound"`
	// why it does not hold, none where it does
	Reasons []string `json:"reasons"`

	Sheet  cutplan.Sheet `json:"-"`
	Report sheet.Report  `json:"-"`
}

// errOneColour is the refusal of plates where all openings have one colour.
var errOneColour = errors.New("plates are for several colours, and this panel has one: give motifs swatches of their " +
	"own in the step Paint, or cut it as one sheet")

// Of parts the stencil of a layout, in the order of the paint's colours, and checks each plate as a sheet of its own.
// Colours that nothing on the panel has make no plate. It fails where there are not two of them, and as panel.Openings
// does.
func Of(l *pattern.Layout, onProgress progress.Func) ([]Plate, error) {
	d := l.Draft
	numbers := paint.Numbers(d)
	var out []Plate
	plate := map[int]int{} // of a colour's number
	for i, number := range numbers {
		onProgress.Of(i, len(numbers))
		one := l.Only(number)
		s, err := cutplan.OfLayout(one)
		if err != nil {
			return nil, err
		}
		if len(s.Openings) == 0 || number < 0 {
			continue
		}
		report, err := panel.Check(one)
		if err != nil {
			return nil, err
		}
		swatch, _ := d.Swatch(d.Paint.Colours[number])
		p := Plate{Number: len(out) + 1, Swatch: swatch.ID, Name: swatch.Name, Value: paint.ValueOf(swatch),
			Openings: len(s.Openings), Sound: report.Sound, Reasons: []string{}, Sheet: s, Report: report}
		if !report.Sound {
			p.Reasons = append(p.Reasons, report.Reasons()...)
		}
		plate[number] = len(out)
		out = append(out, p)
	}
	if len(out) < 2 {
		return nil, errOneColour
	}
	lay := 0
	for _, number := range paint.Order(d) {
		if i, ok := plate[number]; ok {
			lay++
			out[i].Lay = lay
		}
	}
	for i := range out {
		s := &out[i].Sheet
		s.Title = titled(d, out[i], len(out))
		for k, other := range out {
			if k != i {
				s.Others = append(s.Others, other.Sheet.Openings...)
			}
		}
	}
	onProgress.At(1)
	return out, nil
}

// titled is what is written on a plate: "Heron over carp, plate 1 of 2: Rust".
func titled(d draft.Draft, p Plate, of int) string {
	return fmt.Sprintf("%s, plate %d of %d: %s", strings.TrimSpace(d.Title), p.Number, of, p.Name)
}
