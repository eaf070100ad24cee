package joined

import (
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
)

// notches sets up to two notches on each stretch of a joint that two parts share, where there is sheet enough round
// them, and returns the small squares, standing on a tip, that are taken off the parts.
func (j *Joined) notches() orb.MultiPolygon {
	var out orb.MultiPolygon
	lacking := 0
	for _, s := range j.stretches() {
		from, to := s.from+notchEnd, s.to-notchEnd
		if to < from {
			continue
		}
		set := 0
		taken := math.Inf(-1)
		for _, want := range []float64{from + (to-from)/4, to - (to-from)/4} {
			if along, ok := j.notchNear(s.of, want, from, to, taken); ok {
				p := s.of.at(along)
				j.Joints[s.joint].Notches = append(j.Joints[s.joint].Notches, p)
				out = append(out, orb.Polygon{{{p[0] - notch, p[1]}, {p[0], p[1] - notch}, {p[0] + notch, p[1]},
					{p[0], p[1] + notch}, {p[0] - notch, p[1]}}})
				taken = along
				set++
			}
		}
		if set == 0 {
			lacking++
		}
	}
	if lacking > 0 {
		j.Notes = append(j.Notes, fmt.Sprintf("There is no room for notches on %d stretches of the joints.", lacking))
	}
	return out
}

// notchNear returns the place nearest to where a notch is wanted that leaves half a bridge to the openings round it.
func (j *Joined) notchNear(l line, want, from, to, taken float64) (float64, bool) {
	need := notch + j.l.Draft.Sheet.Bridge/2
	for n := 0; float64(n)*notchStep <= to-from; n++ {
		for _, at := range []float64{want + float64(n)*notchStep, want - float64(n)*notchStep} {
			if at >= from && at <= to && at-taken > notchEnd && j.room.at(l.at(at), need) >= need {
				return at, true
			}
		}
	}
	return 0, false
}

// holes sets up to four registration holes in a part, near the corners of its box: where they are clear of openings and
// edge.
func (j *Joined) holes(p *Part) {
	p.Holes = [][2]float64{}
	d := j.o.Cut.Holes.Diameter
	need := d/2*math.Sqrt2 + math.Max(j.l.Draft.Sheet.Bridge, cutRoom)
	shape := geometry.NewShape(p.outline)
	b := p.outline.Bound()
	sheet := cutplan.Sheet{Panel: j.l.Draft.PanelBound()}
	var free []orb.Point
	for x := b.Min[0] + need; x <= b.Max[0]-need; x += holeStep {
		for y := b.Min[1] + need; y <= b.Max[1]-need; y += holeStep {
			q := orb.Point{x, y}
			if !sheet.AcrossEdge(orb.Bound{Min: q, Max: q}.Pad(d/2+pinRoom)) && shape.Contains(q) &&
				!shape.DistanceTo(q, need).Found && j.room.at(q, need) >= need {
				free = append(free, q)
			}
		}
	}

	far := func(p, q orb.Point) float64 { return math.Hypot(p[0]-q[0], p[1]-q[1]) }
	var at []orb.Point
	for _, c := range []orb.Point{{b.Min[0], b.Max[1]}, {b.Max[0], b.Min[1]}, b.Min, b.Max, b.Center()} {
		best, nearest := orb.Point{}, math.Inf(1)
		for _, q := range free {
			// Nearest to the corner; not where a hole is already.
			if e := far(q, c); e < nearest && !slices.ContainsFunc(at,
				func(o orb.Point) bool { return far(o, q) < 4*d }) {
				best, nearest = q, e
			}
		}
		if !math.IsInf(nearest, 1) && (len(at) < 3 || !three(at)) {
			at = append(at, best)
		}
	}

	for _, q := range at {
		p.Holes = append(p.Holes, q)
	}
	p.loose = !three(at)
}

// three reports whether three of the places are not in line.
func three(at []orb.Point) bool {
	for i := range at {
		for k := range i {
			for m := range k {
				u := orb.Point{at[k][0] - at[i][0], at[k][1] - at[i][1]}
				v := orb.Point{at[m][0] - at[i][0], at[m][1] - at[i][1]}
				if math.Abs(u[0]*v[1]-u[1]*v[0]) >= inLine*(u[0]*u[0]+u[1]*u[1]) {
					return true
				}
			}
		}
	}
	return false
}

// Sheet returns a part as it is cut, in panel mm.
func (j *Joined) Sheet(k int) cutplan.Sheet {
	p := j.Parts[k]
	out := cutplan.PartOf(j.l.Draft)
	out.Title = fmt.Sprintf("%s, part %d of %d", j.l.Draft.Title, p.Number, len(j.Parts))
	if j.plate != "" {
		out.Title = fmt.Sprintf("%s, %s, part %d of %d", j.l.Draft.Title, j.plate, p.Number, len(j.Parts))
	}
	out.Outline, out.Openings, out.Field, out.Panel = p.cut, p.open, j.l.Draft.FieldBound(), j.l.Draft.PanelBound()
	out.Written = p.written
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, h)
	}
	return out
}

// Write writes the cut file of part k, from 0 on, its registration holes cut, after it has been read back and compared.
func (j *Joined) Write(k int, w io.Writer, f cutfile.Format) (cutplan.Made, error) {
	p, err := j.Plan(k, f)
	if err != nil {
		return cutplan.Made{}, err
	}
	return cutfile.WritePlan(p, w, f)
}

// Plan returns what is cut of part k, from 0 on, in the curves of a format.
func (j *Joined) Plan(k int, f cutfile.Format) (*cutplan.Plan, error) {
	o := j.o.Cut
	o.Holes = cutplan.Holes{Diameter: j.o.Cut.Holes.Diameter, Layer: cutplan.Cut}
	return cutplan.New(j.Sheet(k), o, f.Curves())
}
