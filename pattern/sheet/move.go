package sheet

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/pattern"
)

const (
	// A motif is tried on rings round its place, half a bridge apart, maxRings of them at the most, and at places on a
	// ring that are as far from each other, maxOnRing of them at the most. From the climbsOnRing clearest of a ring it
	// is looked further.
	ringsInBridge = 2
	maxRings      = 40
	maxOnRing     = 160
	climbsOnRing  = 3
	// moveWithin in mm is how near to the least the length of a move is.
	moveWithin = 0.1
)

// move is a way for a motif to stand apart from all others.
type move struct {
	motif int
	by    orb.Point // field mm
}

func (m move) length() float64 { return math.Hypot(m.by[0], m.by[1]) }

// MovesApart returns commands that move a motif, by as little as serves, until no two copies run into each other or
// leave a bridge narrower than the sheet needs: the shortest move first, each to another side. Motifs are tried that
// are not apart from others when all others are, at places no further than half a cell. There is none when nothing is
// wrong between copies or no place was found; a gap that a motif just fits into may be missed.
func MovesApart(l *pattern.Layout) []pattern.Command {
	var p parting
	if p.apart(l, none, nil) {
		return nil
	}
	var found []move
	for i, o := range l.Orbits {
		others := func(a, b int) bool { return a != i && b != i }
		if o.SameAs < 0 && p.apart(l, none, others) {
			found = append(found, p.moves(l, i)...)
		}
	}
	slices.SortStableFunc(found, func(a, b move) int { return cmp.Compare(a.length(), b.length()) })

	var out []pattern.Command
	var taken []move
	for _, m := range found {
		if slices.ContainsFunc(taken, m.toSide) {
			continue
		}
		for _, parts := range [...]float64{10, 100} {
			if c := m.command(l, parts); p.with(l, c) {
				out, taken = append(out, c), append(taken, m)
				break
			}
		}
	}
	return out
}

// toSide reports whether two moves of a motif lead to the same side: within 60°.
func (m move) toSide(o move) bool {
	return m.motif == o.motif && m.by[0]*o.by[0]+m.by[1]*o.by[1] > 0.5*m.length()*o.length()
}

// command is the move to a place in parts of a millimetre, ten or a hundred.
func (m move) command(l *pattern.Layout, parts float64) pattern.Command {
	is := l.Draft.Motifs[m.motif]
	whole := func(v float64) float64 { return math.Round(v*parts) / parts }
	return pattern.Command{Name: "place", ID: is.ID, Values: map[string]float64{
		"x": whole(is.At[0] + m.by[0]), "y": whole(is.At[1] + m.by[1])}}
}

// moves returns places near a motif where it is apart from all copies: those found from the first ring that leads to
// some, and from the next.
func (p *parting) moves(l *pattern.Layout, motif int) (found []move) {
	half := math.Min(math.Hypot(l.A[0], l.A[1]), math.Hypot(l.B[0], l.B[1])) / 2
	step := math.Max(math.Max(l.Draft.Sheet.Bridge/ringsInBridge, moveWithin), half/maxRings)
	c := climb{p: p, l: l, motif: motif}

	last := maxRings
	for ring := 1; ring <= last && float64(ring)*step <= half && !p.spent(); ring++ {
		n := min(maxOnRing, int(math.Ceil(2*math.Pi*float64(ring))))
		n = (n + 7) / 8 * 8 // so that the straight ways are among them
		var on []standing
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			by := orb.Point{cos * float64(ring) * step, sin * float64(ring) * step}
			if d := c.clearance(by, 0); d > 0 || c.clears(d) {
				on = append(on, standing{by, d})
			}
		}
		slices.SortStableFunc(on, func(a, b standing) int { return cmp.Compare(b.clear, a.clear) })
		for _, s := range on[:min(len(on), climbsOnRing)] {
			if by, ok := c.up(s, step); ok {
				found = append(found, move{motif, c.back(by)})
				last = min(last, ring+1)
			}
		}
	}
	return found
}

// standing is a place for a motif and how clear of all others it is there.
type standing struct {
	by    orb.Point
	clear float64
}

// climb looks for places where one motif is clear of all copies.
type climb struct {
	p     *parting
	l     *pattern.Layout
	motif int
}

func (c climb) clearance(by orb.Point, enough float64) float64 {
	its := func(a, b int) bool { return a == c.motif || b == c.motif }
	return c.p.clearance(c.l, moved{c.motif, by}, its, enough)
}

func (c climb) clears(clearance float64) bool { return clearance >= c.l.Draft.Sheet.Bridge }

// up goes from a place to clearer ones, in ever smaller steps, until one is clear enough.
func (c climb) up(s standing, step float64) (by orb.Point, ok bool) {
	for step /= 2; step > moveWithin/4 && !c.clears(s.clear); step /= 2 {
		for again := true; again && !c.clears(s.clear) && !c.p.spent(); {
			again = false
			for k := range 8 {
				sin, cos := math.Sincos(math.Pi / 4 * float64(k))
				to := orb.Point{s.by[0] + cos*step, s.by[1] + sin*step}
				if d := c.clearance(to, s.clear); d > s.clear {
					s, again = standing{to, d}, true
					break
				}
			}
		}
	}
	return s.by, c.clears(s.clear)
}

// back goes from a clear place towards where the motif stands, as far as it stays clear.
func (c climb) back(by orb.Point) orb.Point {
	low, high := 0.0, 1.0
	at := func(f float64) orb.Point { return orb.Point{by[0] * f, by[1] * f} }
	for length := math.Hypot(by[0], by[1]); (high-low)*length > moveWithin/2; {
		if mid := (low + high) / 2; c.clears(c.clearance(at(mid), math.Nextafter(c.l.Draft.Sheet.Bridge, -1))) {
			high = mid
		} else {
			low = mid
		}
	}
	return at(high)
}
