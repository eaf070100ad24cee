package fit

import (
	"math"

	"github.com/paulmach/orb"
)

// contact is a point of a copy of one motif near the body of another, and how its distance changes with the
// configuration.
type contact struct {
	distance float64
	slope    []float64 // over the space's free directions, of distance − clearance
}

// looker finds the contacts of a configuration. It keeps its memory between questions.
type looker struct {
	space    *space
	bodies   []*body // one for each motif
	contacts []contact
	store    []float64
	gradient []float64
	worst    float64       // the least of distance − clearance among the points looked at, at most the limit's
	work     int           // points looked at so far
	only     int           // the motif whose pairs alone are looked at; everyMotif: all
	sparse   bool          // one contact of each run of points is enough
	turned   [][]orb.Point // each body's points as its motif is turned
	middles  [][]orb.Point // and the middles of its arcs
	turns    [][2]float64  // cosine and sine of each motif's turn
}

// everyMotif stands for no motif in particular.
const everyMotif = -1

// look gathers the points whose distance is less than the clearance and within, and sets worst.
func (k *looker) look(y []float64, within float64) {
	k.contacts, k.store, k.worst = k.contacts[:0], k.store[:0], within
	k.turn(y)
	for i := range k.bodies {
		for j := range k.bodies {
			if k.only != everyMotif && i != k.only && j != k.only {
				continue
			}
			for op := range k.space.columns {
				k.pairs(y, i, j, op, within)
			}
		}
	}
}

// turn turns the points of each body as its motif is turned.
func (k *looker) turn(y []float64) {
	if len(k.turned) != len(k.bodies) || len(k.gradient) != len(y) {
		k.turned, k.turns = make([][]orb.Point, len(k.bodies)), make([][2]float64, len(k.bodies))
		k.middles = make([][]orb.Point, len(k.bodies))
		k.gradient = make([]float64, len(y))
	}
	for i, b := range k.bodies {
		sin, cos := math.Sincos(y[place(i)+2])
		k.turns[i] = [2]float64{cos, sin}
		points := k.turned[i][:0]
		for _, p := range b.points {
			points = append(points, orb.Point{cos*p[0] - sin*p[1], sin*p[0] + cos*p[1]})
		}
		k.turned[i] = points
		middles := k.middles[i][:0]
		for _, a := range b.arcs {
			p := a.middle
			middles = append(middles, orb.Point{cos*p[0] - sin*p[1], sin*p[0] + cos*p[1]})
		}
		k.middles[i] = middles
	}
}

// pairs holds motif i's body against the points of motif j's copies by an operation and all cells that bring them near.
func (k *looker) pairs(y []float64, i, j, op int, within float64) {
	c, t := k.space.columns[op], k.space.moves[op]
	pi, pj := y[place(i):], y[place(j):]
	// From the middle of i to that of j's copy, by the operation alone.
	x0 := c[0][0]*pj[0] + c[1][0]*pj[1] + t[0]*y[sideA] + t[1]*y[acrossB] - pi[0]
	y0 := c[0][1]*pj[0] + c[1][1]*pj[1] + t[1]*y[upB] - pi[1]
	far := k.bodies[i].reach + k.bodies[j].reach + y[clearance] + within
	for n := math.Ceil((-far - y0) / y[upB]); y0+n*y[upB] <= far; n++ {
		up := y0 + n*y[upB]
		side := math.Sqrt(max(0, far*far-up*up))
		off := x0 + n*y[acrossB]
		for m := math.Ceil((-side - off) / y[sideA]); off+m*y[sideA] <= side; m++ {
			if i == j && (op == 0 && m == 0 && n == 0 || k.space.apart[own{i, op, int(m), int(n)}]) {
				continue
			}
			k.pair(y, i, j, op, [2]float64{t[0] + m, t[1] + n}, off+m*y[sideA], up, within)
		}
	}
}

// pair holds i's body against the points of one copy of j whose middle lies (x0, y0) from i's.
func (k *looker) pair(y []float64, i, j, op int, tau [2]float64, x0, y0, within float64) {
	c, b := k.space.columns[op], k.bodies[i]
	cos, sin := k.turns[i][0], k.turns[i][1]
	limit := y[clearance] + within
	points := k.turned[j]
	for run, a := range k.bodies[j].arcs {
		q := k.middles[j][run]
		wx, wy := c[0][0]*q[0]+c[1][0]*q[1], c[0][1]*q[0]+c[1][1]*q[1]
		vx, vy := x0+wx, y0+wy
		k.work++
		if b.far(cos*vx+sin*vy, cos*vy-sin*vx, a.radius, limit) {
			continue
		}
		k.work += a.to - a.from
		nearest := math.Inf(1)
		var at nearPoint
		for _, q := range points[a.from:a.to] {
			wx, wy := c[0][0]*q[0]+c[1][0]*q[1], c[0][1]*q[0]+c[1][1]*q[1]
			vx, vy := x0+wx, y0+wy
			d, nx, ny, ok := b.distance(cos*vx+sin*vy, cos*vy-sin*vx, limit)
			if !ok {
				continue
			}
			k.worst = min(k.worst, d-y[clearance])
			p := nearPoint{q, orb.Point{vx, vy}, cos*nx - sin*ny, sin*nx + cos*ny}
			if k.sparse {
				if d < nearest {
					nearest, at = d, p
				}
				continue
			}
			k.slope(i, j, c, tau, p)
			k.keep(d)
		}
		if k.sparse && !math.IsInf(nearest, 1) {
			k.slope(i, j, c, tau, at)
			k.keep(nearest)
		}
	}
}

// nearPoint is a point of a body, turned as its motif is: q as it is, v seen from the middle of the body it is held
// against, and the direction in which its distance grows.
type nearPoint struct {
	q, v   orb.Point
	nx, ny float64
}

// slope sets the gradient of the distance of a point of j's copy from i.
func (k *looker) slope(i, j int, c [2]orb.Point, tau [2]float64, p nearPoint) {
	g, q, v, nx, ny := k.gradient, p.q, p.v, p.nx, p.ny
	clear(g)
	g[sideA], g[acrossB], g[upB] = nx*tau[0], nx*tau[1], ny*tau[1]
	g[clearance] = -1
	at, from := place(j), place(i)
	g[at] += c[0][0]*nx + c[0][1]*ny
	g[at+1] += c[1][0]*nx + c[1][1]*ny
	// A turn of j moves its point by the quarter-turned q, before the operation.
	g[at+2] += nx*(c[1][0]*q[0]-c[0][0]*q[1]) + ny*(c[1][1]*q[0]-c[0][1]*q[1])
	g[from] -= nx
	g[from+1] -= ny
	g[from+2] += nx*v[1] - ny*v[0]
}

// keep stores a contact with its gradient along the free directions.
func (k *looker) keep(d float64) {
	start := len(k.store)
	for _, moved := range k.space.moved {
		sum := 0.0
		for _, m := range moved {
			sum += m.by * k.gradient[m.index]
		}
		k.store = append(k.store, sum)
	}
	k.contacts = append(k.contacts, contact{distance: d, slope: k.store[start:len(k.store):len(k.store)]})
}
