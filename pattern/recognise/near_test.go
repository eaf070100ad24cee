package recognise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// A field of two asymmetric silhouettes in a group G, written in a smaller group H with motifs for the cosets. One
// motif moved, turned or scaled takes all of G away that is not in H: the copies of the other silhouette hold every
// symmetry to its place, and the action of G on the copies is free, so that only what is in H carries the moved ones to
// each other.
func TestNearMisses(t *testing.T) {
	const seed, fields = 77, 400
	broken, index := 0, map[int]int{}
	for i := range fields {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		g := symmetry.Groups()[i%17]
		size := 4 + 6*r.Float64()
		c := cellFor(r, g, size*size*6*float64(len(g.Ops)))
		whole := draftOf(g.Symbol, c, []orb.MultiPolygon{asymmetric(r, size), asymmetric(r, size)},
			[][]isometry{{somewhere(r, c)}, {somewhere(r, c)}})
		d := again(r, t, seeded{draft: whole, truth: g})
		if len(d.Motifs) == 2 {
			continue // nothing of G is left for the motifs to hold
		}
		h, err := symmetry.Find(d.Repeat.Group)
		if err != nil {
			t.Fatal(err)
		}
		area := d.Repeat.Cell().Area()
		if h.Centred {
			area /= 2
		}
		index[len(d.Motifs)/2]++
		k := r.IntN(len(d.Motifs))
		away := 2 * math.Pi * r.Float64()
		change := []struct {
			name   string
			do     func(m *draft.Motif)
			breaks bool
		}{
			{"moved by 0.05 mm", func(m *draft.Motif) {
				m.At[0] += 0.05 * math.Cos(away)
				m.At[1] += 0.05 * math.Sin(away)
			}, true},
			{"moved by 0.001 mm", func(m *draft.Motif) {
				m.At[0] += 0.001 * math.Cos(away)
				m.At[1] += 0.001 * math.Sin(away)
			}, false},
			{"turned, its corners by about 0.1 mm", func(m *draft.Motif) { m.Turn += 0.15 / size * 180 / math.Pi },
				true},
			{"turned, its corners by about 0.001 mm", func(m *draft.Motif) { m.Turn += 0.001 / size * 180 / math.Pi },
				false},
			{"scaled, its corners by about 0.1 mm", func(m *draft.Motif) { m.Scale *= 1 + 0.15/size }, true},
			{"mirrored in its place", func(m *draft.Motif) { m.Mirrored = !m.Mirrored }, true},
		}
		for _, ch := range change {
			moved := d
			moved.Motifs = append([]draft.Motif(nil), d.Motifs...)
			ch.do(&moved.Motifs[k])
			f := find(t, moved)
			want := g
			if ch.breaks {
				want = h
				broken++
			}
			if f.Actual != want.Symbol {
				t.Errorf("seed %d, field %d: %s written in %s, one of %d motifs %s: found to be %s, want %s",
					seed, i, g.Symbol, h.Symbol, len(d.Motifs), ch.name, f.Actual, want.Symbol)
			}
			if got := geometry.Cross(f.Primitive[0], f.Primitive[1]); ch.breaks && math.Abs(got-area) > 1e-6*area {
				t.Errorf("seed %d, field %d: %s in %s, %s: a primitive cell of %g mm², want %g", seed, i, g.Symbol,
					h.Symbol, ch.name, got, area)
			}
		}
	}
	t.Logf("seed %d: %d changes that break; fields by the number of motifs for one silhouette: %v", seed, broken, index)
}

// A bilateral silhouette on a mirror, and another beside it.
func TestOffTheMirror(t *testing.T) {
	for _, c := range []struct {
		off  float64
		want string
	}{{0, "pm"}, {0.001, "pm"}, {-0.001, "pm"}, {0.05, "p1"}, {-0.05, "p1"}} {
		t.Run(c.want, func(t *testing.T) {
			for _, turn := range []float64{0, 90} {
				x := geometry.TurnDegrees(turn)
				d := draftOf("p1", symmetry.Cell{A: 60, B: 70, Gamma: 90}, []orb.MultiPolygon{moth},
					[][]isometry{{x.After(at(c.off, 0, 0, false)), x.After(at(0, 27, 0, false))}})
				if f := find(t, d); f.Actual != c.want {
					t.Errorf("a moth %g mm off the mirror of another, both turned by %g: %s, want %s", c.off, turn,
						f.Actual, c.want)
				}
			}
		})
	}
}

// Motifs so near a mirror that the layout takes them to be on it, two on either side of it: the mirror lies between
// them, not where one of them alone would put it.
func TestEitherSideOfTheMirror(t *testing.T) {
	for _, off := range []float64{0.004, 0.008} {
		d := draftOf("pm", symmetry.Cell{A: 60, B: 70, Gamma: 90}, []orb.MultiPolygon{moth, oblong},
			[][]isometry{{at(off, 0, 0, false)}, {at(-off, 27, 0, false)}})
		f := find(t, d)
		if f.Actual != "pm" || math.Abs(f.Elements[0].At[0]) > 1e-9 && math.Abs(f.Elements[0].At[0]-30) > 1e-9 {
			t.Errorf("%g mm either side of a mirror of pm: %s, %+v", off, f.Actual, f.Elements)
		}
	}
}

// Pieces that coincide count once, also where they belong to different motifs.
func TestTwinPiecesCountOnce(t *testing.T) {
	// The layout tells outlines apart by their memory, so that the pair must not share the square's.
	pair := orb.MultiPolygon{square.Clone()[0], geometry.Transform(square, geometry.Translate(20, 0))[0]}
	for _, c := range []struct {
		name   string
		places []isometry // of a single square, beside the pair
		area   float64
	}{{"none", nil, 800}, {"on the first", []isometry{at(0, 0, 0, false)}, 800},
		{"on the second, quarter-turned", []isometry{at(20, 40, 90, false)}, 800},
		{"above", []isometry{at(0, 20, 0, false)}, 1600}} {
		t.Run(c.name, func(t *testing.T) {
			d := draftOf("p1", symmetry.Cell{A: 40, B: 40, Gamma: 90}, []orb.MultiPolygon{pair, square},
				[][]isometry{{at(0, 0, 0, false)}, c.places})
			f := find(t, d)
			if got := geometry.Cross(f.Primitive[0], f.Primitive[1]); math.Abs(got-c.area) > 1e-9 {
				t.Errorf("a square %s: a primitive cell of %g mm², want %g", c.name, got, c.area)
			}
		})
	}
}

// Outlines that come back from a link lie on a grid of 0.01 mm. A symmetric silhouette keeps its symmetry through that.
func TestOutlinesOfALink(t *testing.T) {
	const seed = 5
	for i := range 100 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		n := []int{2, 3, 4, 6}[i%4]
		s := symmetric(r, 8+20*r.Float64(), n, i%8 < 4, r.IntN(2) == 0)
		for _, p := range s {
			for _, ring := range p {
				for k := range ring {
					ring[k] = orb.Point{math.Round(ring[k][0]*100) / 100, math.Round(ring[k][1]*100) / 100}
				}
			}
		}
		c := symmetry.Cell{A: 80, B: 80, Gamma: map[int]float64{2: 77, 3: 120, 4: 90, 6: 120}[n]}
		f := find(t, draftOf("p1", c, []orb.MultiPolygon{s}, [][]isometry{{at(3, 4, 10*r.Float64()+1, false)}}))
		if want := map[int]string{2: "p2", 3: "p3", 4: "p4", 6: "p6"}[n]; f.Actual != want {
			t.Errorf("seed %d, outline %d of %d sectors: %s, want %s", seed, i, n, f.Actual, want)
		}
	}
	// A leaf 1 mm wide: rounding moves its centre of area far along it, its Steiner point hardly at all.
	leaf := orb.MultiPolygon{polygon(-30, 0, -15, -0.39, 0, -0.5, 15, -0.4, 30, 0.01, 15, 0.4, 0, 0.5, -15, 0.41)}
	f := find(t, draftOf("p1", symmetry.Cell{A: 80, B: 20, Gamma: 90}, []orb.MultiPolygon{leaf},
		[][]isometry{{at(3, 4, 0, false)}}))
	if f.Actual != "p2mm" {
		t.Errorf("a leaf of 60 × 1 mm in a rectangle: %s, want p2mm", f.Actual)
	}
}

// Corners that divide the same boundary otherwise, and the order of motifs, change nothing.
func TestCornersAndOrderDoNotMatter(t *testing.T) {
	const seed = 9
	for i := range 68 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		s := fieldOf(r, symmetry.Groups()[i%17])
		d := again(r, t, s)
		for j := range d.Motifs { // every motif a silhouette of its own, with corners of its own
			old, _ := d.Silhouette(d.Motifs[j].Silhouette)
			id := "own" + d.Motifs[j].ID
			d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: id, Name: "Own",
				Outline: recornered(r, old.Outline)})
			d.Motifs[j].Silhouette = id
		}
		r.Shuffle(len(d.Motifs), func(a, b int) { d.Motifs[a], d.Motifs[b] = d.Motifs[b], d.Motifs[a] })
		if f := find(t, d); f.Actual != s.truth.Symbol {
			t.Errorf("seed %d, field %d: %s in %s is found to be %s", seed, i, s.truth.Symbol, d.Repeat.Group, f.Actual)
		}
	}
}

// recornered returns the outline with more corners on its sides, each ring begun elsewhere.
func recornered(r *rand.Rand, mp orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, p := range mp {
		var q orb.Polygon
		for _, ring := range p {
			var pts []orb.Point
			for i := range len(ring) - 1 {
				pts = append(pts, ring[i])
				for f := 0.0; r.IntN(3) == 0; {
					f += (1 - f) * r.Float64()
					pts = append(pts, geometry.Add(ring[i], times(f, geometry.Sub(ring[i+1], ring[i]))))
				}
			}
			k := r.IntN(len(pts))
			pts = append(pts[k:len(pts):len(pts)], pts[:k]...)
			q = append(q, append(orb.Ring(pts), pts[0]))
		}
		out = append(out, q)
	}
	return out
}

// The drafts that the rest of the program is tested with: whatever is found holds the chosen group.
func TestRandomDraftsHoldTheirGroup(t *testing.T) {
	const seed = 12
	for i := range 170 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		g := symmetry.Groups()[i%17]
		if f := find(t, patterntest.Draft(r, g.Symbol)); f.Actual != g.Symbol {
			t.Errorf("seed %d, draft %d: %s is found to be %s", seed, i, g.Symbol, f.Actual)
		}
	}
	f := find(t, patterntest.Demo(t))
	if f.Actual != f.Chosen {
		t.Errorf("the draft the page starts on is of %s and found to be %s", f.Chosen, f.Actual)
	}
}
