package geometry

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"github.com/paulmach/orb"
)

// allNecks goes through all pairs of edges, and returns what they make in the order of the widths.
func allNecks(s *Shape, inside bool) *necks {
	n := &necks{s: s, limit: math.Inf(1), inside: inside}
	for e := range s.fr.edges {
		for f := e + 1; f < len(s.fr.edges); f++ {
			n.pair(e, f)
		}
	}
	sort.SliceStable(n.found, func(i, j int) bool { return n.found[i].Width < n.found[j].Width })
	return n
}

// hangsPlainly looks for room on both sides of a neck with nothing known before, in squares that only the distance from
// the boundary rules out.
func (n *necks) hangsPlainly(c candidate) bool {
	if n.s.fr.rings[c.e] != n.s.fr.rings[c.f] {
		return false
	}
	line := func(p, q orb.Point, e, f int) orb.Ring {
		out := orb.Ring{p}
		for k := e; k != f; {
			k = n.step(k, 1)
			out = append(out, n.s.pts[n.s.fr.edges[k]])
		}
		return append(out, q, p)
	}
	for _, side := range []orb.Ring{line(c.P, c.Q, c.e, c.f), line(c.Q, c.P, c.f, c.e)} {
		if (RingArea(side) > 0) == n.inside && !n.s.roomPlainly(side, c.Width/2*wider) {
			return true
		}
	}
	return false
}

func (s *Shape) roomPlainly(ring orb.Ring, radius float64) bool {
	if math.Abs(RingArea(ring)) > 2*radius*Length(orb.MultiPolygon{{ring}}) {
		return true
	}
	inner := orb.MultiPolygon{{ring}}
	b := ring.Bound()
	type square struct {
		c    orb.Point
		half float64
	}
	todo := []square{{b.Center(), max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) / 2}}
	for len(todo) > 0 {
		q := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		reach := q.half * math.Sqrt2
		d, border := math.Inf(1), math.Inf(1)
		for _, e := range s.fr.edges {
			d = min(d, math.Sqrt(dist2(q.c, nearestOn(s.pts[e], s.pts[e+1], q.c))))
		}
		for i := 0; i+1 < len(ring); i++ {
			border = min(border, math.Sqrt(dist2(q.c, nearestOn(ring[i], ring[i+1], q.c))))
		}
		isIn := Contains(inner, q.c)
		switch {
		case isIn && d >= radius:
			return true
		case d+reach < radius, q.half < radius/100, !isIn && reach < border:
			continue
		}
		h := q.half / 2
		for _, o := range [4]orb.Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			todo = append(todo, square{orb.Point{q.c[0] + o[0], q.c[1] + o[1]}, h})
		}
	}
	return false
}

// raggedOrNot is a random outline of one of several kinds, some with a hole, turned at random.
func raggedOrNot(r *rand.Rand, kind int) orb.MultiPolygon {
	polar := func(n int, radius func(a float64) float64) orb.Ring {
		var ring orb.Ring
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			s, c := math.Sincos(a)
			ring = append(ring, orb.Point{radius(a) * c, radius(a) * s})
		}
		return append(ring, ring[0])
	}
	n := 6 + r.IntN(40)
	p, q := 6*r.Float64(), 6*r.Float64()
	var mp orb.MultiPolygon
	switch kind % 5 {
	case 0: // rough
		mp = orb.MultiPolygon{{polar(n, func(a float64) float64 {
			return 10 * (0.55 + 0.25*math.Sin(2*a+p) + 0.15*math.Sin(5*a+q) + 0.2*(r.Float64()-0.5))
		})}}
	case 1: // smooth, with bays
		k := float64(2 + r.IntN(5))
		mp = orb.MultiPolygon{{polar(2*n, func(a float64) float64 {
			return 6 + 3.5*math.Sin(k*a+p) + 2*math.Sin((2*k+1)*a+q)
		})}}
	case 2: // a comb, which has necks exactly as wide as each other
		teeth, tooth, gap := 2+r.IntN(4), 0.5+2*r.Float64(), 0.5+2*r.Float64()
		ring := orb.Ring{{0, 0}, {float64(teeth)*(tooth+gap) - gap, 0}}
		for k := teeth - 1; k >= 0; k-- {
			x := float64(k) * (tooth + gap)
			ring = append(ring, orb.Point{x + tooth, 2}, orb.Point{x + tooth, 8}, orb.Point{x, 8}, orb.Point{x, 2})
		}
		mp = orb.MultiPolygon{{append(ring, ring[0])}}
	case 3: // a spiral band
		var out, in orb.Ring
		turns := 0.8 + 1.5*r.Float64()
		for i := range n {
			a := 2 * math.Pi * turns * float64(i) / float64(n-1)
			s, c := math.Sincos(a)
			d := 4 + 3*a/(2*math.Pi)
			w := 0.3 + 1.2*r.Float64()
			out, in = append(out, orb.Point{(d + w) * c, (d + w) * s}), append(in, orb.Point{d * c, d * s})
		}
		for i := len(in) - 1; i >= 0; i-- {
			out = append(out, in[i])
		}
		mp = orb.MultiPolygon{{append(out, out[0])}}
	default: // two rooms and a passage, some exactly symmetric
		w, h := 0.5+2*r.Float64(), 3+4*r.Float64()
		mp = orb.MultiPolygon{{orb.Ring{{0, -h}, {8, -h}, {8, -w}, {14, -w}, {14, -h}, {22, -h}, {22, h}, {14, h},
			{14, w}, {8, w}, {8, h}, {0, h}, {0, -h}}}}
	}
	if r.IntN(3) == 0 {
		mp[0] = append(mp[0], orb.Ring{{0.3, 0}, {0, -0.2}, {-0.3, 0}, {0, 0.1}, {0.3, 0}})
	}
	return Transform(mp, TurnDegrees(float64(r.IntN(2))*360*r.Float64()))
}

// All necks of any length, one by one, give the same narrowest join and the same narrowest necks.
func TestNarrowestJoinByBruteForce(t *testing.T) {
	const seed, shapes = 12, 500
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	joined, necked := 0, 0
	for k := range shapes {
		mp := raggedOrNot(r, k)
		if CheckOutline(mp) != nil {
			continue
		}
		s := NewShape(Orient(mp))
		for _, inside := range []bool{false, true} {
			limit := math.Inf(1)
			if r.IntN(4) == 0 {
				limit = 4 * r.Float64()
			}
			all := allNecks(s, inside)
			want, widths := math.Inf(1), []float64{}
			for _, c := range all.found {
				if c.Width < limit && all.clear(c.Neck) {
					widths = append(widths, c.Width)
					if math.IsInf(want, 1) && !all.hangsPlainly(c) {
						want = c.Width
					}
				}
			}
			got, ok := s.NarrowestJoin(0, limit, inside)
			if ok != !math.IsInf(want, 1) || (ok && got.Width != want) {
				t.Errorf("shape %d %v, inside %v, under %g: %g %v, by brute force %g", k, mp, inside, limit, got.Width,
					ok, want)
			}
			if ok {
				joined++
			}
			necks := s.Necks(limit, inside, math.MaxInt)
			if len(necks) != len(widths) {
				t.Errorf("shape %d %v, inside %v, under %g: %d necks, by brute force %d", k, mp, inside, limit,
					len(necks), len(widths))
				continue
			}
			for i, n := range necks {
				necked++
				if n.Width != widths[i] {
					t.Errorf("shape %d, inside %v: neck %d is %g wide, by brute force %g", k, inside, i, n.Width,
						widths[i])
				}
			}
			if few := s.Necks(limit, inside, 3); len(few) != min(3, len(widths)) {
				t.Errorf("shape %d: %d necks of at most 3", k, len(few))
			}
		}
	}
	if joined < 250 || necked < 8000 {
		t.Errorf("only %d joins and %d necks were compared", joined, necked)
	}
	t.Logf("%d joins, %d necks", joined, necked)
}
