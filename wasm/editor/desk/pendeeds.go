package desk

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
)

// penActions are the deeds of drawing in the table of actions; their keys hold only while a silhouette is drawn.
func penActions() []Action {
	row := func(name, label string, keys []string, do func(k *Desk) error) Action {
		return Action{name, label, keys, "drawing", func(k *Desk) error {
			if k.pen == nil {
				return errNoPen
			}
			return do(k)
		}}
	}
	on := func(f func(r pen.Ring, s pen.Stretch) (pen.Ring, error)) func(k *Desk) error {
		return func(k *Desk) error { return k.onStretch(f) }
	}
	plain := func(f func(r pen.Ring, s pen.Stretch) pen.Ring) func(k *Desk) error {
		return on(func(r pen.Ring, s pen.Stretch) (pen.Ring, error) { return f(r, s), nil })
	}
	return []Action{
		row("draw-done", "Back to the panel", nil, func(k *Desk) error { k.leavePen(); return nil }),
		row("draw-close", "Close the line of points", []string{"Enter"}, (*Desk).closeLine),
		row("draw-half", "Draw a half, and its image with it", []string{"h"}, func(k *Desk) error { return k.Pen("half", "", 0) }),
		row("draw-next", "Next point", []string{"n"}, func(k *Desk) error { return k.stepPoint(1) }),
		row("draw-previous", "Point before", []string{"p"}, func(k *Desk) error { return k.stepPoint(-1) }),
		row("draw-further", "Take the stretch one point further", []string{"N"}, (*Desk).stretchOn),
		row("draw-line", "Next outline or hole", []string{"o"}, (*Desk).nextLine),
		row("draw-set", "Set a point: the next of a line, or in the stretch", []string{"i"}, (*Desk).setInto),
		row("draw-remove", "Take the point out", []string{"Delete"}, (*Desk).takePoint),
		row("draw-corner", "Make it a corner", []string{"c"}, plain(pen.Ring.Sharpened)),
		row("draw-round", "Make it round", []string{"r"}, plain(pen.Ring.Rounded)),
		row("draw-straight", "Make the stretch straight", []string{"s"}, on(straighten)),
		row("draw-curve", "Make the stretch curved", []string{"b"}, on(curve)),
		row("draw-smooth", "Even out the stretch", []string{"e"}, func(k *Desk) error {
			return k.onStretch(func(r pen.Ring, s pen.Stretch) (pen.Ring, error) { return r.Smoothed(s, k.pen.within) })
		}),
		row("draw-fewer", "Draw the stretch with fewer points", []string{"f"}, (*Desk).fewer),
		row("draw-take-line", "Take the whole outline or hole out", []string{"Shift+Delete"}, (*Desk).takeLine),
	}
}

// keySetMM is how far to the right of the last one a point set by its key lies.
const keySetMM = 10.0

var errPiece = errors.New("choose a stretch first: press the line between two points, or hold Shift and press a second point")

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

// drawOn opens the silhouette of the motif in hand.
func (k *Desk) drawOn() error {
	i := k.Draft().Motif(k.selected)
	if i < 0 {
		return errNoMotif
	}
	return k.openPen(k.Draft().Motifs[i].Silhouette)
}

// ringInHand returns the ring whose stretch is chosen.
func (k *Desk) ringInHand() (pen.Ring, error) {
	if k.pen == nil {
		return pen.Ring{}, errNoPen
	}
	if !k.pen.chosen {
		return pen.Ring{}, errNoPoint
	}
	return k.pen.shape.Rings()[k.pen.ring], nil
}

// onStretch does something to the chosen stretch, as one entry of the history. Where the ring gets another number of points
// the stretch keeps its first end, and its last as counted from there.
func (k *Desk) onStretch(f func(r pen.Ring, s pen.Stretch) (pen.Ring, error)) error {
	r, err := k.ringInHand()
	if err != nil {
		return err
	}
	d := k.pen
	next, err := f(r, d.sel)
	if err != nil {
		return err
	}
	if slices.Equal(next.Nodes, r.Nodes) {
		return errors.New("it is so already; nothing was changed")
	}
	if err := k.putShape(d.shape.With(d.ring, next)); err != nil {
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
	best, least := 0, math.Inf(1)
	for i, v := range r.Nodes {
		if e := far(v.At, p); e < least {
			best, least = i, e
		}
	}
	return best
}

func (k *Desk) fewer() error {
	r, err := k.ringInHand()
	if err != nil {
		return err
	}
	return k.onStretch(func(_ pen.Ring, s pen.Stretch) (pen.Ring, error) {
		next, err := r.Simplified(s, k.pen.within)
		if err == nil && len(next.Nodes) >= len(r.Nodes) {
			return r, fmt.Errorf("within %s there is no way with fewer points; allow more", k.measure(k.pen.within))
		}
		return next, err
	})
}

// stepPoint chooses the next point along the ring.
func (k *Desk) stepPoint(by int) error {
	d := k.pen
	if len(d.shape) == 0 {
		return errors.New("there is no point yet; draw something first")
	}
	d.way = penMove
	if !d.chosen {
		d.chosen, d.ring, d.sel = true, 0, pen.Stretch{}
		k.showPoint()
		return nil
	}
	n := len(d.shape.Rings()[d.ring].Nodes)
	i := ((d.sel.From+by)%n + n) % n
	d.sel = pen.Stretch{From: i, To: i}
	k.showPoint()
	return nil
}

func (k *Desk) stretchOn() error {
	r, err := k.ringInHand()
	if err != nil {
		return err
	}
	d := k.pen
	if next := (d.sel.To + 1) % len(r.Nodes); next != d.sel.From {
		d.sel.To = next
	}
	return nil
}

func (k *Desk) nextLine() error {
	d := k.pen
	n := len(d.shape.Rings())
	if n == 0 {
		return errors.New("there is no outline yet; draw something first")
	}
	if d.chosen {
		d.ring = (d.ring + 1) % n
	}
	d.way, d.chosen, d.sel = penMove, true, pen.Stretch{}
	k.showPoint()
	return nil
}

// showPoint moves the view so that the chosen point is seen.
func (k *Desk) showPoint() {
	d := k.pen
	p := d.shape.Rings()[d.ring].Nodes[d.sel.From].At
	if !k.View.Window().Contains(p) {
		k.View.lookAt(p)
		k.whole = false
	}
}

// setInto sets the next point of a line, to be moved by keys and numbers; or a point in the chosen stretch: where its one piece was pressed, else in the middle of its longest.
func (k *Desk) setInto() error {
	if d := k.pen; d != nil && d.way == penPoints {
		at := k.View.Centre
		if n := len(d.line); n > 0 {
			at = d.line[n-1].At
			at[0] += keySetMM
		}
		d.line, d.taken = append(d.line, pen.Point{At: orb.Point{geometry.Snap(at[0]), geometry.Snap(at[1])}, Round: d.round}), nil
		return nil
	}
	r, err := k.ringInHand()
	if err != nil {
		return err
	}
	d := k.pen
	n := len(r.Nodes)
	piece, t := d.sel.From, 0.5
	if d.sel.To == (d.sel.From+1)%n && d.spot > 0.02 && d.spot < 0.98 {
		t = d.spot
	} else {
		longest := 0.0
		for i := d.sel.From; i != d.sel.To; i = (i + 1) % n {
			if l := far(r.Nodes[i].At, r.Nodes[(i+1)%n].At); l > longest {
				piece, longest = i, l
			}
		}
	}
	next, at := r.Inserted(piece, t)
	if err := k.putShape(d.shape.With(d.ring, next)); err != nil {
		return err
	}
	d.sel, d.chosen, d.spot = pen.Stretch{From: at, To: at}, true, 0
	return nil
}

// takePoint takes the last point set back while a line is in hand, else the chosen point out, or those between the ends of
// the chosen stretch.
func (k *Desk) takePoint() error {
	if k.takeLast() {
		return nil
	}
	r, err := k.ringInHand()
	if err != nil {
		return err
	}
	d := k.pen
	next, err := r.Removed(d.sel)
	if err != nil {
		return err
	}
	from := r.Nodes[d.sel.From].At
	if d.sel.From == d.sel.To {
		from = r.Nodes[(d.sel.From+len(r.Nodes)-1)%len(r.Nodes)].At
	}
	if err := k.putShape(d.shape.With(d.ring, next)); err != nil {
		return err
	}
	at := nearestNode(next, from)
	d.sel, d.chosen = pen.Stretch{From: at, To: at}, true
	return nil
}

// takeLine takes the chosen hole or outer line out.
func (k *Desk) takeLine() error {
	if _, err := k.ringInHand(); err != nil {
		return err
	}
	d := k.pen
	next := d.shape.Without(d.ring)
	if len(next) == 0 {
		return errors.New("nothing of the silhouette would be left; throw it away in step 1 instead")
	}
	d.chosen = false
	return k.putShape(next)
}
