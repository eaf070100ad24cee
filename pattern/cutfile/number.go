package cutfile

import (
	"math"
	"strconv"

	"github.com/paulmach/orb"
)

// number writes a coordinate in mm to whole steps of 0.001.
func number(v float64) string { return string(appendSteps(nil, steps(v))) }

// steps returns a length in mm as whole steps.
func steps(v float64) int64 { return int64(math.Round(v / step)) }

// appendSteps writes a number of steps as mm, without what is not needed: 12.5, -0.25, 3.
func appendSteps(dst []byte, n int64) []byte {
	if n < 0 {
		dst = append(dst, '-')
		n = -n
	}
	dst = strconv.AppendInt(dst, n/1000, 10)
	if f := n % 1000; f != 0 {
		dst = append(dst, '.', byte('0'+f/100))
		if f%100 != 0 {
			dst = append(dst, byte('0'+f/10%10))
			if f%10 != 0 {
				dst = append(dst, byte('0'+f%10))
			}
		}
	}
	return dst
}

// page turns panel mm into whole steps from the page's corner: its lower left one with y upward, its upper left one
// with y downward.
type page struct {
	origin orb.Point
	down   bool
}

func (p page) steps(q orb.Point) [2]int64 {
	y := q[1] - p.origin[1]
	if p.down {
		y = -y
	}
	return [2]int64{steps(q[0] - p.origin[0]), steps(y)}
}
