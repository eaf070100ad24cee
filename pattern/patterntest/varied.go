package patterntest

import (
	"math/rand/v2"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// Variants is how many kinds of draft Varied makes.
const Variants = 5

// Varied returns a random draft. variant chooses what it is like: as it comes, loose,
// tiny and thin, of several polygons, or with openings that stand in rings.
func Varied(r *rand.Rand, group string, variant int) draft.Draft {
	d := Draft(r, group)
	apart := 1.0
	switch variant {
	case 1:
		apart = 1.5
	case 2: // paste and kerf take some of them
		apart = 1.3
		for i := range d.Silhouettes {
			thin := geometry.Map{A: 1, D: 0.03 + 0.2*r.Float64()}
			d.Silhouettes[i].Outline = geometry.SnapOutline(geometry.Transform(d.Silhouettes[i].Outline, thin))
		}
		d.Sheet.Opening, d.Sheet.Kerf = 0.2+r.Float64(), 0.3*r.Float64()
	case 3:
		apart = 2
		for i := range d.Silhouettes {
			second := Blob(r, 3+2*r.Float64(), 6+r.IntN(20), false)
			beside := d.Silhouettes[i].Outline.Bound().Max[0] - second.Bound().Min[0] + 0.2 + 2*r.Float64()
			far := geometry.Translate(geometry.Snap(beside), geometry.Snap(4*r.Float64()))
			d.Silhouettes[i].Outline = append(d.Silhouettes[i].Outline,
				geometry.SnapOutline(geometry.Transform(second, far))...)
		}
	case 4:
		apart = 1.6
		outer := Smooth(r, 13, 40)
		hole := geometry.SnapOutline(geometry.Transform(outer, geometry.Scale(0.6+0.2*r.Float64())))
		d.Silhouettes[0].Outline = geometry.Orient(orb.MultiPolygon{{outer[0][0], hole[0][0]}})
		for _, size := range []float64{2.5, 1} {
			d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: "in" + string(rune('0'+int(size))),
				Outline: Smooth(r, size, 16)})
			at := d.Motifs[0].At
			d.Motifs = append(d.Motifs, draft.Motif{ID: "n" + string(rune('0'+int(size))),
				Silhouette: d.Silhouettes[len(d.Silhouettes)-1].ID,
				At:         [2]float64{geometry.Snap(at[0] + 2*r.Float64()), geometry.Snap(at[1] - 1.5*r.Float64())},
				Scale:      1})
		}
	}

	d.Repeat.A, d.Repeat.B = geometry.Snap(d.Repeat.A*apart), geometry.Snap(d.Repeat.B*apart)
	return d
}
