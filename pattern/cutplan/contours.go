package cutplan

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/geometry/offset"
)

// build is a plan in the making.
type build struct {
	Sheet
	o     Options
	kind  curve.Kind
	box   orb.Bound       // of the sheet's outline
	grown float64         // mm by which the sheet's outline is widened for the kerf
	apart float64         // mm that two cuts in a row are to lie apart; 0: the shortest way
	why   string          // that is the order
	shape *geometry.Shape // of the sheet when it is not the whole box; nil: that
	plan  *Plan
	made  *Made

	cuts  []Contour // of openings and holes, not yet in order
	units []unit
	rim   []Contour // the sheet's outline
	marks []Contour
	taken []orb.Bound // by furniture

	registration []orb.Point // middles of holes or marks

	boxes map[*curve.Path]orb.Bound
	begin map[*curve.Path][]int // where contours may start
	last  orb.Bound             // of the contour counted last
}

// unit is one opening: its contours in cuts, those of what drops out of it first.
type unit struct {
	first, last int // cuts[first:last]
	outers      int // how many of them, at the end, are outer
	box         orb.Bound
	within      int // the opening that it lies inside of, in a part that drops out; −1: none
}

// approximation is a shape with the kerf taken off, in curves within the tolerance. Translates of a shape share it.
type approximation struct {
	paths     []*curve.Path // holes first
	outers    int
	area      float64
	deviation float64
	points    int
	facets    int // rings that are straight edges because no curve was found
	left      int // pieces too small to cut
	parted    bool
}

// openings takes the kerf off the openings, fits curves to each distinct shape once, and sets the sheet's outline.
func (b *build) openings() error {
	straight := b.touching()
	var said notices
	b.o.Progress.At(partOpened)
	half := b.Kerf / 2
	type key struct {
		shape *geometry.Shape
		kind  curve.Kind
	}
	known := map[key]*approximation{}
	inside := b.box.Pad(-touch)
	var notches orb.MultiPolygon
	lost := 0
	for i, o := range b.Openings {
		b.o.Progress.Within(partOpened, partFitted).Of(i, len(b.Openings))
		if box := o.Bound(); !(within(box, inside)) {
			notches = append(notches, o.Shape.Place(geometry.Translate(o.Shift[0], o.Shift[1]), nil).Outline()...)
			b.made.Notches++
			b.made.Openings++
			continue
		}
		k := key{o.Shape, b.kind}
		if straight[i] {
			k.kind = curve.Line
		}
		f, ok := known[k]
		if !ok {
			c := o.Bound().Center()
			var err error
			if f, err = b.fit(o.Shape.Outline(), -half, k.kind); err != nil {
				return fmt.Errorf("the opening at (%.1f, %.1f) mm: %w", c[0], c[1], err)
			}
			known[k] = f
		}
		if len(f.paths) == 0 {
			if lost++; lost <= maxNamed {
				c := o.Bound().Center()
				b.note("The opening at (%.1f, %.1f) mm is narrower than the kerf everywhere; it is left out.", c[0],
					c[1])
			}
			continue
		}
		b.add(f, b.whole(o.Shift, stepOf(k.kind)))
		b.made.Openings++
		b.made.Area += f.area
		said.of(o.Bound().Center(), f, straight[i], b.o.Tolerance)
	}
	said.tell(b)

	if b.made.Lost = lost; lost > maxNamed {
		b.note("%d more openings are narrower than the kerf and left out.", lost-maxNamed)
	}
	return b.outline(notches)
}

// fit takes the kerf off an outline and approximates it by curves.
func (b *build) fit(mp orb.MultiPolygon, by float64, kind curve.Kind) (*approximation, error) {
	excess, polygons := offset.Excess{}, len(mp)
	var err error
	if by != 0 {
		if mp, excess, err = offset.Sharp(mp, by, arcTolerance, b.joins()); err != nil {
			return nil, fmt.Errorf("the kerf could not be allowed for: %w", err)
		}
	}
	parts := ringsOf(mp)
	f := &approximation{parted: len(mp) > polygons}
	mp = withoutCrumbs(mp)
	least := min(shortest, leastTimes*b.o.Tolerance)
	grid := stepOf(kind)
	o := curve.Options{Kind: kind, Tolerance: b.o.Tolerance - excess.Beyond - grid, Shortest: least, Grid: grid}
	if length := geometry.Length(mp); length > 0 {
		o.Longer = min(excess.Length/length, longerAtMost)
		o.Beside = math.Copysign(min(excess.Area/length, besideShare*b.o.Tolerance), -by)
	}
	c, err := curve.Outline(mp, o)
	if err != nil {
		return nil, err
	}
	f.deviation, f.points, f.facets = c.Deviation+excess.Beyond, c.Points, c.Straight
	f.left = parts - ringsOf(mp)

	var outers []*curve.Path
	for _, p := range c.Paths {
		for j := range p {
			if p[j].Shortest() < least-math.Sqrt2*Step {
				// No line could be cut along it.
				f.left++
				if j == 0 {
					f.left += len(p) - 1
					break
				}
				continue
			}
			if j == 0 {
				outers = append(outers, &p[j])
			} else {
				f.paths = append(f.paths, &p[j])
			}
			f.area += p[j].Area()
		}
	}

	f.outers = len(outers)
	f.paths = append(f.paths, outers...)
	b.made.Deviation = math.Max(b.made.Deviation, f.deviation)
	return f, nil
}

func ringsOf(mp orb.MultiPolygon) int {
	n := 0
	for _, p := range mp {
		n += len(p)
	}
	return n
}

// joins are sharp where that shows less than the curves' tolerance: corners stay corners, and no arc is shorter than a
// piece may be.
func (b *build) joins() offset.Joins {
	return offset.Joins{Beyond: joinShare * b.o.Tolerance, Corners: curve.Corners,
		AtCorner: cornerShare * b.o.Tolerance}
}

// withoutCrumbs returns the outline without rings smaller than minSize, an outer ring with its holes.
func withoutCrumbs(mp orb.MultiPolygon) orb.MultiPolygon {
	crumb := func(r orb.Ring) bool {
		b := r.Bound()
		return b.Max[0]-b.Min[0] < minSize && b.Max[1]-b.Min[1] < minSize
	}
	var out orb.MultiPolygon
	for _, p := range mp {
		if len(p) == 0 || crumb(p[0]) {
			continue
		}
		q := orb.Polygon{p[0]}
		for _, r := range p[1:] {
			if !crumb(r) {
				q = append(q, r)
			}
		}
		out = append(out, q)
	}
	return out
}

// add puts an opening among the cuts, as one unit: what drops out of it by a short way that ends near its
// outer ring.
func (b *build) add(f *approximation, m geometry.Map) {
	u := unit{first: len(b.cuts), outers: f.outers, within: -1}
	for k, p := range f.paths {
		c := Contour{Layer: Cut, Class: ClassOpening, Path: p, Map: m, Start: b.startsOf(p)[0], unit: len(b.units)}
		if k < len(f.paths)-f.outers {
			c.Class = ClassIsland
		}
		box := b.boxOf(c)
		if k == 0 {
			u.box = box
		} else {
			u.box = u.box.Union(box)
		}
		b.cuts = append(b.cuts, c)
	}
	u.last = len(b.cuts)
	holes, outers := b.cuts[u.first:u.last-f.outers], b.cuts[u.last-f.outers:u.last]
	back(outers, outers[0].at())
	back(holes, outers[0].at())
	b.units = append(b.units, u)
	b.made.Points += f.points
}

// back orders contours so that a short way through them ends near a place.
func back(cs []Contour, to orb.Point) {
	if len(cs) < 2 {
		return
	}
	stops := make([]stop, len(cs))
	for i, c := range cs {
		stops[i].in, stops[i].out = c.at(), c.at()
	}
	was := slices.Clone(cs)
	way := tour(stops, to, 0)
	for k, i := range way {
		cs[len(cs)-1-k] = was[i]
	}
}

// touching says which openings come so near to another, with no kerf to part them, that curves might meet.
func (b *build) touching() map[int]bool {
	out := map[int]bool{}
	if b.Kerf >= minGap || b.kind == curve.Line {
		return out
	}
	boxes := make([]orb.Bound, len(b.Openings))
	for i, o := range b.Openings {
		boxes[i] = o.Bound()
	}
	reach := minGap
	sweep(boxes, reach, func(i, j int) {
		if out[i] && out[j] {
			return
		}
		p, q := b.Openings[i], b.Openings[j]
		d := orb.Point{q.Shift[0] - p.Shift[0], q.Shift[1] - p.Shift[1]}
		if geometry.Distance(p.Shape, q.Shape, d, reach).Found {
			out[i], out[j] = true, true
		}
	})
	return out
}

// boxOf returns the contour's box.
func (b *build) boxOf(c Contour) orb.Bound {
	if b.boxes == nil {
		b.boxes = map[*curve.Path]orb.Bound{}
	}
	r, ok := b.boxes[c.Path]
	if !ok {
		r = c.Path.Bound()
		b.boxes[c.Path] = r
	}
	// Contours are moved, never turned.
	return orb.Bound{Min: c.Map.Apply(r.Min), Max: c.Map.Apply(r.Max)}
}

// touch in mm: an opening that stays further from the sheet's edge than this does not touch it.
const touch = 1e-6

func within(a, b orb.Bound) bool {
	return a.Min[0] >= b.Min[0] && a.Min[1] >= b.Min[1] && a.Max[0] <= b.Max[0] && a.Max[1] <= b.Max[1]
}
