package paint

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"openwork/pattern/draft"
)

// A layer that reflects a quarter has K/S = (1 − ¼)² ÷ ½ = 1.125, by hand, and reflects a quarter by it.
func TestKubelkaMunk(t *testing.T) {
	for _, c := range [][2]float64{{0.25, 1.125}, {0.5, 0.25}, {0.1, 4.05}} {
		p := pigment{c[1], c[1], c[1]}
		if got := p.light()[1]; math.Abs(got-c[0]) > 1e-12 {
			t.Errorf("K/S of %g reflects %g, not %g", c[1], got, c[0])
		}
	}
	for _, hex := range []string{"#17564a", "#c9962f", "#8fb3c7"} {
		if got := pigmentOf(hex).hex(); got != hex {
			t.Errorf("%s comes back as %s", hex, got)
		}
	}
	// What is known of paints: black darkens white strongly, and blue and yellow make green, not grey.
	grey := mixed([]pigment{pigmentOf("#ffffff"), pigmentOf("#101010")}, []int{1, 1}, []int{0, 1}).lab()
	if grey.L > 30 {
		t.Errorf("black and white in equal parts have L* %.0f", grey.L)
	}
	green := mixed([]pigment{pigmentOf("#f2d21b"), pigmentOf("#1c4fa0")}, []int{4, 1}, []int{0, 1}).lab()
	if green.A > -5 {
		t.Errorf("yellow and blue make %+v", green)
	}
}

func TestMatches(t *testing.T) {
	tubes := []draft.Swatch{{Name: "Titanium white", Colour: "#f7f6f2"}, {Name: "Yellow ochre", Colour: "#c08a2e"},
		{Name: "Burnt sienna", Colour: "#8a3b1c"}, {Name: "Ultramarine", Colour: "#22308c"},
		{Name: "Phthalo green", Colour: "#0e4a3c"}, {Name: "Ivory black", Colour: "#1d1b1a"}}
	m, err := MatchOf("#c08a2e", tubes)
	if err != nil || m.Mix != nil || m.Tube.Tubes[0] != "Yellow ochre" || m.Tube.Apart != 0 {
		t.Errorf("%v, %+v", err, m)
	}

	const seed = 175
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var paints []pigment
	for _, tube := range tubes {
		paints = append(paints, pigmentOf(tube.Colour))
	}
	for range 20 {
		which := r.Perm(len(tubes))[:2+r.IntN(2)]
		parts := []int{1 + r.IntN(2), 1, 1}[:len(which)]
		wanted := mixed(paints, parts, which).hex()
		m, err := MatchOf(wanted, tubes)
		if err != nil {
			t.Fatal(err)
		}
		nearest := math.Inf(1)
		for _, p := range paints {
			nearest = min(nearest, Difference(pigmentOf(wanted).lab(), p.lab()))
		}
		if math.Abs(m.Tube.Apart-nearest) > 1e-9 {
			t.Errorf("%s: the nearest tube is %.3f apart, by all of them %.3f", wanted, m.Tube.Apart, nearest)
		}
		best := m.Tube
		if m.Mix != nil {
			best = *m.Mix
		}
		// The very mix is among those that are tried; one of fewer tubes may stand for it where it is hardly worse.
		if best.Apart > 2.1 {
			t.Errorf("%s, made of %v in parts %v, is matched by %+v, %.2f apart", wanted, which, parts, best,
				best.Apart)
		}
		if !slices.IsSortedFunc(best.Parts, func(a, b int) int { return b - a }) {
			t.Errorf("%+v", best)
		}
	}

	for _, c := range []struct {
		colour string
		tubes  []draft.Swatch
		want   string
	}{{"teal", tubes, "is not a colour"}, {"#17564a", nil, "there are no tubes"},
		{"#17564a", make([]draft.Swatch, MaxTubes+1), "among 60 at most"},
		{"#17564a", []draft.Swatch{{Name: "x", Colour: "red"}}, `the colour of "x" is "red"`}} {
		if _, err := MatchOf(c.colour, c.tubes); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %s", err, c.want)
		}
	}
}
