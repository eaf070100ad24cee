package fit

import "math"

// descent is a way down from one configuration: a sequence of linear programmes, each asking for the best step within
// a box in which all distances are taken as linear (sequential linear programming, as in Torquato and Jiao 2009; the
// step is taken when it does what was foreseen, else the box shrinks).
type descent struct {
	look      looker
	programme linear
	breach    float64 // what an overlap costs, see looseBreach
	find      Find    // what is made small, see goal
	bodyArea  float64
	next      []float64
	rows      []float64
	steps     int
}

const (
	// looseBreach and strictBreach are what an overlap of a body's whole reach costs, in the measure of the goal,
	// cell area per body area. An exact penalty must be dearer than what a breach can gain: a few times its part of
	// the area, more where sharp tips cross. A start with bodies all over each other finds its way better while it is
	// cheap.
	looseBreach, strictBreach = 25.0, 250.0
	// maxRows bounds a programme; the nearest contacts are kept.
	maxRows = 900
	// farthestLook is how far beyond the clearance contacts are gathered, in boxes: no free direction moves two copies
	// toward each other by much more than its own amount a few times.
	farthestLook = 6.0
)

// goal is what is made small: the cell's area per area of the bodies in it, or the clearance in parts of the reach,
// turned round; nothing where a place nearby is looked for that keeps the clearance.
func (d *descent) goal(y []float64) float64 {
	switch d.find {
	case nearby:
		return 0
	case Evenest:
		return -y[clearance] / d.reach()
	}
	return area(y) / d.bodyArea
}

func (d *descent) reach() float64 {
	r := 0.0
	for _, b := range d.look.bodies {
		r = max(r, b.reach)
	}
	return r
}

// slope fills in how the goal changes along the free directions.
func (d *descent) slope(y, into []float64) []float64 {
	into = into[:0]
	for _, f := range d.look.space.free {
		switch d.find {
		case nearby:
			into = append(into, 0)
		case Evenest:
			into = append(into, -f[clearance]/d.reach())
		default:
			into = append(into, (f[sideA]*y[upB]+f[upB]*y[sideA])/d.bodyArea)
		}
	}
	return into
}

// run goes down from y until a box of side finest mm gains nothing, or maxSteps are done. It returns the configuration
// and its merit, the goal with what is left of overlaps added.
func (d *descent) run(y []float64, box, finest float64, maxSteps int) (best []float64, merit, breached float64) {
	reach := d.reach()
	now := append([]float64(nil), y...)
	d.gather(now, box)
	breached = max(0, -d.look.worst)
	merit = d.goal(now) + d.breach*breached/reach
	cost := make([]float64, 0, len(d.look.space.free)+1)
	for range maxSteps {
		d.steps++
		cost = append(d.slope(now, cost), d.breach/reach)
		if !d.program(cost, now, box) {
			box *= shrink
			if box < finest {
				break
			}
			d.gather(now, box)
			continue
		}
		x := d.programme.x
		foreseen := dot(cost, x) - d.breach*breached/reach // less than zero, but for rounding
		d.next = d.look.space.apply(now, x[:len(x)-1], d.next)
		if foreseen > -noGain {
			break
		}

		became := math.Inf(1)
		over := 0.0
		if sane(d.next, reach) {
			d.gather(d.next, box*grow)
			over = max(0, -d.look.worst)
			became = d.goal(d.next) + d.breach*over/reach
		}
		part := (became - merit) / foreseen
		switch {
		case part > acceptFrom:
			now, d.next = d.next, now
			merit, breached = became, over
			if part > growFrom {
				box = min(box*grow, reach)
			} else if part < shrinkFrom {
				box *= shrink
			}
		default:
			box *= shrink
			d.gather(now, box)
		}
		if box < finest {
			break
		}
	}
	return now, merit, breached
}

// gather finds the contacts that matter in a box.
func (d *descent) gather(y []float64, box float64) {
	d.look.sparse = box > sparseFrom*d.reach()
	d.look.look(y, min(farthestLook*box, gridMargin*d.reach()))
}

// sparseFrom is the box, in reaches, in which every single point of a run need not be held.
const sparseFrom = 0.02

// How the box follows: the usual figures of trust-region methods.
const (
	acceptFrom, shrinkFrom, growFrom = 0.05, 0.3, 0.75
	shrink, grow                     = 0.4, 1.7
	noGain                           = 1e-10
)

// sane says whether a cell is one that can be looked at: flatter ones have neighbours without end.
func sane(y []float64, reach float64) bool {
	return y[sideA] > reach*flattest && y[upB] > reach*flattest && math.Abs(y[acrossB]) < 20*y[sideA] &&
		y[clearance] > -reach
}

// flattest is the least side or height of a cell, in parts of the bodies' reach.
const flattest = 0.02

// program sets up and solves the linear programme of a step from y. The unknowns are the amounts of the free directions
// and, last, the breach that stays.
func (d *descent) program(cost, y []float64, box float64) bool {
	l, n := &d.programme, len(cost)
	l.cost = l.cost[:0]
	l.rows, l.limits, d.rows = l.rows[:0], l.limits[:0], d.rows[:0]
	row := func(limit float64) []float64 {
		start := len(d.rows)
		for range n {
			d.rows = append(d.rows, 0)
		}
		r := d.rows[start : start+n : start+n]
		l.rows, l.limits = append(l.rows, r), append(l.limits, limit)
		return r
	}
	need := 2 * n
	for i := range d.look.contacts {
		if d.near(i, y, box) {
			need++
		}
	}
	if cap(d.rows) < need*n {
		d.rows = make([]float64, 0, 2*need*n)
	}
	for i, c := range cost {
		// A direction that costs nothing gets a little price of its own, so that no two corners cost the same.
		if c == 0 {
			c = tiny * float64(i+1)
		}
		l.cost = append(l.cost, c)
		limit := -box
		if i == n-1 {
			limit = 0
		}
		row(limit)[i] = math.Copysign(1, c)
	}
	for i := range n - 1 {
		row(-box)[i] = -l.rows[i][i]
	}
	for i := range d.look.contacts {
		if !d.near(i, y, box) || len(l.rows) >= maxRows {
			continue
		}
		c := &d.look.contacts[i]
		r := row(y[clearance] - c.distance)
		copy(r, c.slope)
		r[n-1] = 1
	}
	return l.solve()
}

const tiny = 1e-9

// near says whether a step within the box can bring the contact into breach.
func (d *descent) near(i int, y []float64, box float64) bool {
	c := &d.look.contacts[i]
	sum := 0.0
	for _, v := range c.slope {
		sum += math.Abs(v)
	}
	return c.distance-y[clearance] < sum*box
}
