// Package geometrytest makes random input for tests of geometry and of what stands on it.
package geometrytest

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Stream reads choices off a string of bytes, so that a fuzzer's bytes, or a random generator's, become a chain of
// calls. Past its end every choice is the first.
type Stream struct{ rest []byte }

// NewStream returns a stream of the bytes.
func NewStream(data []byte) *Stream { return &Stream{data} }

// Done reports whether the bytes are used up.
func (s *Stream) Done() bool { return len(s.rest) == 0 }

func (s *Stream) next() int {
	if s.Done() {
		return 0
	}
	b := s.rest[0]
	s.rest = s.rest[1:]
	return int(b)
}

// Pick returns a number from 0 to n−1, n up to 65536.
func (s *Stream) Pick(n int) int {
	v := s.next()
	if n > 256 {
		v += 256 * s.next()
	}
	return v % n
}

// Flag returns one of two.
func (s *Stream) Flag() bool { return s.Pick(2) == 1 }

// odd lists numbers at which arithmetic fails first.
var odd = []float64{0, math.Copysign(0, -1), 1, -1, 1e-4, 1e-5, -1e-300, 5e-324, 0.5, 90, 120, 180, -180, 360, 1e5, 1e6,
	1e9, -1e9,
	1e15, 1e21, 1e300, -1e300, math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN(), math.MaxInt64, math.MinInt64,
	math.MaxInt32}

// Number returns a number: mostly one of a size that drawings have, now and then an odd one.
func (s *Stream) Number() float64 {
	switch k := s.Pick(16); {
	case k == 0:
		return odd[s.Pick(len(odd))]
	case k < 6:
		return float64(s.Pick(20))
	case k < 12:
		return float64(s.Pick(256))
	case k < 14:
		return float64(s.Pick(256)-128) / 16
	default:
		return float64(s.Pick(65536)-32768) / 7
	}
}

// Text returns a text: mostly one of those given, if there are any, else an odd one.
func (s *Stream) Text(known ...string) string {
	if len(known) > 0 && s.Pick(10) > 0 {
		return known[s.Pick(len(known))]
	}
	texts := []string{"", "m1", "s1", "Ω \"quoted\" \\ \n\x00", "not \xff UTF-8", "p6mm", "0", "-1", "<b>&amp;", long}
	return texts[s.Pick(len(texts))]
}

var long = func() string {
	b := make([]rune, 300)
	for i := range b {
		b[i] = '長'
	}
	return string(b)
}()

// Outline returns an outline: mostly a sound one, now and then one that nothing can work with.
func (s *Stream) Outline() orb.MultiPolygon {
	at := orb.Point{float64(s.Pick(20) - 10), float64(s.Pick(20) - 10)}
	size := 0.5 + float64(s.Pick(64))/4
	disc := func(r float64, n int) orb.Ring {
		var ring orb.Ring
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			ring = append(ring, orb.Point{geometry.Snap(at[0] + r*cos), geometry.Snap(at[1] + r*sin)})
		}
		return append(ring, ring[0])
	}

	switch s.Pick(12) {
	case 0:
		return nil
	case 1: // empty at some depth
		return []orb.MultiPolygon{{}, {{}}, {nil}, {{{}}}, {{nil, nil}}, {{{at}}}, {{{at, at}}},
			{{{at, at, at, at}}}}[s.Pick(8)]
	case 2: // any points at all
		var ring orb.Ring
		for range s.Pick(9) {
			ring = append(ring, orb.Point{s.Number(), s.Number()})
		}
		if len(ring) > 0 && s.Flag() {
			ring = append(ring, ring[0])
		}
		return orb.MultiPolygon{{ring}}
	case 3: // a hole
		return orb.MultiPolygon{{disc(size, 3+s.Pick(9)), disc(size*float64(s.Pick(5))/8, 3+s.Pick(4))}}
	case 4: // two pieces, which may overlap
		one := disc(size, 3+s.Pick(9))
		at[0] += float64(s.Pick(40)) - 20
		return orb.MultiPolygon{{one}, {disc(size, 3+s.Pick(4))}}
	case 5: // a hair
		return orb.MultiPolygon{{{at, {at[0] + size, at[1]}, {at[0] + size, at[1] + float64(s.Pick(8))*1e-4}, at}}}
	case 6: // a crossing
		return orb.MultiPolygon{{{at, {at[0] + size, at[1] + size}, {at[0] + size, at[1]}, {at[0], at[1] + size}, at}}}
	case 7: // clockwise
		ring := disc(size, 3+s.Pick(9))
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
		return orb.MultiPolygon{{ring}}
	}
	return orb.MultiPolygon{{disc(size, 3+s.Pick(12))}}
}
