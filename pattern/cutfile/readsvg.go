package cutfile

import (
	"bytes"
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// readSVG reads back what svg writes: groups by their id, paths of M, l, c and Z. It is no reader for other files.
func readSVG(data []byte) (*contents, error) {
	c := &contents{}
	var t *tally
	for {
		at := bytes.IndexByte(data, '<')
		if at < 0 {
			return c, nil
		}
		end := bytes.IndexByte(data[at:], '>')
		if end < 0 {
			return nil, fmt.Errorf("a tag is not closed")
		}
		tag := data[at+1 : at+end]
		data = data[at+end+1:]
		switch name, _, _ := bytes.Cut(tag, []byte(" ")); string(name) {
		case "svg":
			n, err := fmt.Sscanf(attribute(tag, "viewBox"), "0 0 %f %f", &c.width, &c.height)
			if n != 2 || err != nil {
				return nil, fmt.Errorf("the viewBox cannot be read: %v", err)
			}
			var w, h float64
			if _, err := fmt.Sscanf(attribute(tag, "width")+" "+attribute(tag, "height"), "%fmm %fmm", &w, &h); err != nil || w != c.width || h != c.height {
				return nil, fmt.Errorf("width and height are not those of the viewBox in mm")
			}
		case "g":
			t = c.layer(Layer(attribute(tag, "id")))
		case "/g":
			t = nil
		case "path":
			if t == nil {
				return nil, fmt.Errorf("a path stands in no group")
			}
			if err := readPath([]byte(attribute(tag, "d")), c.height, t); err != nil {
				return nil, err
			}
		}
	}
}

// attribute returns the value of an attribute of a tag, empty when there is none.
func attribute(tag []byte, name string) string {
	_, rest, ok := bytes.Cut(tag, []byte(" "+name+"=\""))
	if !ok {
		return ""
	}
	value, _, _ := bytes.Cut(rest, []byte("\""))
	return string(value)
}

// readPath adds a path's data to a tally, y turned upward.
func readPath(d []byte, height float64, t *tally) error {
	p := &pen{t: t}
	s := scanner{data: d}
	var at [2]float64 // as the file has it, y downward
	point := func(from [2]float64) ([2]float64, error) {
		x, err := s.number()
		if err != nil {
			return at, err
		}
		y, err := s.number()
		return [2]float64{from[0] + x, from[1] + y}, err
	}
	up := func(q [2]float64) orb.Point { return orb.Point{q[0], height - q[1]} }
	letter := byte(0)
	for {
		next, more := s.peek()
		if !more {
			return nil
		}
		if next >= 'A' {
			letter = next
			s.at++
		}
		switch letter {
		case 'M':
			q, err := point([2]float64{})
			if err != nil {
				return err
			}
			at = q
			p.move(up(q))
		case 'l':
			q, err := point(at)
			if err != nil {
				return err
			}
			at = q
			p.line(up(q))
		case 'c':
			var q [3][2]float64
			for k := range q {
				var err error
				if q[k], err = point(at); err != nil {
					return err
				}
			}
			at = q[2]
			p.curve(up(q[0]), up(q[1]), up(q[2]))
		case 'Z':
			if !p.down {
				return fmt.Errorf("a contour is closed before it begins")
			}
			p.at = snapped(p.at, p.first)
			p.close()
			letter = 0
		default:
			return fmt.Errorf("a path holds %q", next)
		}
	}
}

// snapped returns q for a p that differs from it by the rounding of sums only.
func snapped(p, q orb.Point) orb.Point {
	if math.Abs(p[0]-q[0]) < step/100 && math.Abs(p[1]-q[1]) < step/100 {
		return q
	}
	return p
}

// scanner reads numbers and letters one after another.
type scanner struct {
	data []byte
	at   int
}

// peek returns the next byte that is not blank.
func (s *scanner) peek() (byte, bool) {
	for s.at < len(s.data) && (s.data[s.at] == ' ' || s.data[s.at] == '\n' || s.data[s.at] == '\r' || s.data[s.at] == '\t' || s.data[s.at] == ',') {
		s.at++
	}
	if s.at == len(s.data) {
		return 0, false
	}
	return s.data[s.at], true
}

// number reads a decimal number without exponent.
func (s *scanner) number() (float64, error) {
	if _, more := s.peek(); !more {
		return 0, fmt.Errorf("a number is missing at the end")
	}
	from, sign := s.at, 1.0
	if b := s.data[s.at]; b == '-' || b == '+' {
		if b == '-' {
			sign = -1
		}
		s.at++
	}
	whole, scale, digits, point := 0.0, 1.0, 0, false
	for ; s.at < len(s.data); s.at++ {
		b := s.data[s.at]
		if b == '.' && !point {
			point = true
			continue
		}
		if b < '0' || b > '9' {
			break
		}
		whole = whole*10 + float64(b-'0')
		digits++
		if point {
			scale *= 10
		}
	}
	if digits == 0 {
		return 0, fmt.Errorf("%q is no number", s.data[from:min(from+12, len(s.data))])
	}
	return sign * whole / scale, nil
}
