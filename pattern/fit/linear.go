package fit

import "math"

// linear is a linear programme in few unknowns: the least cost·x under rows·x ≥ limits, where the first len(cost)
// rows bound one unknown each, on the side that the cost presses to. It is solved by the dual simplex method (C. E.
// Lemke 1954): from the corner of those bounds, which is the best where nothing else is asked, the row that is broken
// worst takes the place of one of the rows that hold, until none is broken.
type linear struct {
	cost    []float64
	rows    [][]float64
	limits  []float64
	x       []float64
	holding []int       // the rows that hold with equality
	inverse [][]float64 // of the matrix of these rows
	price   []float64   // what easing each of them would save
	along   []float64
}

const (
	// maxPivots ends a programme that does not come to an end; few need more than thrice their unknowns.
	maxPivots = 150
	// brokenBy, in the rows' own measure, is what rounding may break a row by.
	brokenBy = 1e-11
	// flat is a coefficient taken for zero.
	flat = 1e-11
)

// start sets the programme to the corner of the first rows. Row i must be ±1 in unknown i, zero elsewhere, with the
// sign of cost i.
func (l *linear) start() {
	n := len(l.cost)
	if len(l.inverse) != n {
		l.x, l.price, l.along, l.holding = make([]float64, n), make([]float64, n), make([]float64, n), make([]int, n)
		l.inverse = make([][]float64, n)
		for i := range l.inverse {
			l.inverse[i] = make([]float64, n)
		}
	}
	for i := range n {
		clear(l.inverse[i])
		l.inverse[i][i] = l.rows[i][i]
		l.holding[i] = i
		l.x[i] = l.rows[i][i] * l.limits[i]
		l.price[i] = l.rows[i][i] * l.cost[i]
	}
}

// solve finds the best x; false when there is none, or none was found in time.
func (l *linear) solve() bool {
	l.start()
	for range maxPivots {
		enter, by := -1, brokenBy
		for k, row := range l.rows {
			if gap := l.limits[k] - dot(row, l.x); gap > by {
				enter, by = k, gap
			}
		}
		if enter < 0 {
			return true
		}
		if !l.pivot(enter, by) {
			return false
		}
	}
	return false
}

// pivot lets a broken row hold, in place of the one whose price falls to nothing first.
func (l *linear) pivot(enter int, by float64) bool {
	row, n := l.rows[enter], len(l.cost)
	leave, ratio := -1, math.Inf(1)
	for w := range n {
		a := 0.0
		for i := range n {
			a += row[i] * l.inverse[i][w]
		}
		l.along[w] = a
		if a > flat && l.price[w] < ratio*a {
			leave, ratio = w, l.price[w]/a
		}
	}
	if leave < 0 {
		return false
	}
	pivot := l.along[leave]
	for w := range n {
		l.price[w] = max(0, l.price[w]-ratio*l.along[w])
	}
	l.price[leave] = ratio
	for i := range n {
		f := l.inverse[i][leave] / pivot
		l.x[i] += f * by
		for w := range n {
			l.inverse[i][w] -= f * l.along[w]
		}
		l.inverse[i][leave] = f
	}
	l.holding[leave] = enter
	return true
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
