package desk

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

func ringOutline(out, in float64) orb.MultiPolygon {
	ring := func(r float64, n int) orb.Ring {
		var ring orb.Ring
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			ring = append(ring, orb.Point{r * math.Cos(a), r * math.Sin(a)})
		}
		return append(ring, ring[0])
	}
	hole := ring(in, 48)
	for i, j := 0, len(hole)-1; i < j; i, j = i+1, j-1 {
		hole[i], hole[j] = hole[j], hole[i]
	}
	return orb.MultiPolygon{{ring(out, 48), hole}}
}

// A press inside a ring's opening sets a tie of the silhouette across it, as wide as the sheet asks, and the island
// is held in every copy; the tie slides along under the hand, has its width typed, and is taken out again.
func TestTyingByHand(t *testing.T) {
	k := benchWith(t, "p4", ringOutline(30, 20), orb.Point{60, 60}, 0)
	if err := k.Do(pattern.Command{Name: "place", ID: "m", Values: map[string]float64{"scale": 0.8}}); err != nil {
		t.Fatal(err)
	}
	if len(k.Session.Live().Islands) != 1 {
		t.Fatalf("%d islands", len(k.Session.Live().Islands))
	}
	if err := k.Act("tying"); err != nil {
		t.Fatal(err)
	}
	at := func(angle float64) orb.Point { // in the opening, seen from the ring's middle
		s, c := math.Sincos(angle)
		return k.View.Map().After(k.Session.Draft().FieldMap()).Apply(orb.Point{60 + 20*c, 60 + 20*s})
	}
	p := at(0.5)
	k.Pointer("down", 1, p[0], p[1], 0, "mouse")
	for i := 1; i <= 10; i++ {
		q := at(0.5 + 0.1*float64(i))
		k.Pointer("move", 1, q[0], q[1], 0, "mouse")
	}
	q := at(1.5)
	k.Pointer("up", 1, q[0], q[1], 0, "mouse")
	ties := k.Session.Draft().Ties
	if len(ties) != 1 || ties[0].Silhouette != "s" {
		t.Fatalf("ties %+v", ties)
	}
	mid := orb.Point{(ties[0].From[0] + ties[0].To[0]) / 2, (ties[0].From[1] + ties[0].To[1]) / 2}
	if a := math.Atan2(mid[1], mid[0]); math.Abs(a-1.5) > 0.1 {
		t.Errorf("the tie stands at %g rad, the hand let go at 1.5", a)
	}
	if s := k.State().Tie; !s.Chosen || math.Abs(s.Width-3.05) > 1e-3 {
		t.Errorf("on the sheet it is %g mm wide: %+v", s.Width, s)
	}
	if len(k.Session.Live().Islands) != 0 {
		t.Errorf("%d islands are left", len(k.Session.Live().Islands))
	}
	if err := k.Do(pattern.Command{Name: "retie", Values: map[string]float64{"width": 5}}); err != nil {
		t.Fatal(err)
	}
	if s := k.State().Tie; math.Abs(s.Width-5) > 1e-3 {
		t.Errorf("typed 5 mm, it is %g", s.Width)
	}
	before := k.Session.Draft().Ties[0]
	moved := k.Key("ArrowRight", 0, true, false) && k.Key("ArrowRight", 0, false, false)
	if !moved || k.Session.Draft().Ties[0] == before {
		t.Error("an arrow key does not slide it")
	}
	// A press on it takes it up again; Delete takes it out; two steps of undo for the two gestures before.
	k.Key("Escape", 0, true, false)
	if k.State().Tie.Chosen {
		t.Error("Escape does not let go")
	}
	here := k.Ties()[0].Corners
	k.Pointer("down", 1, (here[0][0]+here[2][0])/2, (here[0][1]+here[2][1])/2, 0, "mouse")
	k.Pointer("up", 1, (here[0][0]+here[2][0])/2, (here[0][1]+here[2][1])/2, 0, "mouse")
	if !k.State().Tie.Chosen || len(k.Session.Draft().Ties) != 1 {
		t.Fatalf("not taken up: %+v, %d ties", k.State().Tie, len(k.Session.Draft().Ties))
	}
	if !k.Key("Delete", 0, true, false) || len(k.Session.Draft().Ties) != 0 || len(k.Session.Live().Islands) != 1 {
		t.Error("Delete does not take it out")
	}
	for range 4 { // taken out, slid, widened, set
		if err := k.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if len(k.Session.Draft().Ties) != 0 {
		t.Error("four steps back there was no tie")
	}
	p = k.View.Map().After(k.Session.Draft().FieldMap()).Apply(orb.Point{60, 60})
	k.Pointer("down", 1, p[0], p[1], 0, "mouse")
	k.Pointer("up", 1, p[0], p[1], 0, "mouse")
	if len(k.Session.Draft().Ties) != 0 {
		t.Error("a press outside every opening sets a tie")
	}
}

// Where copies run into each other the tie goes on to the far side of the last, and belongs to the field.
func TestTieAcrossSeveralCopies(t *testing.T) {
	bar := orb.MultiPolygon{{{{-30, -5}, {30, -5}, {30, 5}, {-30, 5}, {-30, -5}}}}
	k := benchWith(t, "p1", bar, orb.Point{60, 60}, 0)
	d := k.Session.Draft()
	second := draft.Motif{ID: "n", Silhouette: "s", At: [2]float64{60, 68}, Scale: 1}
	d.Motifs = append(append([]draft.Motif(nil), d.Motifs...), second)
	if err := k.Open(d); err != nil { // two bars that overlap by 2 mm: one opening 18 mm high
		t.Fatal(err)
	}
	k.Resize(1000, 1000)
	tie, err := k.ties.Through(k.Session.Draft().FieldMap().Apply(orb.Point{60, 57}), 3)
	if err != nil {
		t.Fatal(err)
	}
	low, high := math.Min(tie.From[1], tie.To[1]), math.Max(tie.From[1], tie.To[1])
	if tie.Silhouette != "" || math.Abs(low-53.5) > 0.01 || math.Abs(high-74.5) > 0.01 {
		t.Errorf("%+v: want a tie of the field from 53.5 to 74.5", tie)
	}
}
