package recognise

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// The helpers that make fields whose group is known by how they are made.

// isometry is a map of a silhouette's frame to the field: what one copy is placed by.
type isometry = geometry.Map

// draftOf returns a draft of the group and cell with the given silhouettes, each placed at the maps given for it.
func draftOf(group string, c symmetry.Cell, silhouettes []orb.MultiPolygon, places [][]isometry) draft.Draft {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: group, A: c.A, B: c.B, Gamma: c.Gamma}
	for i, s := range silhouettes {
		id := fmt.Sprintf("s%d", i)
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Name: "Shape", Outline: s})
		for j, m := range places[i] {
			d.Motifs = append(d.Motifs, motifOf(fmt.Sprintf("m%d-%d", i, j), id, m))
		}
	}
	return d
}

// motifOf returns the motif that a map places: it undoes Motif.Map.
func motifOf(id, silhouette string, m isometry) draft.Motif {
	scale := math.Sqrt(math.Abs(m.Det()))
	out := draft.Motif{ID: id, Silhouette: silhouette, At: [2]float64{m.X, m.Y}, Scale: scale}
	if m.Det() < 0 {
		out.Mirrored = true // R(turn)·(x → −x): the y axis goes to (m.B, m.D)
		out.Turn = math.Atan2(-m.B, m.D) * 180 / math.Pi
		return out
	}
	out.Turn = math.Atan2(m.C, m.A) * 180 / math.Pi
	return out
}

func layoutOf(t testing.TB, d draft.Draft) *pattern.Layout {
	t.Helper()
	if err := d.Check(); err != nil {
		t.Fatalf("the test made a draft that is refused: %v", err)
	}
	l, err := pattern.NewLayout(d, pattern.NewShapes())
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// find recognises a draft.
func find(t testing.TB, d draft.Draft) Finding {
	t.Helper()
	f, err := Of(layoutOf(t, d))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// symmetric returns an outline of n sectors round the origin, with a mirror along the x axis when asked: its own
// symmetry is exactly that, but for rounding to the draft's grid.
func symmetric(r *rand.Rand, size float64, n int, mirror bool, hole bool) orb.MultiPolygon {
	sector := 2 * math.Pi / float64(n)
	ring := func(lo, hi float64) orb.Ring {
		corners := 5
		if n == 1 {
			corners = 9
		}
		type polar struct{ a, d float64 }
		var base []polar
		width := sector
		if mirror {
			width /= 2
		}
		for i := range corners {
			base = append(base, polar{width * (float64(i) + 0.2 + 0.5*r.Float64()) / float64(corners),
				size * (lo + (hi-lo)*r.Float64())})
		}
		if mirror {
			for i := corners - 1; i >= 0; i-- {
				base = append(base, polar{sector - base[i].a, base[i].d})
			}
		}
		var out orb.Ring
		for k := range n {
			for _, p := range base {
				a := p.a + sector*float64(k)
				out = append(out, orb.Point{geometry.Snap(p.d * math.Cos(a)), geometry.Snap(p.d * math.Sin(a))})
			}
		}
		return append(out, out[0])
	}
	p := orb.Polygon{ring(0.5, 1)}
	if hole {
		p = append(p, ring(0.15, 0.4))
	}
	return geometry.Orient(orb.MultiPolygon{p})
}

// separate returns a silhouette of two blobs side by side, one of them with a hole.
func separate(r *rand.Rand, size float64) orb.MultiPolygon {
	a := patterntest.Blob(r, size*0.5, 7+r.IntN(8), true)
	b := patterntest.Blob(r, size*0.4, 6+r.IntN(8), false)
	m := geometry.Translate(geometry.Snap(size*1.1), geometry.Snap(size*0.3*r.Float64()))
	return append(a, geometry.SnapOutline(geometry.Transform(b, m))...)
}

// placed is one image of a silhouette in a field.
type placed struct {
	silhouette int
	m          isometry
}

// redescribe writes the field of l anew: in the lattice that the whole matrix u (columns: the new sides in the old
// ones) spans, turned so that the first side lies along x, with the given group placed at the origin o (mm in the old
// field). False when the group does not belong to that field by its operations, or its cell does not fit.
func redescribe(l *pattern.Layout, u matrix, group string, o orb.Point) (draft.Draft, bool) {
	a, b := l.Lattice(u[0], u[2]), l.Lattice(u[1], u[3])
	g, err := symmetry.Find(group)
	if err != nil || geometry.Cross(a, b) <= 0 {
		return draft.Draft{}, false
	}
	cell := symmetry.Cell{A: math.Hypot(a[0], a[1]), B: math.Hypot(b[0], b[1]),
		Gamma: math.Atan2(geometry.Cross(a, b), geometry.Dot(a, b)) * 180 / math.Pi}
	if math.Abs(cell.Gamma-90) < 1e-9 {
		cell.Gamma = 90
	}
	if math.Abs(cell.Gamma-120) < 1e-9 {
		cell.Gamma = 120
	}
	if g.CheckCell(cell) != nil {
		return draft.Draft{}, false
	}
	toNew := geometry.Turn(-math.Atan2(a[1], a[0])).After(geometry.Translate(-o[0], -o[1]))
	// Every operation of the new group must be one of the old field's.
	for _, op := range g.Ops {
		back := toNew.Rigid().After(op.Map(cell, 0, 0)).After(toNew)
		if !isOperation(l, back) {
			return draft.Draft{}, false
		}
	}
	lattice := newBasis(geometry.Turn(0).Apply(orb.Point{cell.A, 0}), cell.Basis().Vector(orb.Point{0, 1}))
	// All images in one new cell: the new lattice has as many classes of old cells as u's determinant.
	var all []placed
	det := u.det()
	for _, orbit := range l.Orbits {
		silhouette := 0
		for i, s := range l.Draft.Silhouettes {
			if s.ID == l.Draft.Motifs[orbit.Motif].Silhouette {
				silhouette = i
			}
		}
		var images []placed
		for op := range l.Group.Ops {
			for m := range det {
				for n := range det {
					p := placed{silhouette, toNew.After(l.Op(op, m, n)).After(orbit.Place)}
					if !listed(images, p, lattice) {
						images = append(images, p)
					}
				}
			}
		}
		all = append(all, images...)
	}
	// One motif for every orbit of the new group.
	places := make([][]isometry, len(l.Draft.Silhouettes))
	var covered []placed
	for _, p := range all {
		if listed(covered, p, lattice) {
			continue
		}
		places[p.silhouette] = append(places[p.silhouette], p.m)
		for _, op := range g.Ops {
			covered = append(covered, placed{p.silhouette, op.Map(cell, 0, 0).After(p.m)})
		}
	}
	var outlines []orb.MultiPolygon
	for _, s := range l.Draft.Silhouettes {
		outlines = append(outlines, s.Outline)
	}
	return draftOf(group, cell, outlines, places), true
}

// isOperation reports whether m is an operation of the layout's group moved by its lattice.
func isOperation(l *pattern.Layout, m isometry) bool {
	lattice := newBasis(l.A, l.B)
	var own []placed
	for op := range l.Group.Ops {
		own = append(own, placed{0, l.Op(op, 0, 0)})
	}
	return listed(own, placed{0, m}, lattice)
}

// listed reports whether the list has p, modulo the lattice.
func listed(list []placed, p placed, lattice basis) bool { return listedWithin(list, p, lattice, 1e-6) }

// listedWithin is listed for places that agree to tol mm and turns that agree to tol radians.
func listedWithin(list []placed, p placed, lattice basis, tol float64) bool {
	for _, q := range list {
		d := orb.Point{p.m.X - q.m.X, p.m.Y - q.m.Y}
		if q.silhouette == p.silhouette && geometry.PointDistance(d, lattice.nearest(d)) < tol &&
			math.Abs(p.m.A-q.m.A)+math.Abs(p.m.B-q.m.B)+math.Abs(p.m.C-q.m.C)+math.Abs(p.m.D-q.m.D) < tol {
			return true
		}
	}
	return false
}

// snapped returns the draft as its file keeps it when a person has entered it: numbers on the grid.
func snapped(d draft.Draft) draft.Draft {
	d.Repeat.Gamma = geometry.Snap(d.Repeat.Gamma)
	d.Repeat.A, d.Repeat.B = geometry.Snap(d.Repeat.A), geometry.Snap(d.Repeat.B)
	d.Motifs = append([]draft.Motif(nil), d.Motifs...)
	for i := range d.Motifs {
		m := &d.Motifs[i]
		m.At = [2]float64{geometry.Snap(m.At[0]), geometry.Snap(m.At[1])}
		m.Turn = geometry.Snap(m.Turn)
	}
	return d
}
