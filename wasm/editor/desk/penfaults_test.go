package desk

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// drawnOn is a desk with an outline open for drawing, points to be moved, cut at a scale.
func drawnOn(t *testing.T, mp orb.MultiPolygon, scale float64) *Desk {
	t.Helper()
	k := benchWith(t, "p1", mp, orb.Point{60, 60}, 0)
	d := k.Session.Draft()
	larger := pattern.Command{Name: "place", ID: d.Motifs[0].ID, Values: map[string]float64{"scale": scale}}
	if err := k.Do(larger); err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{{"open", d.Silhouettes[0].ID}, {"way", "move"}} {
		if err := k.Pen(c[0], c[1], 0); err != nil {
			t.Fatal(err)
		}
	}
	return k
}

func faultsSaid(k *Desk) string {
	var all []string
	for _, f := range k.State().Drawn {
		all = append(all, f.Severity+": "+f.Text)
	}
	return strings.Join(all, " | ")
}

// While a point is moved the faults of the outline follow it, and are those that stand there when it is let go of.
func TestFaultsFollowThePoint(t *testing.T) {
	square := orb.MultiPolygon{{{{0, 0}, {40, 0}, {40, 40}, {20, 40}, {0, 40}, {0, 0}}}}
	k := drawnOn(t, square, 1)
	if s := faultsSaid(k); s != "" || len(k.DrawnMarks()) > 0 {
		t.Fatalf("a square: %q", s)
	}
	from := k.View.Map().Apply(orb.Point{20, 40})
	to := k.View.Map().Apply(orb.Point{20, 0.8})
	k.Pointer("down", 1, from[0], from[1], 0, "mouse")
	for i := range 8 {
		f := float64(i+1) / 8
		k.Pointer("move", 1, from[0]+f*(to[0]-from[0]), from[1]+f*(to[1]-from[1]), 0, "mouse")
	}
	held := faultsSaid(k)
	if !strings.Contains(held, "fault: Opening narrows to 0.8") || len(k.DrawnMarks()) == 0 ||
		len(k.drawnLabels()) == 0 {
		t.Errorf("in the hand a waist of 0.8 mm is told as %q", held)
	}
	past := k.View.Map().Apply(orb.Point{20, -6})
	k.Pointer("move", 1, past[0], past[1], 0, "mouse")
	if s := faultsSaid(k); !strings.Contains(s, "crosses itself") || k.DrawnMarks()[0].Sign != sheet.SignCrossed {
		t.Errorf("pulled through the other side: %q", s)
	} else if at := k.DrawnMarks()[0].At; math.Abs(k.View.Panel(at[0], at[1])[1]) > 0.1 {
		t.Errorf("the crossing is ringed at %v", k.View.Panel(at[0], at[1]))
	}
	k.Pointer("move", 1, to[0], to[1], 0, "mouse")
	k.Pointer("up", 1, to[0], to[1], 0, "mouse")
	if s := faultsSaid(k); s != held {
		t.Errorf("in the hand it was %q, let go of it is %q", held, s)
	}
	if err := k.Undo(); err != nil || faultsSaid(k) != "" {
		t.Errorf("one step back: %q, %v", faultsSaid(k), err)
	}
}

// The same outline at twice the size has a waist wide enough; a hole is an island until a tie holds it.
func TestFaultsOfADrawing(t *testing.T) {
	waist := orb.MultiPolygon{{{{0, 0}, {20, 0}, {20, 9}, {30, 9}, {30, 0}, {50, 0}, {50, 20}, {30, 20}, {30, 10},
		{20, 10}, {20, 20}, {0, 20}, {0, 0}}}}
	if s := faultsSaid(drawnOn(t, waist, 1)); !strings.Contains(s, "Opening narrows to 1 mm") {
		t.Errorf("a waist of 1 mm: %q", s)
	}
	if s := faultsSaid(drawnOn(t, waist, 2)); s != "" {
		t.Errorf("a waist of 1 mm, twice the size: %q", s)
	}

	ring := orb.MultiPolygon{{{{0, 0}, {40, 0}, {40, 40}, {0, 40}, {0, 0}},
		{{10, 10}, {10, 30}, {30, 30}, {30, 10}, {10, 10}}}}
	k := drawnOn(t, ring, 1)
	if s := faultsSaid(k); !strings.Contains(s, "Island of 400 mm²") {
		t.Errorf("a ring: %q", s)
	}
	id := k.Session.Draft().Silhouettes[0].ID
	tie := draft.Tie{Silhouette: id, From: orb.Point{-1, 20}, To: orb.Point{11, 20}, Width: 4}
	if err := k.Do(pattern.Command{Name: "ties", Ties: []draft.Tie{tie}}); err != nil {
		t.Fatal(err)
	}
	if s := faultsSaid(k); strings.Contains(s, "Island") {
		t.Errorf("a ring with a tie: %q", s)
	}
}

// A line in hand shows what is wrong with it before it is closed: where it crosses itself, where it comes too near
// itself, and a corner that is too sharp; and a plain line shows nothing.
func TestFaultsOfALine(t *testing.T) {
	begin := func(way string) *Desk {
		k := benchWith(t, "p1", leaning, orb.Point{60, 60}, 0)
		for _, c := range [][2]string{{"open", ""}, {"way", way}} {
			if err := k.Pen(c[0], c[1], 0); err != nil {
				t.Fatal(err)
			}
		}
		return k
	}
	stroke := func(places ...orb.Point) (*Desk, string) {
		k := begin("free")
		at := k.View.Map().Apply(places[0])
		k.Pointer("down", 1, at[0], at[1], 0, "mouse")
		for i := 1; i < len(places); i++ {
			for s := range 20 {
				f := float64(s+1) / 20
				p, q := places[i-1], places[i]
				at = k.View.Map().Apply(orb.Point{p[0] + f*(q[0]-p[0]), p[1] + f*(q[1]-p[1])})
				k.Pointer("move", 1, at[0], at[1], 0, "mouse")
			}
		}
		return k, faultsSaid(k)
	}
	round := []orb.Point{{-20, -20}, {20, -20}, {20, 20}, {-20, 20}, {-20, -19}}
	if _, s := stroke(round...); s != "" {
		t.Errorf("a square that comes round: %q", s)
	}
	loop := []orb.Point{{-30, 0}, {30, 0}, {30, 20}, {0, 20}, {0, -20}}
	if k, s := stroke(loop...); !strings.Contains(s, "crosses itself") ||
		k.DrawnMarks()[0].Sign != sheet.SignCrossed {
		t.Errorf("a line that crosses itself: %q", s)
	}
	// Round to the left of the way: what lies between is inside, an opening; round to the right, sheet.
	thin := []orb.Point{{-40, 0}, {30, 0}, {30, 12}, {0, 12}, {0, 1}, {-20, 1}}
	if _, s := stroke(thin...); !strings.Contains(s, "Opening narrows to 1 mm") {
		t.Errorf("a line 1 mm from itself within: %q", s)
	}
	notch := []orb.Point{{-30, -20}, {30, -20}, {30, 0}, {-20, 0}, {-20, 2}, {30, 2}}
	if _, s := stroke(notch...); !strings.Contains(s, "Bridge of 2 mm") {
		t.Errorf("a line 2 mm from itself, sheet between: %q", s)
	}
	wider := []orb.Point{{-30, -20}, {30, -20}, {30, 0}, {-20, 0}, {-20, 4}, {30, 4}}
	if _, s := stroke(wider...); s != "" {
		t.Errorf("a line 4 mm from itself, sheet between: %q", s)
	}

	k := begin("points")
	for _, p := range []orb.Point{{-30, 0}, {30, 0}, {-28, 8}} {
		press(k, p, 0)
	}
	if s := faultsSaid(k); !strings.Contains(s, "warning: A corner of 8° is too sharp: paste") {
		t.Errorf("a corner of 8°: %q", s)
	}
	k.Key("Escape", 0, true, false)
	if s := faultsSaid(k); strings.Contains(s, "corner of") {
		t.Errorf("the line is gone, and its corner is told: %q", s)
	}
}

// BenchmarkPointMoved is one move of a point of the demonstration's heron, with its faults: what a frame does.
func BenchmarkPointMoved(b *testing.B) {
	k := demo(b)
	if err := k.Pen("open", "heron", 0); err != nil {
		b.Fatal(err)
	}
	at := k.View.Map().Apply(k.pen.Shape().Rings()[0].Nodes[5].At)
	k.Pointer("down", 1, at[0], at[1], 0, "mouse")
	for i := 0; b.Loop(); i++ {
		k.Pointer("move", 1, at[0]+5+float64(i%7), at[1]+5, 0, "mouse")
	}
}
