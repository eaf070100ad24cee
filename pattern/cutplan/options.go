package cutplan

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/progress"
)

// Colours of the layers as #rrggbb; empty means the default.
type Colours struct {
	Cut   string `json:"cut"`
	Score string `json:"score"`
	Mark  string `json:"mark"`
}

// Default colours tell the layers apart on screen; the person sets those that the shop asks for.
const (
	cutColour   = "#c00000"
	scoreColour = "#008000"
	markColour  = "#0000c0"
)

func (c Colours) filled() (Colours, error) {
	for _, f := range []struct {
		name   string
		colour *string
		usual  string
	}{{"cut", &c.Cut, cutColour}, {"score", &c.Score, scoreColour}, {"mark", &c.Mark, markColour}} {
		if *f.colour == "" {
			*f.colour = f.usual
		}
		if _, err := RGB(*f.colour); err != nil {
			return c, fmt.Errorf("the colour of the layer %s: %w", f.name, err)
		}
	}
	return c, nil
}

// Of returns the colour of a layer.
func (c Colours) Of(l Layer) string {
	switch l {
	case Score:
		return c.Score
	case Mark:
		return c.Mark
	}
	return c.Cut
}

// RGB reads #rrggbb.
func RGB(s string) (c [3]uint8, err error) {
	if len(s) == 7 && s[0] == '#' {
		for i := range c {
			hi, lo := hex(s[1+2*i]), hex(s[2+2*i])
			if hi < 0 || lo < 0 {
				return c, fmt.Errorf("%q is no colour; write it as #rrggbb", s)
			}
			c[i] = uint8(16*hi + lo)
		}
		return c, nil
	}
	return c, fmt.Errorf("%.20q is no colour; write it as #rrggbb", s)
}

func hex(b byte) int {
	switch {
	case b >= '0' && b <= '9':
		return int(b - '0')
	case b >= 'a' && b <= 'f':
		return int(b-'a') + 10
	case b >= 'A' && b <= 'F':
		return int(b-'A') + 10
	}
	return -1
}

// Options of a cut file. The zero value is the contours alone, as curves.
type Options struct {
	Polygons  bool    `json:"polygons"`  // straight edges only
	Tolerance float64 `json:"tolerance"` // mm that curves may lie from the outlines, from 0.001; 0: 0.02
	Colours   Colours `json:"colours"`
	// mm that two contours cut one after the other lie apart, so that none is hot; 0: no care
	Apart float64 `json:"apart"`
	Holes Holes   `json:"holes"`
	Label Label   `json:"label"`
	Bar   bool    `json:"bar"` // a check bar of 100 mm
	// StockEdge: the sheet's outline is the stock's own edge, so that it is not widened by the kerf.
	StockEdge bool     `json:"stockEdge"`
	Unsound   []string `json:"unsound"` // why the sheet does not hold; the file carries it
	// Unchecked: nobody has looked whether the sheet holds; the file carries that.
	Unchecked bool `json:"unchecked"`

	Progress progress.Func `json:"-"` // receives how far the work has come
}

// Holes are the registration holes or marks.
type Holes struct {
	Diameter float64     `json:"diameter"` // mm; 0: none
	Layer    Layer       `json:"layer"`    // cut, or mark ("" too) for marks with a cross
	At       []orb.Point `json:"at"`       // middles in panel mm; nil: found in the margin
}

// Label is what is written in the margin.
type Label struct {
	Height float64 `json:"height"` // mm of its capitals at most; 0: no label
	Date   string  `json:"date"`
	Layer  Layer   `json:"layer"` // mark ("" too), score or cut
}

// Defaults returns the usual furniture: registration marks of 4 mm, a label of 3 mm and a check bar, all on the layer
// mark.
func Defaults() Options {
	return Options{Holes: Holes{Diameter: 4, Layer: Mark}, Label: Label{Height: 3, Layer: Mark}, Bar: true}
}

// filled returns the options with the usual values where nothing is said, or what keeps a sheet of that stock from
// being cut with them.
func (o Options) filled(stock string) (Options, error) {
	if err := pattern.RefuseStock(stock); err != nil {
		return o, err
	}
	var err error
	if o.Colours, err = o.Colours.filled(); err != nil {
		return o, err
	}
	if err := o.check(); err != nil {
		return o, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = curve.DefaultTolerance
	}
	return o, nil
}

// check says what is wrong with the numbers of the options.
func (o Options) check() error {
	for _, f := range []struct {
		what       string
		value, max float64
	}{{"the curves' tolerance", o.Tolerance, 1}, {"the distance of cuts in a row", o.Apart, 1e4},
		{"the registration holes' diameter", o.Holes.Diameter, 100}, {"the label's height", o.Label.Height, 100}} {
		if !(f.value >= 0 && f.value <= f.max) {
			return fmt.Errorf("%s is %g mm; it must lie between 0 and %g", f.what, f.value, f.max)
		}
	}

	if o.Tolerance > 0 && o.Tolerance < minTolerance {
		return fmt.Errorf("the curves' tolerance is %g mm; no machine cuts finer than %g mm, which is the least that "+
			"may be asked for (0 takes the usual %g mm)",
			o.Tolerance, minTolerance, curve.DefaultTolerance)
	}
	for _, l := range []Layer{o.Holes.Layer, o.Label.Layer} {
		if l != "" && l != Cut && l != Score && l != Mark {
			return fmt.Errorf("there is no layer %.20q; there are cut, score and mark", string(l))
		}
	}
	if o.Holes.Layer == Score {
		return fmt.Errorf("registration holes are cut or marked, not scored")
	}
	return nil
}
