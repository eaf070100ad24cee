package recognise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern/symmetry"
)

// The oracle knows nothing of pieces that match, reduced bases or point groups. It asks of every isometry on a list
// whether as many polygons lie over a point as over its image, at many points, and names the group by the table of
// Schattschneider (Amer. Math. Monthly 85, 1978) from the isometries that pass.

// oracle is a field as polygons over the cell that a and b span.
type oracle struct {
	a, b     orb.Point
	polygons []orb.Polygon
	centres  []orb.Point
	samples  []orb.Point
	over     []int // polygons over each sample
}

func newOracle(r *rand.Rand, a, b orb.Point, polygons []orb.Polygon) *oracle {
	o := &oracle{a: a, b: b, polygons: polygons}
	for _, p := range polygons {
		o.centres = append(o.centres, geometry.Centroid(orb.MultiPolygon{p}))
	}
	cell := basis{a, b}
	for len(o.samples) < 200 {
		p := cell.at(orb.Point{4*r.Float64() - 2, 4*r.Float64() - 2})
		if len(o.samples)%4 > 0 { // beside a side of a polygon, here or in a cell next to it
			ring := polygons[r.IntN(len(polygons))][0]
			k := r.IntN(len(ring) - 1)
			f := r.Float64()
			p = geometry.Add(geometry.Add(times(f, ring[k]), times(1-f, ring[k+1])),
				orb.Point{r.Float64() - 0.5, r.Float64() - 0.5})
			p = geometry.Add(p, cell.at(orb.Point{float64(r.IntN(3) - 1), float64(r.IntN(3) - 1)}))
		}
		if n, edge := o.at(p); !edge {
			o.samples, o.over = append(o.samples, p), append(o.over, n)
		}
	}
	return o
}

// at returns how many polygons lie over p, and whether p is too near a boundary to say.
func (o *oracle) at(p orb.Point) (n int, edge bool) {
	cell := newBasis(o.a, o.b)
	for i, poly := range o.polygons {
		home := geometry.Sub(p, cell.nearest(geometry.Sub(p, o.centres[i])))
		for x := -1.0; x <= 1; x++ {
			for y := -1.0; y <= 1; y++ {
				q := geometry.Add(home, cell.at(orb.Point{x, y}))
				if geometry.PointDistance(q, o.centres[i]) > 8 { // no silhouette here reaches 6 mm
					continue
				}
				for _, ring := range poly {
					for k := range len(ring) - 1 {
						if segmentDistance(q, ring[k], ring[k+1]) < 0.005 {
							edge = true
						}
					}
				}
				if geometry.Contains(orb.MultiPolygon{poly}, q) {
					n++
				}
			}
		}
	}
	return n, edge
}

func segmentDistance(p, a, b orb.Point) float64 {
	d := geometry.Sub(b, a)
	f := max(0, min(1, geometry.Dot(geometry.Sub(p, a), d)/geometry.Dot(d, d)))
	return geometry.PointDistance(p, geometry.Add(a, times(f, d)))
}

// keeps reports whether an isometry keeps the field at all samples.
func (o *oracle) keeps(m isometry) bool {
	for i, p := range o.samples {
		if n, edge := o.at(m.Apply(p)); n != o.over[i] && !edge {
			return false
		}
	}
	return true
}

// all returns the isometries that keep the field, modulo the cell, of those whose linear part is a turn by a multiple
// of 15 degrees or a mirroring in a line at one. The centre of the first polygon must go to some centre.
func (o *oracle) all() []isometry {
	var out []isometry
	for k := range 24 {
		for _, r := range []isometry{geometry.TurnDegrees(15 * float64(k)),
			geometry.TurnDegrees(15 * float64(k)).After(geometry.MirrorX)} {
			var own []placed
			for _, c := range o.centres {
				m := moved(r, geometry.Sub(c, r.Apply(o.centres[0])))
				if p := (placed{0, m}); !listedWithin(own, p, newBasis(o.a, o.b), 0.01) && o.keeps(m) {
					own = append(own, p)
					out = append(out, m)
				}
			}
		}
	}
	return out
}

// name reads the group off the table.
func (o *oracle) name(ops []isometry) string {
	cell := basis{o.a, o.b}
	type lineKey struct{ angle, offset int64 }
	type found struct{ mirror, glide bool }
	lines := map[lineKey]found{}
	angles := map[int64]bool{} // of mirrors
	top := 1
	for _, m := range ops {
		if m.Det() > 0 {
			top = max(top, orderOfMap(m))
			continue
		}
		tenths := int64(math.Round(math.Atan2(m.C, m.A)*900/math.Pi)+1800) % 1800 // of a degree; all are whole
		u := direction(tenths)
		for x := -6.0; x <= 6; x++ {
			for y := -6.0; y <= 6; y++ {
				v := geometry.Add(orb.Point{m.X, m.Y}, cell.at(orb.Point{x, y}))
				key := lineKey{tenths, int64(math.Round(geometry.Cross(u, v) * 500))}
				f := lines[key]
				if math.Abs(geometry.Dot(u, v)) < 1e-3 {
					f.mirror = true
					angles[tenths] = true
				} else {
					f.glide = true
				}
				lines[key] = f
			}
		}
	}
	mirrors, glides := false, false // glides in lines that are not mirrors; those at the rim of the window do not count
	for key, f := range lines {
		if f.mirror {
			mirrors = true
		} else if math.Abs(float64(key.offset)) < 1000*25 {
			glides = true
		}
	}
	onMirrors := true // all points of the highest order
	for _, m := range ops {
		if m.Det() < 0 || orderOfMap(m) != top || top == 1 {
			continue
		}
		for x := -1.0; x <= 1; x++ {
			for y := -1.0; y <= 1; y++ {
				v := cell.at(orb.Point{x, y})
				p := fixedPoint(moved(m, v))
				on := false
				for key, f := range lines {
					// A mirror whose map moves by c across u keeps p when u × p is half of c.
					on = on || f.mirror && math.Abs(2*geometry.Cross(direction(key.angle),
						p)-float64(key.offset)/500) < 0.01
				}
				onMirrors = onMirrors && on
			}
		}
	}
	if len(lines) == 0 {
		return map[int]string{1: "p1", 2: "p2", 3: "p3", 4: "p4", 6: "p6"}[top]
	}
	switch top {
	case 1:
		switch {
		case mirrors && glides:
			return "cm"
		case mirrors:
			return "pm"
		}
		return "pg"
	case 2:
		switch {
		case !mirrors:
			return "p2gg"
		case onMirrors:
			return "p2mm"
		case len(angles) == 2:
			return "c2mm"
		}
		return "p2mg"
	case 3:
		if onMirrors {
			return "p3m1"
		}
		return "p31m"
	case 4:
		if onMirrors {
			return "p4mm"
		}
		return "p4gm"
	}
	return "p6mm"
}

func direction(tenths int64) orb.Point {
	sin, cos := math.Sincos(float64(tenths) / 1800 * math.Pi)
	return orb.Point{cos, sin}
}

// Fields whose group follows from nothing but what is there: symmetric silhouettes and their likes on points of a grid,
// turned by multiples of 15 degrees, in cells that may be square, hexagonal, rectangular, centred or sheared.
func TestAgainstTheOracle(t *testing.T) {
	const seed, fields = 4, 300
	cells := []symmetry.Cell{{A: 40, B: 40, Gamma: 90}, {A: 40, B: 40, Gamma: 120}, {A: 48, B: 36, Gamma: 90},
		{A: 40, B: 40, Gamma: 60},
		{A: 40, B: 40 * math.Sqrt2, Gamma: 45}, {A: 40, B: 40 * math.Sqrt(3), Gamma: 30},
		{A: 36, B: 30, Gamma: math.Acos(0.6) * 180 / math.Pi},
		{A: 30, B: 60, Gamma: 90}, {A: 40, B: 33, Gamma: 81}, {A: 30, B: 30, Gamma: 150}}
	met := map[string]int{}
	lifted := 0
	for _, i := range geometrytest.Share(t, numbered(fields), fields/2) {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		c := cells[r.IntN(len(cells))]
		var allowed []symmetry.Group
		for _, g := range symmetry.Groups() {
			if g.CheckCell(c) == nil && len(g.Ops) <= 6 {
				allowed = append(allowed, g)
			}
		}
		g := allowed[r.IntN(len(allowed))]
		lone := r.IntN(2) == 0 // one silhouette, in p1: what else there is comes from it and the lattice
		if lone {
			g = allowed[0]
		}
		var shapes []orb.MultiPolygon
		var places [][]isometry
		for len(shapes) == 0 || !lone && len(shapes) < 2 && r.IntN(2) == 0 {
			n := []int{1, 2, 3, 4, 6}[r.IntN(5)]
			shapes = append(shapes, symmetric(r, 3.5+2*r.Float64(), n, r.IntN(4) > 0, r.IntN(3) == 0))
			var own []isometry
			for range 1 + r.IntN(2) {
				div := []float64{4, 6, 2}[r.IntN(3)]
				p := c.Basis().Apply(orb.Point{float64(r.IntN(6)) / div, float64(r.IntN(6)) / div})
				own = append(own, at(p[0], p[1], 15*float64(r.IntN(24)), r.IntN(2) == 0))
			}
			places = append(places, own)
		}
		d := draftOf(g.Symbol, c, shapes, places)
		l := layoutOf(t, d)
		var polygons []orb.Polygon
		for _, o := range l.Orbits {
			for _, image := range o.Images {
				polygons = append(polygons, geometry.Transform(image.Shape.Outline(),
					geometry.Translate(image.At[0], image.At[1]))...)
			}
		}
		o := newOracle(r, l.A, l.B, polygons)
		ops := o.all()
		f, err := Of(l)
		if err != nil {
			t.Fatal(err)
		}
		want := o.name(ops)
		met[want]++
		if want != g.Symbol {
			lifted++
		}
		fine := int(math.Round(l.Cell.Area() / geometry.Cross(f.Primitive[0], f.Primitive[1])))
		if f.Actual != want || f.Order*fine != len(ops) {
			t.Errorf("seed %d, field %d: %s, cell %+v: found %s of order %d, %d times in the cell; the oracle says "+
				"%s with %d operations",
				seed, i, g.Symbol, c, f.Actual, f.Order, fine, want, len(ops))
		}
		for _, e := range f.Elements {
			if !o.keeps(mapOf(e)) {
				t.Errorf("seed %d, field %d, %s: %+v does not keep the field", seed, i, f.Actual, e)
			}
		}
		for _, v := range f.Primitive {
			if !o.keeps(translation(v)) {
				t.Errorf("seed %d, field %d, %s: the translation %v does not keep the field", seed, i, f.Actual, v)
			}
		}
	}
	t.Logf("seed %d: of %d fields, %d with another group than chosen; met %v", seed, fields, lifted, met)
}
