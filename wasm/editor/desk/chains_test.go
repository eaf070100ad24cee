package desk

import (
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/view"
)

// chains is how many random chains of commands are gone through; a campaign asks for hundreds.
var chains = flag.Int("chains", geometrytest.Count(1, 2), "random chains of commands with extreme values")

// extreme returns a number as a person's slip, or worse, would give it.
func extreme(r *rand.Rand) float64 {
	v := math.Pow(10, 14*r.Float64()-7)
	switch r.IntN(8) {
	case 0:
		odd := []float64{0, -1, 1e-4, 0.5, 1, 90, 5, 175, 1e5, 1e6, 1000, 0.001, 20000, math.Inf(1), math.NaN(), 1e300}
		return odd[r.IntN(len(odd))]
	case 1:
		v = -v
	}
	return v
}

// about returns a number of the size of another.
func about(r *rand.Rand, v float64) float64 { return v * math.Exp(r.NormFloat64()) }

// anyCommand returns a command to a draft, its numbers now sensible, now extreme.
func anyCommand(r *rand.Rand, d draft.Draft) pattern.Command {
	num := func(was float64) float64 {
		if r.IntN(3) == 0 {
			return extreme(r)
		}
		return about(r, was)
	}
	motif := func() string {
		if len(d.Motifs) == 0 {
			return ""
		}
		return d.Motifs[r.IntN(len(d.Motifs))].ID
	}
	sil := func() string {
		if len(d.Silhouettes) == 0 {
			return ""
		}
		return d.Silhouettes[r.IntN(len(d.Silhouettes))].ID
	}
	some := func(m map[string]float64) map[string]float64 {
		for k := range m {
			if r.IntN(3) == 0 {
				delete(m, k)
			}
		}
		return m
	}
	switch r.IntN(16) {
	case 0:
		return pattern.Command{Name: "group", Text: symmetry.Groups()[r.IntN(17)].Symbol}
	case 1, 2:
		return pattern.Command{Name: "cell", Text: []string{"", "area", "proportion"}[r.IntN(3)],
			Values: some(map[string]float64{"a": num(d.Repeat.A), "b": num(d.Repeat.B), "gamma": num(90)})}
	case 3:
		return pattern.Command{Name: "lay", Text: []string{"straight", "half-drop", "brick"}[r.IntN(3)],
			Values: some(map[string]float64{"width": num(100), "height": num(100), "drop": num(50), "step": num(50)})}
	case 4:
		return pattern.Command{Name: "repeats",
			Values: some(map[string]float64{"across": math.Floor(num(5)), "down": math.Floor(num(5))})}
	case 5:
		return pattern.Command{Name: "panel",
			Values: some(map[string]float64{"width": num(d.Panel.Width), "height": num(d.Panel.Height)})}
	case 6:
		return pattern.Command{Name: "field",
			Values: some(map[string]float64{
				"margin": num(d.Field.Margin + 1), "x": num(300), "y": num(300), "turn": num(30)})}
	case 7:
		return pattern.Command{Name: "edge", Text: []string{"crop", "whole", "touching"}[r.IntN(3)]}
	case 8:
		return pattern.Command{Name: "sheet",
			Values: some(map[string]float64{
				"bridge": num(3), "opening": num(1.5), "kerf": num(0.2), "thickness": num(.3)})}
	case 9, 10:
		return pattern.Command{Name: "place", ID: motif(),
			Values: some(map[string]float64{"x": num(100), "y": num(100), "turn": num(30), "scale": num(1)})}
	case 11:
		return pattern.Command{Name: "size", ID: []string{"", motif()}[r.IntN(2)],
			Values: map[string]float64{"factor": num(1)}}
	case 12, 13:
		c := pattern.Command{Name: "motif", ID: motif(), Text: sil(), Flag: r.IntN(2) == 0,
			Values: some(map[string]float64{"x": num(100), "y": num(100), "turn": num(30), "scale": num(1)})}
		if r.IntN(2) == 0 {
			c.ID = ""
		}
		return c
	case 14:
		id := ""
		if r.IntN(2) == 0 {
			id = sil()
		}
		return pattern.Command{Name: "tie", ID: id,
			Values: map[string]float64{
				"fromX": num(10), "fromY": num(10), "toX": num(100), "toY": num(100), "width": num(3)}}
	}
	o := patterntest.Blob(r, math.Abs(about(r, 40)), 8+r.IntN(400), r.IntN(2) == 0)
	return pattern.Command{Name: "draw", ID: "place", Outline: o,
		Values: map[string]float64{"x": num(50), "y": num(50)}}
}

// Whatever chain of commands is given, however extreme its numbers: each is done, or refused in a sentence and
// without a trace, and what is laid out, shown and looked at afterwards stays within its limits, by counting.
func TestRandomChainsOfCommands(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	done, refused := 0, 0
	first := r.IntN(2)
	for chain := range *chains {
		k := New(patterntest.Demo(t))
		if (first+chain)%2 == 1 {
			k = New(patterntest.Draft(r, symmetry.Groups()[r.IntN(17)].Symbol))
		}
		k.Resize(900, 700)
		for range 40 {
			before := k.Session.Draft().Encode()
			c := anyCommand(r, k.Session.Draft())
			if err := k.Do(c); err != nil {
				refused++
				if err.Error() == "" || string(k.Session.Draft().Encode()) != string(before) {
					t.Fatalf("%+v is refused with %q, and the draft is another", c, err)
				}
				continue
			}
			done++
			if err := k.Session.Draft().Check(); err != nil {
				t.Fatalf("%+v makes a draft that is not valid: %v", c, err)
			}
			withinLimits(t, k, c)
		}
	}
	if done == 0 || refused == 0 {
		t.Errorf("%d commands were done, %d refused", done, refused)
	}
	t.Logf("%d commands done, %d refused", done, refused)
}

// maxOverOnePlace is how many copies a layout lets lie over one place, by its own estimate (pattern's maxCrowd).
const maxOverOnePlace = 150_000

// withinLimits sees that a desk's field is laid out, and counts what it costs to show and to look at.
func withinLimits(t *testing.T, k *Desk, c pattern.Command) {
	t.Helper()
	l := k.Session.Layout()
	if l == nil {
		t.Fatalf("after %+v the field is not laid out: %v", c, k.Session.refusal)
	}
	all, err := l.Copies()
	if err != nil || len(all) > pattern.MaxCopies {
		t.Fatalf("after %+v there are %d copies: %v", c, len(all), err)
	}
	k.View.Zoom = view.MinZoom
	if n := len(k.Session.Visible()); n > pattern.MaxCopies {
		t.Errorf("after %+v %d copies are drawn", c, n)
	}
	if n := len(k.Ties()); n > pattern.MaxTieCopies {
		t.Errorf("after %+v %d ties are drawn", c, n)
	}
	// What a pointer meets: by the estimate that refuses crowds, its own window aside.
	visits, reach := 0, copies.GrabPX/view.MaxZoom
	middle := k.Session.Draft().FieldMap().Rigid().Apply(k.Session.Draft().PanelBound().Center())
	for _, o := range l.Orbits {
		for _, image := range o.Images {
			window := orb.Bound{Min: middle, Max: middle}.Pad(reach)
			l.Cells(window, image.Bound(), func(int, int) bool { visits++; return true })
		}
	}
	if visits > maxOverOnePlace {
		t.Errorf("after %+v %d copies lie over one place", c, visits)
	}
	if _, err := json.Marshal(k.State()); err != nil {
		t.Fatalf("after %+v the view state cannot be written: %v", c, err)
	}
	k.fit()
}
