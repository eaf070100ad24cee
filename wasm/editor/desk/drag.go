package desk

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/symmetry"
)

// dragCopy carries the way the copy was dragged back through its operation and moves the motif by that.
func (k *Desk) dragCopy(p orb.Point, mods int) {
	g := &k.hand
	d := orb.Point{(p[0] - g.at[0]) / k.View.Zoom, -(p[1] - g.at[1]) / k.View.Zoom}
	if mods&Shift != 0 { // along one direction only
		if math.Abs(d[0]) > math.Abs(d[1]) {
			d[1] = 0
		} else {
			d[0] = 0
		}
	}
	v := k.copyMap(g.held).Rigid().Vector(d)
	k.try(pattern.Command{Name: "place", ID: g.motif.ID,
		Values: map[string]float64{"x": g.motif.At[0] + v[0], "y": g.motif.At[1] + v[1]}})
}

func (k *Desk) dragTurn(p orb.Point, mods int) {
	g := &k.hand
	c := k.Handles().Centre
	turned := -(math.Atan2(p[1]-c[1], p[0]-c[0]) - g.angle) * 180 / math.Pi // canvas y runs down
	if k.copyMap(g.held).Det() < 0 {
		turned = -turned
	}
	a := g.motif.Turn + turned
	if mods&Shift != 0 {
		a = math.Round(a/15) * 15
	} else {
		a = math.Round(a*10) / 10
	}
	k.try(pattern.Command{Name: "place", ID: g.motif.ID, Values: map[string]float64{"turn": a}})
}

func (k *Desk) dragScale(p orb.Point, mods int) {
	g := &k.hand
	c := k.Handles().Centre
	if g.reach < 1 {
		return
	}
	f := g.motif.Scale * math.Hypot(p[0]-c[0], p[1]-c[1]) / g.reach
	if mods&Shift != 0 {
		f = math.Max(0.1, math.Round(f*10)/10)
	} else {
		f = math.Max(0.02, math.Round(f*1000)/1000)
	}
	k.try(pattern.Command{Name: "place", ID: g.motif.ID, Values: map[string]float64{"scale": f}})
}

// dragSide shapes the cell by the end of one side; what the group's system binds stays bound.
func (k *Desk) dragSide(p orb.Point) {
	q := k.Draft().FieldMap().Rigid().Apply(k.View.Panel(p[0], p[1]))
	side := clamp(math.Round(math.Hypot(q[0], q[1])*10)/10, 2*symmetry.MinSide, symmetry.MaxSide)
	c := pattern.Command{Name: "cell", Values: map[string]float64{}}
	if k.hand.deed == shapingA {
		c.Values["a"] = side
	} else {
		c.Values["b"] = side
		if k.layout != nil && k.layout.Group.System == symmetry.Oblique {
			c.Values["gamma"] = clamp(math.Round(math.Atan2(q[1], q[0])*1800/math.Pi)/10, 20, 160)
		}
	}
	k.try(c)
}
