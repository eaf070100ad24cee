package browser

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// The pattern ends at the field's edges where it is cropped there, on all four sides: beside each edge the paint shows
// within the field, and nowhere in the margin.
func TestPatternEndsAtTheField(t *testing.T) {
	p := open(t, how{used: true})
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

// Seen from near, copies are too large for a picture of their silhouette and are filled one by one: the whole of each
// is painted, however it is turned, and nothing beside it.
func TestLargeCopiesAreWhole(t *testing.T) {
	p := open(t, how{used: true, width: 1440, height: 900})
	bar := geometry.RectOutline(orb.Bound{Min: orb.Point{-210, -9}, Max: orb.Point{210, 9}})
	d := p.lay(draft.Repeat{Group: "p3", A: 900, B: 900, Gamma: 120}, bar, orb.Point{250, 16})
	s := p.whole()
	for p.view().Zoom < 2.2 {
		p.click("[data-act=closer]")
	}
	p.drawn()
	s.zoom = p.view().Zoom
	copies := field(t, d)

	var within, beside []point
	for y := s.bench.Y; y < s.bench.Y+s.bench.Height; y += 7 {
		for x := s.bench.X; x < s.bench.X+s.bench.Width; x += 7 {
			at := point{x, y}
			if over := x > s.bench.X+s.bench.Width-260 || x < s.bench.X+280; over || !s.free(at) {
				continue // buttons and the hint lie there
			}
			q, nearest, n := s.under(at), math.Inf(1), 0
			for _, c := range copies {
				nearest = math.Min(nearest, toEdge(c.shape, q))
				if c.contains(q) {
					n++
				}
			}
			switch {
			case nearest*s.zoom < 8 || !d.FieldBound().Contains(q):
			case n == 0:
				beside = append(beside, at)
			case n == 1:
				within = append(within, at)
			}
		}
	}
	if len(within) < 100 || len(beside) < 100 {
		t.Fatalf("%d places within copies and %d beside them are seen", len(within), len(beside))
	}
	paint := p.colour("paint")
	if share := p.share(within, paint); share < 0.98 { // a line of the cell lies over some
		t.Errorf("%.3f of %d places within copies are painted", share, len(within))
	}
	if share := p.share(beside, paint); share > 0.01 {
		t.Errorf("%.3f of %d places beside copies are painted", share, len(beside))
	}
}
