package link

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// sliver is an outline with a slot of the given width.
func sliver(width float64) orb.MultiPolygon {
	return orb.MultiPolygon{{orb.Ring{{0, 0}, {20, 0}, {20, 20}, {10 + width, 20}, {10 + width, 5}, {10, 5}, {10, 20},
		{0, 20}, {0, 0}}}}
}

func TestLinkRoundsLessWhereItMust(t *testing.T) {
	for _, c := range []struct {
		name    string
		outline orb.MultiPolygon
		scale   float64
		step    int
	}{
		{"a wide slot", sliver(1), 1, 0},
		{"a slot of 0.004 mm", sliver(0.004), 1, 1},
		{"a slot of 0.0003 mm", sliver(0.0003), 1, 2},
		{"a slot of 0.000003 mm", sliver(3e-6), 1, 4},
		{"a slot under the finest step", sliver(3e-7), 1, exact},
		{"enlarged ten times", sliver(1), 10, 0},
		{"enlarged twelve times", sliver(1), 12, 1},
		{"enlarged a thousand times", sliver(1), 1000, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			step, out := chooseStep(c.outline, c.scale)
			if step != c.step {
				t.Errorf("step %d, want %d", step, c.step)
			}
			if err := geometry.CheckOutline(out); err != nil {
				t.Errorf("%v", err)
			}
			d := draft.Default()
			d.Silhouettes = []draft.Silhouette{{ID: "a", Outline: c.outline}}
			d.Motifs = []draft.Motif{{ID: "b", Silhouette: "a", Scale: c.scale}}
			s, err := Encode(d)
			if err != nil {
				t.Fatalf("%v", err)
			}
			got, err := Decode(s)
			if err != nil {
				t.Fatalf("%v", err)
			}
			if again, err := Encode(got); err != nil || again != s {
				t.Errorf("the link changes when it is opened (%v)", err)
			}
			like(t, d, got)
		})
	}
}

// TestLinkOfCrampedOutlines goes on where rounding often makes an outline invalid: small ones with many points.
func TestLinkOfCrampedOutlines(t *testing.T) {
	const seed = 64
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var steps [exact + 1]int
	for range 1500 {
		d := draft.Default()
		o := geometry.Transform(patterntest.Blob(r, 20, 10+r.IntN(60), r.IntN(2) == 0),
			geometry.Scale(math.Pow(10, -3.5*r.Float64())))
		d.Silhouettes = []draft.Silhouette{{ID: "a", Outline: o}}
		if d.Check() != nil {
			continue
		}
		k, _ := chooseStep(o, 0)
		steps[k]++
		s, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Decode(s)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := Encode(got); err != nil || again != s {
			t.Fatalf("the link %s changes when it is opened, to %s (%v)", s, again, err)
		}
		like(t, d, got)
	}
	t.Logf("outlines by step: %v", steps)
	if steps[0] == 0 || steps[1] == 0 || steps[2] == 0 {
		t.Errorf("outlines by step: %v; some are not tried", steps)
	}
}
