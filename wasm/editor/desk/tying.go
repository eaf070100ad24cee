package desk

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// tieState is what the page shows of the ties.
type tieState struct {
	Shown  bool    `json:"shown"`  // a press on an opening sets a tie, a press on a tie takes it up
	Count  int     `json:"count"`  // in the draft, each once for all its images
	Chosen bool    `json:"chosen"` // one is taken up
	Width  float64 `json:"width"`  // of that one, on the sheet; 0 when none is
	Text   string  `json:"text"`
}

var (
	errNoTie      = errors.New("no tie is taken up; press one on the panel first")
	errNotOpening = errors.New("a tie goes across an opening; press inside one")
)

// tieHair in mm is what a new tie is wider than the narrowest bridge, so that rounding never makes it narrower.
const tieHair = 0.05

func (k *Desk) tieState() tieState {
	d := k.Draft()
	out := tieState{Shown: k.tying, Count: len(d.Ties)}
	if k.tie >= 0 && k.tie < len(d.Ties) {
		out.Chosen, out.Width = true, d.Ties[k.tie].Width*k.tieScale(d.Ties[k.tie])
	}
	switch {
	case !k.tying && out.Count == 0:
		out.Text = "No ties."
	case !k.tying:
		out.Text = count(out.Count, "tie", "ties") + ", each repeated with what it holds."
	case out.Chosen:
		out.Text = "This tie: drag it along the opening, type its width, or take it out."
	default:
		out.Text = "Press inside an opening to set a tie across it, or press a tie to take it up."
	}
	return out
}

// tieScale returns how large one mm of a tie's frame is on the sheet, for the smallest motif that has it.
func (k *Desk) tieScale(t pattern.Tie) float64 {
	scale := math.Inf(1)
	for _, m := range k.Draft().Motifs {
		if t.Silhouette != "" && m.Silhouette == t.Silhouette {
			scale = math.Min(scale, m.Scale)
		}
	}
	if math.IsInf(scale, 1) {
		return 1
	}
	return scale
}

// switchTying begins or ends work on ties.
func (k *Desk) switchTying() error {
	k.tying, k.tie = !k.tying, -1
	if k.tying {
		k.choose("")
	}
	return nil
}

// Tying reports whether ties are worked on.
func (k *Desk) Tying() bool { return k.tying }

// TieMark is a tie to draw, CSS px: its corners, and whether it is one that is taken up.
type TieMark struct {
	Corners []orb.Point
	Chosen  bool
	Field   bool // a tie of the field, which the canvas must lay over the openings
}

// Ties returns the ties seen on the canvas: those of the field always, all of them while ties are worked on.
func (k *Desk) Ties() []TieMark {
	l := k.layout
	if l == nil {
		return nil
	}
	m := k.View.Map()
	field := l.Draft.FieldBound()
	window, seen := common(k.View.Window(), field) // an opening outside the field is not cut
	if !seen {
		return nil
	}
	var out []TieMark
	for i, t := range l.Draft.Ties {
		if t.Silhouette != "" && !k.tying {
			continue
		}
		for _, image := range l.TieImages(t, window) {
			if len(out) >= pattern.MaxTieCopies {
				return out
			}
			mark := TieMark{Chosen: k.tying && i == k.tie, Field: t.Silhouette == ""}
			for _, p := range image.Rect()[0][:4] {
				mark.Corners = append(mark.Corners, m.Apply(p))
			}
			out = append(out, mark)
		}
	}
	return out
}

// common returns what two rectangles have in common; false when that is nothing.
func common(a, b orb.Bound) (orb.Bound, bool) {
	c := orb.Bound{Min: orb.Point{max(a.Min[0], b.Min[0]), max(a.Min[1], b.Min[1])}, Max: orb.Point{min(a.Max[0], b.Max[0]), min(a.Max[1], b.Max[1])}}
	return c, c.Min[0] < c.Max[0] && c.Min[1] < c.Max[1]
}

// tieAt returns the tie an image of which lies under a panel point, within reach mm; −1 when there is none.
func (k *Desk) tieAt(p orb.Point, reach float64) int {
	best, nearest := -1, reach
	for i, t := range k.layout.Draft.Ties {
		for _, image := range k.layout.TieImages(t, orb.Bound{Min: p, Max: p}.Pad(reach)) {
			d := math.Max(0, fromSegment(p, image.From, image.To)-image.Width/2)
			if d < nearest {
				best, nearest = i, d
			}
		}
	}
	return best
}

// tieThrough returns the tie across the opening at a panel point: square to the nearest edge, from that edge to the one
// across. Where it stays within one copy it belongs to that copy's silhouette, else to the field.
func (k *Desk) tieThrough(p orb.Point, width float64) (pattern.Tie, error) {
	l := k.layout
	field := l.Draft.FieldMap().Rigid().Apply(p)
	motif, home, ok := k.bareAt(field)
	if !ok {
		return pattern.Tie{}, errNotOpening
	}
	bare := l.Orbits[motif].Bare
	back, ok := home.Inverse()
	if !ok {
		return pattern.Tie{}, errNotOpening
	}
	q := back.Apply(field)
	near := bare.DistanceTo(q, math.Inf(1))
	d := math.Hypot(q[0]-near.Q[0], q[1]-near.Q[1])
	if !near.Found || d < 1e-6 {
		return pattern.Tie{}, errNotOpening
	}
	dir := orb.Point{(q[0] - near.Q[0]) / d, (q[1] - near.Q[1]) / d}
	far, ok := bare.RayHit(q, dir, 1e4)
	if !ok {
		return pattern.Tie{}, errNotOpening
	}
	end := orb.Point{q[0] + dir[0]*far, q[1] + dir[1]*far}
	from, to := home.Apply(near.Q), home.Apply(end)
	// Either end may lie inside another copy that runs into this one: then the tie goes on to that one's far side.
	a, b := k.outOf(from, orb.Point{from[0] - to[0], from[1] - to[1]}), k.outOf(to, orb.Point{to[0] - from[0], to[1] - from[1]})
	if a == from && b == to {
		t := pattern.Tie{Silhouette: l.Draft.Motifs[motif].Silhouette, From: near.Q, To: end}
		t.Width = width / k.tieScale(t)
		return lengthened(t), nil
	}
	return lengthened(pattern.Tie{From: a, To: b, Width: width}), nil
}

// lengthened carries a tie's ends into the sheet by half its width, so that its corners lie there too where the edges are
// not square to it.
func lengthened(t pattern.Tie) pattern.Tie {
	l := t.Length()
	if l == 0 {
		return t
	}
	x, y := (t.To[0]-t.From[0])/l*t.Width/2, (t.To[1]-t.From[1])/l*t.Width/2
	t.From = [2]float64{t.From[0] - x, t.From[1] - y}
	t.To = [2]float64{t.To[0] + x, t.To[1] + y}
	return t
}

// bareAt returns the copy, without regard to ties, that holds a field point: its motif, and the map from its silhouette's
// frame to the field.
func (k *Desk) bareAt(p orb.Point) (motif int, home geometry.Map, ok bool) {
	l := k.layout
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

// mostCrossed is how many copies that run into each other a tie may cross.
const mostCrossed = 6

// outOf goes on from a field point at the edge of a copy in a direction, as long as it stands inside others, to the last
// one's far edge.
func (k *Desk) outOf(p, dir orb.Point) orb.Point {
	l := math.Hypot(dir[0], dir[1])
	if l == 0 {
		return p
	}
	dir = orb.Point{dir[0] / l, dir[1] / l}
	const beyond = 1e-3 // mm, past an edge
	for range mostCrossed {
		q := orb.Point{p[0] + dir[0]*beyond, p[1] + dir[1]*beyond}
		motif, home, ok := k.bareAt(q)
		if !ok {
			return p
		}
		back, _ := home.Inverse()
		scale := math.Sqrt(math.Abs(home.Det()))
		v := back.Vector(dir)
		far, hit := k.layout.Orbits[motif].Bare.RayHit(back.Apply(q), orb.Point{v[0] * scale, v[1] * scale}, 1e4)
		if !hit {
			return p
		}
		p = orb.Point{q[0] + dir[0]*far*scale, q[1] + dir[1]*far*scale}
	}
	return p
}

// downTie begins work on a tie: the one under the pointer is taken up, or a new one set.
func (k *Desk) downTie(g *gesture, p orb.Point, device string) bool {
	if k.layout == nil {
		return false
	}
	at := k.View.Panel(p[0], p[1])
	if i := k.tieAt(at, reachOf(device)/2/k.View.Zoom); i >= 0 {
		k.tie = i
		g.deed = tying
		return true
	}
	t, err := k.tieThrough(at, k.Draft().Sheet.Bridge+tieHair)
	if err != nil {
		k.tie = -1
		return false
	}
	k.history.Begin()
	if err := k.step(tieCommand("tie", t, -1)); err != nil {
		k.history.Abandon()
		k.Say("error", pattern.Sentence(err.Error()))
		return false
	}
	k.tie = len(k.Draft().Ties) - 1
	g.deed, g.travel = tying, slop // a press alone sets it
	k.relay()
	return true
}

func tieCommand(name string, t pattern.Tie, index int) pattern.Command {
	c := pattern.Command{Name: name, ID: t.Silhouette, Values: map[string]float64{
		"fromX": t.From[0], "fromY": t.From[1], "toX": t.To[0], "toY": t.To[1], "width": t.Width}}
	if index >= 0 {
		c.Values["index"] = float64(index)
	}
	return c
}

// dragTie slides the tie that is taken up along the opening to where the pointer is; where no tie of its kind goes across
// it stays.
func (k *Desk) dragTie(p orb.Point) { k.slideTie(k.View.Panel(p[0], p[1])) }

func (k *Desk) slideTie(at orb.Point) bool {
	d := k.Draft()
	if k.layout == nil || k.tie < 0 || k.tie >= len(d.Ties) {
		return false
	}
	old := d.Ties[k.tie]
	t, err := k.tieThrough(at, old.Width*k.tieScale(old))
	if err != nil || t.Silhouette != old.Silhouette {
		return false
	}
	k.try(tieCommand("retie", t, k.tie))
	return true
}

// nudgeTie slides the tie that is taken up by keys, as seen on the panel from its image nearest to the middle of the view.
func (k *Desk) nudgeTie(dx, dy float64, repeat bool) bool {
	d := k.Draft()
	if k.layout == nil || k.tie < 0 || k.tie >= len(d.Ties) {
		return false
	}
	images := k.layout.TieImages(d.Ties[k.tie], d.PanelBound())
	if len(images) == 0 {
		return false
	}
	middle := func(t pattern.Tie) orb.Point {
		return orb.Point{(t.From[0]+t.To[0])/2 + dx, (t.From[1]+t.To[1])/2 + dy}
	}
	best := slices.MinFunc(images, func(a, b pattern.Tie) int {
		return cmp.Compare(far(middle(a), k.View.Centre), far(middle(b), k.View.Centre))
	})
	if !k.nudging || !repeat {
		k.endNudge()
		k.history.Begin()
		k.nudging = true
	}
	k.slideTie(middle(best))
	return true
}

// nextTie takes up the next tie.
func (k *Desk) nextTie() error {
	n := len(k.Draft().Ties)
	if n == 0 {
		return errors.New("there is no tie yet; press T and then an opening")
	}
	if !k.tying {
		if err := k.switchTying(); err != nil {
			return err
		}
	}
	k.tie = (k.tie + 1) % n
	return nil
}

// takeOutTie takes the tie that is taken up away.
func (k *Desk) takeOutTie() error {
	if k.tie < 0 || k.tie >= len(k.Draft().Ties) {
		return errNoTie
	}
	err := k.Do(pattern.Command{Name: "untie", Values: map[string]float64{"index": float64(k.tie)}})
	k.tie = -1
	return err
}
