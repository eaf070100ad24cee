package pen

import (
	"errors"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/pattern/sheet"
)

// Fault is something that a check of the silhouette by itself would find, or that shows already in a line that is not
// closed. Places are in mm of the silhouette's own frame.
type Fault struct {
	sheet.Problem
	Crosses bool    // it is a line that crosses itself, or another: no kind of the sheet's
	Corner  float64 // of a corner that is too sharp, degrees; 0 for another fault
}

// Faults returns what is wrong with what is drawn, as it is under the hand: of a line in hand what shows in it, else of
// the outline what a check would say of it by itself, cut as large as its smallest motif.
func (m *Mode) Faults() []Fault {
	d := m.d
	switch {
	case d == nil:
		return nil
	case len(d.stroke) > 0 || len(d.line) > 0:
		return d.lineFaults
	case d.trial != nil:
		return d.trialFaults
	}
	return withoutSigns(m.desk.Alone(d.id))
}

func withoutSigns(list []sheet.Problem) []Fault {
	var out []Fault
	for _, p := range list {
		out = append(out, Fault{Problem: p})
	}
	return out
}

// watchTrial looks at an outline under the hand: where it crosses itself, or else at what is narrow round what moves.
func (m *Mode) watchTrial(trial pen.Shape, outline orb.MultiPolygon) {
	d := m.d
	d.trialFaults = nil
	var wrong *geometry.OutlineError
	if err := geometry.CheckOutline(geometry.Orient(outline)); errors.As(err, &wrong) {
		if wrong.Edge >= 0 {
			d.trialFaults = []Fault{{Problem: sheet.Problem{Severity: sheet.Fault, At: wrong.At}, Crosses: true}}
		}
		return
	}
	box, ok := changed(d.shape, trial)
	if !ok {
		return
	}
	need := m.desk.Draft().Sheet
	found, _ := sheet.AloneAnew(m.desk.Alone(d.id), outline, box, m.desk.Scale(d.id), need)
	d.trialFaults = withoutSigns(found)
}

// changed returns a box round the pieces that two shapes do not share; false when they have other rings or points.
func changed(a, b pen.Shape) (box orb.Bound, ok bool) {
	before, after := a.Rings(), b.Rings()
	if len(before) != len(after) {
		return box, false
	}
	for i, r := range after {
		n := len(r.Nodes)
		if n != len(before[i].Nodes) {
			return box, false
		}
		for j := range n {
			if r.Nodes[j] == before[i].Nodes[j] {
				continue
			}
			beside := pen.Stretch{From: (j + n - 1) % n, To: (j + 1) % n}
			for _, p := range slices.Concat(before[i].Stretch(beside), r.Stretch(beside)) {
				if !ok {
					box, ok = orb.Bound{Min: p, Max: p}, true
				}
				box = box.Extend(p)
			}
		}
	}
	return box, ok
}

// watchStroke looks at a line drawn freehand after its last point: where that has crossed the line, or come too near
// it.
func (m *Mode) watchStroke() {
	d := m.d
	l := m.open(d.stroke)
	last := len(d.stroke) - 1
	found := l.crossing(last)
	if len(found) == 0 {
		found = l.nearing(last)
	}
	for _, f := range found {
		d.lineFaults = add(d.lineFaults, f, l.width)
	}
}

// watchLine looks at a line of set points as it is, up to where the pointer is: all of it, for any point may move.
func (m *Mode) watchLine(points []pen.Point) {
	d := m.d
	d.lineFaults = nil
	line := pen.Line(pen.Through(points, false), false)
	l := m.open(line)
	for i := range line {
		for _, f := range slices.Concat(l.crossing(i), l.nearing(i)) {
			d.lineFaults = add(d.lineFaults, f, l.width)
		}
	}
	for i := 1; i+1 < len(points); i++ {
		if !points[i].Round {
			d.lineFaults = append(d.lineFaults, l.sharp(points[i-1].At, points[i].At, points[i+1].At)...)
		}
	}
}

// add adds a fault, unless one of its kind is told of a place within a width already; the narrower is told.
func add(list []Fault, f Fault, width float64) []Fault {
	for i, o := range list {
		if o.Kind == f.Kind && o.Crosses == f.Crosses && geometry.PointDistance(o.At, f.At) < width {
			if f.Measured < o.Measured {
				list[i] = f
			}
			return list
		}
	}
	return append(list, f)
}

// openLine is a line that is not closed yet, and what it will have to keep.
type openLine struct {
	pts                    []orb.Point
	gone                   []float64 // mm along the line up to each point
	left                   bool      // what it goes round lies on its left, as far as it shows
	scale, bridge, opening float64   // needs in mm on the sheet
	width                  float64   // the larger of them in the silhouette's frame
}

func (m *Mode) open(pts []orb.Point) openLine {
	need := m.desk.Draft().Sheet
	l := openLine{pts: pts, scale: m.desk.Scale(m.d.id), bridge: need.Bridge, opening: need.Opening,
		gone: make([]float64, len(pts))}
	l.width = math.Max(l.bridge, l.opening) / l.scale
	area := 0.0
	for i := range pts {
		if i > 0 {
			l.gone[i] = l.gone[i-1] + geometry.PointDistance(pts[i-1], pts[i])
			area += geometry.Cross(geometry.Sub(pts[i-1], pts[0]), geometry.Sub(pts[i], pts[0]))
		}
	}
	l.left = (area > 0) != (m.d.use == Cut) // what is cut away is sheet within
	return l
}

// crossing returns where the piece of the line that ends in point i crosses what lies before it. A line that crosses
// itself near its beginning has come round to be closed.
func (l openLine) crossing(i int) []Fault {
	if i < 1 {
		return nil
	}
	for j := 1; j < i-1; j++ {
		if l.gone[j] < l.width || l.gone[i]-l.gone[j] < l.width/2 {
			continue
		}
		if at, ok := geometry.SegmentsMeet(l.pts[j-1], l.pts[j], l.pts[i-1], l.pts[i]); ok {
			return []Fault{{Problem: sheet.Problem{Severity: sheet.Fault, At: at}, Crosses: true}}
		}
	}
	return nil
}

// nearing returns where point i has come nearer to what lies before it than is wide enough: for paste where what the
// line goes round lies between, else for a bridge.
func (l openLine) nearing(i int) []Fault {
	p, best := l.pts[i], Fault{}
	least := math.Inf(1)
	for j := 1; j < i; j++ {
		if l.gone[j-1] < 2*l.width || l.gone[i]-l.gone[j] < 3*l.width {
			continue
		}
		a, b := l.pts[j-1], l.pts[j]
		along := geometry.Sub(b, a)
		length := geometry.Dot(along, along)
		if length == 0 {
			continue
		}
		t := geometry.Dot(geometry.Sub(p, a), along) / length
		if t < 0 || t > 1 { // not squarely across
			continue
		}
		q := geometry.Lerp(a, b, t)
		d := geometry.PointDistance(p, q) * l.scale
		kind, need := sheet.Bridge, l.bridge
		if (geometry.Cross(along, geometry.Sub(p, a)) > 0) == l.left {
			kind, need = sheet.Opening, l.opening
		}
		if d < need && d < least && d > 0 {
			least = d
			best = Fault{Problem: sheet.Problem{Kind: kind, Severity: sheet.Fault, At: geometry.Midpoint(p, q),
				Measured: d, Required: need, Ends: &[2][2]float64{p, q}}}
		}
	}
	if math.IsInf(least, 1) {
		return nil
	}
	return []Fault{best}
}

// sharpest is the angle under which a corner is a tail or a tongue: a disc cannot come nearer to its point than its own
// radius (package residue).
const sharpest = 60.0

// sharp returns what becomes of a corner between two straight sides when it is too sharp: a tail that paste does not
// fill, or a tongue of sheet. Sides shorter than is wide enough make none.
func (l openLine) sharp(before, at, after orb.Point) []Fault {
	a, b := geometry.Sub(before, at), geometry.Sub(after, at)
	la, lb := math.Hypot(a[0], a[1]), math.Hypot(b[0], b[1])
	kind, need := sheet.Tip, l.bridge
	if (geometry.Cross(geometry.Times(a, -1), b) > 0) == l.left {
		kind, need = sheet.Opening, l.opening
	}
	if la == 0 || lb == 0 || math.Min(la, lb)*l.scale < 2*need {
		return nil
	}
	angle := math.Acos(math.Max(-1, math.Min(1, geometry.Dot(a, b)/la/lb))) * 180 / math.Pi
	if angle >= sharpest {
		return nil
	}
	tail := sheet.Problem{Kind: kind, Severity: sheet.Warning, At: at, Required: need}
	return []Fault{{Problem: tail, Corner: math.Max(angle, 0.1)}}
}
