package scan

import (
	"math"
	"sort"
)

// sample is a spot of the picture: the mean of 3 × 3 pixels, and of four such spots around it.
type sample struct {
	x, y   float64 // −1 … 1
	v      float64
	around [4]float64
	pixel  float64 // the middle pixel alone
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

	take := func(x, y int) sample {
		return sample{
			x: 2*(float64(x)+0.5)/float64(g.width) - 1,
			y: 2*(float64(y)+0.5)/float64(g.height) - 1,
			v: mean(x, y),
			around: [4]float64{mean(x-sureReach, y), mean(x+sureReach, y),
				mean(x, y-sureReach), mean(x, y+sureReach)},
			pixel: float64(g.v[y*g.width+x]),
		}
	}

	out := make([]sample, 0, (g.width/step+1)*(g.height/step+1))
	for y := 1 + step/2; y < g.height-1; y += step {
		for x := 1 + step/2; x < g.width-1; x += step {
			out = append(out, take(x, y))
		}
	}
	if step == 1 {
		return out
	}

	// Little ink on much paper falls through the meshes: what is dark and covers little is looked at pixel by pixel.
	for _, b := range darkBlocks(g) {
		for y := b[1]; y < min(b[1]+darkBlock, g.height); y++ {
			for x := b[0]; x < min(b[0]+darkBlock, g.width); x++ {
				out = append(out, take(x, y))
			}
		}
	}
	return out
}

// thinned returns about one in thinnedShare of many spots, spread over all of them without a beat against their rows:
// by multiples of the golden ratio, less whole turns.
func thinned(spots []sample) []sample {
	if len(spots) < minThinned {
		return spots
	}
	const golden = 2654435769 // 2³² divided by the golden ratio
	out := make([]sample, 0, len(spots)/thinnedShare+1)
	for k := range spots {
		if uint32(k)*golden < math.MaxUint32/thinnedShare {
			out = append(out, spots[k])
		}
	}
	return out
}

// darkBlocks returns the lower left corners of the blocks of darkBlock pixels a side that hold pixels darker than
// half-way from the commonest grey to the darkest; none if that are more than maxDarkBlocks.
func darkBlocks(g grey) [][2]int {
	var count [256]int // of every second row: ink is not as thin as that
	for y := 0; y < g.height; y += 2 {
		for _, v := range g.v[y*g.width : (y+1)*g.width] {
			count[v]++
		}
	}
	common, darkest, seen := 0, 0, 0
	for v, c := range count {
		if c > count[common] {
			common = v
		}
		if seen < minSamples/2 {
			darkest = v
		}
		seen += c
	}

	half := uint8((common + darkest) / 2)
	var out [][2]int
	for y := 0; y < g.height; y += darkBlock {
		for x := 0; x < g.width; x += darkBlock {
			n := 0
			for j := y; j < min(y+darkBlock, g.height); j += 2 {
				for _, v := range g.v[j*g.width+x : j*g.width+min(x+darkBlock, g.width)] {
					if v < half {
						n++
					}
				}
			}
			if n >= darkPixels/2 {
				if len(out) == maxDarkBlocks {
					return nil
				}
				out = append(out, [2]int{x, y})
			}
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
	var out []float64
	for _, v := range []float64{level, (middle + darkest) / 2, (middle + 3*darkest) / 4, (middle + sorted[0]) / 2} {
		near := false
		for _, have := range out {
			near = near || math.Abs(have-v) < nearGuess
		}
		if !near {
			out = append(out, v)
		}
	}
	return out
}
