package panel

import (
	"maps"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/geometry/residue"
	"openwork/pattern/patterntest"
)

// residueCase is one question to testdata/residue.py, with our answer.
type residueCase struct {
	Shape  orb.MultiPolygon `json:"shape"`
	Width  float64          `json:"width"`
	Inside bool             `json:"inside"`
	Ours   []residueOurs    `json:"ours"`
}

type residueOurs struct {
	Outline   orb.Polygon `json:"outline"`
	Stretches int         `json:"stretches"`
	Reach     float64     `json:"reach"`
	Width     float64     `json:"width"`
	At        [2]float64  `json:"at"`
}

type residueAnswer struct {
	Counts map[string]int `json:"counts"`
	Differ []string       `json:"differ"`
}

func askMorphology(t *testing.T, cases []residueCase) []residueAnswer {
	t.Helper()
	answers := make([]residueAnswer, len(cases))
	parts := min(runtime.NumCPU(), len(cases))
	failed := make(chan error, parts)
	for p := range parts { // every parts-th case, so that large and small ones are shared
		go func() {
			var mine []residueCase
			for i := p; i < len(cases); i += parts {
				mine = append(mine, cases[i])
			}
			got, err := patterntest.Ask[residueAnswer]("testdata/residue.py", mine)
			for k := range got {
				answers[p+k*parts] = got[k]
			}
			failed <- err
		}()
	}
	for range parts {
		if err := <-failed; err != nil {
			t.Fatal(err)
		}
	}
	return answers
}

func newResidueCase(t *testing.T, mp orb.MultiPolygon, width float64, inside bool) residueCase {
	t.Helper()
	of := residue.Around
	if inside {
		of = residue.Of
	}
	pieces, err := of(mp, width, width/4000)
	if err != nil {
		t.Fatal(err)
	}
	c := residueCase{Shape: mp, Width: width, Inside: inside, Ours: []residueOurs{}}
	for _, p := range pieces {
		if p.Stretches == 0 {
			p.Reach = 0 // infinite, which JSON has no word for
		}
		c.Ours = append(c.Ours, residueOurs{p.Outline, p.Stretches, p.Reach, p.Width, [2]float64{p.Far[0], p.Far[1]}})
	}
	return c
}

// band is a band of uneven width that winds round the origin, now once, now nearly three times, with uneven room
// between its turns: full of narrow places, of itself and of the plane round it.
func band(r *rand.Rand, n int) orb.MultiPolygon {
	turns, pitch := 0.8+2*r.Float64(), 4+4*r.Float64()
	rough := 0.25 * r.Float64()
	n = max(n/2, int(24*turns))
	var a, b, c, d [3]float64
	for k := range a {
		a[k], b[k], c[k], d[k] = 0.2*r.Float64(), 6*r.Float64(), 0.2*r.Float64(), 6*r.Float64()
	}
	var out, in orb.Ring
	for i := range n {
		t := 2 * math.Pi * turns * float64(i) / float64(n-1)
		low, high := 0.0, 0.5
		for k := range a {
			low += a[k] / 2 * math.Sin(float64(3*k+2)*t+b[k])
			high += c[k] / 2 * math.Sin(float64(4*k+3)*t*0.9+d[k])
		}
		low, high = low+rough*(r.Float64()-0.5), high+rough*(r.Float64()-0.5)
		high = max(high, low+0.05) // never quite through
		base := 5 + pitch*t/(2*math.Pi)
		s, co := math.Sincos(t)
		for to, v := range map[*orb.Ring]float64{&out: base + pitch*high, &in: base + pitch*low} {
			*to = append(*to, orb.Point{geometry.Snap(v * co), geometry.Snap(v * s)})
		}
	}
	slices.Reverse(in)
	out = append(out, in...)
	return geometry.Orient(orb.MultiPolygon{{append(out, out[0])}})
}

// TestResidueAgainstGEOS compares narrow places of random concave outlines, of the opening and of the sheet round it,
// with erosion and dilation by GEOS: what erosion cuts off, in every case; pieces, kinds, reaches and widths.
func TestResidueAgainstGEOS(t *testing.T) {
	const seed, shapes = 31, 48
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	type question struct {
		outline orb.MultiPolygon
		widths  [2]float64 // asked round the outline and inside it
	}
	var questions []question
	for i := range shapes {
		n := 20 + int(580*math.Pow(r.Float64(), 5))
		var mp orb.MultiPolygon
		switch i % 4 {
		case 0:
			mp = patterntest.Blob(r, 10+20*r.Float64(), n, i%8 == 0)
		case 1:
			mp = patterntest.Smooth(r, 10+20*r.Float64(), n)
		default:
			mp = band(r, n)
		}
		if geometry.CheckOutline(mp) != nil {
			continue
		}
		questions = append(questions, question{mp, [2]float64{0.5 + 4*r.Float64(), 0.5 + 4*r.Float64()}})
	}
	questions = geometrytest.Share(t, questions, shapes/3)
	var cases []residueCase
	for _, q := range questions {
		cases = append(cases, newResidueCase(t, q.outline, q.widths[0], false),
			newResidueCase(t, q.outline, q.widths[1], true))
	}
	tally := map[string]int{}
	for i, a := range askMorphology(t, cases) {
		for k, v := range a.Counts {
			tally[k] += v
		}
		for _, d := range a.Differ {
			t.Errorf("case %d (%d points, width %.4f, inside %v): %s", i, geometry.Points(cases[i].Shape),
				cases[i].Width, cases[i].Inside, d)
		}
	}
	for _, k := range slices.Sorted(maps.Keys(tally)) {
		t.Logf("%5d %s", tally[k], k)
	}
	for what, least := range map[string]int{"cases": len(cases), "bridges": len(questions) / 3,
		"tips":                geometrytest.Count(6, shapes),
		"widths by bisection": geometrytest.Count(1, shapes/3)} {
		if tally[what] < least {
			t.Errorf("only %d %s: the comparison says little about them", tally[what], what)
		}
	}
}

// The comparison can fail: without one of the pieces, with one called what it is not, or with another width, it
// differs.
func TestMorphologySeesAFault(t *testing.T) {
	// A C of plane: a bay behind a mouth 2 wide and 6 long; and a tongue of plane 1 wide beside it.
	mp := geometry.Orient(orb.MultiPolygon{{orb.Ring{{0, 0}, {40, 0}, {40, 40}, {21, 40}, {21, 34}, {30, 34}, {30, 10},
		{10, 10}, {10, 34}, {19, 34}, {19, 40}, {5, 40}, {5, 30}, {4, 30}, {4, 40}, {0, 40}, {0, 0}}}})
	right := newResidueCase(t, mp, 3, false)
	if len(right.Ours) != 2 {
		t.Fatalf("%d pieces, want a bridge and a tip", len(right.Ours))
	}
	spoil := func(f func(o []residueOurs) []residueOurs) residueCase {
		c := right
		c.Ours = f(slices.Clone(right.Ours))
		return c
	}
	bridge := slices.IndexFunc(right.Ours, func(o residueOurs) bool { return o.Stretches == 2 })
	cases := []residueCase{right,
		spoil(func(o []residueOurs) []residueOurs { return o[:1] }),
		spoil(func(o []residueOurs) []residueOurs { return o[1:] }),
		spoil(func(o []residueOurs) []residueOurs { o[bridge].Stretches = 1; return o }),
		spoil(func(o []residueOurs) []residueOurs { o[bridge].Width += 0.02; return o }),
		spoil(func(o []residueOurs) []residueOurs { o[0].Reach += 0.5; return o }),
	}
	for i, a := range askMorphology(t, cases) {
		if (len(a.Differ) > 0) != (i > 0) {
			t.Errorf("case %d: %d differences %q", i, len(a.Differ), a.Differ)
		}
	}
}
