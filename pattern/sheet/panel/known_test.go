package panel

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// Sheets whose answers are known by formula.

// disc is a regular polygon of n corners on a circle, the circle so large that the polygon has the area of one of
// radius r.
func disc(r float64, n int) orb.Ring {
	r *= math.Sqrt(2 * math.Pi / float64(n) / math.Sin(2*math.Pi/float64(n)))
	var out orb.Ring
	for k := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / float64(n))
		out = append(out, orb.Point{geometry.Snap(r * c), geometry.Snap(r * s)})
	}
	return append(out, out[0])
}

// lens is the area common to two discs of radii r and s whose centres lie d apart (a sum of two segments of a circle).
func lens(r, s, d float64) float64 {
	if d >= r+s {
		return 0
	}
	if d <= math.Abs(r-s) {
		return math.Pi * min(r, s) * min(r, s)
	}
	a := 2 * math.Acos((d*d+r*r-s*s)/(2*d*r))
	b := 2 * math.Acos((d*d+s*s-r*r)/(2*d*s))
	return r*r/2*(a-math.Sin(a)) + s*s/2*(b-math.Sin(b))
}

// alone is a draft that lays silhouettes once, in the middle of a panel.
func alone(outlines ...orb.MultiPolygon) draft.Draft {
	d := one(geometry.Orient(outlines[0]), 1, 0.5)
	d.Panel = draft.Panel{Width: 300, Height: 300}
	d.Field = draft.Field{Margin: 5, Origin: [2]float64{150, 150}, Edge: draft.Whole}
	d.Repeat.A, d.Repeat.B = 400, 400
	for i, mp := range outlines[1:] {
		id := string(rune('b' + i))
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Name: id, Outline: geometry.Orient(mp)})
		d.Motifs = append(d.Motifs, draft.Motif{ID: "m" + id, Silhouette: id, Scale: 1})
	}
	return d
}

func near(t *testing.T, name, what string, got *float64, want, slack float64) {
	t.Helper()
	if got == nil {
		t.Errorf("%s: no %s, want %g", name, what, want)
	} else if math.Abs(*got-want) > slack {
		t.Errorf("%s: %s is %.9g, want %.9g", name, what, *got, want)
	}
}

// Discs of radius r on a hexagonal lattice of period a leave bridges of a − 2r, and so do those of a square lattice.
func TestDiscsOnLattices(t *testing.T) {
	const n = 720 // a multiple of 12: corners face each other along all lattice directions, or flats do
	for _, c := range []struct {
		group    string
		a, gamma float64
		r        float64
	}{{"p6mm", 30, 120, 12}, {"p3", 41.3, 120, 20}, {"p4mm", 30, 90, 14.2}, {"p1", 28, 90, 13.9}} {
		d := one(orb.MultiPolygon{{disc(c.r, n)}}, 3, 1)
		d.Repeat = draft.Repeat{Group: c.group, A: c.a, B: c.a, Gamma: c.gamma}
		flat := c.r * math.Sqrt(2*math.Pi/n/math.Sin(2*math.Pi/n)) * math.Cos(math.Pi/n) // flats face each other
		r := checked(t, d)
		near(t, c.group, "narrowest bridge", r.NarrowestBetween, c.a-2*flat, 3e-4)
		if r.Sound != (c.a-2*flat >= 3) || r.Counts.Islands != 0 {
			t.Errorf("%s: sound %v with bridges of %g", c.group, r.Sound, c.a-2*flat)
		}
	}
}

// Two combs, the teeth of each between those of the other: wherever they pass the bridge is the gap, from tooth to
// tooth and from a tooth's end to the other's back.
func TestTwoCombs(t *testing.T) {
	const teeth, tooth, gap, deep = 6, 4.0, 1.25, 20.0
	pitch := 2 * (tooth + gap)
	comb := func(from, back, end float64) orb.MultiPolygon { // teeth from x on, from y = back to y = end
		thick := math.Copysign(5, back-end)
		ring := orb.Ring{{from, back + thick}, {from, end}}
		for k := range teeth {
			x := from + float64(k)*pitch
			if k > 0 {
				ring = append(ring, orb.Point{x, back}, orb.Point{x, end})
			}
			ring = append(ring, orb.Point{x + tooth, end})
			if k < teeth-1 {
				ring = append(ring, orb.Point{x + tooth, back})
			}
		}
		ring = append(ring, orb.Point{from + (teeth-1)*pitch + tooth, back + thick})
		return orb.MultiPolygon{{append(ring, ring[0])}}
	}
	d := alone(comb(0, deep+gap, 0), comb(tooth+gap, -gap, deep))
	d.Sheet.Bridge, d.Sheet.Opening = gap+0.01, 1
	r := checked(t, d)
	near(t, "combs", "narrowest bridge between", r.NarrowestBetween, gap, 1e-9)
	if r.Counts.Openings != 2 || r.Counts.Islands != 0 || r.Sound {
		t.Errorf("combs: %+v, sound %v", r.Counts, r.Sound)
	}
	if d.Sheet.Bridge = gap - 0.01; !checked(t, d).Sound {
		t.Error("combs a little further apart than the bridge do not hold")
	}
}

// squareSpiral is an arm that winds outward in straight legs, its turns a gap apart. Its inner end lies short of the
// first corner by what is taken off.
func squareSpiral(arm, gap, short float64) orb.MultiPolygon {
	at, step := orb.Point{0, 0}, arm+gap
	mid := []orb.Point{{short - arm/2, 0}} // along the middle of the arm
	for k := range 9 {
		long := step * float64(k/2+1)
		switch k % 4 {
		case 0:
			at[0] += long
		case 1:
			at[1] += long
		case 2:
			at[0] -= long
		case 3:
			at[1] -= long
		}
		mid = append(mid, at)
	}
	var out, in orb.Ring // the two sides
	for i, p := range mid {
		a, b := mid[max(i-1, 0)], mid[min(i+1, len(mid)-1)]
		u, v := unitOf(a, p), unitOf(p, b)
		if i == 0 {
			u = v
		} else if i == len(mid)-1 {
			v = u
		}
		n := orb.Point{-(u[1] + v[1]) / (1 + u[0]*v[0] + u[1]*v[1]), (u[0] + v[0]) / (1 + u[0]*v[0] + u[1]*v[1])}
		out = append(out, orb.Point{p[0] - n[0]*arm/2, p[1] - n[1]*arm/2})
		in = append(in, orb.Point{p[0] + n[0]*arm/2, p[1] + n[1]*arm/2})
	}
	slices.Reverse(in)
	ring := append(append(orb.Ring{}, out...), in...)
	return orb.MultiPolygon{{append(ring, ring[0])}}
}

// A spiral leaves, between one turn and the next, a strip of sheet as wide as its gap, within one opening. Where the
// arm begins right at the innermost corner the strip is a tongue, held only outside; where it begins later there is
// room in the middle, and the strip is the bridge that holds what is there; the pocket above the first leg is then a
// tongue by itself.
func TestSpiral(t *testing.T) {
	const arm, gap = 4.0, 2.5
	for _, c := range []struct {
		short float64
		kinds []sheet.Kind
	}{{0, []sheet.Kind{sheet.Tip}}, {2, []sheet.Kind{sheet.Bridge, sheet.Tip}}} {
		d := alone(squareSpiral(arm, gap, c.short))
		d.Sheet.Bridge, d.Sheet.Opening = gap+0.5, 1
		r := checked(t, d)
		var kinds []sheet.Kind
		for _, p := range r.Problems {
			kinds = append(kinds, p.Kind)
			if math.Abs(p.Measured-gap) > 1e-6 {
				t.Errorf("%g short: %s", c.short, p.Text)
			}
		}
		slices.Sort(kinds)
		if !slices.Equal(kinds, c.kinds) || r.Counts.Islands != 0 || r.Counts.Openings != 1 {
			t.Errorf("%g short: told as %v, want %v; %+v", c.short, kinds, c.kinds, r.Counts)
		}
		if d.Sheet.Bridge = gap - 0.01; len(checked(t, d).Problems) != 0 {
			t.Errorf("%g short: wide enough, there is still a problem", c.short)
		}
	}
}

func unitOf(a, b orb.Point) orb.Point {
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	if l == 0 {
		return orb.Point{}
	}
	return orb.Point{(b[0] - a[0]) / l, (b[1] - a[1]) / l}
}

// A ring has one island, as large as its hole.
func TestRing(t *testing.T) {
	d := alone(orb.MultiPolygon{{disc(30, 720), disc(22, 720)}})
	r := checked(t, d)
	open := math.Pi * (30*30 - 22*22)
	if r.Counts.Islands != 1 || math.Abs(r.OpenArea-open) > 1e-2 {
		t.Errorf("a ring: %+v, open %g, want %g", r.Counts, r.OpenArea, open)
	}
}

// Three rings in a row, each run into the next, close in five pieces of sheet: the hole of each less what its
// neighbours cover, and what the holes of neighbours have in common. Their areas are sums of lenses.
func TestChainOfThreeRings(t *testing.T) {
	const outer, inner, far = 30.0, 25.0, 40.0
	ring := func(x float64) orb.MultiPolygon {
		mp := orb.MultiPolygon{{disc(outer, 1440), disc(inner, 1440)}}
		return geometry.Transform(mp, geometry.Translate(x, 0))
	}
	d := alone(ring(-far), ring(0), ring(far))
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Look(l)
	if err != nil {
		t.Fatal(err)
	}
	var got []float64
	for _, i := range s.Islands {
		got = append(got, i.Area)
	}
	slices.Sort(got)
	hole, cut, both := math.Pi*inner*inner, lens(inner, outer, far), lens(inner, inner, far)
	want := []float64{both, both, hole - 2*cut, hole - cut, hole - cut}
	slices.Sort(want)
	if len(got) != len(want) {
		t.Fatalf("%d islands, want %d", len(got), len(want))
	}
	for k := range want {
		if math.Abs(got[k]-want[k]) > 2e-2 { // corners of 1,440 lie within 1e-4 mm of the circle
			t.Errorf("island %d has %.4f mm², want %.4f", k, got[k], want[k])
		}
	}
	r := checked(t, d)
	open := 3*math.Pi*(outer*outer-inner*inner) - 2*(lens(outer, outer, far)-2*cut+both)
	if r.Counts.Openings != 1 || r.Counts.Islands != 5 || math.Abs(r.OpenArea-open) > 5e-2 {
		t.Errorf("%+v, open %.4f, want %.4f", r.Counts, r.OpenArea, open)
	}
}

// The outline of H. von Koch (1904), grown n times from a triangle of side s, has the area √3/4·s²·(8/5 − 3/5·(4/9)ⁿ).
// It is one opening; what juts into it, or from it, is never held at two ends, so that it has no bridge within.
func TestKoch(t *testing.T) {
	const side, times = 120.0, 4
	ring := orb.Ring{{0, 0}, {side, 0}, {side / 2, side * math.Sqrt(3) / 2}, {0, 0}}
	for range times {
		next := orb.Ring{ring[0]}
		for k := 0; k+1 < len(ring); k++ {
			a, b := ring[k], ring[k+1]
			u := orb.Point{(b[0] - a[0]) / 3, (b[1] - a[1]) / 3}
			s, c := math.Sincos(-math.Pi / 3)
			p, q := orb.Point{a[0] + u[0], a[1] + u[1]}, orb.Point{a[0] + 2*u[0], a[1] + 2*u[1]}
			next = append(next, p, orb.Point{p[0] + c*u[0] - s*u[1], p[1] + s*u[0] + c*u[1]}, q, b)
		}
		ring = next
	}
	d := alone(geometry.Transform(geometry.SnapOutline(orb.MultiPolygon{{ring}}), geometry.Translate(-side/2, -side/3)))
	d.Sheet.Bridge, d.Sheet.Opening = 1, 0.5
	r := checked(t, d)
	want := math.Sqrt(3) / 4 * side * side * (8./5 - 3./5*math.Pow(4./9, times))
	if r.Counts.Openings != 1 || r.Counts.Islands != 0 || math.Abs(r.OpenArea-want) > 1e-4*side*4 {
		t.Errorf("%+v, open %.6f, want %.6f", r.Counts, r.OpenArea, want)
	}
	for _, p := range r.Problems {
		if p.Severity == sheet.Fault {
			t.Errorf("a fault: %s at %v", p.Text, p.At)
		}
	}
}

// What is told of the check's way never falls back, and ends at the end.
func TestCheckTellsHowFarItIs(t *testing.T) {
	l, err := pattern.NewLayout(benchDraft(false), nil)
	if err != nil {
		t.Fatal(err)
	}
	last, times := 0.0, 0
	if _, err := CheckWithProgress(l, func(part float64) {
		if part < last {
			t.Errorf("told %g after %g", part, last)
		}
		last = part
		times++
	}); err != nil {
		t.Fatal(err)
	}
	if last != 1 || times < 100 {
		t.Errorf("told %d times, the last %g", times, last)
	}
}
