package whole

import (
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// With subjects of all three edges before the field the frame's report is the check's, at rest and when a motif or a
// subject has been moved.
func TestLookKnowsTheRooms(t *testing.T) {
	const seed = 2208
	t.Logf("seed %d", seed)
	groups := symmetry.Groups()
	var n looks
	cut := 0
	for i := range *drafts / 2 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		d := patterntest.Draft(r, groups[i%len(groups)].Symbol)
		d.Repeat.A, d.Repeat.B = geometry.Snap(1.6*d.Repeat.A), geometry.Snap(1.6*d.Repeat.B)
		d.Field.Edge = []draft.Edge{draft.Crop, draft.Whole, draft.Touching}[r.IntN(3)]
		d = patterntest.Subjects(r, d, draft.Crop, draft.Crop, draft.Whole, draft.Behind)
		w := &Panel{points: []int{math.MaxInt, math.MaxInt, 300}[r.IntN(3)]}
		shapes := pattern.NewShapes()
		for step := range 3 {
			c := pattern.Command{Name: "place", ID: d.Motifs[0].ID,
				Values: map[string]float64{"x": d.Motifs[0].At[0] + r.Float64(), "y": d.Motifs[0].At[1] - r.Float64()}}
			if step == 2 {
				c = pattern.Command{Name: "subjectPlace", ID: "subject1", Values: map[string]float64{
					"turn": d.Subjects[0].Turn + 20*r.Float64(), "scale": d.Subjects[0].Scale * 1.1}}
			}
			if step > 0 {
				next, err := pattern.Apply(d, c)
				if err != nil {
					t.Fatal(err)
				}
				d = next
			}
			if d.Check() != nil {
				continue
			}
			n.hold(t, w, i, d, shapes, step > 0)
			for _, c := range w.cuts.last {
				cut += len(c.parts)
			}
		}
	}
	t.Logf("%+v, %d pieces cut", n, cut)
	if n.complete < *drafts/3 || n.refused > *drafts/20 || cut < *drafts {
		t.Errorf("%+v, %d pieces cut", n, cut)
	}
}
