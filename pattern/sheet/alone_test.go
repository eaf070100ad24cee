package sheet_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// star is a random outline with waves and, now and then, a hole.
func star(r *rand.Rand) orb.MultiPolygon {
	n := 40 + r.IntN(60)
	waves, deep, turn := float64(3+r.IntN(7)), 2+10*r.Float64(), r.Float64()
	ring := func(radius, deep float64) orb.Ring {
		var out orb.Ring
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			v := radius + deep*math.Sin(waves*a+turn) + 0.4*r.Float64()
			out = append(out, orb.Point{v * math.Cos(a), v * math.Sin(a)})
		}
		return append(out, out[0])
	}
	polygon := orb.Polygon{ring(30, deep)}
	if r.IntN(2) == 0 {
		polygon = append(polygon, ring(6+8*r.Float64(), 1))
	}
	return geometry.SnapOutline(geometry.Orient(orb.MultiPolygon{polygon}))
}

// told are problems that can be compared: kinds, severities, places and measures, rounded.
func told(list []sheet.Problem) []string {
	var out []string
	for _, p := range list {
		out = append(out, fmt.Sprintf("%s %s %.2f %.2f", p.Severity, p.Kind, p.At, p.Measured))
	}
	slices.Sort(out)
	return out
}

// Of an outline with a moved point the look round that point says what a look at all of it does.
func TestAloneAnewIsAlone(t *testing.T) {
	const seed = 909
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	need := draft.Sheet{Thickness: 0.35, Kerf: 0.2, Bridge: 3, Opening: 1.5}
	looked, narrow, short := 0, 0, 0
	for n := range 150 {
		mp := star(r)
		if geometry.CheckOutline(mp) != nil {
			continue
		}
		scale := 0.5 + r.Float64()
		var w sheet.Within
		before := w.Alone(geometry.NewShape(mp), scale, need)

		// A corner is moved, which changes the two edges beside it.
		k := r.IntN(len(mp))
		ring := slices.Clone(mp[k][0])
		i := 1 + r.IntN(len(ring)-2)
		box := orb.Bound{Min: ring[i-1], Max: ring[i-1]}.Extend(ring[i]).Extend(ring[i+1])
		ring[i] = orb.Point{ring[i][0] + 6*(r.Float64()-0.5), ring[i][1] + 6*(r.Float64()-0.5)}
		box = box.Extend(ring[i])
		next := slices.Clone(mp)
		next[k] = append(orb.Polygon{ring}, mp[k][1:]...)
		next = geometry.SnapOutline(next)
		if geometry.CheckOutline(next) != nil {
			continue
		}

		got, all := sheet.AloneAnew(before, next, box, scale, need)
		if !all {
			short++
			continue
		}
		want := w.Alone(geometry.NewShape(next), scale, need)
		if a, b := told(got), told(want); !slices.Equal(a, b) {
			t.Errorf("outline %d: the look round the point says %q, the look at all of it %q", n, a, b)
		}
		looked++
		narrow += len(want)
	}
	t.Logf("%d outlines, %d places, %d too large for a frame", looked, narrow, short)
	if looked < 60 || narrow < 60 {
		t.Error("this says little")
	}
}

// Shapes whose faults are known: too thin a neck, too thin a tail, a middle that drops out, two pieces too near.
func TestAloneKnown(t *testing.T) {
	need := draft.Sheet{Thickness: 0.35, Kerf: 0.2, Bridge: 3, Opening: 1.5}
	box := func(x0, y0, x1, y1 float64) orb.Ring {
		return geometry.RectOutline(orb.Bound{Min: orb.Point{x0, y0}, Max: orb.Point{x1, y1}})[0][0]
	}
	ring := orb.MultiPolygon{{box(0, 0, 30, 30), geometry.Reversed(box(10, 10, 20, 20))}}
	pair := orb.MultiPolygon{{box(0, 0, 20, 20)}, {box(22, 0, 42, 20)}}
	waist := orb.MultiPolygon{{{{0, 0}, {20, 0}, {20, 9}, {30, 9}, {30, 0}, {50, 0}, {50, 20}, {30, 20}, {30, 10},
		{20, 10}, {20, 20}, {0, 20}, {0, 0}}}}
	for name, c := range map[string]struct {
		outline orb.MultiPolygon
		scale   float64
		want    string
	}{
		"a square":                        {orb.MultiPolygon{{box(0, 0, 30, 30)}}, 1, "[]"},
		"a middle":                        {ring, 1, "[fault island [15.00 15.00] 100.00]"},
		"a middle, twice the size":        {ring, 2, "[fault island [15.00 15.00] 400.00]"},
		"a waist of 1 mm":                 {waist, 1, "[fault opening [25.00 9.50] 1.00]"},
		"a waist of 1 mm, twice the size": {waist, 2, "[]"},
		"two pieces 2 mm apart":           {pair, 1, "fault bridge"},
	} {
		t.Run(name, func(t *testing.T) {
			var w sheet.Within
			got := told(w.Alone(geometry.NewShape(geometry.Orient(c.outline)), c.scale, need))
			if s := fmt.Sprint(got); c.want == "fault bridge" && len(got) == 1 && got[0][:12] == c.want {
				return
			} else if s != c.want {
				t.Errorf("%s, not %s", s, c.want)
			}
		})
	}
}
