package main

// mothKnots is the moth's right half, from the crown of its head down to the end of its abdomen.
var mothKnots = []knot{
	along(0, 16.2, 0), // head
	turned(2.0, 15.6, -24, 58, 1.2),
	through(3.6, 20.4),
	along(9.2, 25.8, 24), // antenna
	along(10.0, 24.2, 258),
	through(7.9, 18.2),
	turned(4.8, 13.2, 232, -4, 1.6),
	through(13, 14.8),
	through(22, 17.4),
	turned(30.4, 14.6, -30, 238, 1.2), // forewing
	through(25.8, 7.2),
	through(23.2, -0.4),
	turned(19.2, -3.6, 206, -28, 1.6),
	through(22.4, -8.4),
	through(19.6, -16),
	along(15.6, -23.6, 268),
	through(17.4, -30.2),
	along(19.8, -34.4, 290), // tail of the hind wing
	along(17.8, -35.8, 152),
	through(12.6, -31.6),
	along(10.4, -24.2, 88),
	through(9.4, -16),
	turned(3.7, -7.2, 122, 264, 1.7),
	along(0, -15.4, 180), // abdomen
}

// moth draws the right half and mirrors it, so that the two halves are the same to the last digit.
func moth() (drawing, error) {
	knots := append([]knot(nil), mothKnots...)
	for i := len(mothKnots) - 2; i > 0; i-- {
		knots = append(knots, mirrored(mothKnots[i]))
	}
	var half []cubic
	for _, c := range trace(knots) {
		half = append(half, c)
		if p := c[3]; p.x < 1e-9 && p.y < 0 {
			break
		}
	}
	return finishMirrored("moth", "Moth", half, 150)
}

// joined is the right half and its mirror image, one closed curve.
func joined(half []cubic) []cubic {
	pieces := append([]cubic(nil), half...)
	for i := len(half) - 1; i >= 0; i-- {
		c := half[i]
		pieces = append(pieces, cubic{flip(c[3]), flip(c[2]), flip(c[1]), flip(c[0])})
	}
	return pieces
}

func flip(p point) point { return point{-p.x + 0, p.y} }

// mirrored is the knot on the other side of x = 0, met from the other end.
func mirrored(k knot) knot {
	k.at = flip(k.at)
	k.in, k.out = -k.out, -k.in
	return k
}
