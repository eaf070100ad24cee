package desk

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/wasm/editor/desk/view"
)

// Gaps is how the gaps between openings are painted: one cell's worth of them as a picture, and lines over the panel.
type Gaps struct {
	// px of the picture along a, less those that repeat it beyond its ends; 0: no picture
	Across int       `json:"across"`
	Up     int       `json:"up"`
	Lines  []GapLine `json:"lines"`

	Pixels []byte `json:"-"` // red, green, blue and alpha of each px, row by row from the foot
}

// GapLine is a line over the panel, from A to B in panel mm.
type GapLine struct {
	// "dashes", a dimension line's "width", or a "disc" that is as wide as the line is long
	Kind string    `json:"kind"`
	A    orb.Point `json:"a"`
	B    orb.Point `json:"b"`
	Text string    `json:"text"`
	Warn bool      `json:"warn"`
}

// gapsState is what the page asks the engine for: how even the gaps are, for the check's token.
type gapsState struct {
	Shown  bool `json:"shown"`
	Wanted bool `json:"wanted"`
}

// ShowGaps switches the painting of gaps on or off.
func (s *Session) ShowGaps(on bool) {
	s.showGaps, s.gaps = on, nil
	s.Touch()
}

// TakeGaps takes what the page made of the engine's answer, unless the draft has changed since it was asked under the
// check's token.
func (s *Session) TakeGaps(token int, text string, pixels []byte) error {
	if token != s.token || !s.showGaps {
		return nil
	}
	g := &Gaps{}
	if err := json.Unmarshal([]byte(text), g); err != nil {
		return fmt.Errorf("what was found of the gaps cannot be read: %w", err)
	}
	if g.Across < 0 || g.Up < 0 || g.Across > 0 && len(pixels) != 4*(g.Across+2)*(g.Up+2) {
		return fmt.Errorf("the picture of the gaps has %d bytes, which is not as many as it should", len(pixels))
	}
	g.Pixels, s.gaps = pixels, g
	s.Touch()
	return nil
}

func (s *Session) gapsState() gapsState {
	wanted := s.showGaps && s.gaps == nil && s.layout != nil && s.layout.InCell() > 0 && !s.InHand()
	return gapsState{s.showGaps, wanted}
}

// Gaps returns how the gaps are painted, nil while they are not: the switch is off, or the draft is changing.
func (s *Session) Gaps() *Gaps { return s.gaps }

// GapTiles returns the maps that carry the gaps' picture, its foot's left corner at (0, 0) and so many field mm wide
// and high, to where it shows on the canvas in CSS px; none where it would be too small to be seen.
func (s *Session) GapTiles() (wide, high float64, tiles []geometry.Map) {
	l := s.layout
	wide, high = l.A[0], l.B[1]
	if math.Min(wide, high)*s.view.Zoom < 3 {
		return wide, high, nil
	}
	field := l.Draft.FieldMap()
	toField := field.Rigid()
	window := s.view.Window()
	var b orb.Bound
	for i, p := range []orb.Point{window.Min, {window.Max[0], window.Min[1]}, window.Max,
		{window.Min[0], window.Max[1]}} {
		q := toField.Apply(p)
		if i == 0 {
			b = q.Bound()
		}
		b = b.Extend(q)
	}
	toCanvas := s.view.Map().After(field)
	l.Cells(b, orb.Bound{Max: orb.Point{wide, high}}, func(m, n int) bool {
		v := l.Lattice(m, n)
		tiles = append(tiles, toCanvas.After(geometry.Translate(v[0], v[1])))
		return true
	})
	return wide, high, tiles
}

// gapLabels returns the widths beside the lines.
func (s *Session) gapLabels() []view.Label {
	var out []view.Label
	if s.gaps == nil {
		return nil
	}
	m := s.view.Map()
	for _, line := range s.gaps.Lines {
		if line.Text == "" {
			continue
		}
		a, b := m.Apply(line.A), m.Apply(line.B)
		l := view.Label{X: math.Max(a[0], b[0]) + 12, Y: (a[1] + b[1]) / 2, Text: line.Text, Kind: "gap", Align: "left"}
		if line.Warn {
			l.Kind = "caution"
		}
		out = append(out, l)
	}
	return out
}
