package scan

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"openwork/geometry"
	"openwork/geometry/contour"
	"openwork/geometry/simplify"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// trace finds the ink of a picture and writes its outlines into r. scale is mm per pixel across and up.
func trace(r *outline.Result, g grey, scale [2]float64, name string, o outline.Options) error {
	if o.Invert {
		for k, v := range g.v {
			g.v[k] = 255 - v
		}
		o.Level = opposite(o.Level)
	}
	l, found := findLight(g, o.Flat, o.Progress.Within(partGrey, partLight))
	switch {
	case !found && o.Level == 0:
		return fmt.Errorf("no drawing found: nothing in %s stands out from the paper; "+
			"if there is a drawing, set the level by hand", name)
	case !found: // black and white are what they say
		l = light{surface: [6]float64{255}, paperAt: 255, contrast: 255}
	}
	part := 0.5 // the level, as a part of the way from paper to ink
	r.Level = (l.paperAt + l.inkAt) / 2 / 255
	if o.Level > 0 {
		r.Level = o.Level
		part = (l.paperAt - o.Level*255) / (l.paperAt - l.inkAt)
	}
	level := paperLevel + part*(inkLevel-paperLevel)
	if part < minPart {
		return fmt.Errorf("no drawing found: everything in %s is darker than the level of %.3g, even the paper; "+
			"the level it would find by itself is %.3g", name, unInvert(o, r.Level),
			unInvert(o, (l.paperAt+l.inkAt)/2/255))
	}
	grid := levelled(g, l, kernelFor(l.grain/l.contrast), level, o.Progress.Within(partLight, partLevelled))
	var t lines
	if err := t.follow(grid, level, scale, o); err != nil {
		return err
	}
	if t.tooMany {
		return fmt.Errorf("%s falls apart into more than %d pieces; raise the size below which a piece is dust, or "+
			"set the level by hand",
			name, maxRings)
	}
	r.Level = unInvert(o, r.Level)
	blur := edgeBlur(grid, t.rings) * (scale[0] + scale[1]) / 2
	drawFrom := partFollowed
	if o.Pencil {
		drawFrom = partPencil
		var err error
		if t, err = t.closedLines(r, grid, level, scale, o); err != nil {
			return err
		}
		blur = 0
		if len(t.rings) == 0 {
			return fmt.Errorf("no drawing found: no line in %s closes; raise the gap that counts as closed, or read "+
				"the lines themselves as ink", name)
		}
	}

	mp := t.gather(scale, o)
	r.Left = append(r.Left, t.sentences(o)...)
	if len(mp) == 0 {
		return fmt.Errorf("no drawing found: nothing in %s is darker than the level of %.3g and at least %.3g mm² in "+
			"size",
			name, r.Level, math.Max(0, o.SpecksMM2))
	}
	if covers(mp, g, scale) {
		return fmt.Errorf("no drawing found: all of %s counts as ink at the level of %.3g; set the level by hand, or "+
			"turn the picture round from dark to light",
			name, r.Level)
	}
	r.Left = append(r.Left, atEdge(mp, g, scale)...)
	for _, p := range mp {
		for _, ring := range p {
			steady(ring, o.SmoothingMM)
			for k, v := range ring {
				ring[k] = r.Frame.Turned(v, false)
			}
		}
	}

	return r.Simplify(mp, simplify.Options{
		Tolerance: tightened(o.ToleranceMM, (scale[0]+scale[1])/2),
		Rise:      riseShare * o.ToleranceMM,
		Blur:      blur,
		Progress:  o.Progress.Within(drawFrom, partDrawn),
	})
}

// opposite turns a level into the one of the picture turned from dark to light; 0, for none, stays.
func opposite(level float64) float64 {
	if level == 0 {
		return 0
	}
	return math.Max(1-level, math.SmallestNonzeroFloat64)
}

func unInvert(o outline.Options, level float64) float64 {
	if o.Invert {
		return 1 - level
	}
	return level
}

// tightened returns the tolerance to draw with, when a pixel is so large in mm. Fitted edges need fewer points than the
// tolerance allows, and some are spent again on lying nearer to the ink's edge: within 0.35 of a pixel, where that is
// less than the tolerance, but not under 0.4 of the tolerance.
func tightened(tolerance, pixel float64) float64 {
	return math.Max(outline.Tightest*tolerance, math.Min(tolerance, pixelShare*pixel))
}

// lines are the outlines of all ink, in pixels, on their way to pieces.
type lines struct {
	rings            []orb.Ring
	area             []float64 // of each ring, in mm², with its sign
	tooMany          bool      // more than can be meant
	specks, pinholes int       // that were dropped
}

// small says whether a ring is a speck or a pinhole, and counts it.
func (t *lines) small(area float64, o outline.Options) bool {
	switch {
	case area > 0 && area < o.SpecksMM2:
		t.specks++
	case area < 0 && -area < o.PinholesMM2:
		t.pinholes++
	default:
		return false
	}
	return true
}

// follow gathers the lines at the level; those too small both for a piece and for a hole are dropped at once, so that
// noise does not fill the memory.
func (t *lines) follow(g contour.Grid[uint16], level float64, scale [2]float64, o outline.Options) error {
	smallest := math.Min(o.SpecksMM2, o.PinholesMM2)
	report := o.Progress.Within(partLevelled, partFollowed)
	return contour.Walk(g, level, func(ring orb.Ring, area float64) bool {
		report.Of(int(ring[0][1]), g.Height)
		area *= scale[0] * scale[1]
		if math.Abs(area) < smallest && t.small(area, o) {
			return true
		}
		if t.tooMany = len(t.rings) == maxRings; t.tooMany {
			return false
		}
		t.rings = append(t.rings, slices.Clone(ring))
		t.area = append(t.area, area)
		return true
	})
}

// gather drops specks and pinholes with all that is in them, and puts the rest together, largest piece first, in mm
// with the origin at the picture's lower left corner: pixel (i, j) has its middle at (i + ½, j + ½) pixels.
func (t *lines) gather(scale [2]float64, o outline.Options) (mp orb.MultiPolygon) {
	parent := contour.Nest(t.rings)
	order := make([]int, len(t.rings)) // a ring after the one around it: that has the larger area
	for k := range order {
		order[k] = k
	}
	sort.SliceStable(order, func(i, j int) bool { return math.Abs(t.area[order[i]]) > math.Abs(t.area[order[j]]) })
	dropped := make([]bool, len(t.rings))
	at := make([]int, len(t.rings)) // the polygon that a ring belongs to
	for _, k := range order {
		p := parent[k]
		if dropped[k] = p >= 0 && dropped[p] || t.small(t.area[k], o); dropped[k] {
			continue
		}
		ring := t.rings[k]
		for i, v := range ring {
			ring[i] = orb.Point{(v[0] + 0.5) * scale[0], (v[1] + 0.5) * scale[1]}
		}
		if t.area[k] > 0 {
			at[k] = len(mp)
			mp = append(mp, orb.Polygon{ring})
		} else {
			at[k] = at[p]
			mp[at[k]] = append(mp[at[k]], ring)
		}
	}
	return mp
}

// sentences says what was dropped.
func (t *lines) sentences(o outline.Options) []string {
	var out []string
	if t.specks > 0 {
		out = append(out, fmt.Sprintf("%s under %.3g mm² left out.", outline.Count(t.specks, "speck"), o.SpecksMM2))
	}
	if t.pinholes > 0 {
		out = append(out, fmt.Sprintf("%s under %.3g mm² filled.", outline.Count(t.pinholes, "pinhole"), o.PinholesMM2))
	}
	return out
}

// covers says whether one piece without holes fills the whole picture.
func covers(mp orb.MultiPolygon, g grey, scale [2]float64) bool {
	whole := float64(g.width) * float64(g.height) * scale[0] * scale[1]
	return len(mp) == 1 && len(mp[0]) == 1 && geometry.RingArea(mp[0][0]) > coverShare*whole
}

// atEdge tells of pieces that run over the edge of the picture.
func atEdge(mp orb.MultiPolygon, g grey, scale [2]float64) []string {
	n, around := 0, false
	for _, p := range mp {
		b := p.Bound()
		if b.Min[0] < scale[0]/2 && b.Min[1] < scale[1]/2 &&
			b.Max[0] > (float64(g.width)-0.5)*scale[0] && b.Max[1] > (float64(g.height)-0.5)*scale[1] {
			around = true
			continue
		}
		if b.Min[0] < scale[0]/2 || b.Min[1] < scale[1]/2 ||
			b.Max[0] > (float64(g.width)-0.5)*scale[0] || b.Max[1] > (float64(g.height)-0.5)*scale[1] {
			n++
		}
	}
	var out []string
	if around {
		out = append(out, "A piece reaches all four edges of the picture; if the drawing is light on dark, turn "+
			"light and dark round.")
	}
	if n > 0 {
		out = append(out, fmt.Sprintf("%s cut off by the picture's edge.", outline.Count(n, "piece")))
	}
	return out
}

// edgeBlur returns the standard deviation in pixels of the blur across the ink's edge: half of the edge has at least
// the slope of a step blurred by it.
func edgeBlur(g contour.Grid[uint16], rings []orb.Ring) float64 {
	var slopes []float64
	for _, r := range rings {
		step := max(1, len(r)/1000)
		for k := 0; k < len(r); k += step {
			i, j := int(math.Floor(r[k][0])), int(math.Floor(r[k][1]))
			if i < 0 || j < 0 || i+1 >= g.Width || j+1 >= g.Height {
				continue
			}
			at := j*g.Width + i
			a, b := float64(g.Values[at]), float64(g.Values[at+1])
			d, c := float64(g.Values[at+g.Width]), float64(g.Values[at+g.Width+1])
			slopes = append(slopes, math.Hypot(b-a+c-d, d-a+c-b)/2/(inkLevel-paperLevel))
		}
	}
	if len(slopes) == 0 {
		return 0
	}
	sort.Float64s(slopes)
	slope := slopes[len(slopes)/2]
	return math.Min(maxBlur, 1/(math.Sqrt(2*math.Pi)*math.Max(slope, 1e-3)))
}
