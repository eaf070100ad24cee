package joined

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// assemble makes the parts' outlines from the lines round them, and the list of joints.
func (j *Joined) assemble() error {
	for i, s := range j.strips {
		for k := 0; k+1 < len(j.across[i]); k++ {
			lo, hi := j.across[i][k], j.across[i][k+1]
			var ring orb.Ring
			put := func(l line) {
				for _, p := range l {
					if n := len(ring); n == 0 || math.Hypot(ring[n-1][0]-p[0], ring[n-1][1]-p[1]) > same {
						ring = append(ring, p)
					}
				}
			}
			put(lo.line)
			put(s.right.between(lo.after, hi.after))
			put(hi.line.reversed())
			put(s.left.between(lo.before, hi.before).reversed())
			if n := len(ring); math.Hypot(ring[n-1][0]-ring[0][0], ring[n-1][1]-ring[0][1]) <= same {
				ring = ring[:n-1]
			}
			mp := orb.MultiPolygon{{append(ring, ring[0])}}
			if err := geometry.CheckOutline(mp); err != nil {
				return fmt.Errorf("a part's outline is not one that can be cut: %w; try another bed", err)
			}
			j.Parts = append(j.Parts, Part{Number: len(j.Parts) + 1, outline: mp})
		}
	}

	j.Joints = []Joint{}
	for _, l := range j.upright {
		j.Joints = append(j.Joints, j.joint(l))
	}
	for _, a := range j.across {
		for _, c := range a[1 : len(a)-1] {
			j.Joints = append(j.Joints, j.joint(c.line))
		}
	}
	return nil
}

func (j *Joined) joint(l line) Joint {
	out := Joint{Clear: j.l.Draft.Sheet.Bridge, Notches: [][2]float64{}}
	for i, p := range l {
		out.Line = append(out.Line, p)
		if i > 0 {
			out.Clear = math.Min(out.Clear, j.room.along(l[i-1], p, out.Clear))
		}
	}
	return out
}

// prove gives each opening to the part it lies in, and says what is wrong when the parts are not the sheet or an
// opening is not whole in one of them.
func (j *Joined) prove() error {
	sum := 0.0
	shapes := make([]*geometry.Shape, len(j.Parts))
	whole := (j.sheet.Max[0] - j.sheet.Min[0]) * (j.sheet.Max[1] - j.sheet.Min[1])
	for i, p := range j.Parts {
		shapes[i] = geometry.NewShape(p.outline)
		sum += shapes[i].Area()
		for k := range i {
			sum += geometry.OverlapArea(shapes[i], shapes[k], orb.Point{})
		}
	}
	if math.Abs(sum-whole) > areaSlack*whole {
		return fmt.Errorf("the parts together measure %.6g mm² and the sheet %.6g, so they are not handed over", sum,
			whole)
	}
	return j.distribute(j.open)
}
