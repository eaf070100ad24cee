package outline

import (
	"math"
	"sort"
)

// light says how bright paper and ink are at each place of a picture, so that both can be levelled.
//
// Paper is a quadratic surface (a lamp to one side, a lens that darkens its corners) and, on a coarse net of knots, what
// the surface leaves (a shadow along a fold). Ink follows paper by one linear rule over the whole picture: it is lit by
// the same lamp.
type light struct {
	surface  [6]float64 // of 1, x, y, xx, xy, yy; x and y from −1 to 1 over the picture
	net      []float64  // knots × knots, the lowest row first; nil while there is none
	ink      [2]float64 // ink = ink[0] + ink[1]·paper
	width    int
	height   int
	contrast float64 // the mean of paper − ink over the samples
	spread   float64 // of paper and ink about what they should be, as a standard deviation
	grain    float64 // standard deviation of single pixels of paper from their neighbours
	paperAt  float64 // means over the picture
	inkAt    float64
}

// sample is a spot of the picture: the mean of 3 × 3 pixels, and of four such spots around it.
type sample struct {
	x, y   float64 // −1 … 1
	v      float64
	around [4]float64
	pixel  float64 // the middle pixel alone
}

// findLight measures paper and ink. Several guesses where to part them are followed, and the one that parts best is
// taken; ok is false when none parts the picture into two: nothing but paper, nothing but ink, or noise.
func findLight(g grey) (l light, ok bool) {
	spots := samples(g)
	if len(spots) < leastSamples {
		return l, false
	}
	few := spots[:0:0] // to try the guesses with
	for k := 0; k < len(spots); k += 1 + len(spots)/triedSamples {
		few = append(few, spots[k])
	}
	for _, guess := range guesses(spots) {
		m := light{width: g.width, height: g.height}
		if m.follow(few, guess) && (!ok || m.contrast/m.spread > l.contrast/l.spread) {
			l, ok = m, true
		}
	}
	if ok {
		l.settle(spots)
	}
	return l, ok && l.contrast >= leastContrast && l.contrast >= leastSeparation*l.spread
}

// samples takes up to about maxSamples spots, evenly spread.
func samples(g grey) []sample {
	if g.width < 3 || g.height < 3 {
		return nil
	}
	step := max(1, int(math.Ceil(math.Sqrt(float64(g.width)*float64(g.height)/maxSamples))))
	mean := func(x, y int) float64 {
		x, y = min(max(x, 1), g.width-2), min(max(y, 1), g.height-2)
		k, sum := (y-1)*g.width+x-1, 0
		for range 3 {
			sum += int(g.v[k]) + int(g.v[k+1]) + int(g.v[k+2])
			k += g.width
		}
		return float64(sum) / 9
	}
	out := make([]sample, 0, (g.width/step+1)*(g.height/step+1))
	for y := 1 + step/2; y < g.height-1; y += step {
		for x := 1 + step/2; x < g.width-1; x += step {
			out = append(out, sample{
				x: 2*(float64(x)+0.5)/float64(g.width) - 1,
				y: 2*(float64(y)+0.5)/float64(g.height) - 1,
				v: mean(x, y),
				around: [4]float64{mean(x-sureReach, y), mean(x+sureReach, y),
					mean(x, y-sureReach), mean(x, y+sureReach)},
				pixel: float64(g.v[y*g.width+x]),
			})
		}
	}
	return out
}

// guesses returns levels at which paper and ink might part: the one of N. Otsu, "A threshold selection method from
// gray-level histograms", IEEE Trans. Systems, Man and Cybernetics 9 (1979), which suits ink and paper of like extent,
// and levels below the commonest grey, for little ink on much paper.
func guesses(spots []sample) []float64 {
	var count [256]float64
	for _, s := range spots {
		count[int(s.v)]++
	}
	total := float64(len(spots))
	var all, lowSum, low float64
	for i, c := range count {
		all += float64(i) * c
	}
	level, best := 0.0, -1.0
	for i, c := range count {
		low += c
		lowSum += float64(i) * c
		if low == 0 || low == total {
			continue
		}
		d := lowSum/low - (all-lowSum)/(total-low)
		if v := low * (total - low) * d * d; v > best {
			level, best = float64(i)+1, v
		}
	}
	sorted := make([]float64, len(spots))
	for i, s := range spots {
		sorted[i] = s.v
	}
	sort.Float64s(sorted)
	middle, darkest := sorted[len(sorted)/2], sorted[len(sorted)/1000]
	return []float64{level, (middle + darkest) / 2, (middle + 3*darkest) / 4, (middle + sorted[0]) / 2}
}

// follow parts the spots at a level, fits paper and ink to the two parts, and parts again half-way between them.
func (l *light) follow(spots []sample, level float64) bool {
	l.surface, l.ink, l.net = [6]float64{level}, [2]float64{level, 0}, nil
	for range lightRounds {
		if !l.fit(spots) {
			return false
		}
	}
	return true
}

// settle adds the net of knots, and fits once more.
func (l *light) settle(spots []sample) {
	for range 2 {
		l.knots(spots)
		l.fit(spots)
	}
	l.measure(spots)
}

// half returns the level half-way between paper and ink.
func (l *light) half(x, y float64) float64 {
	p := l.paper(x, y)
	return (p + l.inkFor(p)) / 2
}

// inkFor returns how bright ink is where paper is p.
func (l *light) inkFor(p float64) float64 { return l.ink[0] + l.ink[1]*p }

// paper returns how bright paper is.
func (l *light) paper(x, y float64) float64 {
	s := l.surface
	v := s[0] + s[1]*x + s[2]*y + s[3]*x*x + s[4]*x*y + s[5]*y*y
	if l.net != nil {
		v += netAt(l.net, x, y)
	}
	return v
}

// sure says whether a spot is ink, and whether it lies clear of any edge: all around it is of its kind.
func (l *light) sure(s *sample) (ink, clear bool) {
	level := l.half(s.x, s.y)
	ink, clear = s.v < level, true
	for _, v := range s.around {
		clear = clear && (v < level) == ink
	}
	return ink, clear
}

// fit fits the surface and the ink's rule to the spots as they are parted now.
func (l *light) fit(spots []sample) bool {
	var paper, ink, edge []int32
	for k := range spots {
		switch isInk, clear := l.sure(&spots[k]); {
		case isInk && clear:
			ink = append(ink, int32(k))
		case isInk:
			edge = append(edge, int32(k))
		case clear:
			paper = append(paper, int32(k))
		}
	}
	if len(ink) < leastSamples { // thin strokes only: the darkest of them
		sort.Slice(edge, func(i, j int) bool { return spots[edge[i]].v < spots[edge[j]].v })
		ink = append(ink, edge[:len(edge)/4]...)
	}
	if len(paper) < leastSamples || len(ink) < leastSamples/4 {
		return false
	}
	l.surface = fitSurface(spots, paper, l.net)
	l.fitInk(spots, ink)
	l.spread = math.Sqrt((l.scatter(spots, paper, false) + l.scatter(spots, ink, true)) / float64(len(paper)+len(ink)))
	l.spread = math.Max(l.spread, leastSpread)
	l.contrast = 0
	for _, k := range ink {
		p := l.paper(spots[k].x, spots[k].y)
		l.contrast += (p - l.inkFor(p)) / float64(len(ink))
	}
	return l.contrast > 0
}

// scatter returns the sum of squared differences of some spots from what they should be.
func (l *light) scatter(spots []sample, of []int32, ink bool) float64 {
	sum := 0.0
	for _, k := range of {
		s := &spots[k]
		want := l.paper(s.x, s.y)
		if ink {
			want = l.inkFor(want)
		}
		sum += (s.v - want) * (s.v - want)
	}
	return sum
}

// fitInk fits ink = a + b·paper. Where paper hardly changes from ink to ink, b cannot be told and is 0.
func (l *light) fitInk(spots []sample, ink []int32) {
	n := float64(len(ink))
	var mp, mv, pp, pv float64
	for _, k := range ink {
		mp += l.paper(spots[k].x, spots[k].y) / n
		mv += spots[k].v / n
	}
	for _, k := range ink {
		p := l.paper(spots[k].x, spots[k].y) - mp
		pp += p * p / n
		pv += p * (spots[k].v - mv) / n
	}
	b := 0.0
	if math.Sqrt(pp) > steadyPaper*(mp-mv) {
		b = math.Max(0, math.Min(1, pv/pp))
	}
	l.ink = [2]float64{mv - b*mp, b}
}

// measure takes the means and the grain from the light as it is now.
func (l *light) measure(spots []sample) {
	var n, paper, grain, clear float64
	for k := range spots {
		s := &spots[k]
		n++
		paper += l.paper(s.x, s.y)
		if ink, ok := l.sure(s); !ink && ok {
			clear++
			grain += (s.pixel - s.v) * (s.pixel - s.v)
		}
	}
	l.paperAt = paper / n
	l.inkAt = l.inkFor(l.paperAt)
	l.grain = math.Sqrt(grain / clear * 9 / 8) // the pixel itself is a ninth of the mean it is held against
}
