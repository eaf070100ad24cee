package pen

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
)

// whole fails for a ring that no editor could hold.
func whole(t *testing.T, what string, nodes []Node) {
	t.Helper()
	for _, v := range nodes {
		for _, p := range [...]orb.Point{v.At, v.In, v.Out} {
			if !(math.Abs(p[0]) < 1e12 && math.Abs(p[1]) < 1e12) {
				t.Fatalf("%s: a point at %v of %+v", what, p, nodes)
			}
		}
	}
}

// flattened holds a ring's polygon against its curves: closed, on the grid, and no further off than FlattenSlack.
func flattened(t *testing.T, what string, r Ring) {
	t.Helper()
	whole(t, what, r.Nodes)
	polygon := r.Polygon()
	if r.kept != nil || len(polygon) < 2 {
		return
	}
	if polygon[0] != polygon[len(polygon)-1] {
		t.Fatalf("%s: the polygon is not closed", what)
	}
	size := 0.0
	for _, p := range polygon {
		if p[0] != geometry.Snap(p[0]) || p[1] != geometry.Snap(p[1]) {
			t.Fatalf("%s: %v is not on the grid", what, p)
		}
		size = math.Max(size, math.Max(math.Abs(p[0]), math.Abs(p[1])))
	}
	if size > geometry.MaxCoordinate { // it is no silhouette's
		return
	}
	for i, v := range r.Nodes {
		if r.Straight(i) || i%(1+len(polygon)*len(r.Nodes)/maxCompared) != 0 {
			continue
		}
		w := r.Nodes[r.after(i)]
		for k := 1; k < 8; k++ {
			p := bezier([4]orb.Point{v.At, v.Out, w.In, w.At}, float64(k)/8)
			if d := fromRing(p, polygon); d > FlattenSlack+geometry.Grid {
				t.Fatalf("%s: the polygon leaves the curve by %.4f mm at %v, of %+v", what, d, p, r.Nodes)
			}
		}
	}
}

// maxCompared bounds the pairs of a point and an edge that are gone through for one ring: of large ones some points
// stand for all.
const maxCompared = 20000

func finite(pts []orb.Point) bool {
	for _, p := range pts {
		if !(math.Abs(p[0]) < 1e12 && math.Abs(p[1]) < 1e12) {
			return false
		}
	}
	return true
}

// good holds a shape that an operation gave against what a silhouette is, and its curves against its polygons.
func good(t *testing.T, what string, shape Shape) {
	t.Helper()
	mp := shape.Outline()
	if err := Check(mp); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	for _, r := range shape.Rings() {
		whole(t, what, r.Nodes)
		if len(r.Nodes) == 0 {
			t.Fatalf("%s: a ring without points", what)
		}
		loose := Ring{Nodes: r.Nodes}.Polygon()
		line := r.Polygon()
		for i := 0; i < len(line); i += 1 + len(line)*len(loose)/maxCompared {
			if d := fromRing(line[i], loose); d > ReadSlack+2*FlattenSlack {
				t.Fatalf("%s: the curves leave the polygon by %.4f mm", what, d)
			}
		}
	}
}

// common returns the area that two outlines share.
func common(t *testing.T, a, b orb.MultiPolygon) float64 {
	t.Helper()
	mp, err := overlay.Intersection(a, b)
	if err != nil {
		t.Fatal(err)
	}
	return geometry.Area(mp)
}

// addUp holds two sums of areas against each other. Points on the grid move edges by its half diagonal, and crumbs
// below MinArea are left out, no more of them than edges cross.
func addUp(t *testing.T, what string, got, want float64, shapes ...orb.MultiPolygon) {
	t.Helper()
	length := 0.0
	for _, mp := range shapes {
		length += geometry.Length(mp)
	}
	crumbs := MinArea * (8 + math.Sqrt(float64(geometry.Points(shapes[0])+geometry.Points(shapes[1]))))
	if math.Abs(got-want) > crumbs+length*geometry.Grid {
		t.Fatalf("%s: the areas come to %.4f mm² and should to %.4f", what, got, want)
	}
}
