package cutplan

import (
	"fmt"
	"strings"
)

// Colours of the layers as #rrggbb; empty means what Lines says.
type Colours struct {
	Cut   string `json:"cut"`
	Score string `json:"score"`
	Mark  string `json:"mark"`
}

// Line is how a shop's machine tells one kind of work from another.
type Line struct {
	Colour string  `json:"colour"` // #rrggbb; empty: the usual one
	Width  float64 `json:"width"`  // mm; 0: the usual hairline
	Name   string  `json:"name"`   // of the layer in files; empty: cut, score or mark
}

// Lines are a shop's table: what is cut through, what is scored (engraved along a line), what is marked.
type Lines struct {
	Cut   Line `json:"cut"`
	Score Line `json:"score"`
	Mark  Line `json:"mark"`
}

// Usual lines: pure red, green and blue, and a width of a thousandth of an inch, by which drivers that go by colour
// take a line for a cut. Common practice.
const (
	cutColour   = "#ff0000"
	scoreColour = "#00ff00"
	markColour  = "#0000ff"
	hairline    = 0.025
)

const (
	maxWidth     = 10.0 // mm
	maxLayerName = 60   // characters
)

// ShopLines returns the lines that a cut file has with these options.
func (o Options) ShopLines() (Lines, error) { return o.Lines.filled(o.Colours) }

// filled returns the lines with the usual values where nothing is said.
func (t Lines) filled(c Colours) (Lines, error) {
	used := map[string]Layer{}
	for _, f := range []struct {
		layer         Layer
		line          *Line
		colour, usual string
	}{{Cut, &t.Cut, c.Cut, cutColour}, {Score, &t.Score, c.Score, scoreColour}, {Mark, &t.Mark, c.Mark, markColour}} {
		if f.colour != "" {
			f.line.Colour = f.colour
		}
		if f.line.Colour == "" {
			f.line.Colour = f.usual
		}
		if f.line.Width == 0 {
			f.line.Width = hairline
		}
		if f.line.Name == "" {
			f.line.Name = string(f.layer)
		}
		if err := f.line.check(); err != nil {
			return t, fmt.Errorf("the layer %s: %w", f.layer, err)
		}
		name := strings.ToLower(f.line.Name)
		if other, ok := used[name]; ok {
			return t, fmt.Errorf("the layers %s and %s are both called %q; give each a name of its own", other, f.layer,
				f.line.Name)
		}
		used[name] = f.layer
	}
	return t, nil
}

func (l Line) check() error {
	if _, err := RGB(l.Colour); err != nil {
		return err
	}
	if !(l.Width > 0 && l.Width <= maxWidth) {
		return fmt.Errorf("its lines are %g mm wide; they may be up to %g", l.Width, maxWidth)
	}
	if len([]rune(l.Name)) > maxLayerName || l.Name == "0" || strings.TrimSpace(l.Name) != l.Name ||
		strings.ContainsFunc(l.Name, func(r rune) bool {
			return r < ' ' || strings.ContainsRune("<>/\\\":;?*|,=`&'", r)
		}) {
		return fmt.Errorf("%.70q is no name for it: up to %d letters, figures, blanks, - and _", l.Name, maxLayerName)
	}
	return nil
}

// Of returns the line of a layer.
func (t Lines) Of(l Layer) Line {
	switch l {
	case Score:
		return t.Score
	case Mark:
		return t.Mark
	}
	return t.Cut
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
