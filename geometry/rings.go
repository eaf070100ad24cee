package geometry

import "github.com/paulmach/orb"

// Rings returns all rings of an outline, those of each polygon after one another; the points are shared.
func Rings(mp orb.MultiPolygon) []orb.Ring {
	var rings []orb.Ring
	for _, p := range mp {
		rings = append(rings, p...)
	}
	return rings
}

// Reversed returns the ring run the other way, as new points.
func Reversed(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, v := range r {
		out[len(r)-1-i] = v
	}
	return out
}
