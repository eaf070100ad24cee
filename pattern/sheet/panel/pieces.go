package panel

import (
	"fmt"
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/progress"
)

// touchSlack in mm: pieces nearer than this are handed to the overlay together, which decides on its own grid of 1e-8
// whether they are one. Copies that share an edge by symmetry differ there by rounding, some 1e-13.
const touchSlack = 1e-7

// piece is one polygon of one copy, after the edge rule.
type piece struct {
	copy  int
	shape *geometry.Shape // shared between cells when whole
	shift orb.Point
	// a polygon as drawn, not cropped; what a tie of the field leaves of one counts, for it is so in every cell
	whole bool
	cut   bool // by a tie of the field, or by a room
	key   pieceKey
	bound orb.Bound
}

// pieceKey is the same for pieces that are translates of each other.
type pieceKey struct{ motif, op, polygon, part int }

func (p *piece) outline() orb.MultiPolygon {
	return p.shape.Place(geometry.Translate(p.shift[0], p.shift[1]), nil).Outline()
}

// pieces cuts the copies into polygons, crops them to the field where the edge rule asks for it and to the rooms of
// subjects, and takes the field's ties off them.
func pieces(l *pattern.Layout, copies []pattern.Copy) ([]piece, error) {
	field := geometry.RectOutline(l.Draft.FieldBound())
	split := map[[2]int][]*geometry.Shape{}
	var out []piece
	for i, c := range copies {
		if isCropped(l, c) {
			cut := c.Shape().Outline()
			var err error
			if atEdge(l, c) {
				cut, err = overlay.Intersection(cut, field)
			}
			if err == nil && c.Cut {
				cut, err = outsideRooms(l, cut)
			}
			if err != nil {
				return nil, fmt.Errorf("copy %d at the field's edge could not be cropped: %w", i, err)
			}
			for _, p := range cut {
				s := geometry.NewShape(orb.MultiPolygon{p})
				out = append(out, piece{copy: i, shape: s, bound: s.Bound(), cut: c.Cut})
			}
			continue
		}
		key := [2]int{c.Motif, c.Op}
		if _, ok := split[key]; !ok {
			for _, p := range c.Image.Outline() {
				split[key] = append(split[key], geometry.NewShape(orb.MultiPolygon{p}))
			}
		}
		for k, s := range split[key] {
			b := s.Bound()
			b.Min = orb.Point{b.Min[0] + c.Shift[0], b.Min[1] + c.Shift[1]}
			b.Max = orb.Point{b.Max[0] + c.Shift[0], b.Max[1] + c.Shift[1]}
			out = append(out, piece{copy: i, shape: s, shift: c.Shift, whole: true,
				key: pieceKey{c.Motif, c.Op, k, 0}, bound: b})
		}
	}
	return lessTies(l, out)
}

// meeting is a pair of pieces, i < j, and the way between them.
type meeting struct {
	i, j int
	area float64 // common to both
	geometry.Near
}

// joins reports whether the two pieces touch or run into each other.
func (m meeting) joins() bool { return m.area > 0 || m.D <= touchSlack }

// meetings measures pairs of pieces. Pairs that are translates of each other are measured once.
type meetings struct {
	pieces   []piece
	copies   []pattern.Copy
	order    []int // pieces by their left side
	widest   float64
	known    map[relation]meeting
	progress progress.Func
}

// relation is the same for pairs of whole pieces that are translates of each other.
type relation struct {
	a, b pieceKey
	cell [2]int
}

func newMeetings(pieces []piece, copies []pattern.Copy) *meetings {
	m := &meetings{pieces: pieces, copies: copies, order: make([]int, len(pieces)), known: map[relation]meeting{}}
	for i, p := range pieces {
		m.order[i] = i
		m.widest = math.Max(m.widest, p.bound.Max[0]-p.bound.Min[0])
	}
	sort.SliceStable(m.order, func(x, y int) bool {
		return pieces[m.order[x]].bound.Min[0] < pieces[m.order[y]].bound.Min[0]
	})
	return m
}

// within returns every pair of pieces nearer than reach mm, or that meet, in the order of their indexes.
func (m *meetings) within(reach float64) []meeting {
	var out []meeting
	for x, i := range m.order {
		m.progress.Of(x, len(m.order))
		a := m.pieces[i].bound
		for _, j := range m.order[x+1:] {
			b := m.pieces[j].bound
			if b.Min[0] > a.Max[0]+reach {
				break
			}
			if b.Min[1] > a.Max[1]+reach || a.Min[1] > b.Max[1]+reach {
				continue
			}
			if r := m.measure(min(i, j), max(i, j)); r.joins() || r.D < reach {
				out = append(out, r)
			}
		}
	}

	sort.Slice(out, func(x, y int) bool {
		if out[x].i != out[y].i {
			return out[x].i < out[y].i
		}
		return out[x].j < out[y].j
	})
	return out
}

// measure returns the way between two pieces.
func (m *meetings) measure(i, j int) meeting {
	a, b := &m.pieces[i], &m.pieces[j]
	if !a.whole || !b.whole {
		return between(i, j, a, b)
	}
	ca, cb := m.copies[a.copy].Cell, m.copies[b.copy].Cell
	key := relation{a.key, b.key, [2]int{cb[0] - ca[0], cb[1] - ca[1]}}
	r, ok := m.known[key]
	if !ok {
		r = between(i, j, a, b)
		r.P = orb.Point{r.P[0] - a.shift[0], r.P[1] - a.shift[1]}
		r.Q = orb.Point{r.Q[0] - a.shift[0], r.Q[1] - a.shift[1]}
		m.known[key] = r
	}
	r.i, r.j = i, j
	r.P = orb.Point{r.P[0] + a.shift[0], r.P[1] + a.shift[1]}
	r.Q = orb.Point{r.Q[0] + a.shift[0], r.Q[1] + a.shift[1]}
	return r
}

func between(i, j int, a, b *piece) meeting {
	d := orb.Point{b.shift[0] - a.shift[0], b.shift[1] - a.shift[1]}
	r := meeting{i: i, j: j, Near: geometry.Distance(a.shape, b.shape, d, math.Inf(1))}
	if r.D <= touchSlack || geometry.Inside(a.shape, b.shape, d) {
		r.area = geometry.OverlapArea(a.shape, b.shape, d)
		if r.area < noArea {
			r.area = 0
		}
	}
	r.P = orb.Point{r.P[0] + a.shift[0], r.P[1] + a.shift[1]}
	r.Q = orb.Point{r.Q[0] + a.shift[0], r.Q[1] + a.shift[1]}
	return r
}

// noArea in mm²: an overlap up to this is the rounding of its own sum.
const noArea = 1e-9
