package plates

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// Tied says what becomes of the strips of sheet that ties leave across a plate's openings, where no paste of its colour
// comes. Number is the sum of the other three.
type Tied struct {
	Number int `json:"number"`
	Under  int `json:"under"` // wholly under openings of plates of other colours that are laid later
	Over   int `json:"over"`  // the others that a further plate of the same colour opens, wholly
	Bare   int `json:"bare"`  // those that show
}

// enough in mm² is what of a strip may stay uncovered, or how small one may be to be passed over.
const enough = sheet.OverlapFrom

// strips returns what ties keep bare of the openings of a layout, in panel mm: connected, apart from the openings.
func strips(l *pattern.Layout, open *openings) ([]orb.Polygon, error) {
	copies, err := l.Copies()
	if err != nil {
		return nil, err
	}
	known := map[[2]int]orb.MultiPolygon{} // of a motif's image, at the panel's origin
	var out []orb.Polygon
	for _, c := range copies {
		key := [2]int{c.Motif, c.Op}
		own, ok := known[key]
		if !ok {
			if own, err = stripsOf(l, c); err != nil {
				return nil, err
			}
			own = geometry.Transform(own, geometry.Translate(-c.Shift[0], -c.Shift[1]))
			known[key] = own
		}
		if len(own) == 0 {
			continue
		}
		here := geometry.Transform(own, geometry.Translate(c.Shift[0], c.Shift[1]))
		// A copy that is kept whole is so by what its ties leave of it; a strip may lie across the edge all the same.
		if l.Draft.Field.Edge != draft.Touching {
			here = clip.ToRect(here, l.Draft.FieldBound())
		}
		if here, err = lessRooms(l, here); err != nil {
			return nil, err
		}
		for _, p := range here {
			rest, err := open.less(orb.MultiPolygon{p}) // another copy may open where a tie of this one lies
			if err != nil {
				return nil, err
			}
			for _, q := range rest {
				if geometry.Area(orb.MultiPolygon{q}) > enough {
					out = append(out, q)
				}
			}
		}
	}
	return out, nil
}

// stripsOf returns the strips of one whole copy: its outline without regard to ties, less what the ties leave of it.
func stripsOf(l *pattern.Layout, c pattern.Copy) (orb.MultiPolygon, error) {
	orbit := l.Orbits[c.Motif]
	bare := orbit.Bare.Place(c.Map, nil).Outline()
	rects, err := l.TiesIn(bare.Bound())
	if err != nil || orbit.Bare == orbit.Shape && len(rects) == 0 {
		return nil, err
	}
	kept, err := overlay.Difference(orbit.Shape.Place(c.Map, nil).Outline(), rects)
	if err != nil {
		return nil, err
	}
	return overlay.Difference(bare, kept)
}

// lessRooms takes the rooms of subjects off an outline.
func lessRooms(l *pattern.Layout, mp orb.MultiPolygon) (orb.MultiPolygon, error) {
	for _, r := range l.Rooms {
		if len(mp) == 0 || !r.Bound.Intersects(mp.Bound()) {
			continue
		}
		var err error
		if mp, err = overlay.Difference(mp, r.Shape.Outline()); err != nil {
			return nil, err
		}
	}
	return mp, nil
}

// openings are those of some plates, from left to right.
type openings struct {
	all    []panel.Opening
	widest float64
}

func newOpenings(lists ...[]panel.Opening) *openings {
	o := &openings{}
	for _, list := range lists {
		o.all = append(o.all, list...)
	}
	for _, each := range o.all {
		b := each.Bound()
		o.widest = math.Max(o.widest, b.Max[0]-b.Min[0])
	}
	sort.SliceStable(o.all, func(i, j int) bool { return o.all[i].Bound().Min[0] < o.all[j].Bound().Min[0] })
	return o
}

// near returns what of the openings lies in a box, and a little more.
func (o *openings) near(b orb.Bound) (out []orb.MultiPolygon) {
	const beyond = 1 // mm: no side of the box lies on what is asked about
	from := sort.Search(len(o.all), func(i int) bool { return o.all[i].Bound().Min[0] >= b.Min[0]-o.widest })
	for _, each := range o.all[from:] {
		own := each.Bound()
		if own.Min[0] > b.Max[0] {
			break
		}
		if !own.Intersects(b) {
			continue
		}
		box := b.Pad(beyond)
		box.Min, box.Max = geometry.Sub(box.Min, each.Shift), geometry.Sub(box.Max, each.Shift)
		mp := clip.ToRect(each.Shape.Outline(), box)
		out = append(out, geometry.Transform(mp, geometry.Translate(each.Shift[0], each.Shift[1])))
	}
	return out
}

// less returns what of an outline lies in none of the openings.
func (o *openings) less(mp orb.MultiPolygon) (orb.MultiPolygon, error) {
	for _, each := range o.near(mp.Bound()) {
		var err error
		if mp, err = overlay.Difference(mp, each); err != nil || len(mp) == 0 {
			return nil, err
		}
	}
	return mp, nil
}

// cover reports whether the openings lie over all of a strip.
func (o *openings) cover(strip orb.Polygon) (bool, error) {
	rest, err := o.less(orb.MultiPolygon{strip})
	return geometry.Area(rest) <= enough, err
}
