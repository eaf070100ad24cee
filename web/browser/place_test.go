package browser

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// The strips of the rulers, and the free edge round a panel that is shown whole, in CSS px, as the editor has them.
const (
	rulerTop  = 28.0
	rulerLeft = 40.0
)

// sight is how the panel lies on the page while it is shown whole.
type sight struct {
	middle point     // of the canvas's free part, page px
	centre orb.Point // of the panel, mm
	zoom   float64   // px to the mm
	bench  box
}

// whole shows the whole panel and returns how it lies.
func (p *tab) whole() sight {
	p.t.Helper()
	p.click("[data-act=fit]")
	p.drawn()
	d, v, b := p.draft(), p.view(), p.boxOf("#bench")
	return sight{point{b.X + (b.Width+rulerLeft)/2, b.Y + (b.Height+rulerTop)/2},
		orb.Point{d.Panel.Width / 2, d.Panel.Height / 2}, v.Zoom, b}
}

// on returns where a panel point lies on the page.
func (s sight) on(q orb.Point) point {
	return point{s.middle.x + (q[0]-s.centre[0])*s.zoom, s.middle.y - (q[1]-s.centre[1])*s.zoom}
}

// under returns the panel point under a place of the page.
func (s sight) under(at point) orb.Point {
	return orb.Point{s.centre[0] + (at.x-s.middle.x)/s.zoom, s.centre[1] - (at.y-s.middle.y)/s.zoom}
}

// free reports whether a place of the page is on the canvas, off the rulers and off what lies above it.
func (s sight) free(at point) bool {
	b := s.bench
	return at.x > b.X+rulerLeft+4 && at.y > b.Y+rulerTop+4 && at.x < b.X+b.Width-4 && at.y < b.Y+b.Height-60
}

// name tells one copy of a field from all others.
type name struct {
	motif, op int
	cell      [2]int
}

// copyOf is one copy on the panel, its outline in panel mm.
type copyOf struct {
	name
	shape orb.MultiPolygon
	bound orb.Bound
	seat  orb.Point // where the silhouette's own origin lies
	up    orb.Point // where the silhouette's own upward direction points; its length is the scale
	along orb.Point // and its own direction to the right
	inner orb.Point // a point deep inside
	depth float64   // mm from there to the edge
}

// field lays a draft out and returns its copies. Outlines are carried by each copy's map and looked into with another
// library's test, so that what the editor shows is held against something else than itself.
func field(t *testing.T, d draft.Draft) map[name]copyOf {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatalf("the draft cannot be laid out: %v", err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatalf("the draft cannot be laid out: %v", err)
	}
	out := map[name]copyOf{}
	for _, c := range copies {
		s, ok := d.Silhouette(d.Motifs[c.Motif].Silhouette)
		if !ok {
			t.Fatalf("the draft has no silhouette %q", d.Motifs[c.Motif].Silhouette)
		}
		k := copyOf{name: name{c.Motif, c.Op, c.Cell}, seat: c.Map.Apply(orb.Point{}),
			up: c.Map.Vector(orb.Point{0, 1}), along: c.Map.Vector(orb.Point{1, 0})}
		for _, polygon := range s.Outline {
			var rings orb.Polygon
			for _, ring := range polygon {
				var moved orb.Ring
				for _, v := range ring {
					moved = append(moved, c.Map.Apply(v))
				}
				rings = append(rings, moved)
			}
			k.shape = append(k.shape, rings)
		}
		k.bound = k.shape.Bound()
		out[k.name] = k
	}
	return out
}

func (c copyOf) contains(q orb.Point) bool {
	return c.bound.Contains(q) && planar.MultiPolygonContains(c.shape, q)
}

// deepen finds a point deep inside, on a grid.
func (c copyOf) deepen() copyOf {
	const steps = 30
	b := c.bound
	for i := range steps {
		for j := range steps {
			q := orb.Point{b.Min[0] + (b.Max[0]-b.Min[0])*(float64(i)+0.5)/steps,
				b.Min[1] + (b.Max[1]-b.Min[1])*(float64(j)+0.5)/steps}
			if !c.contains(q) {
				continue
			}
			if d := toEdge(c.shape, q); d > c.depth {
				c.inner, c.depth = q, d
			}
		}
	}
	return c
}

// toEdge is the distance from a point to the nearest of all edges.
func toEdge(mp orb.MultiPolygon, q orb.Point) float64 {
	best := math.Inf(1)
	for _, polygon := range mp {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				best = math.Min(best, planar.DistanceFromSegment(ring[i-1], ring[i], q))
			}
		}
	}
	return best
}

// coverage is how many copies lie over a point.
func coverage(copies map[name]copyOf, q orb.Point) (n int) {
	for _, c := range copies {
		if c.contains(q) {
			n++
		}
	}
	return n
}

// collision is a drag that carries one copy over another.
type collision struct {
	taken, other copyOf
	from, to     point
}

// collide finds a copy that is not the first of its motif, and a way to drag it until it runs into a copy of another
// motif, at a place of the panel where nothing overlaps yet.
func collide(t *testing.T, d draft.Draft, s sight) collision {
	t.Helper()
	copies := field(t, d)
	inside := d.FieldBound()
	heart := map[name]orb.Point{}
	var fit []copyOf // inside the margin, with a deep point that nothing else covers
	for _, c := range copies {
		if !inside.Contains(c.bound.Min) || !inside.Contains(c.bound.Max) {
			continue
		}
		if c = c.deepen(); s.free(s.on(c.inner)) && coverage(copies, c.inner) == 1 {
			fit = append(fit, c)
			heart[c.name] = geometry.Centroid(c.shape)
		}
	}
	slices.SortFunc(fit, func(a, b copyOf) int { // a map has no order, and of copies as near any would do
		return cmp.Or(cmp.Compare(a.motif, b.motif), cmp.Compare(a.op, b.op), cmp.Compare(a.cell[0], b.cell[0]),
			cmp.Compare(a.cell[1], b.cell[1]))
	})
	var best collision
	least := math.Inf(1)
	for _, taken := range fit {
		from := s.on(taken.inner)
		if taken.op == 0 || nearHandle(d, s, from, 30) {
			continue
		}
		for _, other := range fit {
			if other.motif == taken.motif {
				continue
			}
			to := s.on(other.inner)
			far := math.Hypot(to.x-from.x, to.y-from.y)
			if far < 15 || far >= least-1 || drawnToATurn(d, s, orb.Point{
				heart[taken.name][0] + (to.x-from.x)/s.zoom, heart[taken.name][1] - (to.y-from.y)/s.zoom}) {
				continue
			}
			least = far
			best = collision{taken, other, point{math.Round(from.x), math.Round(from.y)},
				point{math.Round(to.x), math.Round(to.y)}}
		}
	}
	if math.IsInf(least, 1) {
		t.Fatal("no copy but the first of its motif lies where it can be dragged over another")
	}
	return best
}

// drawnToATurn reports whether a copy whose centre of area is let go of at a place of the panel may be drawn to a
// rotation point of p2, at a corner of the cell or half way between two.
func drawnToATurn(d draft.Draft, s sight, centre orb.Point) bool {
	const reach = 10 // CSS px: a little more than the editor's own
	basis := d.FieldMap().After(d.Repeat.Cell().Basis())
	inverse, ok := basis.Inverse()
	if !ok {
		return false
	}
	at := inverse.Apply(centre)
	turn := basis.Apply(orb.Point{math.Round(2*at[0]) / 2, math.Round(2*at[1]) / 2})
	return math.Hypot(turn[0]-centre[0], turn[1]-centre[1])*s.zoom < reach
}

// nearHandle reports whether a corner of the cell, which the mouse could take, lies within a distance in px.
func nearHandle(d draft.Draft, s sight, at point, within float64) bool {
	basis := d.Repeat.Cell().Basis()
	for _, v := range []orb.Point{{}, {1, 0}, {0, 1}, {1, 1}} {
		h := s.on(d.FieldMap().Apply(basis.Vector(v)))
		if math.Hypot(h.x-at.x, h.y-at.y) < within {
			return true
		}
	}
	return false
}

// shared returns the places of the page, a pixel apart, where two copies lie over one another, a pixel in from the edge
// of what they share.
func shared(s sight, a, b copyOf) (out []point) {
	lo, hi := s.on(orb.Point{a.bound.Min[0], a.bound.Max[1]}), s.on(orb.Point{a.bound.Max[0], a.bound.Min[1]})
	for y := math.Ceil(lo.y); y <= hi.y; y++ {
	next:
		for x := math.Ceil(lo.x); x <= hi.x; x++ {
			for _, by := range []point{{0, 0}, {2, 0}, {-2, 0}, {0, 2}, {0, -2}} {
				q := s.under(point{x + 0.5 + by.x, y + 0.5 + by.y})
				if !a.contains(q) || !b.contains(q) {
					continue next
				}
			}
			out = append(out, point{x, y})
		}
	}
	return out
}

// share is the part of the places at which the tab shows a colour, to within what a screen rounds.
func (p *tab) share(places []point, want color.RGBA) float64 {
	p.t.Helper()
	const slack = 10 // of 255
	img := p.shot()
	n := 0
	for _, at := range places {
		r, g, b, _ := img.At(int(at.x), int(at.y)).RGBA()
		if near(r, want.R, slack) && near(g, want.G, slack) && near(b, want.B, slack) {
			n++
		}
	}
	return float64(n) / float64(max(1, len(places)))
}

func near(have uint32, want uint8, slack int) bool {
	return int(have>>8)-int(want) <= slack && int(want)-int(have>>8) <= slack
}

// colour is one of the canvas's colours, as the style sheet has it now.
func (p *tab) colour(property string) color.RGBA {
	p.t.Helper()
	text := eval[string](p, fmt.Sprintf(`(() => {
		const e = document.createElement("span");
		e.style.color = "var(--canvas-%s)";
		document.body.append(e);
		const c = getComputedStyle(e).color;
		e.remove();
		return c;
	})()`, property))
	var c color.RGBA
	if _, err := fmt.Sscanf(text, "rgb(%d, %d, %d)", &c.R, &c.G, &c.B); err != nil {
		p.t.Fatalf("the colour %s reads %q", property, text)
	}
	return c
}
