package desk

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

var (
	errNoSigns   = errors.New("this plane group has no mirror, glide or rotation point")
	errNoSpecial = errors.New("this plane group has no mirror and no rotation point to stand on")
)

const (
	// drawnPX is how near a dragged copy's centre must come to a mirror or a rotation point to be drawn to it, in CSS px.
	drawnPX = 8.0
	// drawnDegrees is how near a turned silhouette's own axis must come to the mirror it stands on.
	drawnDegrees = 4.0
)

// siteState is what the page says about the place of a motif, and what it offers there.
type siteState struct {
	Text   string   `json:"text"`
	Offers []string `json:"offers"` // ways of making the silhouette symmetrical: "keep", "other", "gather"
}

// siteOf tells where a motif stands: how many copies a cell holds, why when it is fewer than the group's operations, and
// what is wrong when it should be fewer.
func (k *Desk) siteOf(i int) (inCell int, site siteState) {
	site.Offers = []string{}
	o := k.layout.Orbits[i]
	full := len(k.layout.Group.Ops)
	inCell = len(o.Images)
	if o.SameAs >= 0 {
		site.Text = "Lies exactly on another motif's copies; each place is cut once."
		return 0, site
	}
	s := k.layout.Site(i)
	switch {
	case s.Order == 1 && inCell < full:
		site.Text = fmt.Sprintf("Stands where copies coincide: %d in a cell instead of %d.", inCell, full)
	case s.Order == 1:
	case s.Lacks && s.Mirrors > 0:
		site.Text = placeWords(s) + ", but the silhouette is not the same on both sides: its copies run into each other. Fold it, gather it, or drag it off."
		site.Offers = []string{"keep", "other", "gather"}
	case s.Lacks:
		site.Text = placeWords(s) + ", but the silhouette is another when turned about it: its copies run into each other. Gather them into one, or drag it off."
		site.Offers = []string{"gather"}
	default:
		site.Text = fmt.Sprintf("%s: %d in a cell instead of %d.", placeWords(s), inCell, full)
	}
	return inCell, site
}

// placeWords names a special place.
func placeWords(s pattern.Site) string {
	turns := turnWords[s.Turn]
	switch {
	case s.Turn == 1:
		return "On a mirror"
	case s.Mirrors == 0:
		return "On a rotation point of " + turns
	}
	return fmt.Sprintf("On a rotation point of %s, where %d mirrors cross", turns, s.Mirrors)
}

// drawn returns where a motif dragged to at, in field mm, comes to stand: with its centre of area on a mirror or a
// rotation point that is near on the canvas.
func (k *Desk) drawn(i int, at orb.Point) orb.Point {
	// Two elements may be close together on the canvas; then neither draws from further than a quarter of the way.
	reach := math.Min(drawnPX/k.View.Zoom, math.Min(k.layout.Cell.A, k.layout.Cell.B)/16)
	return k.onto(i, at, reach)
}

// onto returns at moved so that the motif's centre of area stands on the special place within reach, at itself when there
// is none.
func (k *Desk) onto(i int, at orb.Point, reach float64) orb.Point {
	o := k.layout.Orbits[i]
	c := o.Place.Vector(o.Bare.Centroid())
	heart := orb.Point{at[0] + c[0], at[1] + c[1]}
	there, ok := k.layout.Special(heart, reach)
	if !ok {
		return at
	}
	return orb.Point{there[0] - c[0], there[1] - c[1]}
}

// setOnto sets the motif in hand on the nearest mirror or rotation point, however far.
func (k *Desk) setOnto() error {
	i := k.Draft().Motif(k.selected)
	if i < 0 || k.layout == nil {
		return errNoMotif
	}
	m := k.Draft().Motifs[i]
	at := k.onto(i, m.At, math.Inf(1))
	if math.Hypot(at[0]-m.At[0], at[1]-m.At[1]) < 1e-3 { // no more than the draft's grid and the rounding on it
		if k.layout.Site(i).Order > 1 {
			return errors.New("the motif stands on a mirror or a rotation point already")
		}
		return errNoSpecial
	}
	return k.Do(pattern.Command{Name: "place", ID: m.ID, Values: map[string]float64{"x": at[0], "y": at[1]}})
}

// drawnTurn returns a turn in degrees near the given one at which an axis of the silhouette lies along a mirror that the
// motif stands on, or the one given.
func (k *Desk) drawnTurn(m pattern.Motif, turn float64) float64 {
	i := k.Draft().Motif(m.ID)
	if i < 0 || k.layout == nil {
		return turn
	}
	site := k.layout.Site(i)
	if site.Mirrors == 0 {
		return turn
	}
	m.Turn = turn
	place := m.Map()
	best, nearest := turn, drawnDegrees
	for _, axis := range k.shapes.Axes(k.layout.Orbits[i].Bare) {
		v := place.Vector(orb.Point{math.Cos(axis), math.Sin(axis)})
		lies := math.Atan2(v[1], v[0])
		for _, g := range site.Fixing {
			if g.Det() > 0 {
				continue
			}
			off := math.Remainder(mirrorAngle(g)-lies, math.Pi) * 180 / math.Pi
			if math.Abs(off) < nearest {
				best, nearest = turn+off, math.Abs(off)
			}
		}
	}
	return geometry.Snap(best)
}

// mirrorAngle returns the direction of a reflection's line, radians.
func mirrorAngle(g geometry.Map) float64 { return math.Atan2(g.C, g.A) / 2 }
