package scan

import (
	"math"
	"sort"

	"openwork/pattern/progress"
)

// light says how bright paper and ink are at each place of a picture, so that both can be levelled.
//
// Paper is a quadratic surface (a lamp to one side, a lens that darkens its corners) and, on a coarse net of knots,
// what the surface leaves (a shadow along a fold). Ink follows paper by one linear rule over the whole picture: it is
// lit by the same lamp.
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
	flat     bool // the same light everywhere
}

// findLight measures paper and ink. Several guesses where to part them are followed, and the one that parts best is
// taken; ok is false when none parts the picture into two: nothing but paper, nothing but ink, or noise.
// flat takes the light to be the same everywhere.
func findLight(g grey, flat bool, report progress.Func) (l light, ok bool) {
	spots := samples(g)
	report.At(0.5)
	if len(spots) < minSamples {
		return l, false
	}

	// A few of the spots tell which guess is right, and nearly where it leads. What falls through them (little ink,
	// thin strokes) is looked for among all.
	few := thinned(spots)
	for _, guess := range guesses(spots) {
		start := light{width: g.width, height: g.height, flat: flat, surface: [6]float64{guess},
			ink: [2]float64{guess, 0}}
		m := start
		found := m.follow(few)
		if !found && len(few) < len(spots) {
			m = start
			found = m.follow(spots)
		}
		if found && (!ok || m.contrast/m.spread > l.contrast/l.spread) {
			l, ok = m, true
		}
	}
	if ok = ok && l.follow(spots); ok {
		l.addNet(spots)
	}
	return l, ok && l.contrast >= minContrast && l.contrast >= minSeparation*l.spread
}

// follow parts the spots half-way between paper and ink as they are known, fits both to the two parts, and parts again.
func (l *light) follow(spots []sample) bool {
	for range lightRounds {
		before := *l
		if !l.fit(spots) {
			return false
		}
		change := math.Abs(l.ink[0]-before.ink[0]) + 100*math.Abs(l.ink[1]-before.ink[1])
		for k := range l.surface {
			change += math.Abs(l.surface[k] - before.surface[k])
		}
		if change < lightSettled {
			break
		}
	}
	return true
}

// addNet adds the net of knots, and fits once more.
func (l *light) addNet(spots []sample) {
	for range 2 {
		if !l.flat {
			l.knots(spots)
		}
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
func (l *light) sure(s *sample) (ink, certain bool) {
	level := l.half(s.x, s.y)
	ink, certain = s.v < level, true
	for _, v := range s.around {
		certain = certain && (v < level) == ink
	}
	return ink, certain
}

// fit fits the surface and the ink's rule to the spots as they are parted now.
func (l *light) fit(spots []sample) bool {
	var paper, ink, edge []int32
	for k := range spots {
		switch isInk, certain := l.sure(&spots[k]); {
		case isInk && certain:
			ink = append(ink, int32(k))
		case isInk:
			edge = append(edge, int32(k))
		case certain:
			paper = append(paper, int32(k))
		}
	}

	of := func(s *sample) float64 { return s.v }
	if len(ink) < minSamples { // thin strokes only: the middle pixels of the darkest spots
		of = func(s *sample) float64 { return s.pixel }
		sort.Slice(edge, func(i, j int) bool { return spots[edge[i]].v < spots[edge[j]].v })
		ink = append(ink, edge[:len(edge)/thinShare]...)
	}
	if len(paper) < minSamples || len(ink) < minSamples/4 {
		return false
	}
	if l.flat {
		l.surface = [6]float64{meanOf(spots, paper)}
	} else {
		l.surface = fitSurface(spots, paper, l.net)
	}
	l.fitInk(spots, ink, of)
	l.spread = math.Sqrt((l.scatter(spots, paper, nil) + l.scatter(spots, ink, of)) / float64(len(paper)+len(ink)))
	l.spread = max(l.spread, minSpread)
	l.contrast = 0
	for _, k := range ink {
		p := l.paper(spots[k].x, spots[k].y)
		l.contrast += (p - l.inkFor(p)) / float64(len(ink))
	}
	return l.contrast > 0
}

// meanOf returns the mean grey of some spots.
func meanOf(spots []sample, which []int32) float64 {
	sum := 0.0
	for _, k := range which {
		sum += spots[k].v
	}
	return sum / float64(len(which))
}

// scatter returns the sum of squared differences of some spots from what they should be: of ink, where it is known
// which value to take, else of paper.
func (l *light) scatter(spots []sample, which []int32, ofInk func(*sample) float64) float64 {
	sum := 0.0
	for _, k := range which {
		s := &spots[k]
		d := l.paper(s.x, s.y)
		if ofInk != nil {
			d = l.inkFor(d) - ofInk(s)
		} else {
			d -= s.v
		}
		sum += d * d
	}
	return sum
}

// fitInk fits ink = a + b·paper. Where paper hardly changes from ink to ink, b cannot be told and is 0.
func (l *light) fitInk(spots []sample, ink []int32, of func(*sample) float64) {
	n := float64(len(ink))
	var mp, mv, pp, pv float64
	for _, k := range ink {
		mp += l.paper(spots[k].x, spots[k].y) / n
		mv += of(&spots[k]) / n
	}
	for _, k := range ink {
		p := l.paper(spots[k].x, spots[k].y) - mp
		pp += p * p / n
		pv += p * (of(&spots[k]) - mv) / n
	}
	b := 0.0
	if math.Sqrt(pp) > steadyPaper*(mp-mv) {
		b = max(0, min(1, pv/pp))
	}
	l.ink = [2]float64{mv - b*mp, b}
}

// measure takes the means and the grain from the light as it is now.
func (l *light) measure(spots []sample) {
	var n, paper, grain, certain float64
	for k := range spots {
		s := &spots[k]
		n++
		paper += l.paper(s.x, s.y)
		if ink, ok := l.sure(s); !ink && ok {
			certain++
			grain += (s.pixel - s.v) * (s.pixel - s.v)
		}
	}
	l.paperAt = paper / n
	l.inkAt = l.inkFor(l.paperAt)
	l.grain = math.Sqrt(grain / certain * 9 / 8) // the pixel itself is a ninth of the mean it is held against
}
