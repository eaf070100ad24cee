package view

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern/sheet"
)

// Tick is a mark of a ruler, at a place in CSS px along it; Long ones carry a figure.
type Tick struct {
	At   float64
	Long bool
	Text string
}

// figurePX is the smallest distance between a ruler's figures, in px.
const figurePX = 68.0

// MaxTicks of one ruler: a screen of 10,000 px, marked at every fifth, has as many.
const MaxTicks = 2000

// Rulers returns the marks of the upper and the left ruler, in inches or mm, with nought at the panel's lower left
// corner.
func (v View) Rulers(inches bool) (across, up []Tick) {
	m := v.Map()
	unit := 1.0
	if inches {
		unit = sheet.MMPerInch
	}

	step, parts := rulerStep(v.Zoom*unit, inches)
	w := v.Window()
	ticks := func(lo, hi float64, at func(mm float64) float64) (out []Tick) {
		small := step / float64(parts)
		first, last := math.Ceil(lo/unit/small), math.Floor(hi/unit/small)
		if !(last-first <= MaxTicks) { // nor a number, for a view that is none
			return nil
		}
		for j := range int(last-first) + 1 {
			i := first + float64(j)
			t := Tick{At: at(i * small * unit)}
			if math.Mod(math.Abs(i), float64(parts)) == 0 {
				t.Long = true
				t.Text = sheet.Trim(i*small, 4)
			}
			out = append(out, t)
		}
		return out
	}

	across = ticks(w.Min[0], w.Max[0], func(mm float64) float64 { return m.Apply(orb.Point{mm, 0})[0] })
	up = ticks(w.Min[1], w.Max[1], func(mm float64) float64 { return m.Apply(orb.Point{0, mm})[1] })
	return across, up
}

// rulerStep returns the distance between figures, in the unit, and into how many parts it is divided: 1, 2 or 5 times a
// power of ten, or halves down to sixteenths of an inch.
func rulerStep(px float64, inches bool) (step float64, parts int) {
	need := figurePX / px
	if inches && need <= 0.5 {
		for _, s := range []float64{1.0 / 16, 1.0 / 8, 1.0 / 4, 1.0 / 2} {
			if s >= need {
				return s, 4
			}
		}
	}

	p := math.Pow(10, math.Floor(math.Log10(need)))
	for _, s := range []struct {
		f     float64
		parts int
	}{{1, 10}, {2, 4}, {5, 5}, {10, 10}} {
		if s.f*p >= need {
			return s.f * p, s.parts
		}
	}
	return 10 * p, 10
}
