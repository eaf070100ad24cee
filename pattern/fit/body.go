package fit

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// body is a silhouette at the size and in the hand in which it is fitted, its holes filled, ready to be asked how far a
// point lies from it. Its frame has its origin at the silhouette's centre of area and its farthest point on the first
// axis, so that silhouettes that differ by a place and a turn are searched alike.
type body struct {
	// from the scaled, perhaps mirrored silhouette to the body's frame: a turn by angle about centre
	frame   geometry.Map
	centre  orb.Point
	angle   float64
	reach   float64     // mm
	points  []orb.Point // that are held against other bodies
	arcs    []arc       // of points, one after another
	edges   []edge
	root    float64 // both coordinates of the grid's lower left corner
	step    float64 // side of a grid cell
	perStep float64
	samples float64   // how many contact samples stand along a straight edge as long as the reach
	middle  []float64 // distance at the middle of each grid cell, negative inside
	first   []int32   // where the cell's edges begin in near; one more than there are cells
	near    []int32   // edges one of which is the nearest to any point of the cell
}

// edge is a side of a ring that runs counter-clockwise, so that the outside lies to the right of it. The normals point
// outside: across the edge, and at its two ends halfway between its own and its neighbour's.
type edge struct {
	x, y, dx, dy       float64
	perLength2         float64
	nx, ny             float64
	n0x, n0y, n1x, n1y float64
}

const (
	// gridSide is how many cells the grid round a body has along a side; a power of two.
	gridSide = 64
	// gridMargin is how far the grid reaches round the body, as a part of its reach.
	gridMargin = 0.35
	// samplesPerReach is how many contact samples stand along a straight edge as long as the body's reach. Two bodies
	// that do not cut each other have a corner at their shortest distance; samples between corners find those that
	// do.
	samplesPerReach = 6
	// denserBy is how many times as many samples stand there where those have missed a cut.
	denserBy = 4
	// tipSamples is how many more stand along each side of a sharp corner, each tipCloser times as far from it as the
	// last.
	tipSamples, tipCloser = 5, 0.5
	// insidePerReach is how many points stand along a reach inside the body, insideFrom how deep, in reaches.
	insidePerReach, insideFrom = 4, 0.08
	// pointsPerArc is how many points are passed over at once where they are far from another body.
	pointsPerArc = 6
)

// denser returns the same body with more points held against others.
func (b *body) denser() *body {
	c := *b
	c.samples *= denserBy
	c.points, c.arcs = nil, nil
	c.sample()
	c.sampleInside()
	c.makeArcs()
	return &c
}

// arc is a run of points within radius of its middle.
type arc struct {
	from, to int
	middle   orb.Point
	radius   float64
}

// frameOf returns the frame in which an outline is fitted. With still its origin is the silhouette's own and it is not
// turned, for a silhouette whose place is held while it turns.
func frameOf(mp orb.MultiPolygon, still bool) (centre orb.Point, angle float64) {
	if still {
		return centre, 0
	}
	centre = geometry.Centroid(mp)
	farthest := -1.0
	for _, p := range mp {
		for _, q := range p[0] {
			d := geometry.Sub(q, centre)
			if r2 := geometry.Dot(d, d); r2 > farthest*(1+1e-9) {
				farthest, angle = r2, -math.Atan2(d[1], d[0])
			}
		}
	}
	return centre, angle
}

// newBody prepares an outline given in the frame of the scaled silhouette. clearance is the distance up to which the
// body will be asked.
func newBody(mp orb.MultiPolygon, centre orb.Point, angle, clearance float64) *body {
	b := &body{centre: centre, angle: angle, samples: samplesPerReach}
	b.frame = geometry.Turn(angle).After(geometry.Translate(-centre[0], -centre[1]))
	for _, p := range mp {
		ring := openRing(p[0], b.frame)
		if len(ring) < 3 {
			continue
		}
		for i, p := range ring {
			b.addEdge(p, ring[(i+1)%len(ring)])
			b.reach = max(b.reach, math.Sqrt(geometry.Dot(p, p)))
		}
		b.joinNormals(len(ring))
	}
	b.sample()
	b.makeGrid(clearance + gridMargin*b.reach)
	b.sampleInside()
	b.makeArcs()
	return b
}

// openRing returns a ring's corners counter-clockwise in a new frame, the first not repeated.
func openRing(r orb.Ring, frame geometry.Map) []orb.Point {
	var ring []orb.Point
	for _, p := range r[:max(len(r)-1, 0)] {
		q := frame.Apply(p)
		if len(ring) == 0 || q != ring[len(ring)-1] {
			ring = append(ring, q)
		}
	}
	if geometry.RingArea(r) < 0 {
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
	return ring
}

func (b *body) addEdge(p, q orb.Point) {
	d := geometry.Sub(q, p)
	length2 := geometry.Dot(d, d)
	length := math.Sqrt(length2)
	e := edge{x: p[0], y: p[1], dx: d[0], dy: d[1]}
	if length2 > 0 {
		e.perLength2 = 1 / length2
		e.nx, e.ny = d[1]/length, -d[0]/length
	}
	b.edges = append(b.edges, e)
}

// joinNormals sets the normals at the corners of the ring of the last n edges.
func (b *body) joinNormals(n int) {
	ring := b.edges[len(b.edges)-n:]
	for i := range ring {
		e, next := &ring[i], &ring[(i+1)%n]
		x, y := e.nx+next.nx, e.ny+next.ny
		e.n1x, e.n1y, next.n0x, next.n0y = x, y, x, y
	}
}

// makeGrid finds for every cell of a square grid which edges can be the nearest to a point of it, by halving: an edge
// that is too far for a cell is too far for its parts.
func (b *body) makeGrid(margin float64) {
	half := b.reach + margin
	b.root, b.step, b.perStep = -half, 2*half/gridSide, gridSide/(2*half)
	all := make([]int32, len(b.edges))
	for i := range all {
		all[i] = int32(i)
	}
	lists := make([][]int32, gridSide*gridSide)
	b.middle = make([]float64, gridSide*gridSide)
	b.halve(0, 0, gridSide, all, lists)
	b.first = make([]int32, 0, len(lists)+1)
	for _, l := range lists {
		b.first = append(b.first, int32(len(b.near)))
		b.near = append(b.near, l...)
	}
	b.first = append(b.first, int32(len(b.near)))
}

func (b *body) halve(i, j, n int, among []int32, lists [][]int32) {
	size := float64(n) * b.step
	x, y := b.root+float64(i)*b.step+size/2, b.root+float64(j)*b.step+size/2
	kept, distance := b.nearest(x, y, size*math.Sqrt2, among)
	if n == 1 {
		lists[j*gridSide+i], b.middle[j*gridSide+i] = kept, distance
		return
	}
	h := n / 2
	for _, d := range [4][2]int{{0, 0}, {h, 0}, {0, h}, {h, h}} {
		b.halve(i+d[0], j+d[1], h, kept, lists)
	}
}

// nearest returns the edges no farther from a point than the nearest one and slack, and the distance to the nearest.
func (b *body) nearest(x, y, slack float64, among []int32) (kept []int32, distance float64) {
	away := make([]float64, len(among))
	best := math.Inf(1)
	for k, i := range among {
		px, py, _ := b.edges[i].offset(x, y)
		away[k] = math.Sqrt(px*px + py*py)
		best = min(best, away[k])
	}
	for k, i := range among {
		if away[k] <= best+slack {
			kept = append(kept, i)
		}
	}
	d, _, _ := b.measure(x, y, kept)
	return kept, d
}

// offset returns the way from the nearest point of the edge to a point, and where along the edge that is, 0 to 1.
func (e *edge) offset(x, y float64) (ox, oy, t float64) {
	ox, oy = x-e.x, y-e.y
	t = min(max((ox*e.dx+oy*e.dy)*e.perLength2, 0), 1)
	return ox - t*e.dx, oy - t*e.dy, t
}

// measure returns the distance of a point from the body, negative inside, and the direction in which it grows, looking
// at the edges given.
func (b *body) measure(x, y float64, among []int32) (d, nx, ny float64) {
	best, at, where := math.Inf(1), int32(-1), 0.0
	var bx, by float64
	for _, i := range among {
		ox, oy, t := b.edges[i].offset(x, y)
		if d2 := ox*ox + oy*oy; d2 < best {
			best, at, where, bx, by = d2, i, t, ox, oy
		}
	}
	e := &b.edges[at]
	nx, ny = e.nx, e.ny
	switch where {
	case 0:
		nx, ny = e.n0x, e.n0y
	case 1:
		nx, ny = e.n1x, e.n1y
	}
	d = math.Sqrt(best)
	inside := bx*nx+by*ny < 0
	switch {
	case d < onBoundary*b.reach:
		length := math.Sqrt(nx*nx + ny*ny)
		if length == 0 {
			nx, ny, length = e.nx, e.ny, 1
		}
		nx, ny = nx/length, ny/length
	case inside:
		nx, ny = -bx/d, -by/d
	default:
		nx, ny = bx/d, by/d
	}
	if inside {
		d = -d
	}
	return d, nx, ny
}

// onBoundary is the distance, in parts of the reach, below which the way to the nearest point has no direction any
// more.
const onBoundary = 1e-10

// cell returns the grid cell of a point, −1 outside the grid.
func (b *body) cell(x, y float64) int {
	x, y = (x-b.root)*b.perStep, (y-b.root)*b.perStep
	if !(x >= 0 && y >= 0 && x < gridSide && y < gridSide) {
		return -1
	}
	return int(y)*gridSide + int(x)
}

// far reports whether all points within radius of a point lie farther than limit from the body.
func (b *body) far(x, y, radius, limit float64) bool {
	k := b.cell(x, y)
	if k < 0 {
		return x*x+y*y > (b.reach+limit+radius)*(b.reach+limit+radius)
	}
	return b.middle[k]-b.step-radius > limit
}

// distance is measure for a point within limit of the body; ok is false for one that lies farther away.
func (b *body) distance(x, y, limit float64) (d, nx, ny float64, ok bool) {
	k := b.cell(x, y)
	if k < 0 || b.middle[k]-b.step > limit {
		return 0, 0, 0, false
	}
	d, nx, ny = b.measure(x, y, b.near[b.first[k]:b.first[k+1]])
	return d, nx, ny, d <= limit
}
