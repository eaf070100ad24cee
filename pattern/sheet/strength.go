package sheet

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// Strip is a narrow and long part of the sheet: a bridge, or a tongue that hangs from one end. How far it bends under
// one newton tells which parts are weak beside others; it is a ranking, and no promise. Lengths in mm, places in field
// mm.
type Strip struct {
	At     [2]float64    `json:"at"`
	Ends   [2][2]float64 `json:"ends"`  // across, at its narrowest
	Width  float64       `json:"width"` // mean
	Length float64       `json:"length"`
	Free   bool          `json:"free"` // held at one end only
	// InPlane and Lifted say how far it goes under one newton, sideways in the sheet's plane and out of it, in mm; nil
	// when the stock's modulus is not known.
	InPlane *float64 `json:"inPlane"`
	Lifted  *float64 `json:"lifted"`
}

const (
	// stripReach is how many bridges wide a strip may be and still be looked at: twice as wide bends an eighth as much.
	stripReach = 2.5
	// stripWidens ends a strip where it has become this many times as wide as at its narrowest: there it is held.
	stripWidens = 1.8
	// stripSlender is how many times longer than wide a strip must be to be reported: shorter ones do not bend, they
	// tear.
	stripSlender = 4.0
	// stripSteps bounds the way along a strip, in steps of a third of its width: forty times its width.
	stripSteps = 120
	// maxSeeds bounds the narrow places followed, the narrowest first: some tens of milliseconds.
	maxSeeds = 120
	// maxStrips is how many are reported, the weakest first.
	maxStrips = 12
)

// moduli are Young's moduli in MPa, by a word in the stock's name. Round values as materials handbooks and makers' data
// sheets give them (from memory; a ranking needs no more): biaxial polyester film 4,500; board along and across 3,000;
// cast acrylic 3,200; birch plywood 8,000, in the Wood Handbook's range (Forest Products Laboratory).
var moduli = []struct {
	word string
	mpa  float64
}{{"polyester", 4500}, {"mylar", 4500}, {"film", 4500}, {"card", 3000}, {"board", 3000}, {"paper", 3000},
	{"acrylic", 3200}, {"ply", 8000}, {"wood", 8000}}

// Modulus returns a stock's modulus in MPa; false when nothing in its name tells.
func Modulus(stock string) (mpa float64, ok bool) {
	name := strings.ToLower(stock)
	for _, m := range moduli {
		if strings.Contains(name, m.word) {
			return m.mpa, true
		}
	}
	return 0, false
}

// bend returns how far a strip goes under a load of one newton, mm. Held at both ends and pushed in the middle:
// L³/(192·E·I); held at one end and pushed at the other: L³/(3·E·I); I = width·depth³/12 with the depth along the push.
// Source: the beam tables of Gere and Timoshenko, Mechanics of Materials, and of Roark's Formulas for Stress and Strain
// (from memory).
func bend(length, width, depth, mpa float64, free bool) float64 {
	k := 192.0
	if free {
		k = 3
	}
	return length * length * length / (k * mpa * width * depth * depth * depth / 12)
}

// Strips returns the narrow and long parts of the sheet in one cell, one of each orbit, the weakest first.
func Strips(l *pattern.Layout) []Strip {
	f := fieldEdges{l: l}
	var seeds [][2]orb.Point
	reach := stripReach * l.Draft.Sheet.Bridge
	couples, _ := nearCouples(l, reach)
	for _, c := range couples {
		a, b := l.Orbits[c.i].Images[0], l.Orbits[c.j].Images[c.k]
		if near := distance(a.Shape, b.Shape, a.At, geometry.Sub(geometry.Add(b.At, c.shift), a.At),
			reach); near.Found && near.D > 0 {
			seeds = append(seeds, [2]orb.Point{near.P, near.Q})
		}
	}
	type sized struct {
		shape *geometry.Shape
		scale float64
	}
	necks := map[sized][]geometry.Neck{} // of motifs of one shape and size
	for i, o := range l.Orbits {
		if o.SameAs >= 0 {
			continue
		}
		key := sized{o.Shape, l.Draft.Motifs[i].Scale}
		found, ok := necks[key]
		if !ok {
			found = o.Shape.Necks(reach/key.scale, false, maxSeeds)
			necks[key] = found
		}
		for _, n := range found {
			seeds = append(seeds, [2]orb.Point{o.Place.Apply(n.P), o.Place.Apply(n.Q)})
		}
	}

	slices.SortStableFunc(seeds, func(s, t [2]orb.Point) int {
		return cmp.Compare(math.Hypot(s[1][0]-s[0][0], s[1][1]-s[0][1]), math.Hypot(t[1][0]-t[0][0], t[1][1]-t[0][1]))
	})
	seeds = seeds[:min(len(seeds), maxSeeds)]
	mpa, known := Modulus(l.Draft.Sheet.Stock)
	var out []Strip
	for _, s := range seeds {
		strip, ok := f.follow(s[0], s[1])
		if !ok || strip.Length < stripSlender*strip.Width {
			continue
		}
		if slices.ContainsFunc(out, func(o Strip) bool { return alike(l, o, strip) }) {
			continue
		}
		if known {
			a := bend(strip.Length, l.Draft.Sheet.Thickness, strip.Width, mpa, strip.Free)
			b := bend(strip.Length, strip.Width, l.Draft.Sheet.Thickness, mpa, strip.Free)
			strip.InPlane, strip.Lifted = &a, &b
		}
		out = append(out, strip)
	}

	slices.SortStableFunc(out, func(a, b Strip) int {
		return -cmp.Compare(bend(a.Length, 1, a.Width, 1, a.Free), bend(b.Length, 1, b.Width, 1, b.Free))
	})
	return out[:min(len(out), maxStrips)]
}

// alike reports whether two strips are one: an image of each other, or met again from another narrow place along it.
func alike(l *pattern.Layout, a, b Strip) bool {
	return math.Abs(a.Length-b.Length) < 0.15*a.Length && math.Abs(a.Width-b.Width) < 0.15*a.Width &&
		nearOrbit(l, a.At, b.At, math.Max(a.Width, a.Length/6))
}

// follow walks along the strip that is narrowest from p to q, both ways, as long as it stays narrow.
func (f *fieldEdges) follow(p, q orb.Point) (Strip, bool) {
	width := math.Hypot(q[0]-p[0], q[1]-p[1])
	if !(width > 0) {
		return Strip{}, false
	}
	across := orb.Point{(q[0] - p[0]) / width, (q[1] - p[1]) / width}
	start := orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}
	s := Strip{At: start, Ends: [2][2]float64{p, q}}
	sum, steps, free := width, 1.0, 0
	path := []orb.Point{start} // the middle of the strip, from one end to the other
	for _, way := range []float64{1, -1} {
		at, n := start, across
		dir := orb.Point{-n[1] * way, n[0] * way}
		for range stripSteps {
			next := orb.Point{at[0] + dir[0]*width/3, at[1] + dir[1]*width/3}
			a, aOK := f.hit(next, n, stripWidens*width)
			b, bOK := f.hit(next, orb.Point{-n[0], -n[1]}, stripWidens*width)
			ahead, aheadOK := f.hit(at, dir, width/3)
			if aheadOK {
				s.Length += ahead
				free++
				path = append(path, orb.Point{at[0] + dir[0]*ahead, at[1] + dir[1]*ahead})
				break
			}
			if !aOK || !bOK || a+b > stripWidens*width {
				break
			}

			// Back to the middle, and on in the direction the middle goes.
			mid := orb.Point{next[0] + n[0]*(a-b)/2, next[1] + n[1]*(a-b)/2}
			d := orb.Point{mid[0] - at[0], mid[1] - at[1]}
			step := math.Hypot(d[0], d[1])
			if step < 1e-9 {
				break
			}
			dir = orb.Point{d[0] / step, d[1] / step}
			n = orb.Point{dir[1] * way, -dir[0] * way}
			at = mid
			path = append(path, mid)
			s.Length += step
			sum, steps = sum+a+b, steps+1
		}
		slices.Reverse(path)
	}

	s.At = halfway(path, s.Length)
	s.Width, s.Free = sum/steps, free > 0
	return s, free < 2 // closed at both ends it is no strip but an island
}

// halfway returns the point half of length along a path.
func halfway(path []orb.Point, length float64) orb.Point {
	left := length / 2
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		d := math.Hypot(b[0]-a[0], b[1]-a[1])
		if d >= left && d > 0 {
			return orb.Point{a[0] + (b[0]-a[0])*left/d, a[1] + (b[1]-a[1])*left/d}
		}
		left -= d
	}
	return path[len(path)-1]
}

// fieldEdges finds the edges of openings near a place of the field.
type fieldEdges struct{ l *pattern.Layout }

// hit returns how far it is from p in direction d to the first edge of an opening, if within far mm.
func (f *fieldEdges) hit(p, d orb.Point, far float64) (float64, bool) {
	best, found := far, false
	end := orb.Point{p[0] + d[0]*far, p[1] + d[1]*far}
	window := orb.Bound{Min: p, Max: p}.Extend(end)
	for _, o := range f.l.Orbits {
		for _, image := range o.Images {
			f.l.Cells(window, image.Bound(), func(m, n int) bool {
				v := f.l.Lattice(m, n)
				q := orb.Point{p[0] - image.At[0] - v[0], p[1] - image.At[1] - v[1]}
				if t, ok := image.Shape.RayHit(q, d, best); ok {
					best, found = t, true
				}
				return true
			})
		}
	}
	return best, found
}
