package pattern

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

const (
	// maxAxes bounds the axes looked for: with more mirrors than these a silhouette is as good as round.
	maxAxes = 64
	// axisSlack in mm: corners this near the farthest one may be its mirror image.
	axisSlack = 2 * SameSlack
)

// Axes returns the directions, in radians in the silhouette's own frame, of the mirrors through its centre of area that
// leave it as it is to within SameSlack. A mirror carries the corner farthest from the centre to one as far, so that
// the halves between it and each of these are all there is to try.
func (c *Shapes) Axes(s *geometry.Shape) []float64 {
	if axes, ok := c.axes[s]; ok {
		return axes
	}
	if len(c.axes) >= keptOutlines {
		clear(c.axes)
	}
	heart := s.Centroid()
	var far []float64
	farthest := 0.0
	radius := func(p orb.Point) float64 { return math.Hypot(p[0]-heart[0], p[1]-heart[1]) }
	for _, poly := range s.Outline() {
		for _, p := range poly[0] {
			farthest = math.Max(farthest, radius(p))
		}
	}
	for _, poly := range s.Outline() {
		for _, p := range poly[0][:len(poly[0])-1] {
			if radius(p) >= farthest-axisSlack && len(far) < maxAxes {
				far = append(far, math.Atan2(p[1]-heart[1], p[0]-heart[0]))
			}
		}
	}
	axes := []float64{}
	for _, a := range far {
		axis := math.Mod((far[0]+a)/2+2*math.Pi, math.Pi)
		cos, sin := math.Cos(2*axis), math.Sin(2*axis)
		m := geometry.Map{A: cos, B: sin, C: sin, D: -cos}
		back := m.Apply(heart)
		if geometry.SameWithin(s, s.Place(m.Moved(heart[0]-back[0], heart[1]-back[1]), nil), SameSlack) {
			axes = append(axes, axis)
		}
	}

	c.axes[s] = axes
	return axes
}
