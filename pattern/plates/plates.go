// Package plates parts a panel's stencil by colour: a sheet for each, all of one outline and with registration at the
// same places, so that they fall together.
package plates

import (
	"errors"
	"fmt"
	"sort"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/paint"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// Options of plates.
type Options struct {
	// OverTies asks for a further plate for each colour whose ties would show: it opens where they lie.
	OverTies bool    `json:"overTies"`
	Lap      float64 `json:"lap"` // mm by which such a plate reaches into the openings beside a tie; 0: UsualLap
}

// Plate is the stencil of one colour, or one that opens where the ties of such a stencil lie.
type Plate struct {
	// from 1: those of the paint's colours in their order, then those over ties
	Number int `json:"number"`
	// the plate over whose ties it is laid; 0: it is a colour's own
	Over     int     `json:"over,omitempty"`
	Lay      int     `json:"lay"` // from 1, in the order of laying (paint.Order)
	Swatch   string  `json:"swatch"`
	Name     string  `json:"name"`
	Value    float64 `json:"value"` // L*
	Openings int     `json:"openings"`
	Ties     Tied    `json:"ties"`
	Sound    bool    `json:"sound"`
	// why it does not hold, none where it does
	Reasons []string `json:"reasons"`

	Sheet  cutplan.Sheet `json:"-"`
	Report sheet.Report  `json:"-"`

	number int // of its colour
}

// errOneColour is the refusal of plates where all openings have one colour.
var errOneColour = errors.New("plates are for several colours, and this panel has one: give motifs swatches of their " +
	"own in the step Paint, or cut it as one sheet")

// Of parts the stencil of a layout, in the order of the paint's colours, and checks each plate as a sheet of its own.
// Colours that nothing on the panel has make no plate. Of each plate's ties it says which are covered by plates laid
// later; where it is asked for, plates follow that open where the others lie. It fails where there are not two colours,
// and as panel.Openings does.
func Of(l *pattern.Layout, o Options, onProgress progress.Func) ([]Plate, error) {
	if !(o.Lap >= 0 && o.Lap <= MaxLap) {
		return nil, fmt.Errorf("a plate over ties reaches from 0 to %g mm into the openings beside them, not %g",
			MaxLap, o.Lap)
	}
	if o.Lap == 0 {
		o.Lap = UsualLap
	}
	out, err := byColour(l, onProgress.Within(0, 0.7))
	if err != nil {
		return nil, err
	}
	order, err := inOrder(l, out)
	if err != nil {
		return nil, err
	}
	bare, err := tie(l, out, order)
	if err != nil {
		return nil, err
	}
	onProgress.At(0.8)

	lay, colours := 0, len(out)
	for _, i := range order {
		lay++
		out[i].Lay = lay
		if !o.OverTies || len(bare[i]) == 0 {
			continue
		}
		p, err := over(l.Draft, &out[i], bare[i], o.Lap)
		if err != nil {
			return nil, err
		}
		lay++
		p.Lay, p.number = lay, -1
		out = append(out, p)
	}
	sort.SliceStable(out[colours:], func(i, k int) bool { return out[colours+i].Over < out[colours+k].Over })

	for i := range out {
		out[i].Number = i + 1
		s := &out[i].Sheet
		s.Title = titled(l.Draft, out[i], len(out))
		for k, other := range out {
			if k != i {
				s.Others = append(s.Others, other.Sheet.Openings...)
			}
		}
	}
	onProgress.At(1)
	return out, nil
}

// byColour returns the plates of the colours.
func byColour(l *pattern.Layout, onProgress progress.Func) ([]Plate, error) {
	d := l.Draft
	numbers := paint.Numbers(d)
	var out []Plate
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
			Openings: len(s.Openings), Sound: report.Sound, Reasons: []string{}, Sheet: s, Report: report,
			number: number}
		if !report.Sound {
			p.Reasons = append(p.Reasons, report.Reasons()...)
		}
		out = append(out, p)
	}
	if len(out) < 2 {
		return nil, errOneColour
	}
	return out, nil
}

// inOrder returns the indexes of the plates in the order of laying.
func inOrder(l *pattern.Layout, plates []Plate) (out []int, err error) {
	laying, err := paint.Order(l, paint.DarkFirst)
	for _, number := range laying.Order {
		for i, p := range plates {
			if p.number == number {
				out = append(out, i)
			}
		}
	}
	return out, err
}

// tie says of each plate what becomes of its ties, and returns the strips of each that show.
func tie(l *pattern.Layout, plates []Plate, order []int) (bare [][]orb.Polygon, err error) {
	bare = make([][]orb.Polygon, len(plates))
	if len(l.Draft.Ties) == 0 {
		return bare, nil
	}
	for k, i := range order {
		p := &plates[i]
		all, err := strips(l.Only(p.number), newOpenings(p.Sheet.Openings))
		if err != nil {
			return nil, err
		}
		var later [][]panel.Opening
		for _, j := range order[k+1:] {
			later = append(later, plates[j].Sheet.Openings)
		}
		over := newOpenings(later...)
		for _, strip := range all {
			covered, err := over.cover(strip)
			if err != nil {
				return nil, err
			}
			if covered {
				p.Ties.Under++
			} else {
				bare[i] = append(bare[i], strip)
			}
		}
		p.Ties.Number, p.Ties.Bare = len(all), len(bare[i])
	}
	return bare, nil
}

// titled is what is written on a plate: "Heron over carp, plate 1 of 2: Rust".
func titled(d draft.Draft, p Plate, of int) string {
	what := p.Name
	if p.Over > 0 {
		what = fmt.Sprintf("%s, over the ties of plate %d", p.Name, p.Over)
	}
	return fmt.Sprintf("%s, plate %d of %d: %s", strings.TrimSpace(d.Title), p.Number, of, what)
}
