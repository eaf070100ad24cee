package joined

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet/panel"
)

// room answers how far places are from the openings, which stand sorted into squares by their boxes.
type room struct {
	open  []panel.Opening
	boxes []orb.Bound
	size  float64
	cells map[[2]int][]int
	seen  []int // the number of the question an opening was last asked by
	asked int
}

func newRoom(open []panel.Opening) *room {
	r := &room{open: open, cells: map[[2]int][]int{}, seen: make([]int, len(open)), size: 1}
	for _, o := range open {
		b := o.Bound()
		r.boxes = append(r.boxes, b)
		r.size += (b.Max[0] - b.Min[0] + b.Max[1] - b.Min[1]) / 4 / float64(len(open))
	}
	for i, b := range r.boxes {
		r.squares(b, func(c [2]int) { r.cells[c] = append(r.cells[c], i) })
	}
	return r
}

// swapped returns the same with x and y exchanged.
func (r *room) swapped() *room {
	swap := geometry.Map{B: 1, C: 1}
	known := map[*geometry.Shape]*geometry.Shape{}
	var out []panel.Opening
	for _, o := range r.open {
		s := known[o.Shape]
		if s == nil {
			s = o.Shape.Place(swap, nil)
			known[o.Shape] = s
		}
		out = append(out, panel.Opening{Shape: s, Shift: orb.Point{o.Shift[1], o.Shift[0]}})
	}
	return newRoom(out)
}

func (r *room) squares(b orb.Bound, visit func([2]int)) {
	for i := int(math.Floor(b.Min[0] / r.size)); i <= int(math.Floor(b.Max[0]/r.size)); i++ {
		for j := int(math.Floor(b.Min[1] / r.size)); j <= int(math.Floor(b.Max[1]/r.size)); j++ {
			visit([2]int{i, j})
		}
	}
}

// near calls visit for each opening whose box meets b.
func (r *room) near(b orb.Bound, visit func(i int)) {
	r.asked++
	r.squares(b, func(c [2]int) {
		for _, i := range r.cells[c] {
			if r.seen[i] != r.asked && r.boxes[i].Intersects(b) {
				r.seen[i] = r.asked
				visit(i)
			}
		}
	})
}

// at returns how far a point is from the openings, up to limit mm; in one, how far from its edge, as a negative number
// down to −limit. It changes by no more than the way from point to point.
func (r *room) at(p orb.Point, limit float64) float64 {
	distance := limit
	r.near(orb.Bound{Min: p, Max: p}.Pad(limit), func(i int) {
		o := r.open[i]
		q := orb.Point{p[0] - o.Shift[0], p[1] - o.Shift[1]}
		in := o.Shape.Contains(q)
		if n := o.Shape.DistanceTo(q, limit); !n.Found {
			if in {
				distance = -limit
			}
		} else if in {
			distance = -n.D
		} else if distance > 0 {
			distance = math.Min(distance, n.D)
		}
	})
	return distance
}

// along returns how far a segment is from the openings, up to limit mm; 0 where it meets one.
func (r *room) along(p, q orb.Point, limit float64) float64 {
	if p == q {
		return r.at(p, limit)
	}
	mid := orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}
	line := geometry.NewShape(orb.MultiPolygon{{{p, mid, q, p}}})
	r.near(orb.Bound{Min: p, Max: p}.Extend(q).Pad(limit), func(i int) {
		o := r.open[i]
		if o.Shape.Contains(orb.Point{p[0] - o.Shift[0], p[1] - o.Shift[1]}) {
			limit = 0
		} else if n := geometry.Distance(line, o.Shape, o.Shift, limit); n.Found {
			limit = n.D
		}
	})
	return limit
}
