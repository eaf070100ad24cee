// Package ties is the pointer's mode in which ties are set across openings and slid along them.
package ties

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/view"
)

// Desk is what ties are set on: the open draft, and the entry of its history that is being made.
type Desk interface {
	Draft() draft.Draft
	Layout() *pattern.Layout
	Begin()
	Step(c pattern.Command) error
	Try(c pattern.Command)
	LayOutAgain(inHand bool)
	LetGo(dragged bool)
	Abandon(dragged bool)
	Hold(repeat bool)
	Touch()
	Say(tone, text string)
	Unit() sheet.Unit
}

// Mode is the pointer's mode while ties are worked on.
type Mode struct {
	On     bool // ties are worked on
	Chosen int  // the one taken up, −1 for none

	desk    Desk
	view    *view.View
	hover   func(e view.Event) // reads the sign under the pointer
	holding bool
	set     bool      // the one in hand is new: a press alone has set it
	last    orb.Point // where the pointer has it
}

// New returns the mode with no tie taken up.
func New(d Desk, v *view.View, hover func(e view.Event)) *Mode {
	return &Mode{Chosen: -1, desk: d, view: v, hover: hover}
}

// State is what the page shows of the ties.
type State struct {
	Shown  bool    `json:"shown"`  // a press on an opening sets a tie, a press on a tie takes it up
	Count  int     `json:"count"`  // in the draft, each once for all its images
	Chosen bool    `json:"chosen"` // one is taken up
	Width  float64 `json:"width"`  // of that one, on the sheet; 0 when none is
	Text   string  `json:"text"`
}

var (
	// ErrNone is the refusal of what needs a tie that is taken up.
	ErrNone       = errors.New("no tie is taken up; press one on the panel first")
	errNotOpening = errors.New("a tie goes across an opening; press inside one")
)

// tieSlack in mm is what a new tie is wider than the narrowest bridge, so that rounding never makes it narrower.
const tieSlack = 0.05

// State returns what the page shows of the ties.
func (m *Mode) State() State {
	d := m.desk.Draft()
	out := State{Shown: m.On, Count: len(d.Ties)}
	if m.Chosen >= 0 && m.Chosen < len(d.Ties) {
		out.Chosen, out.Width = true, d.Ties[m.Chosen].Width*m.Scale(d.Ties[m.Chosen])
	}

	switch {
	case !m.On && out.Count == 0:
		out.Text = "No ties."
	case !m.On:
		out.Text = sheet.Count(out.Count, "tie", "ties") + ", each repeated with what it holds."
	case out.Chosen:
		out.Text = "This tie: drag it along the opening, type its width, or take it out."
	default:
		out.Text = "Press inside an opening to set a tie across it, or press a tie to take it up."
	}
	return out
}

// Scale returns how large one mm of a tie's frame is on the sheet, for the smallest motif that has it.
func (m *Mode) Scale(t draft.Tie) float64 {
	scale := math.Inf(1)
	for _, m := range m.desk.Draft().Motifs {
		if t.Silhouette != "" && m.Silhouette == t.Silhouette {
			scale = math.Min(scale, m.Scale)
		}
	}
	if math.IsInf(scale, 1) {
		return 1
	}
	return scale
}

// Switch begins or ends work on ties.
func (m *Mode) Switch() { m.On, m.Chosen = !m.On, -1 }

// Next takes up the next tie.
func (m *Mode) Next() { m.Chosen = (m.Chosen + 1) % len(m.desk.Draft().Ties) }

// Mark is a tie to draw, CSS px: its corners, and whether it is one that is taken up.
type Mark struct {
	Corners []orb.Point
	Chosen  bool
	Field   bool // a tie of the field, which the canvas must lay over the openings
}

// Marks returns the ties seen on the canvas: those of the field always, all of them while ties are worked on.
func (m *Mode) Marks() []Mark {
	l := m.desk.Layout()
	if l == nil {
		return nil
	}

	toCanvas := m.view.Map()
	field := l.Draft.FieldBound()
	window, seen := common(m.view.Window(), field) // an opening outside the field is not cut
	if !seen {
		return nil
	}

	var out []Mark
	for i, t := range l.Draft.Ties {
		if t.Silhouette != "" && !m.On {
			continue
		}
		for _, image := range l.TieImages(t, window) {
			if len(out) >= pattern.MaxTieCopies {
				return out
			}
			mark := Mark{Chosen: m.On && i == m.Chosen, Field: t.Silhouette == ""}
			for _, p := range image.Rect()[0][:4] {
				mark.Corners = append(mark.Corners, toCanvas.Apply(p))
			}
			out = append(out, mark)
		}
	}
	return out
}

// common returns what two rectangles have in common; false when that is nothing.
func common(a, b orb.Bound) (orb.Bound, bool) {
	c := orb.Bound{
		Min: orb.Point{max(a.Min[0], b.Min[0]), max(a.Min[1], b.Min[1])},
		Max: orb.Point{min(a.Max[0], b.Max[0]), min(a.Max[1], b.Max[1])},
	}
	return c, c.Min[0] < c.Max[0] && c.Min[1] < c.Max[1]
}

// tieAt returns the tie an image of which lies under a panel point, within reach mm; −1 when there is none.
func (m *Mode) tieAt(p orb.Point, reach float64) int {
	best, nearest := -1, reach
	for i, t := range m.desk.Layout().Draft.Ties {
		for _, image := range m.desk.Layout().TieImages(t, orb.Bound{Min: p, Max: p}.Pad(reach)) {
			d := math.Max(0, view.FromSegment(p, image.From, image.To)-image.Width/2)
			if d < nearest {
				best, nearest = i, d
			}
		}
	}
	return best
}

// Through returns the tie across the opening at a panel point: square to the nearest edge, from that edge to the one
// across. Where it stays within one copy it belongs to that copy's silhouette, else to the field.
func (m *Mode) Through(p orb.Point, width float64) (draft.Tie, error) {
	l := m.desk.Layout()
	field := l.Draft.FieldMap().Rigid().Apply(p)
	motif, home, ok := m.bareAt(field)
	if !ok {
		return draft.Tie{}, errNotOpening
	}

	bare := l.Orbits[motif].Bare
	back, ok := home.Inverse()
	if !ok {
		return draft.Tie{}, errNotOpening
	}

	q := back.Apply(field)
	near := bare.DistanceTo(q, math.Inf(1))
	d := math.Hypot(q[0]-near.Q[0], q[1]-near.Q[1])
	if !near.Found || d < 1e-6 {
		return draft.Tie{}, errNotOpening
	}

	dir := orb.Point{(q[0] - near.Q[0]) / d, (q[1] - near.Q[1]) / d}
	far, ok := bare.RayHit(q, dir, 1e4)
	if !ok {
		return draft.Tie{}, errNotOpening
	}

	end := orb.Point{q[0] + dir[0]*far, q[1] + dir[1]*far}
	from, to := home.Apply(near.Q), home.Apply(end)
	// Either end may lie inside another copy that runs into this one: then the tie goes on to that one's far side.
	a := m.outOf(from, orb.Point{from[0] - to[0], from[1] - to[1]})
	b := m.outOf(to, orb.Point{to[0] - from[0], to[1] - from[1]})
	if a == from && b == to {
		t := draft.Tie{Silhouette: l.Draft.Motifs[motif].Silhouette, From: near.Q, To: end}
		t.Width = width / m.Scale(t)
		return lengthened(t), nil
	}
	return lengthened(draft.Tie{From: a, To: b, Width: width}), nil
}

// lengthened carries a tie's ends into the sheet by half its width, so that its corners lie there too where the edges
// are not square to it.
func lengthened(t draft.Tie) draft.Tie {
	l := t.Length()
	if l == 0 {
		return t
	}
	x, y := (t.To[0]-t.From[0])/l*t.Width/2, (t.To[1]-t.From[1])/l*t.Width/2
	t.From = [2]float64{t.From[0] - x, t.From[1] - y}
	t.To = [2]float64{t.To[0] + x, t.To[1] + y}
	return t
}

// bareAt returns the copy, without regard to ties, that holds a field point: its motif, and the map from its
// silhouette's frame to the field.
func (m *Mode) bareAt(p orb.Point) (motif int, home geometry.Map, ok bool) {
	l := m.desk.Layout()
	window := orb.Bound{Min: p, Max: p}
	for i, o := range l.Orbits {
		for _, image := range o.Images {
			l.Cells(window, image.Bound(), func(m, n int) bool {
				at := l.Op(image.Op, m, n).After(o.Place)
				back, can := at.Inverse()
				if can && o.Bare.Contains(back.Apply(p)) {
					motif, home, ok = i, at, true
				}
				return !ok
			})
			if ok {
				return motif, home, true
			}
		}
	}
	return 0, geometry.Identity, false
}

// maxCrossed is how many copies that run into each other a tie may cross.
const maxCrossed = 6

// outOf goes on from a field point at the edge of a copy in a direction, as long as it stands inside others, to the
// last one's far edge.
func (m *Mode) outOf(p, dir orb.Point) orb.Point {
	l := math.Hypot(dir[0], dir[1])
	if l == 0 {
		return p
	}

	dir = orb.Point{dir[0] / l, dir[1] / l}
	const beyond = 1e-3 // mm, past an edge
	for range maxCrossed {
		q := orb.Point{p[0] + dir[0]*beyond, p[1] + dir[1]*beyond}
		motif, home, ok := m.bareAt(q)
		if !ok {
			return p
		}
		back, _ := home.Inverse()
		scale := math.Sqrt(math.Abs(home.Det()))
		v := back.Vector(dir)
		far, hit := m.desk.Layout().Orbits[motif].Bare.RayHit(back.Apply(q), orb.Point{v[0] * scale, v[1] * scale}, 1e4)
		if !hit {
			return p
		}
		p = orb.Point{q[0] + dir[0]*far*scale, q[1] + dir[1]*far*scale}
	}
	return p
}

func tieCommand(name string, t draft.Tie, index int) pattern.Command {
	c := pattern.Command{Name: name, ID: t.Silhouette, Values: map[string]float64{
		"fromX": t.From[0], "fromY": t.From[1], "toX": t.To[0], "toY": t.To[1], "width": t.Width}}
	if index >= 0 {
		c.Values["index"] = float64(index)
	}
	return c
}
