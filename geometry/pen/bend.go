package pen

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Straightened returns the ring with the pieces of a stretch made straight lines. Where a round node has a straight
// line on one side, the other goes on from it; between two it becomes a corner.
func (r Ring) Straightened(s Stretch) Ring {
	out := r.clone()
	list := r.indexes(s)
	for k := 0; k+1 < len(list); k++ {
		v, w := &out.Nodes[list[k]], &out.Nodes[list[k+1]]
		v.Out, w.In = v.At, w.At
	}
	for _, i := range list {
		v := &out.Nodes[i]
		a, b := out.Straight(out.before(i)), out.Straight(i)
		switch {
		case !v.Round:
		case a && b:
			v.Round = false
		case a:
			v.Out = geometry.Add(v.At, geometry.Times(geometry.Unit(geometry.Sub(v.At, out.Nodes[out.before(i)].At)),
				geometry.PointDistance(v.At, v.Out)))
		case b:
			v.In = geometry.Add(v.At, geometry.Times(geometry.Unit(geometry.Sub(v.At, out.Nodes[out.after(i)].At)),
				geometry.PointDistance(v.At, v.In)))
		}
	}
	return out
}

// Curved returns the ring with the straight pieces of a stretch made curves: going on from the line at round nodes, and
// between two corners as an arc that bulges out of the ring.
func (r Ring) Curved(s Stretch) Ring {
	out := r.clone()
	list := r.indexes(s)
	for k := 0; k+1 < len(list); k++ {
		if !r.Straight(list[k]) {
			continue
		}
		v, w := &out.Nodes[list[k]], &out.Nodes[list[k+1]]
		chord := geometry.Sub(w.At, v.At)
		sin, cos := math.Sincos(-bulge) // outer rings run counter-clockwise: outside is to the right
		dir := geometry.Unit(orb.Point{cos*chord[0] - sin*chord[1], sin*chord[0] + cos*chord[1]})
		v.Out = geometry.Add(v.At, geometry.Times(dir, handle(v.At, w.At, dir)))
		if v.Round && v.In != v.At {
			dir = geometry.Unit(geometry.Sub(v.At, v.In))
			v.Out = geometry.Add(v.At, geometry.Times(dir, handle(v.At, w.At, dir)))
		}
		w.In = opposite(*w, w.Out, v.At, v.Out)
		if !v.Round && w.Round && w.Out != w.At {
			v.Out = opposite(*v, v.In, w.At, w.In)
		}
	}
	return out
}

// Bent returns the ring with piece i bent so that it passes through a point at the parameter t; round ends turn with
// it.
func (r Ring) Bent(i int, t float64, to orb.Point) Ring {
	out := r.clone()
	t = math.Max(0.1, math.Min(0.9, t)) // nearer to an end a small way would bend it without measure
	v, w := &out.Nodes[i], &out.Nodes[r.after(i)]
	if r.Straight(i) {
		v.Out, w.In = geometry.Lerp(v.At, w.At, 1.0/3), geometry.Lerp(w.At, v.At, 1.0/3)
	}
	d := geometry.Sub(to, bezier([4]orb.Point{v.At, v.Out, w.In, w.At}, t))
	a, b := 3*(1-t)*(1-t)*t, 3*(1-t)*t*t // the share of each control point at t
	f := 1 / (a*a + b*b)
	v.Out, w.In = geometry.Add(v.Out, geometry.Times(d, a*f)), geometry.Add(w.In, geometry.Times(d, b*f))
	if v.Round && v.In != v.At && v.Out != v.At {
		v.In = geometry.Add(v.At, geometry.Times(geometry.Unit(geometry.Sub(v.At, v.Out)),
			geometry.PointDistance(v.In, v.At)))
	} else {
		v.Round = false
	}
	if w.Round && w.Out != w.At && w.In != w.At {
		w.Out = geometry.Add(w.At, geometry.Times(geometry.Unit(geometry.Sub(w.At, w.In)),
			geometry.PointDistance(w.Out, w.At)))
	} else {
		w.Round = false
	}
	return out
}
