package sheet

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// TestLiveAgainstAllPairs lays out a patch of each random field wide enough for every neighbour, measures all pairs by
// brute force, and compares with what the cell alone showed.
func TestLiveAgainstAllPairs(t *testing.T) {
	const seed, perGroup = 7, 6
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	overlaps, bridges := 0, 0
	for _, g := range symmetry.Groups() {
		for range perGroup {
			d := patterntest.Draft(r, g.Symbol)
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			live := Check(l, nil)
			if live.Partial {
				continue
			}
			narrowest, over, under := brute(l)
			if live.Narrowest.Found && math.Abs(live.Narrowest.D-narrowest) > 1e-9 {
				t.Errorf("%s: narrowest %.9g, all pairs give %.9g", d.Title, live.Narrowest.D, narrowest)
			}
			if (len(live.Overlaps) > 0) != over || (len(live.Bridges) > 0) != under {
				t.Errorf("%s: %d overlaps and %d bridges, all pairs say %v and %v", d.Title, len(live.Overlaps),
					len(live.Bridges), over, under)
			}
			overlaps += len(live.Overlaps)
			bridges += len(live.Bridges)
		}
	}
	if overlaps < 20 || bridges < 20 {
		t.Errorf("only %d overlaps and %d bridges in all: the comparison says little", overlaps, bridges)
	}
}

// brute measures every motif's own copy against every other copy within two cells.
func brute(l *pattern.Layout) (narrowest float64, over, under bool) {
	narrowest = math.Inf(1)
	reach := 2
	size := 0.0
	for _, o := range l.Orbits {
		b := o.Images[0].Bound()
		size = math.Max(size, math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))
	}
	reach += int(math.Ceil(2 * size / math.Min(l.B[1], l.A[0])))
	for i, a := range l.Orbits {
		for j, b := range l.Orbits {
			for k := range b.Images {
				ca, cb := a.Images[0].Centroid(), b.Images[k].Centroid()
				m0, n0 := l.NearestCell(orb.Point{ca[0] - cb[0], ca[1] - cb[1]})
				for m := m0 - reach; m <= m0+reach; m++ {
					for n := n0 - reach; n <= n0+reach; n++ {
						if i == j && k == 0 && m == 0 && n == 0 {
							continue
						}
						v := l.Lattice(m, n)
						to := b.Images[k]
						shift := geometry.Sub(geometry.Add(to.At, v), a.Images[0].At)
						near := distance(a.Images[0].Shape, to.Shape, a.Images[0].At, shift, math.Inf(1))
						area := geometry.OverlapArea(a.Images[0].Shape, b.Images[k].Shape, shift)
						if area > OverlapFrom {
							over = true
							continue
						}
						narrowest = math.Min(narrowest, near.D)
						if near.D < l.Draft.Sheet.Bridge {
							under = true
						}
					}
				}
			}
		}
	}
	return narrowest, over, under
}

// discs returns a field of round openings of radius r on a lattice.
func discs(group string, a, b, gamma, r float64) draft.Draft {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: group, A: a, B: b, Gamma: gamma}
	var ring orb.Ring
	const n = 360
	for i := range n {
		t := 2 * math.Pi * float64(i) / n
		ring = append(ring, orb.Point{geometry.Snap(r * math.Cos(t)), geometry.Snap(r * math.Sin(t))})
	}
	ring = append(ring, ring[0])
	d.Silhouettes = []draft.Silhouette{{ID: "s1", Name: "Disc", Outline: orb.MultiPolygon{{ring}}}}
	d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "s1", Scale: 1}}
	return d
}

// Circles of radius r on a hexagonal lattice of side a leave bridges of a − 2r: plane geometry.
func TestDiscsOnAHexagonalLattice(t *testing.T) {
	for _, c := range []struct{ a, r float64 }{{50, 20}, {50, 23.6}, {30, 14}} {
		t.Run(fmt.Sprintf("cell %g, radius %g", c.a, c.r), func(t *testing.T) {
			d := discs("p6mm", c.a, c.a, 120, c.r)
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			// A disc on the six-fold point coincides with all its images: one copy in a cell.
			if n := l.InCell(); n != 1 {
				t.Errorf("%d copies in a cell, want 1", n)
			}
			live := Check(l, &Within{})
			if want := c.a - 2*c.r; math.Abs(live.Narrowest.D-want) > 3e-3 {
				t.Errorf("a %g, r %g: narrowest %g, want %g", c.a, c.r, live.Narrowest.D, want)
			}
			if thin := c.a-2*c.r < d.Sheet.Bridge; (len(live.Bridges) > 0) != thin {
				t.Errorf("a %g, r %g: %d bridges", c.a, c.r, len(live.Bridges))
			}
		})
	}
}

func TestOpenCellMendsWhatItOffers(t *testing.T) {
	d := discs("p4", 40, 40, 90, 19.5) // bridges of 1 mm where 3 are needed
	d.Motifs[0].At = [2]float64{3, 5}  // off the rotation point: four overlapping copies
	l, err := pattern.NewLayout(d, pattern.NewShapes())
	if err != nil {
		t.Fatal(err)
	}
	c, ok := OpenCell(l)
	if ok {
		next, err := pattern.Apply(d, c)
		if err != nil {
			t.Fatal(err)
		}
		after, err := pattern.NewLayout(next, nil)
		if err != nil {
			t.Fatal(err)
		}
		if live := Check(after, nil); len(live.Overlaps)+len(live.Bridges) > 0 {
			t.Errorf("after the mend %d overlaps and %d bridges are left", len(live.Overlaps), len(live.Bridges))
		}
	}
	d.Motifs[0].At = [2]float64{0, 0}
	if l, err = pattern.NewLayout(d, pattern.NewShapes()); err != nil {
		t.Fatal(err)
	}
	if c, ok = OpenCell(l); !ok {
		t.Fatal("a field of discs too near each other can be opened, but no mend was offered")
	}
	if a := c.Values["a"]; a < 42 || a > 42.3 {
		t.Errorf("the cell opens to %g, want just over 42: 2 × 19.5 + 3", a)
	}
}
