package cutplan

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// Fixings are the holes that a whole sheet is held by: on the pins of a board, on nails, in a frame. A count or a
// distance of 0 means none of the kind, a diameter of 0 the usual one. Lengths in mm.
type Fixings struct {
	Pins  Pins  `json:"pins"`
	Hang  Hang  `json:"hang"`
	Frame Frame `json:"frame"`
}

// Pins are holes near the corners: the lower left one round, the others slots that point to it, so that the sheet is
// held in place and may still grow and shrink.
type Pins struct {
	Count    int     `json:"count"` // 2: both lower corners, 3: the upper left one too, 4
	Diameter float64 `json:"diameter"`
	Slot     float64 `json:"slot"` // by which a slot is longer than it is wide; 0: the usual; −1: all are round
}

// Hang are holes in the upper margin, evenly apart.
type Hang struct {
	Count    int     `json:"count"`
	Diameter float64 `json:"diameter"`
}

// Frame are holes along all sides, for screws, staples or lacing.
type Frame struct {
	Apart    float64 `json:"apart"` // at most
	Diameter float64 `json:"diameter"`
}

// The usual fixings, in mm; common practice.
const (
	usualPin, usualSlot   = 6.0, 4.0
	usualHang, usualFrame = 5.0, 3.0

	maxHang             = 40
	minApart, maxApart  = 10.0, 2000.0
	pinReach, hangReach = 80.0, 60.0 // mm that a hole may lie from where it is wanted
)

// filled returns the fixings with the usual values where nothing is said, or says what is wrong with them.
func (f Fixings) filled() (Fixings, error) {
	if f.Pins.Count != 0 && (f.Pins.Count < 2 || f.Pins.Count > 4) {
		return f, fmt.Errorf("a sheet is held by 2, 3 or 4 pins, not by %d", f.Pins.Count)
	}
	if f.Hang.Count < 0 || f.Hang.Count > maxHang {
		return f, fmt.Errorf("a sheet is hung by up to %d holes, not by %d", maxHang, f.Hang.Count)
	}
	if a := f.Frame.Apart; a != 0 && !(a >= minApart && a <= maxApart) {
		return f, fmt.Errorf("holes for a frame are %g mm apart; they may be from %g to %g mm apart", a, minApart,
			maxApart)
	}
	for _, d := range []struct {
		what  string
		value *float64
		usual float64
	}{{"pin holes", &f.Pins.Diameter, usualPin}, {"holes to hang by", &f.Hang.Diameter, usualHang},
		{"holes for a frame", &f.Frame.Diameter, usualFrame}} {
		if *d.value == 0 {
			*d.value = d.usual
		}
		if !(*d.value >= 0.5 && *d.value <= 100) {
			return f, fmt.Errorf("%s are %g mm wide; they may be from 0.5 to 100 mm wide", d.what, *d.value)
		}
	}
	switch s := f.Pins.Slot; {
	case s == 0:
		f.Pins.Slot = usualSlot
	case s == -1:
		f.Pins.Slot = 0
	case !(s > 0 && s <= 100):
		return f, fmt.Errorf("slots are %g mm longer than wide; they may be up to 100 mm longer, and -1 makes round "+
			"holes", s)
	}
	return f, nil
}

// fixing is a hole that is wanted.
type fixing struct {
	at    orb.Point
	reach float64
	slot  bool
}

// fixings sets the holes that the sheet is held by, each as near to where it is wanted as it keeps the bridge from
// every opening, from the sheet's edge and from the other holes. What has no room is left out and said.
func (b *build) fixings() error {
	f := b.o.Fixings
	if f.Pins.Count == 0 && f.Hang.Count == 0 && f.Frame.Apart == 0 {
		return nil
	}
	if b.Part {
		b.note("Holes for pins, hanging or a frame are cut into whole sheets; this one has none.")
		return nil
	}
	f, err := f.filled()
	if err != nil {
		return err
	}

	g := b.ground()
	for _, kind := range []struct {
		what     string
		diameter float64
		slot     float64
		wanted   []fixing
	}{
		{"pin", f.Pins.Diameter, f.Pins.Slot, b.pins(f.Pins)},
		{"hanging", f.Hang.Diameter, 0, b.hang(f.Hang)},
		{"frame", f.Frame.Diameter, 0, b.frame(f.Frame)},
	} {
		if len(kind.wanted) > 0 && kind.diameter <= b.Kerf {
			return fmt.Errorf("%s holes of %g mm are no wider than the kerf; make them larger", kind.what,
				kind.diameter)
		}
		lacking := 0
		var first orb.Point // the round hole, to which slots point
		for i, w := range kind.wanted {
			long := 0.0
			if w.slot {
				long = kind.slot
			}
			at, ok := b.fix(g, w, kind.diameter+long)
			if i == 0 {
				first = w.at
			}
			if !ok {
				lacking++
				continue
			}
			if i == 0 {
				first = at
			}
			b.drill(slotPath(at, geometry.Sub(at, first), (kind.diameter-b.Kerf)/2, long, b.round()))
			b.made.Fixings++
		}
		if lacking > 0 {
			b.note("There is no room for %d of %d %s holes of %g mm a bridge from the openings and the edge; they are "+
				"left out.", lacking, len(kind.wanted), kind.what, kind.diameter)
		}
	}
	return nil
}

// inset returns the rectangle in the margin on which fixings are wanted, for a hole of a size.
func (b *build) inset(size float64) orb.Bound {
	r := b.box
	least := size/2 + math.Max(b.Bridge, clearance)
	for axis := range 2 {
		r.Min[axis] += math.Max(least, (clampTo(b.Field.Min[axis], b.box.Min[axis], b.box.Max[axis])-b.box.Min[axis])/2)
		r.Max[axis] -= math.Max(least, (b.box.Max[axis]-clampTo(b.Field.Max[axis], b.box.Min[axis], b.box.Max[axis]))/2)
	}
	return r
}

func (b *build) pins(p Pins) []fixing {
	r := b.inset(p.Diameter + p.Slot)
	all := []fixing{{r.Min, pinReach, false}, {orb.Point{r.Max[0], r.Min[1]}, pinReach, true},
		{orb.Point{r.Min[0], r.Max[1]}, pinReach, true}, {r.Max, pinReach, true}}
	return all[:p.Count]
}

func (b *build) hang(h Hang) []fixing {
	r := b.inset(h.Diameter)
	var out []fixing
	for i := range h.Count {
		x := b.box.Min[0] + (b.box.Max[0]-b.box.Min[0])*(float64(i)+0.5)/float64(h.Count)
		out = append(out, fixing{orb.Point{x, r.Max[1]}, hangReach, false})
	}
	return out
}

func (b *build) frame(f Frame) []fixing {
	if f.Apart == 0 {
		return nil
	}
	r := b.inset(f.Diameter)
	corners := []orb.Point{r.Min, {r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}}
	var out []fixing
	for i, from := range corners {
		way := geometry.Sub(corners[(i+1)%4], from)
		n := max(1, int(math.Ceil(math.Hypot(way[0], way[1])/f.Apart-1e-9)))
		for k := range n {
			out = append(out, fixing{geometry.Add(from, geometry.Times(way, float64(k)/float64(n))), f.Apart / 3,
				false})
		}
	}
	return out
}

// fix returns where a hole in a square of a size is set.
func (b *build) fix(g *ground, w fixing, size float64) (orb.Point, bool) {
	// The room found is for furniture, which needs less than the bridge.
	pad := math.Max(b.Bridge, clearance) - clearance
	r, ok := b.room(g, size+2*pad, size+2*pad, Text{Near: orb.LineString{w.at}, Reach: w.reach})
	if !ok {
		return orb.Point{}, false
	}
	b.taken = append(b.taken, r)
	g.block(r.Pad(clearance))
	g.add()
	return r.Center(), true
}

// round is the kind of curve that holes are drawn by.
func (b *build) round() curve.Kind {
	if b.kind == curve.Line {
		return curve.Cubic
	}
	return b.kind
}

// drill adds a hole to what is cut.
func (b *build) drill(p curve.Path) {
	if b.kind == curve.Line {
		p = curve.Polygon(p.Flatten(b.o.Tolerance / 10))
	}
	b.units = append(b.units, unit{first: len(b.cuts), last: len(b.cuts) + 1, outers: 1, box: p.Bound(), within: -1})
	b.cuts = append(b.cuts, Contour{Layer: Cut, Class: ClassFixing, Path: &p, Map: geometry.Identity,
		unit: len(b.units) - 1})
}

// slotPath returns a slot of a radius round a middle, so much longer than wide along a direction; round where it is no
// longer, or the direction none.
func slotPath(at, way orb.Point, radius, longer float64, kind curve.Kind) curve.Path {
	circle := curve.Circle(orb.Point{}, radius, kind)
	if longer == 0 || way == (orb.Point{}) {
		return circle.Under(geometry.Translate(at[0], at[1]))
	}
	half := orb.Point{longer / 2, 0}
	moved := func(q curve.Piece, by orb.Point) curve.Piece {
		q.To, q.C1, q.C2 = geometry.Add(q.To, by), geometry.Add(q.C1, by), geometry.Add(q.C2, by)
		return q
	}
	line := func(to orb.Point) curve.Piece { return curve.Piece{Kind: curve.Line, To: to} }
	// The circle's quarters, the two on the right and the two on the left moved apart.
	back := geometry.Times(half, -1)
	q := circle.Pieces
	p := curve.Path{Start: geometry.Add(circle.Start, half), Pieces: []curve.Piece{moved(q[0], half),
		line(orb.Point{-half[0], radius}), moved(q[1], back), moved(q[2], back), line(orb.Point{half[0], -radius}),
		moved(q[3], half)}}
	return p.Under(geometry.Turn(math.Atan2(way[1], way[0])).Moved(at[0], at[1]))
}
