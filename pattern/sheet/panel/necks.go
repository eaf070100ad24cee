package panel

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/residue"
	"openwork/pattern/sheet"
)

// outlineTolerance in mm is asked of the outlines of narrow places, which nothing here draws.
const outlineTolerance = 0.1

// asWide is the part of a width by which a place may be narrower and still counts as so wide; see residue.Of.
const asWide = 3e-7

// narrowPlaces are the narrow places of one opening, in the frame of its congruence key: of the sheet round it and in
// its holes, and of the opening itself; where they could not be found; and how it is too small as a whole.
type narrowPlaces struct {
	sheet, opening []residue.Piece
	wider          []geometry.Neck // the narrowest place wide enough at which the sheet joins two parts
	unclear        []orb.Point
	lost           sheet.Lost
}

// congruenceKey is the same for openings of one shape: whole copies of a silhouette's polygon at one scale, however
// they are turned and mirrored, and openings of several whole pieces that are translates of each other. frame leads
// from what they have in common, the silhouette's frame or the first piece's place, to the opening on the panel. Single
// cropped pieces: croppedKey. It is empty for openings of several pieces with cropped ones, and for those of a dense
// field: they are not cacheable, and their frame is the panel's.
func (c *panelCheck) congruenceKey(i int) (key string, frame geometry.Map) {
	if c.density == dense { // pieces have no shapes then
		return "", geometry.Translate(0, 0)
	}
	if all := c.openings[i].pieces; len(all) == 1 {
		if p := &c.pieces[all[0]]; p.whole && !p.cut {
			one := c.copies[p.copy]
			m := c.l.Draft.Motifs[one.Motif]
			return fmt.Sprintf("%q %v %d", m.Silhouette, m.Scale, p.key.polygon), one.Map
		} else if !p.whole {
			return c.croppedKey(p)
		}
	}

	type member struct {
		key   pieceKey
		cell  [2]int
		shift orb.Point
	}
	var all []member
	for _, k := range c.openings[i].pieces {
		p := &c.pieces[k]
		if !p.whole {
			return "", geometry.Translate(0, 0)
		}
		all = append(all, member{p.key, c.copies[p.copy].Cell, p.shift})
	}
	slices.SortFunc(all, func(a, b member) int {
		return cmp.Or(cmp.Compare(a.key.motif, b.key.motif), cmp.Compare(a.key.op, b.key.op),
			cmp.Compare(a.key.polygon, b.key.polygon),
			cmp.Compare(a.key.part, b.key.part), cmp.Compare(a.cell[0], b.cell[0]), cmp.Compare(a.cell[1], b.cell[1]))
	})
	var name []byte
	for _, m := range all {
		name = fmt.Append(name, m.key, m.cell[0]-all[0].cell[0], m.cell[1]-all[0].cell[1], ";")
	}
	return string(name), geometry.Translate(all[0].shift[0], all[0].shift[1])
}

// placesOf finds the narrow places of an opening, and the narrowest that is wide enough if it is under least mm.
func (c *panelCheck) placesOf(i int, frame geometry.Map, narrowest float64) (n narrowPlaces, err error) {
	o, need := &c.openings[i], c.l.Draft.Sheet
	if n.sheet, err = c.narrowPlaces(i, &n, need.Bridge, false); err != nil {
		return n, c.unfollowed(i, "the sheet round an opening", err)
	}
	if n.opening, err = c.narrowPlaces(i, &n, need.Opening, true); err != nil {
		return n, c.unfollowed(i, "an opening", err)
	}
	n.lost = sheet.LostOf(o.shape, 1, need)
	n.wider = c.widerJoin(i, narrowest)
	back, ok := frame.Inverse()
	if !ok {
		return n, c.unfollowed(i, "an opening", errors.New("its copy has no size"))
	}
	for _, found := range [2][]residue.Piece{n.sheet, n.opening} {
		for k := range found {
			p := &found[k]
			p.P, p.Q = back.Apply(c.move(i, p.P)), back.Apply(c.move(i, p.Q))
		}
	}
	for k := range n.wider {
		w := &n.wider[k]
		w.P, w.Q = back.Apply(c.move(i, w.P)), back.Apply(c.move(i, w.Q))
	}
	for k, at := range n.unclear {
		n.unclear[k] = back.Apply(c.move(i, at))
	}
	return n, nil
}

// narrowPlaces finds the places of an opening, or of the sheet round it, narrower than width. Of a piece that a room or
// a tie of the field cuts there is no other, and it is looked into only where its boundary faces itself.
func (c *panelCheck) narrowPlaces(i int, n *narrowPlaces, width float64, inside bool) ([]residue.Piece, error) {
	o := &c.openings[i]
	if width > 0 && c.cutOnce(i) {
		if found, ok := sheet.NarrowOf(o.shape, width, inside); ok {
			return found, nil
		}
	}
	if inside {
		return n.find(residue.Of, o.shape.Outline(), width)
	}
	return n.find(residue.Around, o.shape.Outline(), width)
}

// cutOnce reports whether an opening is one piece cut by a room or a tie of the field.
func (c *panelCheck) cutOnce(i int) bool {
	o := &c.openings[i]
	return c.density != dense && len(o.pieces) == 1 && c.pieces[o.pieces[0]].cut && !c.pieces[o.pieces[0]].whole
}

// find asks for the places narrower than width, 0 for none. A place where they could not be followed is kept.
func (n *narrowPlaces) find(in func(orb.MultiPolygon, float64, float64) ([]residue.Piece, error), mp orb.MultiPolygon,
	width float64) ([]residue.Piece, error) {
	if width <= 0 {
		return nil, nil
	}
	found, err := in(mp, width, outlineTolerance)
	var unclear *residue.UnclearError
	if errors.As(err, &unclear) {
		n.unclear = append(n.unclear, unclear.At)
		return nil, nil
	}
	return found, err
}

func (c *panelCheck) unfollowed(i int, what string, err error) error {
	at := c.boundOf(i).Center()
	return fmt.Errorf("narrow places of %s round (%.1f, %.1f) mm on the panel could not be found: %w", what, at[0],
		at[1], err)
}

// unclear reports a place of an opening where narrow places could not be found.
func (c *panelCheck) unclear(i int, frame geometry.Map, at orb.Point) {
	copyOf := c.copyOf(i)
	c.add(sheet.Problem{Kind: sheet.Unclear, Severity: sheet.Fault, At: frame.Apply(at),
		Between: &[2]int{copyOf, copyOf},
		Text: "Whether an opening and the sheet round it are wide enough could not be told here; move the points " +
			"of its outline at this place a little."})
}

// within reports narrow places inside single openings. Openings of one key share what is found in the first of them.
// Those of which there is one of a kind come last: where the narrowest place is known to be narrow there is less to
// look for in them.
func (c *panelCheck) within() error {
	known := map[string]narrowPlaces{}
	narrowest := math.Inf(1)
	done := 0
	for _, once := range [2]bool{false, true} {
		for i := range c.openings {
			if c.cutOnce(i) != once {
				continue
			}
			c.progress.At(0.7 + 0.3*float64(done)/float64(len(c.openings)))
			done++
			if err := c.withinOne(i, known, &narrowest); err != nil {
				return err
			}
		}
	}
	return nil
}

// withinOne reports narrow places inside one opening, known those of its key if there are any.
func (c *panelCheck) withinOne(i int, known map[string]narrowPlaces, narrowest *float64) error {
	fails := c.listing.Counted(sheet.Overlap, sheet.Fault) > 0 // whatever else there is
	if c.density != loose && fails && c.openings[i].shape.Edges() > maxFollowed {
		return c.withinPart(i)
	}
	key, frame := c.congruenceKey(i)
	places, ok := known[key]
	if key == "" || !ok {
		var err error
		if places, err = c.placesOf(i, frame, *narrowest); err != nil {
			return err
		}
		if key != "" {
			known[key] = places
		}
	}

	c.closest(i, frame, places, narrowest)
	c.fit(i, places.lost)
	for _, at := range places.unclear {
		c.unclear(i, frame, at)
	}
	for _, n := range places.sheet {
		c.neck(i, frame, n)
	}
	for _, n := range places.opening {
		c.narrow(i, frame, n)
	}
	return nil
}

// neck reports a narrow place of the sheet within an opening, unless another opening lies across it. Sheet of which
// nothing remains is an island, and reported as one.
func (c *panelCheck) neck(i int, frame geometry.Map, n residue.Piece) {
	need := c.l.Draft.Sheet.Bridge
	out := c.place(i, frame, n, need)
	if n.Stretches == 0 || c.crossed(i, out.Ends[0], out.Ends[1]) {
		return
	}
	out.Kind = sheet.Bridge
	out.Text = fmt.Sprintf("A strip of sheet within one opening is %s mm wide; this sheet needs %s.",
		below(n.Width, need), short(need))
	if !n.Joins() {
		out.Kind, out.Severity = sheet.Tip, sheet.Warning
		out.Text = fmt.Sprintf("A tongue of sheet %s mm wide and %s mm long is held at one end only; the knife may "+
			"lift it.", short(n.Width), short(n.Length))
		if n.Tapers {
			out.Text = fmt.Sprintf("A tongue of sheet %s mm long, %s mm wide halfway, is held at one end only; the "+
				"knife may lift it.", short(n.Length), short(n.Width))
		}
	}
	c.add(out)
}

// narrow reports a place where an opening is too narrow for the paste. An opening that is too narrow as a whole is
// reported by fit.
func (c *panelCheck) narrow(i int, frame geometry.Map, n residue.Piece) {
	need := c.l.Draft.Sheet.Opening
	if n.Stretches == 0 {
		return
	}
	out := c.place(i, frame, n, need)
	out.Kind = sheet.Opening
	out.Text = fmt.Sprintf("An opening narrows to %s mm; paste needs %s.", below(n.Width, need), short(need))
	if !n.Joins() {
		out.Severity = sheet.Warning
		out.Text = fmt.Sprintf("An opening runs out in a tail %s mm wide and %s mm long; paste needs %s.",
			below(n.Width, need), short(n.Length), short(need))
		if n.Tapers {
			out.Text = fmt.Sprintf("An opening runs out in a tail %s mm long, %s mm wide halfway; paste needs %s.",
				short(n.Length), short(n.Width), short(need))
		}
	}
	c.add(out)
}

// place begins a problem at a narrow place of an opening: a fault, without kind and text.
func (c *panelCheck) place(i int, frame geometry.Map, n residue.Piece, need float64) sheet.Problem {
	p, q := frame.Apply(n.P), frame.Apply(n.Q)
	copyOf := c.copyOf(i)
	return sheet.Problem{Severity: sheet.Fault, At: [2]float64{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}, Measured: n.Width,
		Required: need, Between: &[2]int{copyOf, copyOf}, Ends: &[2][2]float64{p, q}}
}
