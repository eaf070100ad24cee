package overlay

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// frame is where an attempt is made: the step of its grid in mm, and whether it is turned by oddAngle.
type frame struct {
	step   float64
	turned bool
}

// frames lists the attempts in order. The first has been seen to fail for tangles smaller than 3e-7 mm only (24 of
// 100,000), never for anything larger; the others are there because a result a little coarser is better than none.
var frames = []frame{{gridStep, false}, {10 * gridStep, false}, {100 * gridStep, false}, {gridStep, true},
	{100 * gridStep, true}}

var errArea = errors.New("areas did not add up")

// outlineOf returns the outline of the points that rule picks by how often the two sets of rings wind about them, from
// the first attempt that succeeds.
func outlineOf(name string, ra, rb []orb.Ring, rule func(a, b int32) bool) (orb.MultiPolygon, error) {
	return outlineIn(frames, name, ra, rb, rule)
}

func outlineIn(frames []frame, name string, ra, rb []orb.Ring, rule func(a, b int32) bool) (orb.MultiPolygon, error) {
	last := errors.New("nothing was tried")
	for _, f := range frames {
		mp, err := f.attempt(ra, rb, rule)
		if err == nil {
			return mp, nil
		}
		last = err
	}
	b := boundOf(ra, rb)
	return nil, fmt.Errorf("%s: no result could be found between (%.4f, %.4f) and (%.4f, %.4f) mm: %w; move or "+
		"simplify the outlines there a little",
		name, b.Min[0], b.Min[1], b.Max[0], b.Max[1], last)
}

func boundOf(sets ...[]orb.Ring) orb.Bound {
	var b orb.Bound
	first := true
	for _, rings := range sets {
		for _, r := range rings {
			if len(r) == 0 {
				continue
			}
			if first {
				b, first = r.Bound(), false
			} else {
				b = b.Union(r.Bound())
			}
		}
	}
	return b
}

// attempt computes an outline in one frame.
func (f frame) attempt(ra, rb []orb.Ring, rule func(a, b int32) bool) (mp orb.MultiPolygon, err error) {
	defer func() {
		if e := recover(); e != nil {
			mp, err = nil, fmt.Errorf("an unforeseen fault (%v)", e)
		}
	}()
	to, from := f.maps(boundOf(ra, rb).Center())
	n := 0
	for _, rings := range [2][]orb.Ring{ra, rb} {
		for _, r := range rings {
			n += len(r)
		}
	}
	g := &arrangement{vertices: newVertices(n), edges: make([]edge, 0, n), lines: make([]point, 0, n)}
	var sum audit
	var pts []point
	for set, rings := range [2][]orb.Ring{ra, rb} {
		for _, r := range rings {
			pts = pts[:0]
			for _, v := range r {
				pts = append(pts, to(v))
			}
			sum.enter(pts, set)
			g.addRing(pts, set)
		}
	}

	if err := g.cutAll(); err != nil {
		return nil, err
	}
	faces, err := findFaces(g)
	if err != nil {
		return nil, err
	}
	polys, err := faces.trace(rule)
	if err != nil {
		return nil, err
	}
	if !sum.adds(faces, rule, polys) {
		return nil, errArea
	}

	for _, p := range polys {
		var poly orb.Polygon
		for _, l := range p {
			if faces.sliver(l) {
				if l.area > 0 {
					break
				}
				continue
			}
			ring := make(orb.Ring, 0, len(l.ring)+1)
			for _, v := range l.ring {
				ring = append(ring, from(g.pts[v]))
			}
			poly = append(poly, append(ring, ring[0]))
		}
		if len(poly) > 0 {
			mp = append(mp, poly)
		}
	}
	return mp, nil
}

// maps returns the map from mm to the grid and the map back.
func (f frame) maps(centre orb.Point) (to func(orb.Point) point, from func(point) orb.Point) {
	scale := math.Round(1 / f.step)
	if !f.turned {
		return func(v orb.Point) point { return point{math.Round(v[0] * scale), math.Round(v[1] * scale)} },
			func(p point) orb.Point { return orb.Point{p.x / scale, p.y / scale} }
	}
	s, c := math.Sincos(oddAngle)
	return func(v orb.Point) point {
			x, y := v[0]-centre[0], v[1]-centre[1]
			return point{math.Round((c*x - s*y) * scale), math.Round((s*x + c*y) * scale)}
		}, func(p point) orb.Point {
			x, y := p.x/scale, p.y/scale
			return orb.Point{c*x + s*y + centre[0], c*y - s*x + centre[1]}
		}
}

// audit checks areas: whatever the rings are, the area of every face times its winding number must add up to the area
// that the rings of the set enclose, and the faces that the rule picks to the area of the result.
type audit struct {
	origin point
	some   bool
	reach  float64 // the largest distance of a point from the origin
	length float64
	area   [2]float64
}

func (s *audit) enter(ring []point, set int) {
	if len(ring) == 0 {
		return
	}
	if !s.some {
		s.origin, s.some = ring[0], true
	}
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		s.area[set] += s.twice(p, q) / 2
		s.length += math.Hypot(q.x-p.x, q.y-p.y)
		s.reach = max(s.reach, math.Abs(p.x-s.origin.x), math.Abs(p.y-s.origin.y))
	}
}

func (s *audit) twice(p, q point) float64 {
	return (p.x-s.origin.x)*(q.y-s.origin.y) - (p.y-s.origin.y)*(q.x-s.origin.x)
}

func (s *audit) adds(g *faces, rule func(a, b int32) bool, polys [][]loop) bool {
	var wound [2]float64
	picked, traced := 0.0, 0.0
	for h := range g.cycle {
		w := g.wound[g.cycle[h]]
		part := s.twice(g.pts[g.origin(int32(h))], g.pts[g.origin(int32(h)^1)]) / 2
		wound[0] += float64(w[0]) * part
		wound[1] += float64(w[1]) * part
		if rule(w[0], w[1]) {
			picked += part
		}
	}
	for _, p := range polys {
		for _, l := range p {
			traced += l.area
		}
	}
	// Each round of cuts moves a line by the snapping distance at most, and sums lose a few digits.
	slack := auditRounds*snapSteps*s.length + auditDigits*s.reach*(s.reach+s.length)
	return math.Abs(wound[0]-s.area[0]) <= slack && math.Abs(wound[1]-s.area[1]) <= slack &&
		math.Abs(picked-traced) <= slack
}
