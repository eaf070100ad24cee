package scan

import (
	"math"
	"sort"

	"openwork/geometry/contour"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// tip is where a line ends: a point of its outline, the way the line goes on, and how wide it is; in pixels.
type tip struct {
	ring  int
	s     float64 // length along the ring
	at    orb.Point
	ahead orb.Point
	width float64
}

// inked is a point of a line's outline.
type inked struct {
	ring int
	s    float64
	at   orb.Point
}

// meeting is the end of a line and the nearest ink ahead of it, in pixels.
type meeting struct {
	end tip
	to  orb.Point
}

func (m meeting) width() float64 { return math.Hypot(m.to[0]-m.end.at[0], m.to[1]-m.end.at[1]) }

// closeGaps draws, from each end of a line, on to the nearest ink ahead of it within gap pixels, and returns how often.
func (t *lines) closeGaps(g contour.Grid[uint16], gap float64) int {
	meetings := t.meetings(gap)
	for _, m := range meetings {
		e := m.end
		stroke(g, orb.Point{e.at[0] - e.ahead[0]*e.width/2, e.at[1] - e.ahead[1]*e.width/2}, m.to, e.width/2)
	}
	return len(meetings)
}

// openGaps returns the gaps of lines that stay open, the narrowest first: those of up to openGapMM, at most
// maxOpenGaps.
func (t *lines) openGaps(scale [2]float64, frame outline.Frame) []outline.Gap {
	mm := (scale[0] + scale[1]) / 2
	var out []outline.Gap
	for _, m := range t.meetings(openGapMM / mm) {
		g := outline.Gap{Width: m.width() * mm}
		for k, v := range [2]orb.Point{m.end.at, m.to} {
			g.Ends[k] = frame.Turned(orb.Point{(v[0] + 0.5) * scale[0], (v[1] + 0.5) * scale[1]}, false)
		}
		out = append(out, g)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Width < out[j].Width })
	return out[:min(len(out), maxOpenGaps)]
}

// meetings finds what lies ahead of the ends of lines within gap pixels; of two ends that meet each other, one.
func (t *lines) meetings(gap float64) []meeting {
	lengths := make([][]float64, len(t.rings))
	for k, r := range t.rings {
		at := make([]float64, len(r))
		for i := range len(r) - 1 {
			at[i+1] = at[i] + math.Hypot(r[i+1][0]-r[i][0], r[i+1][1]-r[i][1])
		}
		lengths[k] = at
	}
	tips := t.tips(lengths)
	if len(tips) == 0 {
		return nil
	}
	cells := map[[2]int][]inked{}
	cell := func(v orb.Point) [2]int { return [2]int{int(math.Floor(v[0] / gap)), int(math.Floor(v[1] / gap))} }

	// Only what lies near a tip is of interest.
	wanted := map[[2]int]bool{}
	for _, e := range tips {
		c := cell(e.at)
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				wanted[[2]int{c[0] + dx, c[1] + dy}] = true
			}
		}
	}

	for k, r := range t.rings {
		for i, v := range r[:len(r)-1] {
			if c := cell(v); wanted[c] {
				cells[c] = append(cells[c], inked{k, lengths[k][i], v})
			}
		}
	}
	var out []meeting
	done := map[int]bool{} // tips that another has been joined to
	for i, e := range tips {
		if done[i] {
			continue
		}
		to, ok := e.nearest(cells, cell(e.at), lengths, gap)
		if !ok {
			continue
		}
		for j, other := range tips { // the end that was met is closed too
			if j > i && math.Hypot(other.at[0]-to[0], other.at[1]-to[1]) <= other.width {
				done[j] = true
			}
		}
		out = append(out, meeting{e, to})
	}
	return out
}

// tips finds the ends of lines: where the outline comes back beside itself, a line's width away, ink between. How wide
// a line is follows from its area and the length around it.
func (t *lines) tips(lengths [][]float64) []tip {
	parent := contour.Nest(t.rings)
	area, around := make([]float64, len(t.rings)), make([]float64, len(t.rings))
	piece := func(k int) int {
		if t.area[k] < 0 && parent[k] >= 0 {
			return parent[k]
		}
		return k
	}
	for k, r := range t.rings {
		at := lengths[k]
		sum := 0.0
		for i := 1; i+1 < len(r); i++ {
			sum += (r[i][0]-r[0][0])*(r[i+1][1]-r[0][1]) - (r[i+1][0]-r[0][0])*(r[i][1]-r[0][1])
		}
		area[piece(k)] += sum / 2
		around[piece(k)] += at[len(at)-1]
	}

	var out []tip
	for k, r := range t.rings {
		w := 2 * area[piece(k)] / around[piece(k)]
		at := lengths[k]
		if total := at[len(at)-1]; !(w > 0) || total < tipLeast*w {
			continue
		}
		best, bestAcross := -1, 0.0 // of the tip gone through now
		flush := func() {
			if best < 0 {
				return
			}
			s := at[best]
			a, b := along(r, at, s-tipFar*w), along(r, at, s+tipFar*w)
			x, y := r[best][0]-(a[0]+b[0])/2, r[best][1]-(a[1]+b[1])/2
			if d := math.Hypot(x, y); d > 0 {
				out = append(out, tip{k, s, r[best], orb.Point{x / d, y / d}, w})
			}
			best = -1
		}
		for i := range len(r) - 1 {
			s := at[i]
			a, b := along(r, at, s-tipNearBy*w), along(r, at, s+tipNearBy*w)
			across := math.Hypot(a[0]-b[0], a[1]-b[1])
			convex := (r[i][0]-a[0])*(b[1]-r[i][1])-(r[i][1]-a[1])*(b[0]-r[i][0]) > 0
			if !convex || across > tipAcross*w {
				if best >= 0 && s-at[best] > w {
					flush()
				}
				continue
			}
			c, d := along(r, at, s-tipFar*w), along(r, at, s+tipFar*w)
			if math.Hypot(c[0]-d[0], c[1]-d[1]) > tipAcrossFar*w {
				continue
			}
			if best >= 0 && s-at[best] > 2*w {
				flush()
			}
			if best < 0 || across < bestAcross {
				best, bestAcross = i, across
			}
		}
		flush()
	}
	return out
}

// nearest returns the nearest ink ahead of the tip that does not belong to the line's own end.
func (e tip) nearest(cells map[[2]int][]inked, c [2]int, lengths [][]float64, gap float64) (to orb.Point, ok bool) {
	best := gap
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			for _, v := range cells[[2]int{c[0] + dx, c[1] + dy}] {
				x, y := v.at[0]-e.at[0], v.at[1]-e.at[1]
				d := math.Hypot(x, y)
				if d >= best || x*e.ahead[0]+y*e.ahead[1] < tipCone*d {
					continue
				}
				if v.ring == e.ring {
					total := lengths[e.ring][len(lengths[e.ring])-1]
					apart := math.Abs(v.s - e.s)
					if math.Min(apart, total-apart) < tipOwn*e.width+d {
						continue
					}
				}
				best, to, ok = d, v.at, true
			}
		}
	}
	return to, ok
}

// stroke draws a line with round ends into a grid of ink.
func stroke(g contour.Grid[uint16], a, b orb.Point, radius float64) {
	radius = math.Max(radius, minStroke)
	reach := radius + 1
	x0, x1 := max(int(math.Min(a[0], b[0])-reach), 0), min(int(math.Max(a[0], b[0])+reach)+1, g.Width-1)
	y0, y1 := max(int(math.Min(a[1], b[1])-reach), 0), min(int(math.Max(a[1], b[1])+reach)+1, g.Height-1)
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := dx*dx + dy*dy
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			t := 0.0
			if l > 0 {
				t = math.Min(1, math.Max(0, ((float64(x)-a[0])*dx+(float64(y)-a[1])*dy)/l))
			}
			part := math.Min(1, radius+0.5-math.Hypot(a[0]+t*dx-float64(x), a[1]+t*dy-float64(y)))
			if part > 0 {
				at := y*g.Width + x
				g.Values[at] = max(g.Values[at], uint16(paperLevel+part*(inkLevel-paperLevel)))
			}
		}
	}

	if g.Plain == nil {
		return
	}
	columns := (g.Width + g.PlainSide - 1) / g.PlainSide
	for y := max(y0-1, 0) / g.PlainSide; y <= min(y1+1, g.Height-1)/g.PlainSide; y++ {
		for x := max(x0-1, 0) / g.PlainSide; x <= min(x1+1, g.Width-1)/g.PlainSide; x++ {
			g.Plain[y*columns+x] = false
		}
	}
}
