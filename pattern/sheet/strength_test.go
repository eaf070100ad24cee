package sheet

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

func rect(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

func stripsOf(t *testing.T, outline orb.MultiPolygon, a, b float64) []Strip {
	t.Helper()
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p1", A: a, B: b, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: outline}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return Strips(l)
}

// Slots 60 mm long with 4 mm of sheet between them: one strip, clamped at both ends, and the deflection by hand.
func TestStripBetweenTwoSlots(t *testing.T) {
	got := stripsOf(t, orb.MultiPolygon{{rect(0, 0, 60, 20)}}, 120, 24)
	if len(got) != 1 {
		t.Fatalf("%d strips: %+v", len(got), got)
	}
	s := got[0]
	if s.Free || math.Abs(s.Width-4) > 0.05 || math.Abs(s.Length-60) > 3 {
		t.Errorf("%+v", s)
	}
	i := 0.35 * s.Width * s.Width * s.Width / 12
	if want := s.Length * s.Length * s.Length / (192 * 4500 * i); math.Abs(*s.InPlane-want) > 1e-9*want {
		t.Errorf("%g mm in its plane, want %g", *s.InPlane, want)
	}
	j := s.Width * 0.35 * 0.35 * 0.35 / 12
	if want := s.Length * s.Length * s.Length / (192 * 4500 * j); math.Abs(*s.Lifted-want) > 1e-9*want {
		t.Errorf("%g mm lifted, want %g", *s.Lifted, want)
	}
}

// A tongue 30 mm long and 3 mm wide in an opening of 40 × 20 mm hangs from one end.
func TestTongueIsHeldAtOneEnd(t *testing.T) {
	u := orb.Ring{{0, 0}, {40, 0}, {40, 20}, {0, 20}, {0, 11.5}, {30, 11.5}, {30, 8.5}, {0, 8.5}, {0, 0}}
	got := stripsOf(t, orb.MultiPolygon{{u}}, 150, 150)
	if len(got) != 1 || !got[0].Free || math.Abs(got[0].Length-30) > 2.5 || math.Abs(got[0].Width-3) > 0.05 {
		t.Fatalf("%+v", got)
	}
	if plain := bend(30, 0.35, 3, 4500, true) / bend(30, 0.35, 3, 4500, false); plain != 64 {
		t.Errorf("held at one end it bends %g times as far, want 64", plain)
	}
}

// Short, thick bridges are no strips, and discs have none.
func TestShortBridgesAreNotTold(t *testing.T) {
	if got := stripsOf(t, orb.MultiPolygon{{rect(0, 0, 10, 10)}}, 14, 14); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	var disc orb.Ring
	for i := range 73 {
		a := 2 * math.Pi * float64(i%72) / 72
		disc = append(disc, orb.Point{15 * math.Cos(a), 15 * math.Sin(a)})
	}
	if got := stripsOf(t, orb.MultiPolygon{{disc}}, 33, 33); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}

// The weakest comes first: of two tongues of one width the longer, of two of one length the narrower.
func TestWeakestFirst(t *testing.T) {
	comb := orb.Ring{{0, 0}, {60, 0}, {60, 60}, {0, 60}, {0, 51.5}, {25, 51.5}, {25, 48.5}, {0, 48.5}, {0, 31.5},
		{40, 31.5}, {40, 28.5}, {0, 28.5}, {0, 14}, {40, 14}, {40, 12}, {0, 12}, {0, 0}}
	got := stripsOf(t, orb.MultiPolygon{{comb}}, 200, 200)
	if len(got) != 3 {
		t.Fatalf("%d strips: %+v", len(got), got)
	}
	for i, want := range [][2]float64{{40, 2}, {40, 3}, {25, 3}} {
		if math.Abs(got[i].Length-want[0]) > 3 || math.Abs(got[i].Width-want[1]) > 0.1 {
			t.Errorf("%d: %+v, want %v", i, got[i], want)
		}
	}
}

func TestModulusByName(t *testing.T) {
	for name, want := range map[string]float64{"polyester film": 4500, "Acrylic": 3200, "birch ply": 8000,
		"moon rock": 0} {
		t.Run(name, func(t *testing.T) {
			if got, ok := Modulus(name); got != want || ok != (want > 0) {
				t.Errorf("%g, %v", got, ok)
			}
		})
	}
}
