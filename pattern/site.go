package pattern

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Site says where a motif's centre of area stands: on which of the group's mirrors and rotation points. A silhouette
// that has these symmetries itself, about that centre, gives fewer copies there; one that lacks them runs into itself.
type Site struct {
	Order   int       // operations that leave the place where it is, 1 for none but the identity
	Turn    int       // of these, the proper ones: the order of the rotation point, 1 when there is none
	Mirrors int       // mirrors through it
	At      orb.Point // the place itself, field mm
	Fixing  []geometry.Map
	Lacks   bool // the silhouette does not have all these symmetries
}

// siteSlack in mm: how far from a mirror or a rotation point a centre may lie and still stand on it. Half of SameSlack,
// so that a symmetrical silhouette's images there are one copy.
const siteSlack = SameSlack / 2

// Site returns where the motif stands. What the silhouette has of the place's symmetries has been found when it was
// laid out: with all of them a cell holds as many images as the operations allow, with fewer it holds more.
func (l *Layout) Site(motif int) Site {
	o := l.Orbits[motif]
	s := l.siteAt(o.Place.Apply(o.Bare.Centroid()), siteSlack)
	images := o.Images
	if o.SameAs >= 0 {
		images = l.Orbits[o.SameAs].Images
	}
	s.Lacks = len(images)*s.Order > len(l.maps)
	return s
}

// siteAt returns the site of a field point; operations that move it by no more than twice slack mm leave it in place.
func (l *Layout) siteAt(p orb.Point, slack float64) Site {
	s := Site{Order: 1, Turn: 1, At: p}
	l.movingLittle(p, 2*slack, func(g geometry.Map) {
		switch kind, at := fixedBy(g, p); {
		case kind == noElement || math.Hypot(at[0]-p[0], at[1]-p[1]) > slack:
			return
		case kind == turnPoint:
			s.Turn++
			s.At = at
		default:
			s.Mirrors++
			if s.Turn == 1 {
				s.At = at
			}
		}
		s.Order++
		s.Fixing = append(s.Fixing, g)
	})
	return s
}

// Special returns the place nearest to a field point, within reach mm, that stands on a rotation point, or else on a
// mirror.
func (l *Layout) Special(p orb.Point, reach float64) (orb.Point, bool) {
	best := [2]float64{math.Inf(1), math.Inf(1)}
	var at [2]orb.Point
	l.movingLittle(p, 2*reach, func(g geometry.Map) {
		kind, q := fixedBy(g, p)
		if kind == noElement {
			return
		}
		if d := math.Hypot(q[0]-p[0], q[1]-p[1]); d <= reach && d < best[kind] {
			best[kind], at[kind] = d, q
		}
	})
	for _, kind := range []element{turnPoint, mirrorLine} {
		if !math.IsInf(best[kind], 1) {
			return at[kind], true
		}
	}
	return p, false
}

// element is what an operation leaves in place.
type element int

const (
	turnPoint element = iota
	mirrorLine
	noElement // a translation or a glide
)

// fixedBy returns what an isometry of the plane leaves in place, and of that the point nearest to p.
func fixedBy(g geometry.Map, p orb.Point) (element, orb.Point) {
	q := g.Apply(p)
	d := orb.Point{q[0] - p[0], q[1] - p[1]}
	if g.Det() < 0 {
		// The way from p to its image is across the line but for the glide.
		along := g.Vector(d)
		if glide := math.Hypot(along[0]+d[0], along[1]+d[1]) / 2; glide > 1e-6*(1+math.Hypot(d[0], d[1])) {
			return noElement, p
		}
		return mirrorLine, orb.Point{p[0] + d[0]/2, p[1] + d[1]/2}
	}
	// c = p + w with w − R w = d.
	a, b, c, e := 1-g.A, -g.B, -g.C, 1-g.D
	det := a*e - b*c
	if math.Abs(det) < 1e-9 {
		return noElement, p
	}
	return turnPoint, orb.Point{p[0] + (e*d[0]-b*d[1])/det, p[1] + (a*d[1]-c*d[0])/det}
}

// movingLittle calls do for every operation but the identity, with its lattice translation, that moves p by no more
// than far mm.
func (l *Layout) movingLittle(p orb.Point, far float64, do func(g geometry.Map)) {
	// far may be more than a cell; no more than its neighbours are looked at, which hold every element near p.
	for k, m := range l.maps {
		q := m.Apply(p)
		a, b := l.NearestCell(orb.Point{p[0] - q[0], p[1] - q[1]})
		for i := -1; i <= 1; i++ {
			for j := -1; j <= 1; j++ {
				v := l.Lattice(a+i, b+j)
				if k == 0 && v == (orb.Point{}) {
					continue
				}
				if math.Hypot(q[0]+v[0]-p[0], q[1]+v[1]-p[1]) <= far {
					do(m.Moved(v[0], v[1]))
				}
			}
		}
	}
}
