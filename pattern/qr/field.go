package qr

// The field of 256 elements of ISO/IEC 18004: polynomials over two elements modulo x⁸ + x⁴ + x³ + x² + 1.
const modulus = 0x11d

// times multiplies in the field.
func times(a, b byte) byte {
	p := 0
	for k := 7; k >= 0; k-- {
		p <<= 1
		if p&0x100 != 0 {
			p ^= modulus
		}
		if b>>k&1 != 0 {
			p ^= int(a)
		}
	}
	return byte(p)
}

// generator returns the coefficients of (x − 1)(x − 2)(x − 4)… of a degree, highest first, without the leading 1.
func generator(degree int) []byte {
	g := make([]byte, degree)
	g[degree-1] = 1
	root := byte(1)
	for range degree {
		for k := range g {
			g[k] = times(g[k], root)
			if k+1 < degree {
				g[k] ^= g[k+1]
			}
		}
		root = times(root, 2)
	}
	return g
}

// remainder returns the rest of the data, as a polynomial moved up by the divisor's degree, divided by it: the code words for
// error correction.
func remainder(data, divisor []byte) []byte {
	r := make([]byte, len(divisor))
	for _, v := range data {
		f := v ^ r[0]
		copy(r, r[1:])
		r[len(r)-1] = 0
		for k := range r {
			r[k] ^= times(divisor[k], f)
		}
	}
	return r
}
