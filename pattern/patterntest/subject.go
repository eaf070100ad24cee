package patterntest

import (
	"math"
	"math/rand/v2"
	"strconv"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// Subjects returns a draft with one to three random subjects on its panel, some across its edge, each with an edge of
// those given.
func Subjects(r *rand.Rand, d draft.Draft, edges ...draft.Edge) draft.Draft {
	d.Subjects = nil
	size := math.Min(d.Panel.Width, d.Panel.Height)
	for i := range 1 + r.IntN(3) {
		id := "subject" + strconv.Itoa(i+1)
		s := draft.Subject{ID: id, Name: id, Scale: 0.7 + 0.6*r.Float64(), Turn: 360 * (r.Float64() - 0.5),
			Mirrored: r.IntN(2) == 0, Room: 8 * r.Float64() * float64(r.IntN(4)) / 2, Edge: edges[r.IntN(len(edges))],
			At: [2]float64{d.Panel.Width * r.Float64(), d.Panel.Height * r.Float64()}}
		s.Outline = Blob(r, size*(0.12+0.2*r.Float64()), 6+r.IntN(24), r.IntN(3) == 0)
		if r.IntN(2) == 0 {
			s.Outline = Smooth(r, size*(0.12+0.2*r.Float64()), 40+r.IntN(200))
		}
		for _, v := range []*float64{&s.Scale, &s.Turn, &s.Room, &s.At[0], &s.At[1]} {
			*v = geometry.Snap(*v)
		}
		d.Subjects = append(d.Subjects, s)
	}
	return d
}
