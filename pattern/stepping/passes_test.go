package stepping

import (
	"bytes"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/cutfile"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// In all groups: the four holes differ by the steps, every place after the first of its connected part falls on marks
// of the place it names, places of one pass are no neighbours, and the file says what was meant.
func TestEveryGroupSteps(t *testing.T) {
	const seed = 17
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for _, g := range symmetry.Groups() {
		var d draft.Draft
		var s *Stepping
		err := errEndless
		for errors.Is(err, errEndless) {
			d = loose(r, g.Symbol)
			s, err = Steps(layoutOf(t, d), Options{Margin: 5}, nil)
		}
		if err != nil {
			t.Fatalf("%s: %v: %s", g.Symbol, err, d.Encode())
		}
		checkHoles(t, g.Symbol, s)
		checkPasses(t, g.Symbol, s)
		checkMarks(t, g.Symbol, s)
		for _, f := range []cutfile.Format{cutfile.FormatSVG, cutfile.FormatDXF, cutfile.FormatPDF} {
			var b bytes.Buffer
			made, err := s.Write(&b, f)
			if err != nil {
				t.Fatalf("%s as %s: %v", g.Symbol, f, err)
			}
			if made.Openings+made.Lost != len(s.Openings) || made.Holes != len(s.Holes) || b.Len() == 0 {
				t.Errorf("%s as %s: %d openings and %d lost of %d, %d holes of %d: %v", g.Symbol, f, made.Openings,
					made.Lost, len(s.Openings), made.Holes, len(s.Holes), made.Notes)
			}
		}
	}
}

func checkHoles(t *testing.T, name string, s *Stepping) {
	t.Helper()
	if len(s.Holes) != 4 {
		t.Errorf("%s: %d holes: %v", name, len(s.Holes), s.Notes)
		return
	}
	same := func(p, q [2]float64) bool { return math.Hypot(p[0]-q[0], p[1]-q[1]) < 1e-9 }
	turn := geometry.TurnDegrees(s.Turn)
	for i, want := range [][2]float64{{}, s.Steps[0], s.Steps[1],
		{s.Steps[0][0] + s.Steps[1][0], s.Steps[0][1] + s.Steps[1][1]}} {
		v := turn.Vector(orb.Point{s.Holes[i][0] - s.Holes[0][0], s.Holes[i][1] - s.Holes[0][1]})
		if !same(v, want) {
			t.Errorf("%s: hole %d is %v from the first, and the steps are %v", name, i, v, s.Steps)
		}
	}
	for _, p := range s.Places {
		if p.From == 0 {
			continue
		}
		if p.From >= p.Number {
			t.Errorf("%s: place %d is laid by the marks of %d", name, p.Number, p.From)
		}
		n := 0
		for _, m := range p.Marks {
			for _, o := range s.Places[p.From-1].Marks {
				if same(m, o) {
					n++
				}
			}
		}
		if n != 2 {
			t.Errorf("%s: place %d shares %d marks with %d", name, p.Number, n, p.From)
		}
	}
}

func checkPasses(t *testing.T, name string, s *Stepping) {
	t.Helper()
	all := 0
	for k, pass := range s.Passes {
		all += len(pass)
		for i, n := range pass {
			p := s.Places[n-1]
			if p.Pass != k+1 || p.Number != n {
				t.Errorf("%s: place %d of pass %d says %d, %d", name, n, k+1, p.Number, p.Pass)
			}
			for _, m := range pass[:i] {
				q := s.Places[m-1]
				if d := p.cell.minus(q.cell); max(d[0], -d[0]) <= 1 && max(d[1], -d[1]) <= 1 {
					t.Errorf("%s: places %d and %d are neighbours and both in pass %d", name, n, m, k+1)
				}
			}
		}
	}
	if all != len(s.Places) {
		t.Errorf("%s: the passes hold %d places of %d", name, all, len(s.Places))
	}
}

// Conflicts of the eight neighbours alone need four passes, and a sheet that reaches two places to the right needs six.
func TestPassesAreFew(t *testing.T) {
	near := map[cell]bool{}
	for i := -2; i <= 2; i++ {
		for j := -1; j <= 1; j++ {
			if i != 0 || j != 0 {
				near[cell{i, j}] = true
			}
		}
	}
	var places []cell
	for i := range 7 {
		for j := range 5 {
			places = append(places, cell{i, j})
		}
	}
	of, ok := passesOf(places, near)
	passes := 0
	for _, p := range of {
		passes = max(passes, p+1)
	}
	if !ok || passes != 6 {
		t.Errorf("%d passes", passes)
	}
	if of, _ := passesOf([]cell{{0, 0}, {5, 5}}, near); of[0] != 0 || of[1] != 0 {
		t.Errorf("two places far apart are laid in passes %v", of)
	}
}

// Residues tell the cells of a sublattice apart: as many as its index, each the same for all of its translates.
func TestResidues(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	l := lattice{orb.Point{10, 0}, orb.Point{3, 8}}
	for range 200 {
		u, v := cell{r.IntN(9) - 4, r.IntN(9) - 4}, cell{r.IntN(9) - 4, r.IntN(9) - 4}
		det := u[0]*v[1] - u[1]*v[0]
		if det == 0 {
			continue
		}
		s := newSteps(l, u, v)
		if s.count() != max(det, -det) {
			t.Fatalf("%v %v: %d cells, want %d", u, v, s.count(), det)
		}
		seen := map[cell]bool{}
		for i := range 12 {
			for j := range 12 {
				c := cell{i, j}
				w := c.plus(u.times(r.IntN(7) - 3)).plus(v.times(r.IntN(7) - 3))
				if s.residue(w) != s.residue(c) {
					t.Fatalf("%v %v: %v and %v have the residues %v and %v", u, v, c, w, s.residue(c), s.residue(w))
				}
				if d := w.minus(c); s.to(s.of(d)) != d {
					t.Fatalf("%v %v: %v is not %v steps", u, v, d, s.of(d))
				}
				seen[s.residue(c)] = true
			}
		}
		if s.a <= 12 && s.d <= 12 && len(seen) != s.count() {
			t.Fatalf("%v %v: %d residues of %d", u, v, len(seen), s.count())
		}
	}
}
