package ties

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// candidate is a place for a tie: from an island across one opening to other sheet, panel mm.
type candidate struct {
	from, to orb.Point // ends of the tie
	middle   orb.Point // of the crossing
	part     int       // what it reaches
	width    float64
	length   float64 // of the crossing, at its longest
	slant    float64 // of both edges, in widths
	cost     float64
	strict   bool       // ends squarely in sound sheet, and crosses one opening only
	own      bool       // its silhouette's, else the field's
	over     *orb.Point // where it starts to run over all of an island that is narrower than the tie; nil for others
}

// near reports whether a candidate crosses within a third of its width of a point: then it is much the same tie.
func (w candidate) near(p orb.Point) bool {
	return math.Hypot(w.middle[0]-p[0], w.middle[1]-p[1]) < w.width/3
}

// surroundings looks round an island.
type surroundings struct {
	sc     *scene
	island int
	lines  []line // near the candidate looked at
	taken  []int32
}

// look takes the straight candidate that leaves the island's edge at p in the direction u, for a tie of the given
// width. ok is false when it reaches nothing. normal is square to the far edge, leading on.
func (a *surroundings) look(p, u orb.Point, wide float64) (w candidate, normal orb.Point, ok bool) {
	d, hit, found := a.cross(p, u, wide)
	if !found {
		return candidate{}, normal, false
	}
	ahead, behind := a.along(p, u)
	landing, depth := math.Inf(1), math.Inf(1)
	for _, s := range ahead {
		if s > d+onEdge {
			landing = s - d
			break
		}
	}
	if len(behind) > 0 {
		depth = -behind[0]
	}
	end, reach := math.Min(landing, wide)/2, math.Min(depth, wide)/2
	if a.sc.part(at(p, u, -reach)) != a.island || !a.sc.open(at(p, u, d/2)) {
		return candidate{}, normal, false
	}
	w = candidate{from: at(p, u, -math.Min(anchor*wide, depth/2)), to: at(p, u, d+math.Min(anchor*wide, landing/2)),
		middle: at(p, u, d/2), width: wide, length: d}
	if w.part = a.sc.part(at(p, u, d+end)); w.part == noSheet || w.part == a.island {
		return candidate{}, normal, false
	}
	if normal = unit(hit.a, hit.b); normal[1]*u[0]-normal[0]*u[1] < 0 {
		normal = orb.Point{-normal[0], -normal[1]}
	}
	normal = orb.Point{normal[1], -normal[0]}
	a.square(&w, p, u, d)
	w.cost += w.length/wide + w.slant
	return w, normal, true
}

// cross finds how far ahead the line through p in direction u first meets the boundary, and where, and gathers the
// boundary under a tie on that line and as far beyond its ends as matters.
func (a *surroundings) cross(p, u orb.Point, wide float64) (d float64, hit line, found bool) {
	x := a.sc.index
	beyond, half := wide+a.sc.l.Draft.Sheet.Bridge, wide/2+a.sc.l.Draft.Sheet.Opening
	x.begin()
	a.taken = x.take(a.taken[:0], p, u, -wide-beyond, wide, half)
	for s := wide; ; s += 2 * x.cell {
		d = math.Inf(1)
		for _, k := range a.taken {
			if t := meets(p, u, x.lines[k]); t > onEdge && t < d {
				d, hit = t, x.lines[k]
			}
		}
		if d <= s {
			a.taken = x.take(a.taken, p, u, s, math.Max(s, d+beyond), half)
			break
		}
		if s > longest*wide {
			return 0, hit, false
		}
		a.taken = x.take(a.taken, p, u, s, s+2*x.cell, half)
	}

	a.lines = a.lines[:0]
	for _, k := range a.taken {
		a.lines = append(a.lines, x.lines[k])
	}
	return d, hit, true
}

// meets returns how far along the line through p in direction u it meets a stretch, NaN where it does not.
func meets(p, u orb.Point, l line) float64 {
	t0, t1 := across(p, u, l.a), across(p, u, l.b)
	if (t0 > 0) == (t1 > 0) {
		return math.NaN()
	}
	s0, s1 := forward(p, u, l.a), forward(p, u, l.b)
	return s0 + t0/(t0-t1)*(s1-s0)
}

// along returns where the line through p in direction u meets the boundary gathered: ahead of p and behind it, nearest
// first.
func (a *surroundings) along(p, u orb.Point) (ahead, behind []float64) {
	for _, l := range a.lines {
		switch s := meets(p, u, l); {
		case s > onEdge:
			ahead = append(ahead, s)
		case s < -onEdge:
			behind = append(behind, s)
		}
	}
	sort.Float64s(ahead)
	sort.Sort(sort.Reverse(sort.Float64Slice(behind)))
	return ahead, behind
}

// straight returns the shortest way from a point of the island to other sheet, whatever lies between; with held it must
// be sheet that is held.
func (a *surroundings) straight(p orb.Point, wide float64, held bool) (best candidate, ok bool) {
	const directions = 72
	x := a.sc.index
	all := math.Hypot(x.bound.Max[0]-x.bound.Min[0], x.bound.Max[1]-x.bound.Min[1])
	for k := range directions {
		s, c := math.Sincos(2 * math.Pi * float64(k) / directions)
		u := orb.Point{c, s}
		x.begin()
		a.taken, a.lines = x.take(a.taken[:0], p, u, 0, all, 0), a.lines[:0]
		for _, k := range a.taken {
			a.lines = append(a.lines, x.lines[k])
		}
		ahead, _ := a.along(p, u)
		for i, lo := range ahead {
			hi := math.Inf(1)
			if i+1 < len(ahead) {
				hi = ahead[i+1]
			}
			in := math.Min(anchor*wide, (hi-lo)/2)
			part := a.sc.part(at(p, u, lo+in))
			if part == noSheet || part == a.island || in < onEdge || (held && !a.sc.held(part)) {
				continue
			}
			if !ok || lo < best.length {
				best = candidate{from: p, to: at(p, u, lo+in), middle: at(p, u, lo/2), part: part, width: wide,
					length: lo, cost: lo / wide}
				ok = true
			}
			break
		}
	}
	return best, ok
}
