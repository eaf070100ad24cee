package svgin

import (
	"math"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// withoutCrumbs drops pieces and holes so small that they are what rounding left where lines all but coincide, and the
// cracks without width that it left in outlines.
func withoutCrumbs(mp orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, p := range mp {
		var q orb.Polygon
		for k, r := range p {
			if r = withoutCracks(r); math.Abs(geometry.RingArea(r)) >= crumb {
				q = append(q, r)
			} else if k == 0 {
				break
			}
		}
		if len(q) > 0 {
			out = append(out, q)
		}
	}
	return out
}

// withoutCracks takes out of a closed ring where it runs back on itself.
func withoutCracks(r orb.Ring) orb.Ring {
	if len(r) < 4 {
		return nil
	}
	var out []orb.Point
	for _, v := range r[:len(r)-1] {
		out = append(out, v)
		for n := len(out); n >= 2; n = len(out) { // ends: out grows shorter
			if out[n-1] == out[n-2] {
				out = out[:n-1]
			} else if n >= 3 && runsBack(out[n-3], out[n-2], out[n-1]) {
				out = append(out[:n-2], out[n-1])
			} else {
				break
			}
		}
	}

	for n := len(out); n >= 3; n = len(out) { // and where it was begun; ends as well
		if out[0] == out[n-1] || runsBack(out[n-2], out[n-1], out[0]) {
			out = out[:n-1]
		} else if runsBack(out[n-1], out[0], out[1]) {
			out = out[1:]
		} else {
			return append(out, out[0])
		}
	}
	return nil
}

// runsBack says whether the way from b to c leads back along that from a to b.
func runsBack(a, b, c orb.Point) bool {
	u, v := orb.Point{b[0] - a[0], b[1] - a[1]}, orb.Point{c[0] - b[0], c[1] - b[1]}
	longer := math.Max(math.Hypot(u[0], u[1]), math.Hypot(v[0], v[1]))
	return u[0]*v[0]+u[1]*v[1] < 0 && math.Abs(u[0]*v[1]-u[1]*v[0]) <= crackWidth*longer
}
