//go:build !js

package main

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// discs returns a draft of discs on a square lattice, turned on the panel.
func discs(spacing, radius, turn float64) draft.Draft {
	var ring orb.Ring
	for k := range 361 {
		s, c := math.Sincos(2 * math.Pi * float64(k%360) / 360)
		ring = append(ring, orb.Point{radius * c, radius * s})
	}
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p1", A: spacing, B: spacing, Gamma: 90}
	d.Field.Turn, d.Field.Origin = turn, [2]float64{101, 57}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Disc", Outline: orb.MultiPolygon{{ring}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{3, 5}, Scale: 1}}
	return d
}

// Discs of radius r on a square lattice of spacing d: the narrowest gap and the alley are d − 2r, the widest √2·d − 2r,
// in whatever way the field is turned; and each is where it is said to be, so far from the discs that the layout puts
// on the panel.
func TestEvennessOfDiscs(t *testing.T) {
	const spacing, radius = 40.0, 12.0
	for _, turn := range []float64{0, 30, -71} {
		d := discs(spacing, radius, turn)
		got, err := (&evennessInput{drafted: drafted{draft: d}}).run(nil)
		if err != nil {
			t.Fatal(err)
		}
		l, err := layoutOf(d)
		if err != nil {
			t.Fatal(err)
		}
		copies := l.CopiesIn(d.PanelBound())
		away := func(p orb.Point) float64 {
			best := math.Inf(1)
			for _, c := range copies {
				best = min(best, geometry.PointDistance(p, c.Map.Apply(orb.Point{}))-radius)
			}
			return best
		}

		if got.Narrowest == nil || math.Abs(got.Narrowest.Width-(spacing-2*radius)) > 0.01 {
			t.Errorf("turned by %g: narrowest %+v", turn, got.Narrowest)
		} else {
			for _, p := range got.Narrowest.Ends {
				if w := away(p); math.Abs(w) > 0.01 {
					t.Errorf("turned by %g: the narrowest gap ends %.3f mm from a disc", turn, w)
				}
			}
		}
		if w := 2 * away(got.Middle); math.Abs(w-got.Widest.Width) > 0.01 {
			t.Errorf("turned by %g: the disc in the widest gap may be %.3f mm wide, not %.3f", turn, w,
				got.Widest.Width)
		}
		if want := math.Sqrt2*spacing - 2*radius; math.Abs(got.Widest.Width-want) > 0.01 {
			t.Errorf("turned by %g: widest %.4f, want %.4f", turn, got.Widest.Width, want)
		}
		if got.Alley == nil || math.Abs(got.Alley.Width-(spacing-2*radius)) > 0.01 || len(got.Alley.Edges) != 2 {
			t.Fatalf("turned by %g: alley %+v", turn, got.Alley)
		}
		for _, edge := range got.Alley.Edges {
			const steps = 500
			nearest := math.Inf(1)
			for k := range steps + 1 {
				part := float64(k) / steps
				p := geometry.Add(geometry.Times(edge[0], 1-part), geometry.Times(edge[1], part))
				nearest = min(nearest, away(p))
			}
			if nearest < -0.01 || nearest > 0.05 {
				t.Errorf("turned by %g: the edge %v of the alley comes to %.3f mm from the discs", turn, edge, nearest)
			}
		}
		if w := geometry.PointDistance(got.Alley.Ends[0], got.Alley.Ends[1]); math.Abs(w-got.Alley.Width) > 1e-6 {
			t.Errorf("turned by %g: the line across the alley is %.4f mm long", turn, w)
		}

		// The stripe is densest along the discs' middles, and so a whole period on.
		band := got.Stripe.Band
		if math.Abs(band.Width-spacing) > 1e-6 {
			t.Errorf("turned by %g: the stripe's period is %.4f", turn, band.Width)
		}
		for _, edge := range band.Edges {
			off := math.Inf(1)
			for _, c := range copies {
				m := geometry.Sub(c.Map.Apply(orb.Point{}), edge[0])
				along := geometry.Sub(edge[1], edge[0])
				off = min(off, math.Abs(geometry.Cross(m, along))/math.Hypot(along[0], along[1]))
			}
			if off > 1e-6 {
				t.Errorf("turned by %g: the stripe's middle is %.6f mm beside the discs'", turn, off)
			}
		}
	}
}

// The page gets a raster with its wrap: so many bytes, the widest at 255, and what lies beyond an edge is what lies
// within the other.
func TestEvennessIsPainted(t *testing.T) {
	d := discs(40, 12, 0)
	args, err := json.Marshal(map[string]any{"draft": string(d.Encode()), "width": 80, "height": 80})
	if err != nil {
		t.Fatal(err)
	}
	text, data, err := reply("evenness", args, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	var got evennessFound
	if err := json.Unmarshal([]byte(text), &got); err != nil {
		t.Fatal(err)
	}
	r := got.Raster
	if r == nil || len(data) != (r.Across+2)*(r.Up+2) || r.Across*r.Up < 6000 || r.Across*r.Up > 7000 {
		t.Fatalf("%+v, and %d bytes", r, len(data))
	}

	row, counts := r.Across+2, map[byte]int{}
	for y := range r.Up + 2 {
		if a, b := data[y*row], data[y*row+r.Across]; a != b {
			t.Fatalf("row %d begins with %d, and its end repeats %d", y, a, b)
		}
		for x := range r.Across + 2 {
			counts[data[y*row+x]]++
		}
	}
	if string(data[:row]) != string(data[r.Up*row:][:row]) {
		t.Error("the first row does not repeat the last")
	}
	top := byte(0)
	for v := range counts {
		top = max(top, v)
	}
	if top < 245 || counts[0] == 0 {
		t.Errorf("the widest place is painted %d of 255, and %d px are openings", top, counts[0])
	}
}

func TestEvennessRefuses(t *testing.T) {
	if _, err := (&evennessInput{drafted: drafted{draft: draft.Default()}}).run(nil); err == nil {
		t.Error("gaps are measured where nothing is placed")
	}
	huge := &evennessInput{drafted: drafted{draft: discs(40, 12, 0)}, Width: 1 << 30, Height: 1 << 40}
	if _, err := huge.run(nil); err == nil {
		t.Error("a raster of any size is painted")
	}
}
