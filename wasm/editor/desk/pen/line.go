package pen

import (
	"github.com/paulmach/orb"

	"openwork/geometry/pen"
)

// useStroke makes a closed line, or two, of a stroke and does with it what was chosen.
func (m *Mode) useStroke(stroke []orb.Point) error {
	d := m.d
	if d.half && pen.Meets(stroke[0], stroke[len(stroke)-1], d.axis) {
		r, err := pen.HalfStroke(stroke, d.jitter, d.axis)
		if err != nil {
			return err
		}
		return m.useLines(r)
	}

	r, err := pen.Stroke(stroke, d.jitter)
	if err != nil {
		return err
	}
	return m.useLines(m.withImage(r)...)
}

func (m *Mode) withImage(r pen.Ring) []pen.Ring {
	if m.d.half {
		return []pen.Ring{r, r.Mirrored(m.d.axis)}
	}
	return []pen.Ring{r}
}

// closeLine closes the line of points in hand and does with it what was chosen. On an error the line stays; one of a
// single point is let go.
func (m *Mode) closeLine() error {
	d := m.d
	if d == nil || len(d.line) == 0 {
		return nil
	}

	line := d.line
	if len(line) == 1 {
		d.line, d.taken = nil, nil
		return nil
	}

	lines := m.linesOf(line)
	if err := m.useLines(lines...); err != nil {
		return err
	}
	d.line, d.taken, d.hovering = nil, nil, false
	return nil
}

// linesOf returns the closed lines that set points mean.
func (m *Mode) linesOf(line []pen.Point) []pen.Ring {
	d := m.d
	if d.half && pen.Meets(line[0].At, line[len(line)-1].At, d.axis) {
		return []pen.Ring{pen.Half(pen.Through(line, false), d.axis)}
	}
	return m.withImage(pen.Ring{Nodes: pen.Through(line, true)})
}

// TakeLast takes the last point of the line back; it reports whether there was one.
func (m *Mode) TakeLast() bool {
	if m.d == nil || len(m.d.line) == 0 {
		return false
	}
	d := m.d
	n := len(d.line) - 1
	d.taken = append(d.taken, d.line[n])
	d.line = d.line[:n]
	m.desk.Touch()
	return true
}

// BringLast brings the last point that was taken back again; it reports whether there was one.
func (m *Mode) BringLast() bool {
	if m.d == nil || m.d.way != Points || len(m.d.taken) == 0 {
		return false
	}
	d := m.d
	n := len(d.taken) - 1
	d.line = append(d.line, d.taken[n])
	d.taken = d.taken[:n]
	m.desk.Touch()
	return true
}
