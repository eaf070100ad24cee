package residue

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// finite returns an error that names the first number of the pieces which is none.
func finite(pieces []Piece) error {
	for i, p := range pieces {
		for _, v := range []float64{p.Reach, p.Width, p.Length, p.P[0], p.P[1], p.Q[0], p.Q[1], p.Far[0], p.Far[1]} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("piece %d of %d stretches holds %g: %+v", i, p.Stretches, v, p)
			}
		}
		if len(p.Outline) == 0 {
			return fmt.Errorf("piece %d has no outline", i)
		}
		for _, r := range p.Outline {
			for _, v := range r {
				if math.IsNaN(v[0]+v[1]) || math.IsInf(v[0]+v[1], 0) {
					return fmt.Errorf("piece %d has a corner at %v", i, v)
				}
			}
		}
	}
	return nil
}

func TestTouchingRings(t *testing.T) {
	// A wedge reaches r/sin(half its angle) − r from the disc in it.
	reach := func(angle, w float64) float64 { return w / 2 * (1/math.Sin(angle/2*math.Pi/180) - 1) }
	// A flat triangle that stands on its tip at x, y, its sides rising by 20 degrees.
	rise := math.Tan(20 * math.Pi / 180)
	tip := func(x, y, half float64) orb.Ring { return ring(x, y, x+half, y+half*rise, x-half, y+half*rise) }
	down := func(x, y, half float64) orb.Ring { return ring(x, y, x-half, y-half*rise, x+half, y-half*rise) }
	block := ring(0, 0, 60, 0, 60, 60, 0, 60)
	hang := want{"hangs", nan, reach(20, 3)}
	for _, c := range []struct {
		name  string
		mp    orb.MultiPolygon
		plane bool
		want  []want
	}{
		{"two square holes, corner to corner", polygon(block, ring(10, 10, 20, 10, 20, 20, 10, 20),
			ring(20, 20, 30, 20, 30, 30, 20, 30)), false, nil},
		{"two flat holes, tip to tip", polygon(block, tip(30, 30, 15), down(30, 30, 15)), false, []want{
			{"hangs", nan, reach(40, 3)}, {"hangs", nan, reach(40, 3)}}},
		{"a hole's tip on an edge", polygon(block, tip(30, 0, 15)), false, []want{hang, hang}},
		{"a hole's tip on the outer ring's corner", polygon(ring(0, 0, 30, 0, 60, 0, 60, 60, 0, 60), tip(30, 0, 15)),
			false, []want{hang, hang}},
		{"two triangles tip to tip, from outside",
			orb.MultiPolygon{{tip(0, 0, 30)}, {geometry.Orient(orb.MultiPolygon{{down(0, 0, 30)}})[0][0]}}, true,
			[]want{{"hangs", nan, reach(40, 3)}, {"hangs", nan, reach(40, 3)}}},
		{"a triangle that stands on a block, from outside",
			orb.MultiPolygon{{ring(-60, -20, 60, -20, 60, 0, -60, 0)}, {tip(0, 0, 30)}}, true, []want{hang, hang}},
		// A hole that touches closes the way past its right; 2 mm are left to its left. Wedges of 74 degrees do not
		// count.
		{"a hole at the right wall, near to the left one",
			polygon(ring(0, 0, 20, 0, 20, 10, 20, 40, 0, 40), ring(20, 10, 2, 15, 2, 5)), false,
			[]want{{"joins", 2, nan}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			for turn := range 12 {
				m := geometry.Translate(13.7, -311.9).After(geometry.TurnDegrees(float64(turn) * 37))
				name := fmt.Sprintf("turned %d", turn)
				of := Of
				if c.plane {
					of = Around
				}
				got, err := of(geometry.Transform(c.mp, m), 3, 0.01)
				if err == nil {
					err = finite(got)
				}
				if err != nil {
					t.Errorf("%s: %v", name, err)
					continue
				}
				compareKnown(t, name, got, c.want, 1)
			}
		})
	}
}

// Outlines whose rings touch at corners, or with edges nearly in line, found among random ones: no disc could be
// followed round them, or no width was found.
func TestTouchingOutlines(t *testing.T) {
	raw, err := os.ReadFile("testdata/touching.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases []struct {
		Name    string
		Width   float64
		Outline orb.MultiPolygon
	}
	if err := json.Unmarshal(raw, &cases); err != nil || len(cases) < 4 {
		t.Fatalf("%d outlines: %v", len(cases), err)
	}
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			for turn := range 24 {
				mp := geometry.Transform(geometry.Orient(c.Outline), geometry.TurnDegrees(float64(turn)*15))
				for _, width := range []float64{c.Width, 3} {
					for _, inside := range []bool{true, false} {
						got, err := find(mp, width, 0.1, inside)
						if err == nil {
							err = finite(got)
						}
						if err != nil {
							t.Errorf("turned by %d degrees, width %g, inside %v: %v", turn*15, width, inside, err)
						}
					}
				}
			}
		})
	}
}

// Rings that cross are not valid, and a disc cannot be followed round some: the error says where.
func TestUnclearPlace(t *testing.T) {
	crossing := orb.MultiPolygon{{ring(0, 0, 10, 0, 10, 10, 0, 10)}, {ring(5, -3, 14, 5, 5, 13, 2, 5)}}
	unclear := 0
	for _, width := range []float64{0.5, 1, 2, 4} {
		for _, inside := range []bool{true, false} {
			_, err := find(crossing, width, 0.1, inside)
			var at *UnclearError
			if errors.As(err, &at) {
				unclear++
				if !crossing.Bound().Pad(width).Contains(at.At) {
					t.Errorf("width %g: the place %v is elsewhere", width, at.At)
				}
			}
		}
	}
	if unclear == 0 {
		t.Error("rings that cross are followed with every width")
	}
}
