package panel

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/geometry/residue"
)

var (
	campaignOutlines = flag.Int("outlines", 2000, "how many random outlines TestResidueCampaign takes")
	campaignGEOS     = flag.Int("geosoutlines", 250, "how many of them, the first, are compared with GEOS")
)

// awkward is a random outline of few points with what is hard to follow: rings that touch at corners, spikes, needles,
// points nearly in line, points nearly at one place.
func awkward(r *rand.Rand, kind int) orb.MultiPolygon {
	whole := func(n int) float64 { return float64(r.IntN(n)) }
	star := func(n int, low float64) orb.Ring {
		var ring orb.Ring
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n))
			d := 10 * (low + (1-low)*r.Float64())
			ring = append(ring, orb.Point{geometry.Snap(d * c), geometry.Snap(d * s)})
		}
		return append(ring, ring[0])
	}
	var mp orb.MultiPolygon
	switch kind % 6 {
	case 0, 1: // triangles and squares on few places, some taken off the others: rings touch at corners
		var add, off orb.MultiPolygon
		step := 1 + whole(3)
		for range 2 + r.IntN(4) {
			one := orb.Polygon{orb.Ring{}}
			if r.IntN(2) == 0 {
				x, y, w, h := whole(8), whole(8), 1+whole(5), 1+whole(5)
				one[0] = orb.Ring{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}, {x, y}}
			} else {
				a := orb.Point{whole(10), whole(10)}
				one[0] = orb.Ring{a, {whole(10), whole(10)}, {whole(10), whole(10)}, a}
			}
			if geometry.CheckOutline(orb.MultiPolygon{one}) != nil {
				continue
			}
			if r.IntN(3) == 0 {
				off = append(off, one)
			} else {
				add = append(add, one)
			}
		}
		up, err := overlay.Union(geometry.Orient(add))
		if err == nil {
			up, err = overlay.Difference(up, geometry.Orient(off))
		}
		if err != nil {
			return nil
		}
		mp = geometry.Transform(up, geometry.Scale(step))
	case 2: // a hole that touches the outer ring at a corner, or two outer rings that touch
		out := star(5+r.IntN(12), 0.5)
		v := out[r.IntN(len(out)-1)]
		turn, size := geometry.TurnDegrees(180*r.Float64()-90), 0.1+0.8*r.Float64()
		in := orb.Ring{v}
		for range 2 + r.IntN(3) {
			p := turn.Apply(v)
			in = append(in, orb.Point{geometry.Snap(p[0] * size * r.Float64()),
				geometry.Snap(p[1] * size * r.Float64())})
		}
		in = append(in, v)
		mp = orb.MultiPolygon{{out, in}}
		if r.IntN(3) == 0 {
			beside := orb.Ring{v}
			for _, p := range star(3+r.IntN(3), 0.3) {
				beside = append(beside, orb.Point{geometry.Snap(2*v[0] + p[0]/2), geometry.Snap(2*v[1] + p[1]/2)})
			}
			beside = append(beside[:len(beside)-1], v)
			mp = orb.MultiPolygon{{out}, {beside}}
		}
	case 3: // spikes and needles
		n := 5 + r.IntN(8)
		var ring orb.Ring
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			ring = append(ring, orb.Point{geometry.Snap(6 * c), geometry.Snap(6 * s)})
			if r.IntN(2) == 0 {
				a := 2 * math.Pi * (float64(i) + r.Float64()) / float64(n)
				d, w := 2+10*r.Float64(), math.Pow(10, -4*r.Float64())/6
				for k := range 3 {
					e, b := 6.0, a+w*float64(k-1)
					if k == 1 {
						e = d
					}
					ring = append(ring, orb.Point{geometry.Snap(e * math.Cos(b)), geometry.Snap(e * math.Sin(b))})
				}
			}
		}
		mp = orb.MultiPolygon{{append(ring, ring[0])}}
	case 4: // points nearly in line, and nearly at one place
		base := star(4+r.IntN(5), 0.4)
		var ring orb.Ring
		for i := 0; i+1 < len(base); i++ {
			p, q := base[i], base[i+1]
			ring = append(ring, p)
			for k := range r.IntN(4) {
				t, off := (float64(k)+r.Float64())/4, math.Pow(10, -1-8*r.Float64())
				ring = append(ring, orb.Point{p[0] + t*(q[0]-p[0]) + off*(r.Float64()-0.5),
					p[1] + t*(q[1]-p[1]) + off*(r.Float64()-0.5)})
			}
			if r.IntN(3) == 0 {
				off := math.Pow(10, -3-7*r.Float64())
				ring = append(ring, orb.Point{q[0] + off*(r.Float64()-0.5), q[1] + off*(r.Float64()-0.5)})
			}
		}
		mp = orb.MultiPolygon{{append(ring, ring[0])}}
	default: // a hole, or two, anywhere
		mp = orb.MultiPolygon{{star(6+r.IntN(14), 0.45)}}
		for k := range 1 + r.IntN(2) {
			in := star(3+r.IntN(6), 0.3)
			for i, p := range in {
				in[i] = orb.Point{geometry.Snap(p[0]*0.25 + 4*float64(k) - 2), geometry.Snap(p[1] * 0.25)}
			}
			mp[0] = append(mp[0], in)
		}
	}
	if r.IntN(3) == 0 {
		mp = geometry.Transform(mp, geometry.TurnDegrees([]float64{90, 45, 360 * r.Float64()}[r.IntN(3)]))
	}
	if len(mp) == 0 || geometry.CheckOutline(mp) != nil {
		return nil
	}
	return geometry.Orient(mp)
}

// awkwardWidth is a random width, one of those that occur in the outlines now and then.
func awkwardWidth(r *rand.Rand) float64 {
	switch r.IntN(4) {
	case 0:
		return []float64{1, 2, 3, 0.5, math.Sqrt2, math.Sqrt2 / 2, 4, 6}[r.IntN(8)]
	case 1:
		return math.Pow(10, 3*r.Float64()-2)
	}
	return 0.2 + 4*r.Float64()
}

// sureCase is a question to testdata/sure.py.
type sureCase struct {
	Shape  orb.MultiPolygon `json:"shape"`
	Width  float64          `json:"width"`
	Inside bool             `json:"inside"`
	Whole  int              `json:"whole"` // pieces of which nothing remains
	Cuts   int              `json:"cuts"`  // of the pieces that join
	Least  *float64         `json:"least"` // width of the narrowest that joins
}

// TestResidueCampaign asks for the narrow places of random awkward outlines: there is always an answer, every figure of
// it is finite, and it is GEOS's where erosion by GEOS is the same for a radius a thousandth less and more.
// By hand: go test ./pattern/sheet/panel -run ResidueCampaign -outlines 1000000 -geosoutlines 100000 -timeout 0 -v
func TestResidueCampaign(t *testing.T) {
	const seed = 2611
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	taken, pieces, joining := 0, 0, 0
	var cases []sureCase
	for k := 0; taken < *campaignOutlines; k++ {
		mp := awkward(r, k)
		if mp == nil {
			continue
		}
		taken++
		for _, inside := range []bool{false, true} {
			of, width := residue.Around, awkwardWidth(r)
			if inside {
				of = residue.Of
			}
			found, err := of(mp, width, 0.1)
			if err != nil {
				t.Errorf("outline %d, inside %v, width %g: %v\n%s", k, inside, width, err, written(mp))
				continue
			}
			c := sureCase{Shape: mp, Width: width, Inside: inside}
			for _, p := range found {
				pieces++
				for _, v := range []float64{p.Reach, p.Width, p.Length, p.P[0], p.P[1], p.Q[0], p.Q[1], p.Far[0],
					p.Far[1]} {
					if math.IsNaN(v) || math.IsInf(v, 0) {
						t.Errorf("outline %d, inside %v, width %g: %+v is not finite\n%s", k, inside, width, p,
							written(mp))
					}
				}
				switch {
				case p.Stretches == 0:
					c.Whole++
				case p.Joins() || len(p.Outline) > 1:
					c.Cuts += p.Stretches - 2 + len(p.Outline)
				}
				if p.Joins() {
					joining++
					if c.Least == nil || p.Width < *c.Least {
						c.Least = &p.Width
					}
				}
			}
			if taken <= *campaignGEOS {
				cases = append(cases, c)
			}
		}
	}
	t.Logf("%d outlines, %d pieces, %d of them join", taken, pieces, joining)
	compareSure(t, cases)
}

func written(mp orb.MultiPolygon) string {
	raw, _ := json.Marshal(mp)
	return string(raw)
}

// compareSure asks GEOS (Debian's python3-shapely), some thousand cases a process.
func compareSure(t *testing.T, cases []sureCase) {
	t.Helper()
	tally := map[string]int{}
	for len(cases) > 0 {
		some := cases[:min(len(cases), 2000)]
		cases = cases[len(some):]
		in, err := json.Marshal(some)
		if err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command("/usr/bin/python3", "testdata/sure.py")
		cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("erosion by GEOS did not run (it needs Debian's package python3-shapely): %v", err)
		}
		var got []struct{ Cuts, Least, Text string }
		if err := json.Unmarshal(out, &got); err != nil || len(got) != len(some) {
			t.Fatalf("%d answers to %d questions: %v", len(got), len(some), err)
		}
		for i, a := range got {
			tally["cuts "+a.Cuts]++
			tally["width "+a.Least]++
			if a.Text != "" {
				t.Errorf("inside %v, width %v: %s\n%s", some[i].Inside, some[i].Width, a.Text, written(some[i].Shape))
			}
		}
	}
	t.Logf("by GEOS: %v", tally)
	if total := tally["cuts same"] + tally["cuts unsure"]; tally["cuts same"]*10 < total*8 ||
		tally["width same"]*40 < total {
		t.Error("GEOS was sure of too little to say much")
	}
}
