package copies

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/view"
)

// dragCopy carries the vector by which the copy was dragged back through its operation and moves the motif by that.
func (m *Mode) dragCopy(e view.Event) {
	g := &m.gesture
	d := orb.Point{(e.At[0] - e.From[0]) / m.view.Zoom, -(e.At[1] - e.From[1]) / m.view.Zoom}
	if e.Mods&view.Shift != 0 { // along one direction only
		if math.Abs(d[0]) > math.Abs(d[1]) {
			d[1] = 0
		} else {
			d[0] = 0
		}
	}

	v := g.held.Map(m.desk.Layout()).Rigid().Vector(d)
	at := orb.Point{g.motif.At[0] + v[0], g.motif.At[1] + v[1]}
	if e.Mods&(view.Alt|view.Shift) == 0 && m.desk.Layout() != nil {
		at = m.snapped(g.held.Motif, at)
	}
	m.desk.Try(pattern.Command{Name: "place", ID: g.motif.ID, Values: map[string]float64{"x": at[0], "y": at[1]}})
}

func (m *Mode) dragTurn(e view.Event) {
	g := &m.gesture
	c := m.Handles().Centre
	turned := -(math.Atan2(e.At[1]-c[1], e.At[0]-c[0]) - g.angle) * 180 / math.Pi // canvas y runs down
	if g.held.Map(m.desk.Layout()).Det() < 0 {
		turned = -turned
	}

	a := g.motif.Turn + turned
	if e.Mods&view.Shift != 0 {
		a = math.Round(a/15) * 15
	} else {
		a = math.Round(a*10) / 10
		if e.Mods&view.Alt == 0 {
			a = m.SnappedTurn(g.motif, a)
		}
	}
	m.desk.Try(pattern.Command{Name: "place", ID: g.motif.ID, Values: map[string]float64{"turn": a}})
}

func (m *Mode) dragScale(e view.Event) {
	g := &m.gesture
	c := m.Handles().Centre
	if g.reach < 1 {
		return
	}

	f := g.motif.Scale * geometry.PointDistance(e.At, c) / g.reach
	if e.Mods&view.Shift != 0 {
		f = math.Max(0.1, math.Round(f*10)/10)
	} else {
		f = math.Max(0.02, math.Round(f*1000)/1000)
	}
	m.desk.Try(pattern.Command{Name: "place", ID: g.motif.ID, Values: map[string]float64{"scale": f}})
}

// dragSide shapes the cell by one of its corners; what the group's system binds stays bound, and so do a chosen lay and
// what is held of the cell.
func (m *Mode) dragSide(p orb.Point) {
	if m.desk.Layout() == nil {
		return
	}

	q := m.desk.Draft().FieldMap().Rigid().Apply(m.view.Panel(p[0], p[1]))
	if b, ok := m.block(); ok {
		m.desk.Try(pattern.Command{Name: "lay", Text: b.lay.Name, Values: b.shaped(m.gesture.grip, q)})
		return
	}

	c := pattern.Command{Name: "cell", Text: m.desk.HoldsOfCell(), Values: map[string]float64{}}
	cell := m.desk.Layout().Cell
	even := m.desk.Layout().Group.EqualSides()
	if even && c.Text == pattern.KeepArea {
		return
	}

	switch m.gesture.grip {
	case sideA:
		c.Values["a"] = sideLength(math.Hypot(q[0], q[1]))
	case sideB:
		c.Values["b"] = sideLength(math.Hypot(q[0], q[1]))
		if m.desk.Layout().Group.System == symmetry.Oblique {
			c.Values["gamma"] = view.Clamp(math.Round(math.Atan2(q[1], q[0])*1800/math.Pi)/10, 20, 160)
		}
	case farCorner: // the corner across: q = x·a + y·b in shares of the cell
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
	m.desk.Try(c)
}

// sideLength rounds a side to a tenth of a millimetre within what a cell may be.
func sideLength(mm float64) float64 {
	return view.Clamp(math.Round(mm*10)/10, 2*symmetry.MinSide, symmetry.MaxSide)
}

// dragOrigin moves the place where the repeat starts.
func (m *Mode) dragOrigin(p orb.Point) {
	q := m.view.Panel(p[0], p[1])
	if b, ok := m.block(); ok {
		from := m.desk.Draft().FieldMap().Vector(b.corner())
		q = geometry.Sub(q, from)
	}
	m.desk.Try(pattern.Command{Name: "field",
		Values: map[string]float64{"x": math.Round(q[0]*10) / 10, "y": math.Round(q[1]*10) / 10}})
}
