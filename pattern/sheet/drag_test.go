package sheet

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// dragDraft is what the figures are taken on: three motifs of 300 points each in p6mm, the silhouettes smooth and near
// one another, on a panel of 600 × 900 mm made larger each way by the factor.
func dragDraft(factor float64) draft.Draft {
	r := rand.New(rand.NewPCG(300, 3))
	d := draft.Default()
	d.Panel = draft.Panel{Width: 600 * factor, Height: 900 * factor}
	d.Field.Origin = [2]float64{300 * factor, 450 * factor}
	d.Repeat = draft.Repeat{Group: "p6mm", A: 130, B: 130, Gamma: 120}
	basis := d.Repeat.Cell().Basis()
	// Three places in the asymmetric unit of p6mm, the triangle (0,0), (1/2,0), (2/3,1/3), in cell coordinates.
	for i, at := range []orb.Point{{0.28, 0.09}, {0.43, 0.14}, {0.56, 0.23}} {
		p := basis.Apply(at)
		id := fmt.Sprintf("s%d", i)
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Name: id,
			Outline: patterntest.Smooth(r, 14, 300)})
		d.Motifs = append(d.Motifs, draft.Motif{ID: fmt.Sprintf("m%d", i), Silhouette: id,
			At: [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])}, Scale: 1})
	}
	return d
}

// BenchmarkDrag is one drag step: the command that moves a motif, the layout, and the check of the cell and its
// neighbours. panel-16 is the same on a panel of sixteen times the area.
func BenchmarkDrag(b *testing.B) {
	for _, size := range []struct {
		name   string
		factor float64
	}{{"panel-1", 1}, {"panel-16", 4}} {
		b.Run(size.name, func(b *testing.B) {
			d := dragDraft(size.factor)
			if err := d.Check(); err != nil {
				b.Fatal(err)
			}
			step, faults := dragSteps(b, d), 0
			for i := 0; b.Loop(); i++ {
				faults += step(i)
			}
			b.ReportMetric(float64(faults)/float64(b.N), "faults/op")
		})
	}
}

// dragSteps returns one drag step of a round: the number of it in, the number of faults it finds out.
func dragSteps(b *testing.B, d draft.Draft) func(i int) int {
	cache, within, at := pattern.NewShapes(), &Within{}, d.Motifs[0].At
	return func(i int) int {
		a := float64(i) / 20
		next, err := pattern.Apply(d, pattern.Command{Name: "place", ID: "m0",
			Values: map[string]float64{"x": at[0] + 2*math.Cos(a), "y": at[1] + 2*math.Sin(a)}})
		if err != nil {
			b.Fatal(err)
		}
		l, err := pattern.NewLayout(next, cache)
		if err != nil {
			b.Fatal(err)
		}
		live := Check(l, within)
		return len(live.Bridges) + len(live.Overlaps)
	}
}

// BenchmarkWorst tells, as its ns/op, how long the slowest of 500 drag steps took, after the first, which prepares the
// outlines.
func BenchmarkWorst(b *testing.B) {
	step, worst := dragSteps(b, dragDraft(1)), time.Duration(0)
	step(0)
	for b.Loop() {
		for i := range 500 {
			begun := time.Now()
			step(i)
			worst = max(worst, time.Since(begun))
		}
	}
	b.ReportMetric(float64(worst.Nanoseconds()), "ns/op")
}

// TestDragPairs writes the pairs of outlines that one drag step of the benchmark must decide about, for a general
// clipping library to be asked the same: are they nearer than the bridge? It writes only where OPENWORK_PAIRS names a
// file, and always checks that the pairs hold all that the check itself finds near.
func TestDragPairs(t *testing.T) {
	l, err := pattern.NewLayout(dragDraft(1), nil)
	if err != nil {
		t.Fatal(err)
	}
	bridge := l.Draft.Sheet.Bridge
	couples, partial := nearCouples(l, bridge)
	if partial {
		t.Fatal("too many couples for a benchmark")
	}
	type rings [][][2]float64
	of := func(s *geometry.Shape, by orb.Point) (out rings) {
		for _, p := range s.Place(geometry.Translate(by[0], by[1]), nil).Outline() {
			for _, r := range p {
				var ring [][2]float64
				for _, v := range r[:len(r)-1] {
					ring = append(ring, v)
				}
				out = append(out, ring)
			}
		}
		return out
	}
	var pairs [][2]rings
	near := 0
	for _, c := range couples {
		if c.gap >= bridge {
			break
		}
		a, b := l.Orbits[c.i].Images[0], l.Orbits[c.j].Images[c.k]
		shift := geometry.Sub(geometry.Add(b.At, c.shift), a.At)
		n := distance(a.Shape, b.Shape, a.At, shift, bridge)
		pairs = append(pairs, [2]rings{of(a.Shape, orb.Point{}), of(b.Shape, shift)})
		if n.Found {
			near++
		}
	}
	live := Check(l, nil)
	if found := len(live.Bridges) + len(live.Overlaps); found > near || (near > 0 && found == 0) {
		t.Errorf("the check finds %d near pairs, the distances %d", found, near)
	}
	t.Logf("%d pairs, %d of them nearer than %g mm", len(pairs), near, bridge)
	if len(pairs) < 3 {
		t.Errorf("only %d pairs: the benchmark's silhouettes lie too far apart", len(pairs))
	}
	path := os.Getenv("OPENWORK_PAIRS")
	if path == "" {
		return
	}
	data, err := json.Marshal(map[string]any{"half": bridge / 2, "pairs": pairs, "near": near})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}
