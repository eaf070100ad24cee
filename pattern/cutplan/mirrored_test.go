package cutplan

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
)

// A mirrored plan cuts the mirror image of what is cut otherwise, in the same order from the same places; its words are
// moved and not mirrored, it says what it is, and its checksum is another.
func TestMirrored(t *testing.T) {
	for _, d := range append(plantest.RandomDrafts(t, 78, 2), plantest.Rings()) {
		d.Title = "FLR"
		o := Defaults()
		o.LeadIn = 1
		was, _ := built(t, d, o)
		o.Mirrored = true
		p, _ := built(t, d, o)
		if was.Page != p.Page || was.Made.Checksum == p.Made.Checksum || was.Made.CutLength != p.Made.CutLength {
			t.Errorf("%s: page %v and %v, checksum %s and %s, %g and %g mm", d.Title, was.Page, p.Page,
				was.Made.Checksum, p.Made.Checksum, was.Made.CutLength, p.Made.CutLength)
		}
		over := geometry.MirrorX.Moved(p.Page.Min[0]+p.Page.Max[0], 0)
		a, b := ofLayer(was, Cut), ofLayer(p, Cut)
		if len(a) != len(b) {
			t.Fatalf("%d and %d contours", len(a), len(b))
		}
		for i := range a {
			q := b[i].Path.Under(b[i].Map)
			if far(over.Apply(a[i].at()), b[i].at()) > 1e-9 || a[i].Path.Closed() != b[i].Path.Closed() {
				t.Fatalf("%s: contour %d begins at %v, mirrored at %v", d.Title, i, a[i].at(), b[i].at())
			}
			if box := over.Apply(a[i].Path.Under(a[i].Map).Bound().Center()); far(box, q.Bound().Center()) > 1e-9 {
				t.Fatalf("%s: contour %d lies about %v, not %v", d.Title, i, q.Bound().Center(), box)
			}
			if x, y := a[i].Path.Area(), b[i].Path.Area(); a[i].Path.Closed() && math.Abs(x-y) > 1e-9*math.Abs(x) {
				t.Errorf("%s: contour %d encloses %g, mirrored %g", d.Title, i, x, y)
			}
		}
		facts := strings.Join(p.FactLines(), "\n")
		if !strings.Contains(facts, "cut from the back") ||
			strings.Contains(strings.Join(was.FactLines(), "\n"), "back") {
			t.Errorf("the facts are %q", facts)
		}
		if n := len(ofClass(p, ClassNote)); n <= len(ofClass(was, ClassNote)) &&
			!strings.Contains(strings.Join(p.Made.Notes, " "), "no room in the margin to mark") {
			t.Errorf("%s: no mark says that it is mirrored: %q", d.Title, p.Made.Notes)
		}
		readable(t, was, p, over)
	}
}

// readable holds the strokes of the label: those of the mirrored plan are the others moved by one way, once they are
// turned as the text is.
func readable(t *testing.T, was, p *Plan, over geometry.Map) {
	t.Helper()
	a, b := ofClass(was, ClassLabel), ofClass(p, ClassLabel)
	if len(a) == 0 || len(a) != len(b) {
		t.Errorf("the label has %d strokes, mirrored %d", len(a), len(b))
		return
	}
	box := func(cs []Contour) orb.Bound {
		r := cs[0].Path.Under(cs[0].Map).Bound()
		for _, c := range cs {
			r = r.Union(c.Path.Under(c.Map).Bound())
		}
		return r
	}
	from, to := box(a), box(b)
	if mid := over.Apply(from.Center()); far(mid, to.Center()) > 1 {
		t.Errorf("the label lies about %v, not %v", to.Center(), mid)
	}
	turned := 0.0 // by how much the way from the first stroke to the last leaves that of the other
	first := func(cs []Contour, r orb.Bound) orb.Point {
		return geometry.Sub(cs[0].Path.Under(cs[0].Map).Bound().Center(), r.Center())
	}
	u, v := first(a, from), first(b, to)
	turned = math.Abs(math.Atan2(geometry.Cross(u, v), geometry.Dot(u, v)))
	if upright := from.Max[1]-from.Min[1] > from.Max[0]-from.Min[0]; !upright && turned > 0.2 || upright &&
		turned < 2.9 {
		t.Errorf("the label's first letter stands turned by %g radians; upright is %v", turned, upright)
	}
}

func ofLayer(p *Plan, l Layer) []Contour {
	var out []Contour
	for _, c := range p.Contours {
		if c.Layer == l {
			out = append(out, c)
		}
	}
	return out
}

// Tabs and leads run as they did: a mirrored contour of parts begins in the waste.
func TestMirroredLeads(t *testing.T) {
	d := window(100)
	d.Sheet.Cut = draft.Waterjet
	p, _ := built(t, d, Options{LeadIn: 5, Mirrored: true})
	for _, c := range ofClass(p, ClassOpening) {
		if l := far(c.Path.Start, c.Path.Pieces[0].To); math.Abs(l-5) > 1e-9 {
			t.Errorf("a part begins with a line of %g mm", l)
		}
	}
}
