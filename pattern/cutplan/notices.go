package cutplan

import (
	"fmt"

	"github.com/paulmach/orb"
)

// notices are what is to be said of openings that are not cut as they are drawn.
type notices struct {
	facets, touching, left, parted, off notice
}

// notice counts openings, or pieces of them, and keeps the place of the first.
type notice struct {
	n     int
	first orb.Point
}

func (c *notice) add(at orb.Point, n int) {
	if c.n == 0 {
		c.first = at
	}
	c.n += n
}

// of takes note of one opening.
func (s *notices) of(at orb.Point, f *approximation, touching bool, tolerance float64) {
	if touching {
		s.touching.add(at, 1)
	}
	if f.facets > 0 {
		s.facets.add(at, 1)
	}
	if f.left > 0 {
		s.left.add(at, f.left)
	}
	if f.deviation > tolerance {
		s.off.add(at, 1)
	}
	if f.parted {
		s.parted.add(at, 1)
	}
}

// tell writes the plan's notes.
func (s *notices) tell(b *build) {
	for _, c := range []struct {
		notice
		one, many, why string
	}{
		{s.touching, "1 opening is", "%d openings are", fmt.Sprintf("cut along straight edges, not curves, because "+
			"another comes within %g mm and curves might meet", minGap)},
		{s.facets, "1 opening is", "%d openings are", fmt.Sprintf("cut with kinks or straight edges, because "+
			"no smooth curve within %g mm was found", b.o.Tolerance)},
		{s.off, "1 opening lies", "%d openings lie",
			fmt.Sprintf("up to %.3f mm off in places, because no piece of a line "+
				"may be shorter than %g mm", b.made.Deviation, 0.05)},
		{s.parted, "1 opening is", "%d openings are", "parted at a neck narrower than the kerf"},
		{s.left, "1 piece of an opening, or of what drops out of one, is",
			"%d pieces of openings, or of what drops out of them, are", "too small to cut and left out"},
	} {
		switch {
		case c.n == 1:
			b.note("%s %s; it lies about (%.1f, %.1f) mm.", c.one, c.why, c.first[0], c.first[1])
		case c.n > 1:
			b.note("%s %s; the first lies about (%.1f, %.1f) mm.", fmt.Sprintf(c.many, c.n), c.why, c.first[0],
				c.first[1])
		}
	}
}
