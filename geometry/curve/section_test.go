package curve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// Sections put together are the path: their lengths add up, each begins where the one before ends, and all lie on it.
func TestSection(t *testing.T) {
	const seed = 5
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for kind, p := range map[string]Path{
		"arcs": Circle(orb.Point{3, 4}, 10, Arc), "Béziers": Circle(orb.Point{3, 4}, 10, Cubic),
		"lines": Polygon(orb.Ring{{0, 0}, {20, 0}, {20, 10}, {0, 10}, {0, 0}}),
	} {
		for range 20 {
			total := p.Length()
			a, b := total*r.Float64(), total*r.Float64()
			cuts := []float64{0, min(a, b), max(a, b), total}
			t.Run(fmt.Sprintf("%s at %.3f, %.3f", kind, cuts[1], cuts[2]), func(t *testing.T) {
				end, area := p.Start, 0.0
				for k := range 3 {
					s := Section(p.Start, p.Pieces, cuts[k], cuts[k+1])
					if got, want := s.Length(), cuts[k+1]-cuts[k]; math.Abs(got-want) > 1e-4 {
						t.Errorf("part %d is %.6f mm long, want %.6f", k, got, want)
					}
					if distance(s.Start, end) > 1e-4 {
						t.Errorf("part %d begins at %v, the one before ends at %v", k, s.Start, end)
					}
					area += s.Area() + (s.Start[0]*s.End()[1]-s.Start[1]*s.End()[0])/2
					end = s.End()
				}
				if math.Abs(area-p.Area()) > 1e-3 || distance(end, p.Start) > 1e-9 {
					t.Errorf("the parts enclose %.6f mm², want %.6f, and end at %v", area, p.Area(), end)
				}
			})
		}
		if s := Section(p.Start, p.Pieces, 5, 5); len(s.Pieces) != 0 {
			t.Errorf("%s: nothing has %d pieces", kind, len(s.Pieces))
		}
	}
}
