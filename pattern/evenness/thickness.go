package evenness

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// Raster is the sheet between openings by its local thickness, over the rectangle [0, a) × [0, b sin γ) of the field,
// which holds one cell's worth of it: moved along a by itself, and up by b, it covers the plane.
type Raster struct {
	Across, Up int       // px
	Local      []float64 // mm at the middle of each px, row by row from the foot; 0 in openings

	wide, high float64 // mm of a px
	slip       int     // px that b leads sideways
}

// minPixels and maxPixels bound a raster's side.
const minPixels, maxPixels = 8, 4096

// Thickness returns a raster of about so many px; false where there are no openings.
//
// Local thickness at a point of the sheet is the width of the largest disc that lies free between openings and covers
// the point (T. Hildebrand, P. Rüegsegger, A new method for the model-independent assessment of thickness in
// three-dimensional images, Journal of Microscopy 185, 1997). Discs are as wide as they are to a px and a half, and
// where they end is right to a px. Where b leads sideways by no whole number of px, which an oblique cell alone does,
// half a px more is lost across its foot.
func Thickness(l *pattern.Layout, pixels int) (*Raster, bool) {
	wide, high := l.A[0], l.B[1]
	side := math.Sqrt(wide * high / float64(max(pixels, 1)))
	count := func(length float64) int {
		return int(min(max(math.Round(length/side), minPixels), maxPixels))
	}

	r := &Raster{Across: (count(wide) + 1) / 2 * 2, Up: count(high)} // even: b may lead by half of a
	r.wide, r.high = wide/float64(r.Across), high/float64(r.Up)
	r.slip = int(math.Round(l.B[0] / r.wide))

	open := r.openings(l)
	if !slices.Contains(open, true) {
		return nil, false
	}
	r.Local = r.thickness(r.distances(open))
	return r, true
}

// at returns the index of a px, whatever cell it lies in.
func (r *Raster) at(x, y int) int {
	n := floorDiv(y, r.Up)
	x = (x - n*r.slip) % r.Across
	if x < 0 {
		x += r.Across
	}
	return (y-n*r.Up)*r.Across + x
}

// At returns the local thickness at a px, whatever cell it lies in.
func (r *Raster) At(x, y int) float64 { return r.Local[r.at(x, y)] }

func floorDiv(a, b int) int { return int(math.Floor(float64(a) / float64(b))) }

// openings returns the px whose middle lies in an opening.
func (r *Raster) openings(l *pattern.Layout) []bool {
	open := make([]bool, r.Across*r.Up)
	window := orb.Bound{Max: orb.Point{l.A[0], l.B[1]}}
	rows := make([][]float64, r.Up)
	for _, o := range l.Orbits {
		for _, image := range o.Images {
			l.Cells(window, image.Bound(), func(m, n int) bool {
				r.fill(open, rows, image.Shape, geometry.Add(image.At, l.Lattice(m, n)))
				return true
			})
		}
	}
	return open
}

// fill opens the px whose middles lie in a shape moved to a place, by the even-odd rule: where an edge crosses the
// middle line of a row of px, the inside begins or ends. rows is empty, and is left so.
func (r *Raster) fill(open []bool, rows [][]float64, s *geometry.Shape, at orb.Point) {
	for _, ring := range geometry.Rings(s.Outline()) {
		for k := 1; k < len(ring); k++ {
			p, q := geometry.Add(ring[k-1], at), geometry.Add(ring[k], at)
			if p[1] > q[1] {
				p, q = q, p
			}
			for y := max(int(math.Ceil(p[1]/r.high-0.5)), 0); y < r.Up; y++ {
				middle := (float64(y) + 0.5) * r.high
				if middle >= q[1] {
					break
				}
				rows[y] = append(rows[y], p[0]+(q[0]-p[0])*(middle-p[1])/(q[1]-p[1]))
			}
		}
	}

	for y, crossings := range rows {
		slices.Sort(crossings)
		for k := 1; k < len(crossings); k += 2 {
			from := max(int(math.Ceil(crossings[k-1]/r.wide-0.5)), 0)
			to := min(int(math.Ceil(crossings[k]/r.wide-0.5)), r.Across)
			for x := from; x < to; x++ {
				open[y*r.Across+x] = true
			}
		}
		rows[y] = crossings[:0]
	}
}

// distances returns the distance in mm from each px's middle to the edge of the nearest opening, 0 in one: first
// along rows, then along columns as the lower envelope of parabolas (P. Felzenszwalb, D. Huttenlocher, Distance
// transforms of sampled functions, Theory of Computing 8, 2012). Rows and columns go on into the cells round about.
// From the middle of an opening's last px to its edge is taken to be half a px.
func (r *Raster) distances(open []bool) []float64 {
	along := make([]float64, len(open)) // squared, to the nearest opening of the same row
	for y := range r.Up {
		r.alongRow(open[y*r.Across:][:r.Across], along[y*r.Across:][:r.Across])
	}

	// No opening is farther than its nearest image, and rows beyond that need not be looked at.
	far := int(math.Hypot(float64(r.Across)*r.wide, float64(r.Up)*r.high)/2/r.high) + 1
	out := make([]float64, len(open))
	column := make([]float64, r.Up+2*far)
	e := envelope{step: r.high}
	for x := range r.Across {
		for k := range column {
			column[k] = along[r.at(x, k-far)]
		}
		e.of(column)
		for y := range r.Up {
			if d := math.Sqrt(e.at(y + far)); d > 0 {
				out[y*r.Across+x] = d - (r.wide+r.high)/4
			}
		}
	}
	return out
}

// alongRow gives each px of a row its squared distance in mm to the nearest opening of the row, which is a ring.
func (r *Raster) alongRow(open []bool, out []float64) {
	n := len(open)
	for x := range out {
		out[x] = math.Inf(1)
	}
	for _, forward := range []bool{true, false} {
		steps := -1 // since the last opening, −1 before there was one
		for k := range 2 * n {
			x := k % n
			if !forward {
				x = n - 1 - x
			}
			if open[x] {
				steps = 0
			} else if steps >= 0 {
				steps++
			}
			if d := float64(steps) * r.wide; steps >= 0 {
				out[x] = min(out[x], d*d)
			}
		}
	}
}

// envelope is the lower envelope of the parabolas (x − k·step)² + f(k).
type envelope struct {
	step float64
	f    []float64
	k    []int     // parabolas that take part, from left to right
	from []float64 // where each begins to be the lowest, in steps
}

// of takes the heights of the parabolas; infinite ones take no part.
func (e *envelope) of(f []float64) {
	e.f, e.k, e.from = f, e.k[:0], e.from[:0]
	s2 := e.step * e.step
	for k, h := range f {
		if math.IsInf(h, 1) {
			continue
		}
		start := math.Inf(-1)
		for n := len(e.k); n > 0; n = len(e.k) {
			j := e.k[n-1]
			start = (float64(k+j) + (h-f[j])/(s2*float64(k-j))) / 2
			if start > e.from[n-1] {
				break
			}
			e.k, e.from, start = e.k[:n-1], e.from[:n-1], math.Inf(-1)
		}
		e.k, e.from = append(e.k, k), append(e.from, start)
	}
}

// at returns the envelope's height over a parabola's middle.
func (e *envelope) at(k int) float64 {
	i, found := slices.BinarySearch(e.from, float64(k))
	if !found {
		i--
	}
	d := float64(k-e.k[i]) * e.step
	return d*d + e.f[e.k[i]]
}

// hop leads from one px to another so many mm away.
type hop struct {
	x, y int
	far  float64
}

// hopLength in px is long enough for the way from an opening through a px to pass close by the end of some hop, and
// short enough to end before the middle of most gaps. hopSlack in px is what passing beside that end may cost; discs
// are laid rimPixels px farther than they reach, so that it takes no px along an opening from them.
const hopLength, hopSlack, rimPixels = 5, 0.05, 0.3

// hops returns a ring of hops round a px.
func (r *Raster) hops() []hop {
	var out []hop
	for y := -hopLength; y <= hopLength; y++ {
		for x := -hopLength; x <= hopLength; x++ {
			if n := math.Round(math.Hypot(float64(x), float64(y))); n == hopLength {
				out = append(out, hop{x, y, math.Hypot(float64(x)*r.wide, float64(y)*r.high)})
			}
		}
	}
	return out
}

// within reports whether the disc round a px lies within that at the end of a hop, to the slack: it need not be laid.
func (r *Raster) within(distance []float64, i int, hops []hop) bool {
	x, y := i%r.Across, i/r.Across
	enough := distance[i] - hopSlack*r.wide
	for _, h := range hops {
		if distance[r.at(x+h.x, y+h.y)] >= enough+h.far {
			return true
		}
	}
	return false
}

// thickness returns the local thickness by distances: discs are laid down from the widest to the narrowest, and a px
// keeps the first that covers it. Each row remembers which px are still free, so that none is gone over twice.
func (r *Raster) thickness(distance []float64) []float64 {
	var order []int
	hops := r.hops()
	for i, d := range distance {
		if d > 0 && !r.within(distance, i, hops) {
			order = append(order, i)
		}
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(distance[j], distance[i]) })

	out := make([]float64, len(distance))
	next := make([]int32, r.Up*(r.Across+1)) // the next px of the row that is free, itself if it is
	for i := range next {
		next[i] = int32(i)
	}
	free := func(i int) int {
		for int(next[i]) != i {
			next[i] = next[next[i]]
			i = int(next[i])
		}
		return i
	}
	lay := func(row, from, to int, width float64) { // px from … to of a row, all within it
		base := row * (r.Across + 1)
		for i := free(base + from); i <= base+to; i = free(i) {
			if o := row*r.Across + i - base; distance[o] > 0 {
				out[o] = width
			}
			next[i]++
		}
	}

	for _, i := range order {
		x0, y0 := i%r.Across, i/r.Across
		d := distance[i] + rimPixels*r.wide
		rows := int(d / r.high)
		for y := -rows; y <= rows; y++ {
			half := int(math.Sqrt(max(d*d-float64(y*y)*r.high*r.high, 0)) / r.wide)
			width := min(2*half+1, r.Across)
			at := r.at(x0-half, y0+y)
			row, from := at/r.Across, at%r.Across
			lay(row, from, min(from+width, r.Across)-1, 2*distance[i])
			if over := from + width - r.Across; over > 0 {
				lay(row, 0, over-1, 2*distance[i])
			}
		}
	}
	return out
}
