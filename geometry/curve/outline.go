package curve

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Options say what to fit with.
type Options struct {
	Kind      Kind    // Cubic: lines and cubic Béziers; Arc: lines and circular arcs; Line: the polygon itself
	Tolerance float64 // mm, > 0: the greatest distance of the curve from the polygon and of the polygon from the curve
	Shortest  float64 // mm: no piece's ends are nearer to each other, where that can be; 0: they may be
	// Beside is how far in mm, in the mean, curves lie to the right of the polygon, where Shortest is not 0: outside of
	// an outline
	Beside float64
	// Longer is the part of its length by which the polygon is longer than what it stands for.
	Longer float64
	// Grid in mm that points of curves are put on before it is looked whether they cross, so that a file that is
	// written in such steps holds what was looked at; 0: none. Polygons stay as they are.
	Grid float64

	kinks bool // arcs need not go on in one direction
}

// Approximation is an outline approximated by curves, within a tolerance.
type Approximation struct {
	Paths     [][]Path // ring by ring as the outline has them: outer rings counter-clockwise, holes clockwise
	Deviation float64  // mm: a bound on the greatest distance between curves and polygons, either way
	Pieces    int
	Points    int // corners of the polygons
	// rings with kinks, or left as polygons, because no smooth curve within the tolerance kept their measures and
	// crossed nothing
	Straight int
}

// Outline fits all rings of an outline. Where the curves would cross or touch each other and the polygons do not, or a
// ring would lose or gain more than AreaSlack of its area, or sway (see LengthSlack), it is fitted again more closely,
// and in the end left as it is. Corners are kept exactly (see judge for what a corner is); elsewhere pieces meet with a
// common tangent, but where a piece along a single edge had to be a straight line. Time grows with the number of points
// times its logarithm. It fails on a tolerance or a coordinate that is none, and on arcs without ForCutting.
func Outline(mp orb.MultiPolygon, o Options) (Approximation, error) {
	if !(o.Tolerance > 0) || math.IsInf(o.Tolerance, 0) {
		return Approximation{}, errors.New("the tolerance of a curve must be a number of mm greater than 0")
	}
	if (o.Kind == Arc || o.Shortest > 0) && cutting.arcs == nil {
		return Approximation{}, errors.New("arcs and a least length of pieces are for cut files; call ForCutting first")
	}
	var out Approximation
	for _, p := range mp {
		for _, r := range p {
			for _, v := range r {
				if !(math.Abs(v[0]) <= geometry.MaxCoordinate && math.Abs(v[1]) <= geometry.MaxCoordinate) {
					return Approximation{}, errors.New("a coordinate is not a number, or too large for a curve")
				}
			}
		}
	}

	out.Points = geometry.Points(mp)
	out.Paths = make([][]Path, len(mp))
	deviations, straight := make([]float64, len(mp)), make([]int, len(mp))
	for least := 0; least <= refits+1; least++ {
		for i, p := range mp {
			// A polygon by itself first: the others need not suffer for it.
			for level := least; level <= refits+1; level++ {
				out.Paths[i], deviations[i], straight[i] = polygonOf(p, o, level)
				if level > refits || o.Kind == Line || simple(out.Paths[i:i+1], o.Tolerance) {
					break
				}
			}
		}
		if least > refits || o.Kind == Line || len(mp) == 1 || simple(out.Paths, o.Tolerance) {
			break
		}
	}
	for i, d := range deviations {
		out.Deviation = max(out.Deviation, d)
		out.Straight += straight[i]
	}
	return out.counted(), nil
}

// polygonOf fits the rings of one polygon, to the tolerance made smaller so many times; a ring that has no such
// curve, and every ring at a level above refits, stays a polygon.
func polygonOf(p orb.Polygon, o Options, level int) (paths []Path, dev float64, straight int) {
	for _, r := range p {
		path, d, ok := Path{}, 0.0, false
		for k := level; k <= refits && !ok && o.Kind != Line; k++ {
			path, d, ok = Ring(r, closer(o, k))
		}
		if !ok && o.Kind == Arc && o.Shortest > 0 && level <= refits {
			loose := o
			loose.kinks = true
			if path, d, ok = Ring(r, loose); ok {
				straight++
			}
		}
		if !ok {
			path, d = Polygon(r), 0
			if o.Shortest > 0 {
				path, d = cutting.facets(r, o)
			}
			if o.Kind != Line {
				straight++
			}
		}
		if o.Grid > 0 && o.Kind != Line {
			path, d = path.onGrid(o.Grid), d+o.Grid*math.Sqrt2/2
		}
		paths = append(paths, path)
		dev = max(dev, d)
	}
	return paths, dev, straight
}

// closer returns options with the tolerance made smaller so many times.
func closer(o Options, times int) Options {
	o.Tolerance *= math.Pow(refitShare, float64(times))
	return o
}

func (f Approximation) counted() Approximation {
	f.Pieces = 0
	for _, p := range f.Paths {
		for _, r := range p {
			f.Pieces += len(r.Pieces)
		}
	}
	return f
}

// simple reports whether curves are a valid outline: coarsely flattened, which finds most that are not, and finely.
func simple(paths [][]Path, tolerance float64) bool {
	return valid(paths, coarseShare*tolerance) && valid(paths, fineShare*tolerance)
}

// valid reports whether curves, flattened, are a valid outline.
func valid(paths [][]Path, tolerance float64) bool {
	mp := make(orb.MultiPolygon, len(paths))
	for i, p := range paths {
		for _, r := range p {
			mp[i] = append(mp[i], distinct(r.Flatten(tolerance)))
		}
	}
	return geometry.CheckOutline(mp) == nil
}

// distinct leaves out points that repeat the one before.
func distinct(r orb.Ring) orb.Ring {
	out := r[:1]
	for _, p := range r[1:] {
		if p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	return out
}
