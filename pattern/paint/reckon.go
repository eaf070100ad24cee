package paint

import (
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
	"openwork/pattern/sheet/panel"
)

// Amount is how much paste something takes.
type Amount struct {
	Dry   float64 `json:"dry"`   // ml, once dry
	Wet   float64 `json:"wet"`   // ml, out of the tub
	Grams float64 `json:"grams"` // of wet
	Tubs  int     `json:"tubs"`  // to be bought
}

// Row is what one colour of the panel takes.
type Row struct {
	Swatch   string  `json:"swatch"` // its id; "" where the paint has no colours
	Openings int     `json:"openings"`
	Area     float64 `json:"area"` // mm², of the openings as they will be once cut
	Amount           // for one panel
	All      Amount  `json:"all"`   // for all panels
	Value    float64 `json:"value"` // L*

	number int
}

// Reckoning is the paste for a panel, and for several like it. Colours that nothing on the panel has are left out.
type Reckoning struct {
	Swatches []Row  `json:"swatches"`
	Ground   string `json:"ground"` // the swatch of the base coat; "" for none
	Panels   int    `json:"panels"`
}

// MaxPanels is how many panels can be reckoned at once.
const MaxPanels = 10000

// cutTolerance in mm is how far the corners of an opening may lie off while it is drawn in and out by half the kerf.
const cutTolerance = 0.0005

// Reckon reckons the paste for a number of panels. It fails as panel.Openings does.
func Reckon(l *pattern.Layout, panels int, onProgress progress.Func) (*Reckoning, error) {
	if panels < 1 || panels > MaxPanels {
		return nil, fmt.Errorf("paste is reckoned for 1 to %d panels, not for %d", MaxPanels, panels)
	}
	d := l.Draft
	p := d.PaintOf()
	out := &Reckoning{Swatches: []Row{}, Ground: p.Ground, Panels: panels}
	for i, number := range Numbers(d) {
		onProgress.Of(i, len(Numbers(d)))
		open, err := panel.Openings(l.Only(number))
		if err != nil {
			return nil, err
		}
		if len(open) == 0 {
			continue
		}
		area, err := areaOf(open, d.Sheet.KerfTaken()/2)
		if err != nil {
			return nil, err
		}
		row := Row{Openings: len(open), Area: area, number: number}
		if number >= 0 {
			s, _ := d.Swatch(p.Colours[number])
			row.Swatch, row.Value = s.ID, ValueOf(s)
		}
		row.Amount, row.All = amount(area, d.Sheet.Thickness, p, 1), amount(area, d.Sheet.Thickness, p, panels)
		out.Swatches = append(out.Swatches, row)
	}
	onProgress.At(1)
	return out, nil
}

// Numbers returns the numbers of a draft's colours, −1 alone where it has none.
func Numbers(d draft.Draft) []int {
	n := len(d.PaintOf().Colours)
	if n == 0 {
		return []int{-1}
	}
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// amount returns the paste over an area in mm², as thick as the sheet in mm, on so many panels.
func amount(area, thickness float64, p *draft.Paint, panels int) Amount {
	const perML = 1000 // mm³
	dry := area * thickness / perML * (1 + p.Waste) * float64(panels)
	wet := dry / p.DryOfWet
	const whole = 1e-9 // of a tub: rounding must not buy one more
	return Amount{Dry: dry, Wet: wet, Grams: wet * p.Density, Tubs: int(math.Ceil(wet/p.Tub - whole))}
}

// areaOf returns the area of openings once a beam that takes half mm on either side has gone along their edges from
// within: corners that it cannot reach stay. Openings that share a shape are measured once.
func areaOf(openings []panel.Opening, half float64) (float64, error) {
	known := map[*geometry.Shape]float64{}
	sum := 0.0
	for _, o := range openings {
		area, ok := known[o.Shape]
		if !ok {
			var err error
			if area, err = cutArea(o.Shape, half); err != nil {
				return 0, err
			}
			known[o.Shape] = area
		}
		sum += area
	}
	return sum, nil
}

func cutArea(s *geometry.Shape, half float64) (float64, error) {
	if half == 0 {
		return s.Area(), nil
	}
	drawnIn, err := offset.Offset(s.Outline(), -half, cutTolerance)
	if err != nil {
		return 0, fmt.Errorf("the kerf could not be allowed for: %w", err)
	}
	if len(drawnIn) == 0 {
		return 0, nil // narrower than the kerf: nothing is cut
	}
	cut, err := offset.Offset(drawnIn, half, cutTolerance)
	if err != nil {
		return 0, fmt.Errorf("the kerf could not be allowed for: %w", err)
	}
	return geometry.Area(cut), nil
}
