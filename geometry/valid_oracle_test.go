package geometry

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// The brute-force answer works on whole coordinates below some hundreds, where every product here is exact.

// sideOf is the cross product of b−a and c−a, as a sign.
func sideOf(a, b, c orb.Point) int {
	return sign((b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]))
}

// liesOn reports whether p lies on the segment a–b.
func liesOn(a, b, p orb.Point) bool {
	return sideOf(a, b, p) == 0 && (p[0]-a[0])*(p[0]-b[0]) <= 0 && (p[1]-a[1])*(p[1]-b[1]) <= 0
}

// contact says how two segments meet: 0 not, 1 in a point that is an end of one, 2 crossing between their ends, 3 along
// a stretch.
func contact(a, b, c, d orb.Point) int {
	s1, s2, s3, s4 := sideOf(a, b, c), sideOf(a, b, d), sideOf(c, d, a), sideOf(c, d, b)
	if s1 == 0 && s2 == 0 {
		shared := map[orb.Point]bool{}
		for _, p := range []orb.Point{a, b} {
			if liesOn(c, d, p) {
				shared[p] = true
			}
		}
		for _, p := range []orb.Point{c, d} {
			if liesOn(a, b, p) {
				shared[p] = true
			}
		}
		return []int{0, 1, 3}[len(shared)]
	}
	if s1*s2 < 0 && s3*s4 < 0 {
		return 2
	}
	if liesOn(a, b, c) || liesOn(a, b, d) || liesOn(c, d, a) || liesOn(c, d, b) {
		return 1
	}
	return 0
}

// whereIn says whether p lies in the ring (1), outside (−1) or on it (0), by parity of a ray to the right.
func whereIn(r orb.Ring, p orb.Point) int {
	in := -1
	for k := range len(r) - 1 {
		a, b := r[k], r[k+1]
		if liesOn(a, b, p) {
			return 0
		}
		if (a[1] > p[1]) != (b[1] > p[1]) && (sideOf(a, b, p) > 0) == (b[1] > a[1]) {
			in = -in
		}
	}
	return in
}

// sidesOf says whether ring r has points inside ring q and points outside it, for rings that have no crossing edges: it
// cuts the edges of r where corners of q lie on them, and asks for the middles. Coordinates are doubled to keep them
// whole.
func sidesOf(r, q orb.Ring) (inside, outside bool) {
	q2 := make(orb.Ring, len(q))
	for k, v := range q {
		q2[k] = orb.Point{2 * v[0], 2 * v[1]}
	}
	for k := range len(r) - 1 {
		cuts := []orb.Point{r[k], r[k+1]}
		for _, v := range q[1:] {
			if liesOn(r[k], r[k+1], v) {
				cuts = append(cuts, v)
			}
		}
		for _, u := range cuts {
			for _, v := range cuts {
				between := 0
				for _, w := range cuts {
					if w != u && w != v && liesOn(u, v, w) {
						between++
					}
				}
				if u == v || between > 0 {
					continue
				}
				switch whereIn(q2, orb.Point{u[0] + v[0], u[1] + v[1]}) {
				case 1:
					inside = true
				case -1:
					outside = true
				}
			}
		}
	}
	return inside, outside
}

// bruteForce names the kind of the outline's faults, empty when it has none: every pair of edges, every pair of rings.
func bruteForce(mp orb.MultiPolygon) map[string]bool {
	faults := map[string]bool{}
	type named struct {
		poly, ring int
		r          orb.Ring
	}
	var rings []named
	for i, p := range mp {
		for j, r := range p {
			rings = append(rings, named{i, j, r})
		}
	}
	for _, x := range rings {
		n := len(x.r) - 1
		for a := range n {
			for b := a + 1; b < n; b++ {
				c := contact(x.r[a], x.r[a+1], x.r[b], x.r[b+1])
				if neighbours := b == a+1 || (a == 0 && b == n-1); c > 1 || (c == 1 && !neighbours) {
					faults["itself"] = true
				}
			}
		}
	}
	simple := len(faults) == 0
	for x := range rings {
		for y := range x {
			p, q := rings[x].r, rings[y].r
			for a := range len(p) - 1 {
				for b := range len(q) - 1 {
					if contact(p[a], p[a+1], q[b], q[b+1]) > 1 {
						faults["ring ["] = true
					}
				}
			}
			if simple && !faults["ring ["] {
				if in, out := sidesOf(p, q); in && out {
					faults["ring ["] = true
				}
			}
		}
	}
	if len(faults) > 0 {
		return faults
	}
	// No ring crosses another now: of two rings one lies in the other, or they are apart.
	inside := func(p, q orb.Ring) bool { in, _ := sidesOf(p, q); return in }
	for i, p := range mp {
		for j := 1; j < len(p); j++ {
			if !inside(p[j], p[0]) {
				faults["outside its outer ring"] = true
			}
			for k := 1; k < len(p); k++ {
				if k != j && inside(p[j], p[k]) {
					faults["in another hole"] = true
				}
			}
		}
		for k, q := range mp {
			if k == i || !inside(p[0], q[0]) {
				continue
			}
			covered := false
			for _, hole := range q[1:] {
				covered = covered || inside(p[0], hole)
			}
			if !covered {
				faults["lies over polygon"] = true
			}
		}
	}
	return faults
}

// gridOutline returns a random outline on whole coordinates: mostly few corners, often touching, often at fault.
func gridOutline(r *rand.Rand) orb.MultiPolygon {
	var mp orb.MultiPolygon
	size := 3 + r.IntN(12)
	boxes := r.IntN(2) == 0 // squares and diamonds nest and touch far more often than random corners do
	ring := func(x, y, size, corners int) orb.Ring {
		if boxes {
			x, y, h := float64(x), float64(y), float64(1+r.IntN(size))
			if corners%2 == 0 {
				return ringOf(orb.Point{x - h, y}, orb.Point{x, y - h}, orb.Point{x + h, y}, orb.Point{x, y + h})
			}
			return box4(x-h, y-h, x+h, y+h)
		}
		for {
			var out orb.Ring
			for range corners {
				p := orb.Point{float64(x + r.IntN(size+1)), float64(y + r.IntN(size+1))}
				if len(out) == 0 || out[len(out)-1] != p {
					out = append(out, p)
				}
			}
			if out = append(out, out[0]); len(out) < 4 || out[len(out)-2] == out[0] {
				continue
			}
			// Random corners nearly always cross; keep most of the rings that do not.
			if len(bruteForce(orb.MultiPolygon{{out}})) == 0 || r.IntN(12) == 0 {
				return out
			}
		}
	}
	// In some outlines a ring that crosses an earlier one, or a hole that lies outside, is drawn again, a few times, so
	// that nesting has its turn.
	tries, inside := 1+15*r.IntN(2), r.IntN(3) > 0
	add := func(draw func() orb.Ring, put func(orb.Ring) orb.MultiPolygon) {
		for range tries {
			next := put(draw())
			if f := bruteForce(next); !f["ring ["] && !(inside && f["outside its outer ring"]) {
				mp = next
				return
			}
		}
		mp = put(draw())
	}
	for range 1 + r.IntN(3) {
		add(func() orb.Ring { return ring(r.IntN(size), r.IntN(size), 2+r.IntN(2*size), 3+r.IntN(5)) },
			func(q orb.Ring) orb.MultiPolygon { return append(mp[:len(mp):len(mp)], orb.Polygon{q}) })
		for range r.IntN(3) {
			add(func() orb.Ring { return ring(r.IntN(size), r.IntN(size), 1+size/2, 3+r.IntN(2)) },
				func(q orb.Ring) orb.MultiPolygon {
					last := mp[len(mp)-1]
					return append(mp[:len(mp)-1:len(mp)-1], append(last[:len(last):len(last)], q))
				})
		}
	}
	return Orient(mp)
}

func TestCheckOutlineAgainstAllPairs(t *testing.T) {
	const seed = 43
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	kinds := map[string]int{}
	for range 10000 {
		mp := gridOutline(r)
		want := bruteForce(mp)
		for _, m := range []Map{Identity, MirrorX, TurnDegrees(90), Scale(0.25)} {
			err := CheckOutline(Transform(mp, m))
			if (err == nil) != (len(want) == 0) {
				t.Fatalf("%v: %v; all pairs find %v", mp, err, want)
			}
			if err == nil {
				kinds["none"]++
				continue
			}
			found := ""
			if want["itself"] {
				want["ring ["] = true // whether rings cross is not gone into where one crosses itself
			}
			for kind := range want {
				if strings.Contains(err.Error(), kind) {
					found = kind
				}
			}
			if strings.Contains(err.Error(), "lies between") {
				found = "lies between" // a fault of the other polygon, met from this one
			}
			if found == "" {
				t.Fatalf("%v: %v; all pairs find %v", mp, err, want)
			}
			kinds[found]++
		}
	}
	t.Logf("outlines by fault: %v", kinds)
	for _, kind := range []string{"none", "itself", "ring [", "outside its outer ring", "in another hole",
		"lies over polygon"} {
		if kinds[kind] < 100 {
			t.Errorf("only %d outlines of the kind %q", kinds[kind], kind)
		}
	}
}
