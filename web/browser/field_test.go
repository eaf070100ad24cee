package browser

import (
	"testing"

	"github.com/paulmach/orb"
)

// The pattern ends at the field's edges where it is cropped there, on all four sides: beside each edge the paint shows
// within the field, and nowhere in the margin.
func TestPatternEndsAtTheField(t *testing.T) {
	p := open(t, how{})
	paint := p.colour("paint")
	s := p.whole()
	f := p.draft().FieldBound()
	img := p.shot()
	painted := func(at orb.Point) bool {
		q := s.on(at)
		r, g, b, _ := img.At(int(q.x), int(q.y)).RGBA()
		return near(r, paint.R, 10) && near(g, paint.G, 10) && near(b, paint.B, 10)
	}

	const steps = 2000
	for _, side := range []struct {
		name     string
		from, to orb.Point
		out      orb.Point // of the field
	}{
		{"left", f.Min, f.LeftTop(), orb.Point{-1, 0}},
		{"right", f.RightBottom(), f.Max, orb.Point{1, 0}},
		{"foot", f.Min, f.RightBottom(), orb.Point{0, -1}},
		{"head", f.LeftTop(), f.Max, orb.Point{0, 1}},
	} {
		within, beyond := 0, 0
		for i := range steps {
			u := (float64(i) + 0.5) / steps
			at := orb.Point{side.from[0] + u*(side.to[0]-side.from[0]), side.from[1] + u*(side.to[1]-side.from[1])}
			for _, mm := range []float64{6, 12} {
				if painted(orb.Point{at[0] - mm*side.out[0], at[1] - mm*side.out[1]}) {
					within++
				}
				if painted(orb.Point{at[0] + mm*side.out[0], at[1] + mm*side.out[1]}) {
					beyond++
				}
			}
		}
		if within == 0 || beyond > 0 {
			t.Errorf("%s: of %d places beside the field's edge %d are painted within and %d in the margin", side.name,
				2*steps, within, beyond)
		}
	}
}
