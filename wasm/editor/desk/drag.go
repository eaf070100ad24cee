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
	at := orb.Point{g.motif.At[0] + v[0], g.motif.At[1] + v[1]}
	if mods&(Alt|Shift) == 0 && k.layout != nil {
		at = k.drawn(g.held.Motif, at)
	}
	k.try(pattern.Command{Name: "place", ID: g.motif.ID, Values: map[string]float64{"x": at[0], "y": at[1]}})
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
		if mods&Alt == 0 {
			a = k.drawnTurn(g.motif, a)
		}
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

// dragSide shapes the cell by one of its corners; what the group's system binds stays bound, and so do a chosen lay and
// what is held of the cell.
func (k *Desk) dragSide(p orb.Point) {
	if k.layout == nil {
		return
	}
	q := k.Draft().FieldMap().Rigid().Apply(k.View.Panel(p[0], p[1]))
	if lay := k.layName(); lay != "" && k.layout.Group.System == symmetry.Oblique && k.hold == "" {
		k.try(pattern.Command{Name: "lay", Text: lay, Values: layBy(k.hand.deed, lay, q)})
		return
	}
	c := pattern.Command{Name: "cell", Text: k.hold, Values: map[string]float64{}}
	cell := k.layout.Cell
	even := k.layout.Group.EqualSides()
	if even && c.Text == pattern.KeepArea {
		return
	}
	switch k.hand.deed {
	case shapingA:
		c.Values["a"] = sideLength(math.Hypot(q[0], q[1]))
	case shapingB:
		c.Values["b"] = sideLength(math.Hypot(q[0], q[1]))
		if k.layout.Group.System == symmetry.Oblique {
			c.Values["gamma"] = clamp(math.Round(math.Atan2(q[1], q[0])*1800/math.Pi)/10, 20, 160)
		}
	case shapingFar: // the corner across: q = x·a + y·b in shares of the cell
		back, ok := cell.Basis().Inverse()
		if !ok {
			return
		}
		share := back.Apply(q)
		switch {
		case even:
			c.Values["a"] = sideLength(cell.A * (share[0] + share[1]) / 2)
		case c.Text != "":
			c.Values["a"] = sideLength(cell.A * share[0])
		default:
			c.Values["a"], c.Values["b"] = sideLength(cell.A*share[0]), sideLength(cell.B*share[1])
		}
	}
	k.try(c)
}

// sideLength rounds a side to a tenth of a millimetre within what a cell may be.
func sideLength(mm float64) float64 {
	return clamp(math.Round(mm*10)/10, 2*symmetry.MinSide, symmetry.MaxSide)
}

// layBy returns what a corner of the cell dragged to the field point q makes of a lay in an oblique group.
func layBy(d deed, lay string, q orb.Point) map[string]float64 {
	// a is one width long, in a half-drop two; b's end lies one height up, in a half-drop half of one.
	wide, high := 1.0, 1.0
	if lay == pattern.HalfDrop {
		wide, high = 0.5, 2
	}
	out := map[string]float64{}
	if d == shapingA || d == shapingFar {
		x := q[0]
		if d == shapingFar && lay != pattern.Straight {
			x /= 1.5 // b leans half of a over
		}
		out["width"] = sideLength(x * wide)
	}
	if d == shapingB || d == shapingFar {
		out["height"] = sideLength(q[1] * high)
	}
	return out
}

// dragOrigin moves the place where the repeat starts.
func (k *Desk) dragOrigin(p orb.Point) {
	q := k.View.Panel(p[0], p[1])
	k.try(pattern.Command{Name: "field", Values: map[string]float64{"x": math.Round(q[0]*10) / 10, "y": math.Round(q[1]*10) / 10}})
}
