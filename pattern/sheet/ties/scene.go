package ties

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/sheet/panel"
)

// scene is the panel at the beginning of a round.
type scene struct {
	p          *proposer
	l          *pattern.Layout
	s          *panel.Survey
	wide       float64 // of a tie, on the panel
	kinds      []*kind
	of         []*kind // of each island
	added      []placed
	rings      map[*geometry.Shape][]orb.Ring
	order      []int // openings by their left side
	width      float64
	index      *index
	candidates map[int][]candidate // of islands looked at
	locals     map[int]local
}

// kind is the islands that are images of each other.
type kind struct {
	members []int
	area    float64
	at      orb.Point // centre of the first, field mm
	hole    *hole     // nil unless they are a silhouette's hole
	held    bool      // tied in this round to sheet that is held
}

// hole is a ring of a silhouette's outline, counted through all its polygons.
type hole struct {
	silhouette string
	ring       int
}

func newScene(p *proposer, l *pattern.Layout, s *panel.Survey) *scene {
	sc := &scene{p: p, l: l, s: s, wide: width(l.Draft.Sheet), rings: map[*geometry.Shape][]orb.Ring{},
		candidates: map[int][]candidate{}, locals: map[int]local{}}
	for i, o := range s.Openings {
		sc.order = append(sc.order, i)
		b := o.Bound()
		sc.width = math.Max(sc.width, b.Max[0]-b.Min[0])
	}
	sort.SliceStable(sc.order, func(i, j int) bool {
		return s.Openings[sc.order[i]].Bound().Min[0] < s.Openings[sc.order[j]].Bound().Min[0]
	})
	sc.index = sc.newIndex()
	sc.sort()
	return sc
}

// reset forgets the ties of a round.
func (sc *scene) reset() {
	sc.added = nil
	for _, k := range sc.kinds {
		k.held = false
	}
}

// sort finds the kinds of islands, the largest first.
func (sc *scene) sort() {
	toField := sc.l.Draft.FieldMap().Rigid()
	holes := map[hole]*kind{}
	sc.of = make([]*kind, len(sc.s.Islands))
	for i, island := range sc.s.Islands {
		var k *kind
		if h, ok := sc.holeOf(island); ok {
			if k = holes[h]; k == nil {
				k = &kind{hole: &h, area: island.Area}
				holes[h] = k
				sc.kinds = append(sc.kinds, k)
			}
		} else {
			at := toField.Apply(geometry.Centroid(orb.MultiPolygon{island.Ring}))
			j := slices.IndexFunc(sc.kinds, func(k *kind) bool { return k.hole == nil && sc.alike(k, island.Area, at) })
			if j < 0 {
				k = &kind{area: island.Area, at: at}
				sc.kinds = append(sc.kinds, k)
			} else {
				k = sc.kinds[j]
			}
		}
		k.members = append(k.members, i)
		sc.of[i] = k
	}
	sort.SliceStable(sc.kinds, func(i, j int) bool { return sc.kinds[i].area > sc.kinds[j].area })
}

// alike reports whether an operation of the group carries the first of a kind to an island of this area at a field
// point.
func (sc *scene) alike(k *kind, area float64, at orb.Point) bool {
	const slack = 1e-3 // mm and, of the area, a fraction: islands differ by far more
	if math.Abs(area-k.area) > slack*math.Max(area, slack) {
		return false
	}
	for op := range sc.l.Group.Ops {
		q := sc.l.Op(op, 0, 0).Apply(k.at)
		d := orb.Point{at[0] - q[0], at[1] - q[1]}
		v := sc.l.NearestLattice(d)
		if math.Hypot(d[0]-v[0], d[1]-v[1]) < slack {
			return true
		}
	}
	return false
}

// holeOf says which hole of which silhouette an island is, if one polygon of one copy closes it in. Copies that are
// cropped elsewhere are copies all the same.
func (sc *scene) holeOf(i panel.Island) (hole, bool) {
	if sc.p.noMotif || len(i.Ring) != 1 {
		return hole{}, false
	}
	for _, p := range sc.s.Pieces[i.Opening] {
		c := sc.s.Copies[p.Copy]
		b := c.Image.Bound()
		if i.Bound.Min[0] < b.Min[0]+c.Shift[0] || i.Bound.Max[0] > b.Max[0]+c.Shift[0] {
			continue
		}
		for k, r := range sc.ringsOf(c.Image) {
			if geometry.RingArea(r) < 0 && sameRing(r, c.Shift, i) {
				return hole{sc.l.Draft.Motifs[c.Motif].Silhouette, k}, true
			}
		}
	}
	return hole{}, false
}

// sameRing reports whether a ring moved by shift is what closes the island in.
func sameRing(r orb.Ring, shift orb.Point, i panel.Island) bool {
	b := r.Bound()
	for k := range b.Min {
		if math.Abs(b.Min[k]+shift[k]-i.Bound.Min[k]) > onEdge || math.Abs(b.Max[k]+shift[k]-i.Bound.Max[k]) > onEdge {
			return false
		}
	}
	return math.Abs(math.Abs(geometry.RingArea(r))-i.Area) < onEdge*(1+i.Area)
}

// ringsOf returns the rings of a shape's outline, made once.
func (sc *scene) ringsOf(s *geometry.Shape) []orb.Ring {
	if r, ok := sc.rings[s]; ok {
		return r
	}
	var out []orb.Ring
	for _, p := range s.Outline() {
		out = append(out, p...)
	}
	sc.rings[s] = out
	return out
}

// near calls visit for the openings whose boxes meet a window.
func (sc *scene) near(window orb.Bound, visit func(o panel.Opening) bool) {
	from := sort.Search(len(sc.order), func(i int) bool {
		return sc.s.Openings[sc.order[i]].Bound().Min[0] >= window.Min[0]-sc.width
	})
	for _, i := range sc.order[from:] {
		b := sc.s.Openings[i].Bound()
		if b.Min[0] > window.Max[0] {
			return
		}
		if b.Intersects(window) && !visit(sc.s.Openings[i]) {
			return
		}
	}
}

// open reports whether a point lies in an opening.
func (sc *scene) open(p orb.Point) bool {
	found := false
	sc.near(orb.Bound{Min: p, Max: p}, func(o panel.Opening) bool {
		found = o.Shape.Contains(orb.Point{p[0] - o.Shift[0], p[1] - o.Shift[1]})
		return !found
	})
	return found
}

// What a point of the panel is part of, besides islands, which go by their index.
const (
	heldSheet = -1 // sheet that reaches the edge
	noSheet   = -2 // an opening, or beyond the sheet
)

// part says what a point of the panel is part of.
func (sc *scene) part(p orb.Point) int {
	if !sc.l.Draft.SheetBound().Contains(p) || sc.open(p) {
		return noSheet
	}
	best := heldSheet
	for i, island := range sc.s.Islands {
		if island.Bound.Contains(p) && (best < 0 || island.Area < sc.s.Islands[best].Area) &&
			geometry.Contains(orb.MultiPolygon{island.Ring}, p) {
			best = i
		}
	}
	return best
}

// held reports whether a part of the sheet is held, or will be by ties of this round.
func (sc *scene) held(part int) bool { return part == heldSheet || (part >= 0 && sc.of[part].held) }
