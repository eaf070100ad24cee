package offset

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

const seed = 20250802

var more = flag.Int("more", 1, "multiplies the number of random cases")

var families = []struct {
	name string
	make func(rng *rand.Rand) orb.MultiPolygon
}{
	{"blob", func(rng *rand.Rand) orb.MultiPolygon { return geostest.RandomBlob(rng) }},
	{"fine blob", func(rng *rand.Rand) orb.MultiPolygon {
		return orb.MultiPolygon{{geostest.Blob(rng, orb.Point{}, 30, 0.05, 300, false)}}
	}},
	{"ring with island", func(rng *rand.Rand) orb.MultiPolygon { return geostest.Annulus(rng, true) }},
	{"spikes", func(rng *rand.Rand) orb.MultiPolygon { return geostest.Spiky(rng) }},
	{"sieve", func(rng *rand.Rand) orb.MultiPolygon { return geostest.Sieve(rng, 2+rng.IntN(6)) }},
	{"shell with about 134 holes", func(rng *rand.Rand) orb.MultiPolygon {
		return shellWithHoles(rng, 120+rng.IntN(30))
	}},
	{"comb", comb},
	{"spiral", spiral},
	{"squares that meet at corners", func(*rand.Rand) orb.MultiPolygon {
		var mp orb.MultiPolygon
		for i := range 3 {
			x := 4 * float64(i)
			mp = append(mp, orb.Polygon{{{x, x}, {x + 4, x}, {x + 4, x + 4}, {x, x + 4}, {x, x}}})
		}
		return mp
	}},
}

// shellWithHoles is a large ragged shell with small ragged holes of all sizes, none of which touch.
func shellWithHoles(rng *rand.Rand, n int) orb.MultiPolygon {
	p := orb.Polygon{geostest.Blob(rng, orb.Point{}, 60, 0.1, 200, false)}
	var at []orb.Point
	var size []float64
	for tries := 0; len(p) <= n && tries < 100000; tries++ {
		c, r := orb.Point{100 * (rng.Float64() - 0.5), 100 * (rng.Float64() - 0.5)}, 0.3+3*rng.Float64()*rng.Float64()
		free := math.Hypot(c[0], c[1])+r < 50
		for k, q := range at {
			free = free && math.Hypot(c[0]-q[0], c[1]-q[1]) > r+size[k]+0.05
		}
		if free {
			at, size = append(at, c), append(size, r)
			p = append(p, geostest.Blob(rng, c, r, 0.6, 3+rng.IntN(20), true))
		}
	}
	return orb.MultiPolygon{p}
}

// comb has teeth and gaps of different widths.
func comb(rng *rand.Rand) orb.MultiPolygon {
	r := orb.Ring{{0, 0}}
	x := 0.0
	var top orb.Ring
	for range 12 {
		w, g := geostest.OnGrid(0.2+3*rng.Float64()), geostest.OnGrid(0.2+3*rng.Float64())
		top = append(top, orb.Point{x, 3}, orb.Point{x, 20}, orb.Point{x + w, 20}, orb.Point{x + w, 3})
		x += w + g
	}
	r = append(r, orb.Point{x, 0}, orb.Point{x, 3})
	for i := len(top) - 1; i >= 0; i-- {
		r = append(r, top[i])
	}
	return orb.MultiPolygon{{append(r, r[0])}}
}

// spiral is a band that winds about the origin with a gap that narrows.
func spiral(rng *rand.Rand) orb.MultiPolygon {
	n, pitch := 120, 3+2*rng.Float64()
	var out, in orb.Ring
	for i := range n {
		a := 5 * math.Pi * float64(i) / float64(n)
		d := 2 + pitch*a/(2*math.Pi)
		out = append(out, orb.Point{d * math.Cos(a), d * math.Sin(a)})
		in = append(in, orb.Point{(d - pitch/3) * math.Cos(a), (d - pitch/3) * math.Sin(a)})
	}
	for i := n - 1; i >= 0; i-- {
		out = append(out, in[i])
	}
	return orb.MultiPolygon{{append(out, out[0])}}
}

// onTheVerge reports whether the numbers of polygons and holes change when the distance changes by a hair: something is
// about to part, to join, to appear or to vanish, and which it is depends on how arcs were flattened.
func onTheVerge(c geostest.Case, tolerance, hair float64) bool {
	var last [2]int
	for i, d := range []float64{c.Distance - hair, c.Distance - hair/4, c.Distance, c.Distance + hair/4, c.Distance +
		hair} {
		mp, err := Offset(c.Shapes[0], d, tolerance)
		if err != nil {
			return false
		}
		n := [2]int{len(mp), 0}
		for _, p := range mp {
			n[1] += len(p) - 1
		}
		if i > 0 && n != last {
			return true
		}
		last = n
	}
	return false
}

// sharpest returns the sine of half the smallest angle between two neighbouring edges of a shape, arcs left out. Where
// two boundaries meet at a small angle and each is off by some distance, the corner is off by that over this sine.
func sharpest(mp orb.MultiPolygon) float64 {
	smallest := math.Pi
	for _, p := range mp {
		for _, r := range p {
			for i := 0; i+1 < len(r); i++ {
				a, b, c := r[i], r[i+1], r[1+(i+1)%(len(r)-1)]
				u, v := orb.Point{a[0] - b[0], a[1] - b[1]}, orb.Point{c[0] - b[0], c[1] - b[1]}
				smallest = min(smallest, math.Abs(math.Atan2(u[0]*v[1]-u[1]*v[0], u[0]*v[0]+u[1]*v[1])))
			}
		}
	}
	return math.Sin(smallest / 2)
}

// TestAgainstBuffer holds offsets against GEOS: the area within 0.1 % and within what both flattenings allow, next to
// nothing in one result only, as many polygons and holes, and, in the smaller cases, the boundaries near one another.
func TestAgainstBuffer(t *testing.T) {
	const tolerance, segs = 0.001, 60
	var cases []geostest.Case
	for _, f := range families {
		rng := rand.New(rand.NewPCG(seed, 1))
		type input struct {
			number    int
			shape     orb.MultiPolygon
			distances []float64
		}
		var inputs []input
		for k := range 6 * *more {
			s := f.make(rng)
			inputs = append(inputs, input{k, s,
				[]float64{math.Exp(4*rng.Float64() - 3), -math.Exp(4*rng.Float64() - 3)}})
		}
		if *more == 1 {
			inputs = geometrytest.Share(t, inputs, 3)
		}
		for _, of := range inputs {
			k, s := of.number, of.shape
			for _, d := range of.distances {
				mp, err := Offset(s, d, tolerance)
				if err != nil {
					t.Errorf("%s %d by %g: %v", f.name, k, d, err)
					continue
				}
				cases = append(cases, geostest.Case{Name: fmt.Sprintf("%s %d by %g", f.name, k, d), Op: "buffer",
					Shapes: []orb.MultiPolygon{s}, Result: mp, Distance: d, Segs: segs, Sliver: 1e-4,
					Hausdorff: geometry.Points(mp) < 1000})
			}
		}
	}
	bad, empty, verge := 0, 0, 0
	for i, a := range geostest.Ask(t, cases) {
		c := cases[i]
		// How far the two flattened boundaries may lie apart, and what that makes in area.
		chord := tolerance + math.Abs(c.Distance)*(1-math.Cos(math.Pi/4/segs))
		slack := chord * (geometry.Length(c.Result) + 1)
		fault := ""
		differ := a.Polygons != a.OurPolygons || a.Holes != a.OurHoles
		if differ {
			verge++
		}
		if c.Distance < 0 && a.Area == 0 {
			empty++
		}
		switch {
		case a.Input != "":
			fault = a.Input
		case a.Invalid != "":
			fault = "not valid: " + a.Invalid
		case math.Abs(a.Area-a.OurArea) > max(1e-3*a.Area, slack):
			fault = fmt.Sprintf("area %.9g, GEOS %.9g", a.OurArea, a.Area)
		case a.Difference > slack:
			fault = fmt.Sprintf("differs from GEOS in %.3g mm² of %.6g", a.Difference, a.Area)
		// a crumb in one result only: its distance says nothing either
		case differ && onTheVerge(c, tolerance, 2*chord):
		case differ:
			fault = fmt.Sprintf("%d polygons and %d holes, GEOS %d and %d", a.OurPolygons, a.OurHoles, a.Polygons,
				a.Holes)
		case a.Hausdorff > 1.1*chord/sharpest(c.Result):
			fault = fmt.Sprintf("boundary %.3g mm from that of GEOS", a.Hausdorff)
		}
		if fault != "" {
			if bad++; bad <= 20 {
				t.Errorf("%s (seed %d): %s", c.Name, seed, fault)
			}
		}
	}
	t.Logf("%d cases, %d wrong, %d vanished, %d with other numbers", len(cases), bad, empty, verge)
	if verge > len(cases)/50 {
		t.Errorf("%d of %d cases have other numbers of polygons or holes than GEOS: too many to be chance", verge,
			len(cases))
	}
}
