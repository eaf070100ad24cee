package svgin

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"
)

// dashesOf reads stroke-dasharray; nil is a line drawn through (SVG 2, section 13.5.6). A list of an odd number of
// lengths is taken twice.
func dashesOf(text string, v viewport) (out []float64) {
	sum := 0.0
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(spaceChars+",", r) }) {
		l, ok := v.neither(w)
		if !ok || l < 0 || len(out) >= maxPieces {
			return nil
		}
		out = append(out, l)
		sum += l
	}
	if !(sum > 0) {
		return nil
	}
	if len(out)%2 == 1 {
		out = append(out, out...)
	}
	return out
}

// dashed cuts lines into dashes. done counts them.
func (p *pen) dashed(lines []polyline, done *int) ([]polyline, error) {
	if len(p.dash) == 0 {
		return lines, nil
	}
	scale, sum := 1.0, 0.0
	for _, d := range p.dash {
		sum += d
	}
	total := 0.0
	for _, l := range lines {
		total += l.length()
	}
	if p.natural > 0 {
		scale = total / p.natural
	}
	if *done += int(math.Min(total/(sum*scale)*float64(len(p.dash)/2), maxDashes+1)); *done > maxDashes {
		return nil, fmt.Errorf("has strokes of more than %d dashes", maxDashes)
	}
	first, left := p.start(sum)
	var out []polyline
	for _, l := range lines {
		out = append(out, p.one(l, first, left*scale, scale)...)
	}
	return out, nil
}

// start returns which of the lengths a line begins in, and how much of it is left.
func (p *pen) start(sum float64) (k int, left float64) {
	at := math.Mod(math.Mod(p.from, sum)+sum, sum)
	for k, d := range p.dash {
		if at < d || at == 0 && d == 0 {
			return k, d - at
		}
		at -= d
	}
	return 0, p.dash[0]
}

// one cuts one line. The last dash of a closed line and its first are one where both are drawn.
func (p *pen) one(l polyline, k int, left, scale float64) (out []polyline) {
	if l.closed && l.p[0] != l.p[len(l.p)-1] {
		l.p, l.bend = append(l.p[:len(l.p):len(l.p)], l.p[0]), append(l.bend[:len(l.bend):len(l.bend)], false)
	}
	drawn := k%2 == 0
	began := drawn
	now := polyline{p: []orb.Point{l.p[0]}, bend: []bool{false}}
	for i := 1; i < len(l.p); i++ {
		a, b := l.p[i-1], l.p[i]
		d := math.Hypot(b[0]-a[0], b[1]-a[1])
		at := 0.0
		for d-at > left { // ends: the dashes are counted beforehand, and their sum is not nothing
			at += left
			t := at / d
			cut := orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
			if drawn {
				now.add(cut, false)
				now.along = orb.Point{(b[0] - a[0]) / d, (b[1] - a[1]) / d}
				out = append(out, now)
			}
			k = (k + 1) % len(p.dash)
			drawn, left = k%2 == 0, p.dash[k]*scale
			now = polyline{p: []orb.Point{cut}, bend: []bool{false}}
		}
		left -= d - at
		if drawn {
			now.add(b, l.bend[i])
		}
	}

	if !drawn || len(now.p) < 2 && len(out) > 0 {
		return out
	}
	switch {
	case l.closed && began && len(out) == 0: // nothing was left out
		now.closed = true
	case l.closed && began:
		now.p, now.bend = append(now.p, out[0].p[1:]...), append(now.bend, out[0].bend[1:]...)
		out = out[1:]
	}
	return append(out, now)
}

func (l *polyline) add(p orb.Point, bend bool) { l.p, l.bend = append(l.p, p), append(l.bend, bend) }

// length of a line in its own units, with what closes it.
func (l *polyline) length() (sum float64) {
	n := len(l.p)
	for k := range n {
		if k+1 < n || l.closed {
			q := l.p[(k+1)%n]
			sum += math.Hypot(q[0]-l.p[k][0], q[1]-l.p[k][1])
		}
	}
	return sum
}
