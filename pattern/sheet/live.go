package sheet

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

const (
	// maxMeetings bounds the pairs of copies that run into each other and are measured in one frame. Beyond it the
	// field is a heap of overlaps, and the verdict would not change.
	maxMeetings = 60

	// maxPairs bounds the pairs of boxes looked at in one frame, for silhouettes that are many cells long.
	maxPairs = 20000

	// orbitSlack in mm: two faults whose places are images of each other to this are one fault of the repeat.
	orbitSlack = 1e-3
)

// Live is what the cell and its neighbours show: each fault once for all its images. Places are in field mm. Ties of
// silhouettes count, for their openings have them; ties of the field are looked at by the check of the whole panel
// alone, so that here a copy they divide is still one.
type Live struct {
	Overlaps []Meeting
	Bridges  []Meeting // between two copies, narrower than sheet.bridge, the narrowest first
	Necks    []Place   // bridges and tongues of sheet within one silhouette
	Narrow   []Place   // openings narrower than sheet.opening within one silhouette
	Lost     []Place   // openings too small as a whole
	Islands  []Place   // holes of silhouettes, less the openings that stand in them
	// Narrowest is the narrowest way between two copies that do not meet; Found is false when there are none.
	Narrowest geometry.Near
	Partial   bool // some pairs were left out: too many meet
}

// Meeting is a pair of copies: the motif itself, and an image of a motif.
type Meeting struct {
	Motif, Other int
	Op           int    // of Other, index into the group's operations
	Cell         [2]int // of Other
	Area         float64
	geometry.Near
}

// Place is something within one copy of a motif, in field mm.
type Place struct {
	Motif int
	geometry.Neck
	Hangs  bool    // held at one end only
	Length float64 // of a narrow place, mm
	Area   float64 // of an island
	Lost   Lost    // of an opening too small as a whole
	Part   int     // polygon of the silhouette
}

// couple is a pair of images whose boxes are near, not yet measured.
type couple struct {
	i, j, k int // motif, other motif, index into the other's Ops
	cell    [2]int
	shift   orb.Point
	gap     float64
}

// Check looks at every motif against the copies round it. By symmetry that is enough: the pair g·A, h·B is the pair
// A, g⁻¹h·B seen from elsewhere. It allocates little and its time does not depend on the panel. Without a Within what
// lies inside single silhouettes is not looked at.
func Check(l *pattern.Layout, within *Within) Live {
	// A copy is no farther from its own next image than the shorter side of the cell. Most narrowest bridges are near
	// what the sheet asks for, so that is looked at first.
	far := math.Max(l.Draft.Sheet.Bridge, math.Min(math.Hypot(l.A[0], l.A[1]), math.Hypot(l.B[0], l.B[1])))
	parts := within
	if parts == nil {
		parts = &Within{}
	}
	var live Live
	for reach := math.Min(far, math.Max(2*l.Draft.Sheet.Bridge, 1)); ; reach = math.Min(far, 4*reach) {
		live = checkWithin(l, parts, reach)
		if live.Narrowest.Found || reach == far {
			break
		}
	}
	live.Overlaps = onePerOrbit(l, live.Overlaps)
	live.Bridges = onePerOrbit(l, live.Bridges)
	if within != nil {
		within.fill(l, &live)
	}
	sort.SliceStable(live.Bridges, func(i, j int) bool { return live.Bridges[i].D < live.Bridges[j].D })
	return live
}

// checkWithin measures the couples of images nearer than reach mm.
func checkWithin(l *pattern.Layout, within *Within, reach float64) Live {
	couples, partial := nearCouples(l, reach)
	s := search{l: l, within: within, bridge: l.Draft.Sheet.Bridge, best: reach, live: Live{Partial: partial}}
	for _, c := range couples {
		if c.gap >= s.limit() {
			break
		}
		s.measure(c)
	}
	return s.live
}

// search goes through couples; best is the narrowest way so far.
type search struct {
	l            *pattern.Layout
	within       *Within
	bridge, best float64
	live         Live
}

func (s *search) limit() float64 { return math.Max(s.bridge, s.best) }

// measure looks at every polygon of one image against every polygon of the other. What they have in common is one
// overlap of the two copies; each pair of polygons that is too near is a bridge of its own.
func (s *search) measure(c couple) {
	a, b := s.l.Orbits[c.i].Images[0], s.l.Orbits[c.j].Images[c.k]
	shift := geometry.Sub(geometry.Add(b.At, c.shift), a.At)
	m := Meeting{Motif: c.i, Other: c.j, Op: b.Op, Cell: c.cell}
	var overlap *Meeting
	var touching []Meeting
	for _, p := range s.within.PartsOf(a.Shape) {
		for _, q := range s.within.PartsOf(b.Shape) {
			m.Near = distance(p.Shape, q.Shape, a.At, shift, s.limit())
			if (!m.Found || m.D > 0) && (c.gap > 0 || !geometry.Inside(p.Shape, q.Shape, shift)) {
				if m.Found {
					s.near(m)
				}
				continue
			}
			if len(s.live.Overlaps) >= maxMeetings {
				s.live.Partial = true
				continue
			}
			if !m.Found || m.D > 0 {
				m.P = geometry.Add(p.Shape.Centroid(), a.At)
				m.Q = m.P
			} else {
				touching = append(touching, m)
			}
			if overlap == nil {
				overlap = &Meeting{Motif: m.Motif, Other: m.Other, Op: m.Op, Cell: m.Cell, Near: m.Near}
			}
			overlap.Area += geometry.OverlapArea(p.Shape, q.Shape, shift)
		}
	}

	switch {
	case overlap == nil:
	case overlap.Area > OverlapFrom:
		s.live.Overlaps = append(s.live.Overlaps, *overlap)
	default:
		for _, t := range touching {
			s.near(t)
		}
	}
}

// near notes two polygons that do not run into each other.
func (s *search) near(m Meeting) {
	if m.D < s.best {
		s.best, s.live.Narrowest = m.D, m.Near
	}
	if m.D < s.bridge {
		s.live.Bridges = append(s.live.Bridges, m)
	}
}

// distance measures from shape p to shape q moved by shift, both of them carried on by at.
func distance(p, q *geometry.Shape, at, shift orb.Point, limit float64) geometry.Near {
	near := geometry.Distance(p, q, shift, limit)
	near.P, near.Q = geometry.Add(near.P, at), geometry.Add(near.Q, at)
	return near
}

// nearCouples lists the pairs of images whose boxes are nearer than reach mm, the nearest first, each orbit of pairs
// once where the motif has no symmetry of its own.
func nearCouples(l *pattern.Layout, reach float64) (out []couple, partial bool) {
	for i := range l.Orbits {
		a := l.Orbits[i]
		if a.SameAs >= 0 {
			continue
		}
		ab := a.Images[0].Bound()
		window := ab.Pad(reach)
		for j := i; j < len(l.Orbits); j++ {
			b := l.Orbits[j]
			for k := range b.Images {
				bb := b.Images[k].Bound()
				whole := l.Cells(window, bb, func(m, n int) bool {
					if i == j && !canonical(l, b.Images[k].Op, m, n) {
						return true
					}
					if len(out) >= maxPairs {
						return false
					}
					v := l.Lattice(m, n)
					if gap := gapOf(ab, bb, v); gap < reach {
						out = append(out, couple{i, j, k, [2]int{m, n}, v, gap})
					}
					return true
				})
				partial = partial || !whole
			}
		}
	}

	sort.Slice(out, func(x, y int) bool { return out[x].gap < out[y].gap })
	return out, partial
}

// canonical keeps one of an operation and its inverse, which give the same pair of copies seen from either, and leaves
// out the identity, which is the motif itself.
func canonical(l *pattern.Layout, op, m, n int) bool {
	if op == 0 {
		return m > 0 || (m == 0 && n > 0)
	}
	inv, im, in := l.InverseOf(op, m, n)
	if inv != op {
		return op < inv
	}
	return m > im || (m == im && n >= in)
}

// gapOf returns the distance between the boxes a and b + v.
func gapOf(a, b orb.Bound, v orb.Point) float64 {
	dx := math.Max(0, math.Max(a.Min[0]-b.Max[0]-v[0], b.Min[0]+v[0]-a.Max[0]))
	dy := math.Max(0, math.Max(a.Min[1]-b.Max[1]-v[1], b.Min[1]+v[1]-a.Max[1]))
	return math.Hypot(dx, dy)
}

// onePerOrbit drops the meetings that are images of an earlier one under the group.
func onePerOrbit(l *pattern.Layout, all []Meeting) []Meeting {
	var kept []Meeting
	for _, m := range all {
		again := false
		for _, k := range kept {
			if math.Abs(k.D-m.D) < orbitSlack && math.Abs(k.Area-m.Area) < orbitSlack*(1+m.Area) &&
				nearOrbit(l, middle(k.P, k.Q), middle(m.P, m.Q), orbitSlack) {
				again = true
				break
			}
		}
		if !again {
			kept = append(kept, m)
		}
	}
	return kept
}

// nearOrbit reports whether some operation of the group carries the field point p to within reach of q.
func nearOrbit(l *pattern.Layout, p, q orb.Point, reach float64) bool {
	for op := range l.Group.Ops {
		r := l.Op(op, 0, 0).Apply(p)
		d := orb.Point{q[0] - r[0], q[1] - r[1]}
		v := l.NearestLattice(d)
		if math.Hypot(d[0]-v[0], d[1]-v[1]) < reach {
			return true
		}
	}
	return false
}
