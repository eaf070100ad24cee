package pen

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
)

// Action is one thing that can be done while a silhouette is drawn: a row of the page's table of actions.
type Action struct {
	Name, Label string
	Keys        []string
	Do          func(m *Mode) error
}

// Actions are what can be done while a silhouette is drawn; their keys hold only then.
func Actions() []Action {
	row := func(name, label string, keys []string, do func(m *Mode) error) Action {
		return Action{name, label, keys, func(m *Mode) error {
			if m.d == nil {
				return ErrNotOpen
			}
			return do(m)
		}}
	}

	on := func(f func(r pen.Ring, s pen.Stretch) (pen.Ring, error)) func(m *Mode) error {
		return func(m *Mode) error { return m.onStretch(f) }
	}

	plain := func(f func(r pen.Ring, s pen.Stretch) pen.Ring) func(m *Mode) error {
		return on(func(r pen.Ring, s pen.Stretch) (pen.Ring, error) { return f(r, s), nil })
	}
	return []Action{
		row("draw-close", "Close the line of points", []string{"Enter"}, (*Mode).closeLine),
		row("draw-half", "Draw a half, and its image with it", []string{"h"},
			func(m *Mode) error { return m.Set("half", "", 0) }),
		row("draw-next", "Next point", []string{"n"}, func(m *Mode) error { return m.stepPoint(1) }),
		row("draw-previous", "Point before", []string{"p"}, func(m *Mode) error { return m.stepPoint(-1) }),
		row("draw-further", "Take the stretch one point further", []string{"N"}, (*Mode).stretchOn),
		row("draw-line", "Next outline or hole", []string{"o"}, (*Mode).nextLine),
		row("draw-set", "Set a point: the next of a line, or in the stretch", []string{"i"}, (*Mode).setInto),
		row("draw-remove", "Take the point out", []string{"Delete"}, (*Mode).takePoint),
		row("draw-corner", "Make it a corner", []string{"c"}, plain(pen.Ring.Sharpened)),
		row("draw-round", "Make it round", []string{"r"}, plain(pen.Ring.Rounded)),
		row("draw-straight", "Make the stretch straight", []string{"s"}, on(straighten)),
		row("draw-curve", "Make the stretch curved", []string{"b"}, on(curve)),
		row("draw-smooth", "Even out the stretch", []string{"e"}, func(m *Mode) error {
			return m.onStretch(func(r pen.Ring, s pen.Stretch) (pen.Ring, error) { return r.Smoothed(s, m.d.within) })
		}),
		row("draw-fewer", "Draw the stretch with fewer points", []string{"f"}, (*Mode).fewer),
		row("draw-take-line", "Take the whole outline or hole out", []string{"Shift+Delete"}, (*Mode).takeLine),
	}
}

// keySetMM is how far to the right of the last one a point set by its key lies.
const keySetMM = 10.0

var errPiece = errors.New("choose a stretch first: press the line between two points, " +
	"or hold Shift and press a second point")

func straighten(r pen.Ring, s pen.Stretch) (pen.Ring, error) {
	if s.From == s.To {
		return r, errPiece
	}
	return r.Straightened(s), nil
}

func curve(r pen.Ring, s pen.Stretch) (pen.Ring, error) {
	if s.From == s.To {
		return r, errPiece
	}
	return r.Curved(s), nil
}

// ringInHand returns the ring whose stretch is chosen.
func (m *Mode) ringInHand() (pen.Ring, error) {
	if m.d == nil {
		return pen.Ring{}, ErrNotOpen
	}
	if !m.d.chosen {
		return pen.Ring{}, errNoPoint
	}
	return m.d.shape.Rings()[m.d.ring], nil
}

// onStretch does something to the chosen stretch, as one entry of the history. Where the ring gets another number of
// points the stretch keeps its first end, and its last as counted from there.
func (m *Mode) onStretch(f func(r pen.Ring, s pen.Stretch) (pen.Ring, error)) error {
	r, err := m.ringInHand()
	if err != nil {
		return err
	}

	d := m.d
	next, err := f(r, d.sel)
	if err != nil {
		return err
	}
	if slices.Equal(next.Nodes, r.Nodes) {
		return errors.New("it is so already; nothing was changed")
	}
	if err := m.putShape(d.shape.With(d.ring, next)); err != nil {
		return err
	}
	if was, now := len(r.Nodes), len(next.Nodes); was != now && d.chosen {
		first := r.Nodes[d.sel.From].At
		span := (d.sel.To-d.sel.From+was)%was + now - was
		d.sel.From = nearestNode(next, first)
		d.sel.To = (d.sel.From + max(0, span)) % now
	}
	return nil
}

func nearestNode(r pen.Ring, p orb.Point) int {
	best, nearest := 0, math.Inf(1)
	for i, v := range r.Nodes {
		if e := geometry.PointDistance(v.At, p); e < nearest {
			best, nearest = i, e
		}
	}
	return best
}

func (m *Mode) fewer() error {
	r, err := m.ringInHand()
	if err != nil {
		return err
	}
	return m.onStretch(func(_ pen.Ring, s pen.Stretch) (pen.Ring, error) {
		next, err := r.Simplified(s, m.d.within)
		if err == nil && len(next.Nodes) >= len(r.Nodes) {
			return r, fmt.Errorf("within %s there is no way with fewer points; allow more",
				m.desk.Unit().Measure(m.d.within))
		}
		return next, err
	})
}

// stepPoint chooses the next point along the ring.
func (m *Mode) stepPoint(by int) error {
	d := m.d
	if len(d.shape) == 0 {
		return errors.New("there is no point yet; draw something first")
	}

	d.way = Move
	if !d.chosen {
		d.chosen, d.ring, d.sel = true, 0, pen.Stretch{}
		m.showPoint()
		return nil
	}

	n := len(d.shape.Rings()[d.ring].Nodes)
	i := ((d.sel.From+by)%n + n) % n
	d.sel = pen.Stretch{From: i, To: i}
	m.showPoint()
	return nil
}

func (m *Mode) stretchOn() error {
	r, err := m.ringInHand()
	if err != nil {
		return err
	}
	d := m.d
	if next := (d.sel.To + 1) % len(r.Nodes); next != d.sel.From {
		d.sel.To = next
	}
	return nil
}

func (m *Mode) nextLine() error {
	d := m.d
	n := len(d.shape.Rings())
	if n == 0 {
		return errors.New("there is no outline yet; draw something first")
	}
	if d.chosen {
		d.ring = (d.ring + 1) % n
	}
	d.way, d.chosen, d.sel = Move, true, pen.Stretch{}
	m.showPoint()
	return nil
}

// showPoint moves the view so that the chosen point is seen.
func (m *Mode) showPoint() {
	d := m.d
	p := d.shape.Rings()[d.ring].Nodes[d.sel.From].At
	if !m.view.Window().Contains(p) {
		m.view.LookAt(p)
	}
}

// setInto sets the next point of a line, to be moved by keys and numbers; or a point in the chosen stretch: where its
// one piece was pressed, else in the middle of its longest.
func (m *Mode) setInto() error {
	if d := m.d; d != nil && d.way == Points {
		at := m.view.Centre
		if n := len(d.line); n > 0 {
			at = d.line[n-1].At
			at[0] += keySetMM
		}
		at = orb.Point{geometry.Snap(at[0]), geometry.Snap(at[1])}
		d.line, d.taken = append(d.line, pen.Point{At: at, Round: d.round}), nil
		return nil
	}

	r, err := m.ringInHand()
	if err != nil {
		return err
	}

	d := m.d
	n := len(r.Nodes)
	piece, t := d.sel.From, 0.5
	if d.sel.To == (d.sel.From+1)%n && d.spot > 0.02 && d.spot < 0.98 {
		t = d.spot
	} else {
		longest := 0.0
		for i := d.sel.From; i != d.sel.To; i = (i + 1) % n {
			if l := geometry.PointDistance(r.Nodes[i].At, r.Nodes[(i+1)%n].At); l > longest {
				piece, longest = i, l
			}
		}
	}

	next, at := r.Inserted(piece, t)
	if err := m.putShape(d.shape.With(d.ring, next)); err != nil {
		return err
	}
	d.sel, d.chosen, d.spot = pen.Stretch{From: at, To: at}, true, 0
	return nil
}

// takePoint takes the last point set back while a line is in hand, else the chosen point out, or those between the
// ends of the chosen stretch.
func (m *Mode) takePoint() error {
	if m.TakeLast() {
		return nil
	}

	r, err := m.ringInHand()
	if err != nil {
		return err
	}

	d := m.d
	next, err := r.Removed(d.sel)
	if err != nil {
		return err
	}

	from := r.Nodes[d.sel.From].At
	if d.sel.From == d.sel.To {
		from = r.Nodes[(d.sel.From+len(r.Nodes)-1)%len(r.Nodes)].At
	}
	if err := m.putShape(d.shape.With(d.ring, next)); err != nil {
		return err
	}

	at := nearestNode(next, from)
	d.sel, d.chosen = pen.Stretch{From: at, To: at}, true
	return nil
}

// takeLine takes the chosen hole or outer line out.
func (m *Mode) takeLine() error {
	if _, err := m.ringInHand(); err != nil {
		return err
	}
	d := m.d
	next := d.shape.Without(d.ring)
	if len(next) == 0 {
		return errors.New("nothing of the silhouette would be left; throw it away in step 1 instead")
	}
	d.chosen = false
	return m.putShape(next)
}
