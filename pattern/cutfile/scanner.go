package cutfile

import "fmt"

// scanner reads numbers and letters one after another.
type scanner struct {
	data []byte
	at   int
}

// peek returns the next byte that is not blank.
func (s *scanner) peek() (byte, bool) {
	for s.at < len(s.data) && (s.data[s.at] == ' ' || s.data[s.at] == '\n' || s.data[s.at] == '\r' ||
		s.data[s.at] == '\t' || s.data[s.at] == ',') {
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
