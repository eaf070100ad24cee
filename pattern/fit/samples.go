package fit

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// sample sets the points at which the body is held against others: corners, points along straight edges, and near sharp
// corners points that come closer and closer to them, for tips can cross without a corner of one inside the other.
func (b *body) sample() {
	for _, e := range b.edges {
		length := math.Sqrt(e.dx*e.dx + e.dy*e.dy)
		n := max(1, math.Ceil(length*b.samples/b.reach))
		step := 1 / n
		for i := range int(n) {
			b.addPoint(&e, float64(i)*step)
		}
		near := min(step*length, b.reach/b.samples) / length
		for range tipSamples {
			near *= tipCloser
			if sharp(e.nx, e.ny, e.n0x, e.n0y) {
				b.addPoint(&e, near)
			}
			if sharp(e.nx, e.ny, e.n1x, e.n1y) {
				b.addPoint(&e, 1-near)
			}
		}
	}
}

func (b *body) addPoint(e *edge, t float64) {
	b.points = append(b.points, orb.Point{e.x + t*e.dx, e.y + t*e.dy})
}

// sharp says whether an edge's normal and the sum of it and its neighbour's belong to an outer corner of less than a
// right angle: the sum of two unit vectors is shorter than √2 where they are more than 90 degrees apart.
func sharp(nx, ny, sumX, sumY float64) bool {
	tx, ty := sumX-nx, sumY-ny // the neighbour's
	return sumX*sumX+sumY*sumY < 2 && math.Abs(nx*ty-ny*tx) > 1e-9
}

// sampleInside adds points well inside the body. Two bodies that lie on each other, or cut right through each other,
// need not have a corner of one inside the other; one that lies well inside tells.
func (b *body) sampleInside() {
	n := int(2 * insidePerReach)
	for i := range n {
		for j := range n {
			x, y := (float64(i)+0.5)/insidePerReach-1, (float64(j)+0.5)/insidePerReach-1
			if d, _, _, ok := b.distance(x*b.reach, y*b.reach, 0); ok && d < -insideFrom*b.reach {
				b.points = append(b.points, orb.Point{x * b.reach, y * b.reach})
			}
		}
	}
}

// makeArcs parts the points into runs.
func (b *body) makeArcs() {
	for from := 0; from < len(b.points); from += pointsPerArc {
		a := arc{from: from, to: min(from+pointsPerArc, len(b.points))}
		run := b.points[a.from:a.to]
		a.middle = orb.MultiPoint(run).Bound().Center()
		for _, p := range run {
			d := geometry.Sub(p, a.middle)
			a.radius = max(a.radius, math.Sqrt(geometry.Dot(d, d)))
		}
		b.arcs = append(b.arcs, a)
	}
}
