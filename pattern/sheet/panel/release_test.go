package panel

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/whole"
)

// Rectangles and discs of known width, area and perimeter, beside sheets of all thicknesses: those that fall short of
// IPC-7525's ratios are warned of, at each place, by the check of the panel and by the look at it while dragging.
func TestRelease(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 3))
	held, free := 0, 0
	for range 60 {
		thick := 0.3 + 3*rng.Float64()
		width := thick * (1.2 + 2*rng.Float64())
		length := width * math.Exp(3*rng.Float64())
		outline := orb.MultiPolygon{{{{0, 0}, {length, 0}, {length, width}, {0, width}, {0, 0}}}}
		area, around := length*width, 2*(length+width)
		if rng.IntN(3) == 0 {
			const n = 720
			ring := make(orb.Ring, n+1)
			for k := range ring {
				ring[k] = orb.Point{width / 2 * math.Cos(2*math.Pi*float64(k%n)/n),
					width / 2 * math.Sin(2*math.Pi*float64(k%n)/n)}
			}
			outline = orb.MultiPolygon{{ring}}
			area, around = math.Pi*width*width/4, math.Pi*width
		}
		byWidth, byArea := width/thick-1.5, area/around/thick-0.66
		if math.Abs(byWidth) < 1e-3 || math.Abs(byArea) < 1e-3 {
			continue // too near to call
		}
		want := 0
		d := draft.Default()
		d.Panel, d.Field.Edge = draft.Panel{Width: 600, Height: 300}, draft.Whole // some copy always fits
		d.Field.Origin = [2]float64{300, 150}
		d.Repeat = draft.Repeat{Group: "p2", A: length + 40, B: 40, Gamma: 90}
		d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "s", Outline: outline}}
		d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{4, 6}, Scale: 1}}
		d.Sheet.Thickness, d.Sheet.Opening, d.Sheet.Bridge, d.Sheet.Kerf = thick, 0.2, 0.5, 0.05
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		copies, err := l.Copies()
		if err != nil {
			t.Fatal(err)
		}
		if byWidth < 0 || byArea < 0 {
			want = len(copies)
			held++
		} else {
			free++
		}

		report, err := Check(l)
		if err != nil {
			t.Fatal(err)
		}
		if got := released(report.Totals); got != want {
			t.Errorf("%.2f × %.2f mm through %.2f mm: %d of %d openings may hold paste, not %d", length, width, thick,
				got, len(copies), want)
		}
		if !report.Sound {
			t.Errorf("a warning makes the sheet unsound: %v", report.Problems[0].Text)
		}
		var looked whole.Panel
		if seen, ok := looked.Look(l, false); !ok || released(seen.Totals) != want {
			t.Errorf("while dragging %d are seen, not %d (looked: %v)", released(seen.Totals), want, ok)
		}
	}
	if held < 10 || free < 10 {
		t.Errorf("%d hold paste and %d let it go: too few of one", held, free)
	}
}

func released(totals []sheet.Total) (n int) {
	for _, row := range totals {
		if row.Kind == sheet.Release && row.Severity == sheet.Warning {
			n += row.Count
		}
	}
	return n
}
