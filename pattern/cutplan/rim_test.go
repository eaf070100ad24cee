package cutplan

import (
	"math"
	"strings"
	"testing"

	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
)

// The sheet's outline is widened by the kerf, but not where it is the edge of the bed or of the stock; where it is not,
// openings that run out over it still lose half the kerf.
func TestSheetAsLargeAsItsBed(t *testing.T) {
	for _, c := range []struct {
		name  string
		bed   *draft.Bed
		stock bool
		wide  bool
	}{
		{"no bed", nil, false, true},
		{"a larger bed", &draft.Bed{Width: 300, Height: 300}, false, true},
		{"a bed of its size", &draft.Bed{Width: 220, Height: 180}, false, false},
		{"that bed the other way round", &draft.Bed{Width: 180, Height: 220}, false, false},
		{"a bed of which one side is said", &draft.Bed{Width: 180}, false, false},
		{"a bed too small anyway", &draft.Bed{Width: 100, Height: 100}, false, true},
		{"the stock's edge", nil, true, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := plantest.Rings()
			d.Sheet.Kerf, d.Sheet.Bed = 0.2, c.bed
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			j, err := ForLayout(l, Options{StockEdge: c.stock}, curve.Arc)
			if err != nil {
				t.Fatal(err)
			}
			want := 220.0
			if c.wide {
				want += 0.2
			}
			rim := j.Contours[len(j.Contours)-1]
			box := rim.Path.Under(rim.Map).Bound()
			if got := box.Max[0] - box.Min[0]; rim.Class != ClassSheet || math.Abs(got-want) > 1e-9 ||
				math.Abs(j.Page.Max[0]-j.Page.Min[0]-want) > 1e-9 {
				t.Errorf("the outline is %g mm wide, the page %v; want %g", got, j.Page, want)
			}
			if told := strings.Contains(strings.Join(j.Made.Notes, " "), "drawn to size"); told == c.wide {
				t.Errorf("notes %q", j.Made.Notes)
			}
		})
	}
}

// What is not cut as it is drawn is told: a dumb-bell whose neck the kerf takes, and openings so near to each other
// that curves might meet.
func TestWhatIsNotCutAsDrawnIsTold(t *testing.T) {
	d := plantest.Rings()
	d.Silhouettes = d.Silhouettes[1:]
	d.Motifs = d.Motifs[1:2]
	d.Silhouettes[0].Outline[0][0] = d.Silhouettes[0].Outline[0][0][:0]
	for _, p := range [][2]float64{{-5, -2}, {-1, -2}, {-1, -0.05}, {1, -0.05}, {1, -2}, {5, -2}, {5, 2}, {1, 2},
		{1, 0.05}, {-1, 0.05}, {-1, 2}, {-5, 2}, {-5, -2}} {
		d.Silhouettes[0].Outline[0][0] = append(d.Silhouettes[0].Outline[0][0], p)
	}
	d.Sheet.Kerf = 0.2
	j, _ := built(t, d, Options{})
	if told := strings.Join(j.Made.Notes, " "); !strings.Contains(told, "parted at a neck narrower than the kerf") {
		t.Errorf("a neck of 0.1 mm: notes %q", told)
	}
	if n := 2 * j.Made.Openings; j.Made.Piercings != n+1 {
		t.Errorf("%d contours, want two for each of %d openings and the sheet", j.Made.Piercings, j.Made.Openings)
	}

	d = plantest.Rings()
	d.Silhouettes, d.Motifs = d.Silhouettes[:1], d.Motifs[:1]
	d.Sheet.Kerf, d.Repeat.A = 0, 36.02
	j, _ = built(t, d, Options{})
	if told := strings.Join(j.Made.Notes, " "); !strings.Contains(told, "straight edges") {
		t.Errorf("rings 0.02 mm apart: notes %q", told)
	}
}
