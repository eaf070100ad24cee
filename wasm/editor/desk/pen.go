package desk

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/pattern"
)

// What the pointer does while a silhouette is drawn.
const (
	penFree   = "free"   // draws freehand
	penPoints = "points" // sets points
	penMove   = "move"   // moves points, bends pieces
)

// What becomes of a closed line.
const (
	penAdd     = "add"     // it is joined to the silhouette
	penCut     = "cut"     // it is cut away from it
	penInstead = "instead" // it takes its place
)

const (
	// jitterPX is what a mouse and a pen are off by in CSS px, fingerJitterPX what a finger is.
	jitterPX, fingerJitterPX = 1.5, 3.0
	// freshMM is the part of the plane shown, in mm, when a new silhouette is begun.
	freshMM = 140.0
	// penWithin in mm is how far a stretch is smoothed or simplified when nobody has said.
	penWithin = 0.5
	// mostDrawn bounds how many outlines' points are remembered.
	mostDrawn = 60
)

var (
	errNoPen   = errors.New("no silhouette is open for drawing; open one in step 1 first")
	errNoPoint = errors.New("no point is chosen; press one, or press n")
)

// drawing is a silhouette open for drawing, in its own frame.
type drawing struct {
	id, made string // the silhouette; made remembers one that was begun here, through undoing and redoing
	outline  orb.MultiPolygon
	shape    pen.Shape

	way, use string
	half     bool    // a half is drawn, and its image in the mirror with it
	axis     float64 // of that mirror, mm
	round    bool    // points are set round
	within   float64 // mm, of smoothing and simplifying

	chosen bool // a stretch of a ring is
	ring   int  // of shape.Rings
	sel    pen.Stretch
	spot   float64 // where on the piece sel.From it was pressed, as a parameter

	stroke    []orb.Point // in hand, mm
	jitter    float64     // of it
	line      []pen.Point // being set
	taken     []pen.Point // points of the line that were undone, the last first
	hover     orb.Point   // where the pointer is, mm
	hovering  bool
	trial     pen.Shape // what is under the hand, nil when nothing is
	trialText string    // why that cannot be

	view  View // to go back to
	whole bool
}

// Pen is what the page sets by name while a silhouette is drawn: a word or a number in mm. "open" opens a silhouette, with
// an empty word a new one.
func (k *Desk) Pen(name, word string, v float64) error {
	if name == "open" {
		return k.openPen(word)
	}
	if k.pen == nil {
		return errNoPen
	}
	k.Changed, k.Redraw = true, true
	k.endNudge()
	d := k.pen
	if !(math.Abs(v) <= geometry.MaxCoordinate) {
		return fmt.Errorf("a drawing reaches up to %.0f mm from its origin; give a number no larger than that", float64(geometry.MaxCoordinate))
	}
	switch name {
	case "way":
		if !slices.Contains([]string{penFree, penPoints, penMove}, word) {
			return fmt.Errorf("a drawing is done in the way %s, %s or %s, not %.40q", penFree, penPoints, penMove, word)
		}
		k.dropHand()
		if word != penPoints {
			if err := k.closeLine(); err != nil {
				return err
			}
		}
		d.way, d.chosen, d.hovering = word, d.chosen && word == penMove, false
	case "use":
		if !slices.Contains([]string{penAdd, penCut, penInstead}, word) {
			return fmt.Errorf("what a line goes round is used to %s, %s or stand %s, not to %.40q", penAdd, penCut, penInstead, word)
		}
		d.use = word
	case "half":
		d.half = !d.half
	case "round":
		d.round = word == "round"
	case "axis":
		d.axis = geometry.Snap(v)
	case "within":
		if !(v > 0 && v <= 50) {
			return errors.New("smoothing goes from a hundredth of a millimetre to 50 mm; 0.5 is usual")
		}
		d.within = v
	case "line", "point", "to":
		return k.choosePoint(name, int(v))
	case "x", "y":
		return k.setPoint(name, v)
	default:
		return fmt.Errorf("there is nothing called %.40q to set", name)
	}
	return nil
}

// openPen opens a silhouette for drawing, or a new one for an empty id.
func (k *Desk) openPen(id string) error {
	if _, ok := k.Draft().Silhouette(id); !ok && id != "" {
		return fmt.Errorf("no silhouette is called %.40q", id)
	}
	k.endNudge()
	k.dropHand()
	k.leavePen()
	k.tying, k.tie = false, -1
	d := &drawing{id: id, way: penFree, use: penAdd, within: penWithin, view: k.View, whole: k.whole}
	if id != "" {
		d.way = penMove
	}
	k.pen = d
	if err := k.syncPen(); err != nil {
		k.pen = nil
		return err
	}
	if len(d.shape) > 0 {
		d.axis = geometry.Snap(d.outline.Bound().Center()[0])
	}
	k.fit()
	k.Changed, k.Redraw = true, true
	return nil
}

// leavePen goes back to the panel; a line that is not closed is closed if it can be.
func (k *Desk) leavePen() {
	if k.pen == nil {
		return
	}
	if penGesture(k.hand.deed) || k.nudging {
		k.letGo()
	}
	if err := k.closeLine(); err != nil {
		k.Say("error", pattern.Sentence(err.Error()))
	}
	d := k.pen
	if d == nil { // closing the line has left the drawing already
		return
	}
	k.pen = nil
	k.View.Zoom, k.View.Centre, k.whole = d.view.Zoom, d.view.Centre, d.whole
	if k.whole {
		k.fit()
	}
	k.holdNear(k.View.Centre)
	k.Changed, k.Redraw = true, true
}

// penBound is what is shown of the plane when a silhouette is opened.
func (k *Desk) penBound() orb.Bound {
	if b := k.pen.outline.Bound(); len(k.pen.outline) > 0 {
		return b.Pad(0.12 * max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))
	}
	return orb.Bound{Min: orb.Point{-freshMM / 2, -freshMM / 2}, Max: orb.Point{freshMM / 2, freshMM / 2}}
}

// syncPen follows the draft: what is drawn is always its silhouette as it stands there.
func (k *Desk) syncPen() error {
	d := k.pen
	if d == nil {
		return nil
	}
	if d.id == "" {
		d.id = d.made
	}
	s, ok := k.Draft().Silhouette(d.id)
	if !ok {
		if d.id != d.made {
			d.line = nil
			k.leavePen() // thrown away
			return nil
		}
		d.id, d.outline, d.shape, d.chosen = "", nil, nil, false
		return nil
	}
	if len(d.outline) == len(s.Outline) && len(d.outline) > 0 && &d.outline[0] == &s.Outline[0] {
		return nil
	}
	shape, known := k.knots[&s.Outline[0][0][0]]
	if !known {
		var err error
		if shape, err = pen.Read(s.Outline, d.shape.Rings()...); err != nil {
			return err
		}
		k.remember(s.Outline, shape)
	}
	d.outline, d.shape, d.trial = s.Outline, shape, nil
	if rings := shape.Rings(); d.chosen && (d.ring >= len(rings) || max(d.sel.From, d.sel.To) >= len(rings[d.ring].Nodes)) {
		d.chosen = false
	}
	return nil
}

// remember keeps the points that an outline was made of, so that undoing brings them back too.
func (k *Desk) remember(mp orb.MultiPolygon, shape pen.Shape) {
	if k.knots == nil || len(k.knots) >= mostDrawn {
		k.knots = map[*orb.Point]pen.Shape{}
	}
	k.knots[&mp[0][0][0]] = shape
}

// putShape makes a shape the silhouette's outline, as one entry of the history; a new silhouette is placed in the cell.
func (k *Desk) putShape(shape pen.Shape) error {
	d := k.pen
	outline := shape.Outline()
	if err := pen.Check(outline); err != nil {
		return err
	}
	k.letGo()
	k.history.Begin()
	fresh := d.id == ""
	var l *pattern.Layout
	err := k.tryShape(shape, outline)
	if err == nil {
		l, err = k.feasible(k.Draft())
	}
	if err != nil {
		k.history.Abandon()
		k.settled(false)
		return err
	}
	k.history.Settle()
	k.keepSelection()
	if m := k.Draft().Motifs; fresh && len(m) > 0 {
		k.choose(m[len(m)-1].ID)
	}
	d.trial, d.taken = nil, nil
	k.settledOn(l, true)
	return nil
}

// tryShape applies a shape inside the open gesture, and remembers its points.
func (k *Desk) tryShape(shape pen.Shape, outline orb.MultiPolygon) error {
	d := k.pen
	c := pattern.Command{Name: "redraw", ID: d.id, Outline: outline}
	if d.id == "" {
		c = pattern.Command{Name: "draw", Text: k.freshName("Drawn"), Outline: outline}
		k.placeNew(&c, outline)
		// The drawing keeps its place on the plane, so that what lies under it stays there: the motif makes up for it.
		centre := geometry.Centroid(outline)
		c.Values["x"] -= centre[0]
		c.Values["y"] -= centre[1]
	}
	if err := k.step(c); err != nil {
		return err
	}
	if d.id == "" {
		s := k.Draft().Silhouettes
		d.id = s[len(s)-1].ID
		d.made = d.id
	}
	if s, ok := k.Draft().Silhouette(d.id); ok {
		k.remember(s.Outline, shape)
		d.outline, d.shape = s.Outline, shape
	}
	return nil
}

// freshName returns a name that no silhouette has yet.
func (k *Desk) freshName(name string) string {
	used := map[string]bool{}
	for _, s := range k.Draft().Silhouettes {
		used[s.Name] = true
	}
	for n := 1; ; n++ {
		if try := name + " " + strconv.Itoa(n); !used[try] {
			return try
		}
	}
}

// useLines does with closed lines what was chosen: joins them, cuts them away, or puts them in the silhouette's place.
func (k *Desk) useLines(lines ...pen.Ring) error {
	d := k.pen
	var shape pen.Shape
	var err error
	switch {
	case d.use == penCut && len(d.shape) == 0:
		return errors.New("there is nothing to cut away from yet; draw the silhouette first")
	case d.use == penCut:
		shape, err = d.shape.CutAway(lines...)
	case d.use == penInstead:
		shape, err = pen.Shape(nil).Joined(lines...)
	default:
		shape, err = d.shape.Joined(lines...)
	}
	if err != nil {
		return err
	}
	d.chosen = false
	return k.putShape(shape)
}
