package desk

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/pen"
)

// drawingDesk returns a desk with nothing on it and a new silhouette begun.
func drawingDesk(t *testing.T, w, h float64) *Desk {
	t.Helper()
	k := New(draft.Default())
	k.Resize(w, h)
	set(t, k, "open", "", 0)
	return k
}

func set(t *testing.T, k *Desk, name, word string, v float64) {
	t.Helper()
	if err := k.Pen(name, word, v); err != nil {
		t.Fatalf("%s %q %g: %v", name, word, v, err)
	}
}

// drawLine draws freehand with the mouse through points of the plane, mm.
func drawLine(k *Desk, pts ...orb.Point) {
	for i, p := range pts {
		q := k.View.Map().Apply(p)
		q = orb.Point{math.Round(q[0]), math.Round(q[1])} // as a mouse tells it
		if i == 0 {
			k.Pointer("down", 1, q[0], q[1], 0, "mouse")
		}
		k.Pointer("move", 1, q[0], q[1], 0, "mouse")
		if i == len(pts)-1 {
			k.Pointer("up", 1, q[0], q[1], 0, "mouse")
		}
	}
}

// oval returns points of an ellipse, a little more than one turn.
func oval(c orb.Point, a, b float64, n int) []orb.Point {
	var out []orb.Point
	for i := range n {
		s, k := math.Sincos(float64(i) / float64(n-1) * 6.5)
		out = append(out, orb.Point{c[0] + a*k, c[1] + b*s})
	}
	return out
}

func silhouette(t *testing.T, k *Desk) orb.MultiPolygon {
	t.Helper()
	s := k.Session.Draft().Silhouettes
	if len(s) != 1 {
		t.Fatalf("there are %d silhouettes; message %v", len(s), k.Session.message)
	}
	return s[0].Outline
}

// measure returns an outline's area and its box.
func measure(mp orb.MultiPolygon) (area float64, b orb.Bound) { return geometry.Area(mp), mp.Bound() }

// Drawn freehand on a small and a large screen: an oval becomes a silhouette with a motif, an eye is cut, a fin
// joined; each is one entry of the history, and undoing brings the points back as they were.
func TestDrawFreehand(t *testing.T) {
	for _, w := range []float64{390, 900} {
		k := drawingDesk(t, w, w)
		drawLine(k, oval(orb.Point{20, 5}, 27, 38, 60)...)
		body := silhouette(t, k)
		want := math.Pi * 27 * 38
		a, b := measure(body)
		if math.Abs(a-want) > 0.02*want || math.Abs(b.Min[0]+7) > 1 || math.Abs(b.Max[1]-43) > 1 {
			t.Errorf("%g px wide: an oval of %.0f mm² has %.0f, and lies in %v", w, want, a, b)
		}
		if n := len(k.Session.Draft().Motifs); n != 1 {
			t.Errorf("%d motifs", n)
		}
		nodes := len(k.pen.Shape().Rings()[0].Nodes)
		if nodes > 12 {
			t.Errorf("the oval has %d points", nodes)
		}
		set(t, k, "use", pen.Cut, 0)
		drawLine(k, oval(orb.Point{20, 20}, 6, 6, 40)...)
		holed := silhouette(t, k)
		d := geometry.Area(body) - geometry.Area(holed)
		if len(holed[0]) != 2 || math.Abs(d-36*math.Pi) > 0.08*36*math.Pi {
			t.Errorf("%g px wide: an eye of %.1f mm² takes %.1f away, %d rings", w, 36*math.Pi, d, len(holed[0]))
		}
		if now := len(k.pen.Shape().Rings()[0].Nodes); now != nodes {
			t.Errorf("cutting an eye made %d points of %d", now, nodes)
		}
		set(t, k, "use", pen.Add, 0)
		drawLine(k, orb.Point{40, 0}, orb.Point{50, 5}, orb.Point{60, 12}, orb.Point{60, 0}, orb.Point{60, -10},
			orb.Point{50, -5}, orb.Point{40, -2})
		if a := geometry.Area(silhouette(t, k)); a < geometry.Area(holed)+100 {
			t.Errorf("a fin joined, %.0f mm² became %.0f; message %v", geometry.Area(holed), a, k.Session.message)
		}
		for _, want := range []orb.MultiPolygon{holed, body} {
			if err := k.Undo(); err != nil {
				t.Fatal(err)
			}
			if got := silhouette(t, k); !same(got, want) || !same(k.pen.Shape().Outline(), want) {
				t.Errorf("undone, the outline is another")
			}
		}
		if err := k.Undo(); err != nil {
			t.Fatal(err)
		}
		if len(k.Session.Draft().Silhouettes) != 0 || k.pen.ID() != "" || len(k.pen.Shape()) != 0 {
			t.Error("undone, there is a silhouette left")
		}
		if err := k.Redo(); err != nil {
			t.Fatal(err)
		}
		if !same(silhouette(t, k), body) || len(k.pen.Shape().Rings()[0].Nodes) != nodes {
			t.Error("redone, it is another silhouette")
		}
	}
}

func same(a, b orb.MultiPolygon) bool {
	return geometry.SameWithin(geometry.NewShape(a), geometry.NewShape(b), 1e-9)
}

// press presses a place of the plane and lets go.
func press(k *Desk, p orb.Point, mods int) {
	q := k.View.Map().Apply(p)
	k.Pointer("down", 1, q[0], q[1], mods, "mouse")
	k.Pointer("up", 1, q[0], q[1], mods, "mouse")
}

// Escape ends the line, lets go of the points, and leaves; nothing that was drawn is lost.
func TestEscapeLosesNothing(t *testing.T) {
	k := drawingDesk(t, 900, 700)
	set(t, k, "way", pen.Points, 0)
	press(k, orb.Point{0, 0}, 0)
	press(k, orb.Point{30, 0}, 0)
	k.Key("Escape", 0, true, false) // two points enclose nothing
	if !k.pen.IsOpen() || len(k.pen.Line()) != 0 || k.State().Redo == "" {
		t.Fatal("two points, and Escape: the line is not let go, or cannot come back")
	}
	for range 2 {
		if err := k.Redo(); err != nil {
			t.Fatal(err)
		}
	}
	press(k, orb.Point{0, 30}, 0)
	if n := len(k.pen.Line()); n != 3 {
		t.Fatalf("brought back and one more: %d points", n)
	}
	if err := k.Undo(); err != nil || len(k.pen.Line()) != 2 {
		t.Fatalf("undone: %d points, %v", len(k.pen.Line()), err)
	}
	press(k, orb.Point{0, 30}, 0)
	k.Key("Escape", 0, true, false)
	if a := geometry.Area(silhouette(t, k)); math.Abs(a-450) > 1 {
		t.Errorf("a triangle of 450 mm² has %.2f", a)
	}
	k.Key("Escape", 0, true, false)
	if k.pen.IsOpen() {
		t.Error("Escape does not leave")
	}
}

// A half comes with its image, and its points are moved with theirs.
func TestHalf(t *testing.T) {
	k := drawingDesk(t, 900, 700)
	set(t, k, "half", "", 0)
	set(t, k, "axis", "", 12.5)
	var half []orb.Point
	for i := range 50 {
		s, c := math.Sincos(math.Pi * (0.5 - float64(i)/49))
		half = append(half, orb.Point{12.5 + 25*c + 4*math.Abs(s)*c, 40 * s})
	}
	drawLine(k, half...)
	lopsided := func(what string) {
		t.Helper()
		mp := silhouette(t, k)
		m := geometry.MirrorX.Moved(25, 0)
		if !geometry.SameWithin(geometry.NewShape(mp), geometry.NewShape(geometry.Transform(mp, m)), 2e-4) {
			t.Errorf("%s: the halves are not alike", what)
		}
	}
	lopsided("drawn")
	set(t, k, "use", pen.Cut, 0)
	drawLine(k, oval(orb.Point{24, 10}, 4, 4, 30)...)
	if n := len(silhouette(t, k)[0]); n != 3 {
		t.Errorf("an eye and its image: %d rings", n)
	}
	lopsided("with eyes")
	set(t, k, "point", "", 2)
	k.Key("ArrowLeft", 0, true, false)
	k.Key("ArrowUp", 0, true, true)
	k.Key("", 0, false, false)
	lopsided("a point moved")
	if k.Session.history.UndoLabel() != "outline" {
		t.Errorf("moved by keys, Undo would take back %q", k.Session.history.UndoLabel())
	}
}

// The whole list: another like it, mirrored with its ties, undone.
func TestCopyAndMirrorSilhouettes(t *testing.T) {
	k := demo(t)
	d := k.Session.Draft()
	id := d.Silhouettes[0].ID
	if err := k.CopySilhouette(id); err != nil {
		t.Fatal(err)
	}
	s := k.Session.Draft().Silhouettes
	if len(s) != len(d.Silhouettes)+1 || s[len(s)-1].Name == s[0].Name || !same(s[len(s)-1].Outline, s[0].Outline) {
		t.Errorf("the copy is %q of %d", s[len(s)-1].Name, len(s))
	}
	if err := k.MirrorSilhouette(id); err != nil {
		t.Fatal(err)
	}
	now, _ := k.Session.Draft().Silhouette(id)
	if same(now.Outline, d.Silhouettes[0].Outline) || now.Outline.Bound() != d.Silhouettes[0].Outline.Bound() {
		t.Error("mirrored, it is the same, or lies elsewhere")
	}
	if err := k.MirrorSilhouette(id); err != nil {
		t.Fatal(err)
	}
	if again, _ := k.Session.Draft().Silhouette(id); !same(again.Outline, d.Silhouettes[0].Outline) {
		t.Error("mirrored twice, it is another")
	}
	for range 3 {
		if err := k.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if len(k.Session.Draft().Silhouettes) != len(d.Silhouettes) {
		t.Error("undone, there are others")
	}
}
