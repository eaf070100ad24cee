package joined

import (
	"fmt"
	"math"

	"openwork/pattern/progress"
)

// divide finds the joints, with the bed one way round and the other: the way that needs fewer parts.
func (j *Joined) divide(onProgress progress.Func) error {
	w, h := j.sheet.Max[0]-j.sheet.Min[0], j.sheet.Max[1]-j.sheet.Min[1]
	kerf := j.l.Draft.Sheet.KerfTaken() // the file's page is that much larger than the part
	ways := [][2]float64{{j.o.Bed.Width - kerf, j.o.Bed.Height - kerf - j.reserve},
		{j.o.Bed.Height - kerf, j.o.Bed.Width - kerf - j.reserve}}
	fewest := func(b [2]float64) float64 {
		if b[0] < minBand || b[1] < minBand {
			return math.Inf(1)
		}
		return math.Ceil(w/b[0]-same) * math.Ceil(h/b[1]-same)
	}
	if fewest(ways[1]) < fewest(ways[0]) {
		ways[0], ways[1] = ways[1], ways[0]
	}
	if n := fewest(ways[0]); n > maxParts {
		return fmt.Errorf("a bed of %s × %s mm would need more than %d parts for a sheet of %s × %s mm; use a larger "+
			"bed, or a stepping sheet",
			short(j.o.Bed.Width), short(j.o.Bed.Height), maxParts, short(w), short(h))
	}
	var best *Joined
	partsOf := func(k *Joined) (n int) {
		for _, a := range k.across {
			n += len(a) - 1
		}
		return n
	}
	for i, b := range ways {
		if fewest(b) > maxParts || best != nil && float64(partsOf(best)) <= fewest(b) {
			continue
		}
		try := *j
		if try.along(b, onProgress.Within(float64(i)/2, float64(i+1)/2)) == nil &&
			(best == nil || partsOf(&try) < partsOf(best)) {
			best = &try
		}
	}

	if best == nil {
		return fmt.Errorf("no line through sheet alone divides the field so that its parts fit a bed of %s × %s mm; "+
			"leave more sheet between the openings, take a larger bed, or make a stepping sheet", short(j.o.Bed.Width),
			short(j.o.Bed.Height))
	}
	*j = *best
	return nil
}

// along divides the sheet into upright strips, and these across, for parts of a given size at most.
func (j *Joined) along(size [2]float64, onProgress progress.Func) error {
	s := j.sheet
	swapped := j.room.swapped()
	low, high := line{{s.Min[1], s.Min[0]}, {s.Min[1], s.Max[0]}}, line{{s.Max[1], s.Min[0]}, {s.Max[1], s.Max[0]}}
	upright, err := parted(swapped, strip{low, high}, s.Min[0], s.Max[0], size[0], j.l.Draft.Sheet.Bridge)
	if err != nil {
		return err
	}
	j.upright, j.strips, j.across = nil, nil, nil
	side := line{s.Min, {s.Min[0], s.Max[1]}}
	for i := 0; i <= len(upright); i++ {
		next := line{{s.Max[0], s.Min[1]}, s.Max}
		if i < len(upright) {
			next = upright[i].swapped()
			j.upright = append(j.upright, next)
		}
		onProgress.Of(i, len(upright)+1)
		st := strip{side, next}
		level, err := parted(j.room, st, s.Min[1], s.Max[1], size[1], j.l.Draft.Sheet.Bridge)
		if err != nil {
			return err
		}
		cuts := []cut{{line{side[0], next[0]}, 0, 0}}
		for _, l := range level {
			_, before, _ := side.nearest(l[0])
			_, after, _ := next.nearest(l[len(l)-1])
			cuts = append(cuts, cut{l, before, after})
		}
		cuts = append(cuts, cut{line{side[len(side)-1], next[len(next)-1]}, side.length(), next.length()})
		j.strips, j.across = append(j.strips, st), append(j.across, cuts)
		side = next
	}
	return nil
}

// parted returns level lines that part a strip from low to high into stretches of at most size: as few as there can be,
// clear of the openings by a bridge or, where that cannot be had, by the next of the tiers.
func parted(r *room, s strip, low, high, size, bridge float64) ([]line, error) {
	fewest := max(1, int(math.Ceil((high-low)/size-same)))
	for n := fewest; n <= fewest+maxMore; n++ {
		for _, tier := range tiers {
			if out, err := cuts(r, s, low, high, size, tier*bridge, n); err == nil {
				return out, nil
			}
		}
	}
	return nil, errNoWay
}

// cuts returns n−1 lines, one after another: each so that the stretch before it is no higher than size and the rest can
// still be parted.
func cuts(r *room, s strip, low, high, size, clearance float64, n int) ([]line, error) {
	var out []line
	// of the stretch that the next line ends: its lowest point, and the highest of the line before
	floor, top := low, low
	for i := 1; i < n; i++ {
		b := band{left: s.left, right: s.right, inside: s,
			low:  math.Max(high-size*float64(n-i), top+math.Min(minBand, size/2)),
			high: math.Min(floor+size, high-math.Min(minBand, size/2))}
		if b.low > b.high+same {
			return nil, errNoWay
		}
		b.high = math.Max(b.high, b.low)
		b.wants = math.Max(b.low, math.Min(b.high, low+(high-low)*float64(i)/float64(n)))
		l, ok := b.straight(r, clearance)
		if !ok {
			l, ok = b.way(r, clearance)
		}
		if !ok {
			return nil, errNoWay
		}
		floor, top = l[0][1], l[0][1]
		for _, p := range l {
			floor, top = math.Min(floor, p[1]), math.Max(top, p[1])
		}
		out = append(out, l)
	}
	return out, nil
}
