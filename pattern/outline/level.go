package outline

import "math"

// The levelled picture holds how much ink is at each pixel: paperLevel for paper, inkLevel for ink.
const (
	paperLevel = 1 << 14
	inkLevel   = 3 << 14
)

// levelled returns the picture with the light taken out, as 16-bit numbers between and somewhat beyond paperLevel and
// inkLevel: base − gain·grey, both computed at knots of a fine net and running straight between them along rows.
func levelled(g grey, l light) []uint16 {
	out := make([]uint16, len(g.v))
	columns := (g.width+levelStep-1)/levelStep + 1
	base, gain := make([]float32, columns), make([]float32, columns)
	for y := range g.height {
		if y%levelStep == 0 { // rows are treated alike in bands: light does not change within one
			fy := 2*(float64(min(y+levelStep/2, g.height))+0.5)/float64(g.height) - 1
			for c := range columns {
				fx := 2*(float64(c*levelStep)+0.5)/float64(g.width) - 1
				p := l.paper(fx, fy)
				k := (inkLevel - paperLevel) / math.Max(p-l.inkFor(p), leastContrast/2)
				base[c], gain[c] = float32(paperLevel+p*k+0.5), float32(k)
			}
		}
		src, dst := g.v[y*g.width:(y+1)*g.width], out[y*g.width:(y+1)*g.width]
		for c := 0; c*levelStep < g.width; c++ {
			lo, hi := c*levelStep, min((c+1)*levelStep, g.width)
			b, k := base[c], gain[c]
			db, dk := (base[c+1]-b)/levelStep, (gain[c+1]-k)/levelStep
			to := dst[lo:hi]
			for x, v := range src[lo:hi] {
				to[x] = uint16(min(max(int32(b-float32(v)*k), 0), 65535))
				b += db
				k += dk
			}
		}
	}
	return out
}

// kernel is one side of a symmetric row of weights, the middle first.
type kernel []float64

// Kernels against grain. Each is twice a binomial kernel less the same applied twice: the second moment of such a kernel
// is zero, so that it moves neither straight edges nor, to the second order, curved ones, and rounds corners less than
// the plain kernel does.
var (
	kernelFine   = kernel{10. / 16, 4. / 16, -1. / 16}                                        // of 1 2 1
	kernelMiddle = kernel{122. / 256, 72. / 256, 4. / 256, -8. / 256, -1. / 256}              // of 1 4 6 4 1
	kernelCoarse = twice(kernel{70. / 256, 56. / 256, 28. / 256, 8. / 256, 1. / 256})         // of the eighth row
	kernelHeavy  = twice(kernel{12870. / 65536, 11440. / 65536, 8008. / 65536, 4368. / 65536, // of the sixteenth row
		1820. / 65536, 560. / 65536, 120. / 65536, 16. / 65536, 1. / 65536})
)

// twice returns 2k − k∗k.
func twice(k kernel) kernel {
	n := len(k) - 1
	full := func(i int) float64 {
		if i < 0 {
			i = -i
		}
		if i > n {
			return 0
		}
		return k[i]
	}
	out := make(kernel, 2*n+1)
	for i := range out {
		out[i] = 2 * full(i)
		for j := -n; j <= n; j++ {
			out[i] -= full(j) * full(i-j)
		}
	}
	return out
}

// kernelFor returns the kernel for a picture whose grain is this part of its contrast.
func kernelFor(grain float64) kernel {
	switch {
	case grain < fineGrain:
		return kernelFine
	case grain < middleGrain:
		return kernelMiddle
	case grain < coarseGrain:
		return kernelCoarse
	}
	return kernelHeavy
}

// smooth applies the kernel along rows and columns, in place. Around the picture its edge pixels go on.
func smooth(v []uint16, width, height int, k kernel) {
	n := len(k) - 1
	size := 2*n + 1
	padded := make([]float32, width+2*n)
	rows := make([][]float32, size) // rows already smoothed along, row y at y mod size
	for i := range rows {
		rows[i] = make([]float32, width)
	}
	w := make([]float32, n+1)
	for i := range w {
		w[i] = float32(k[i])
	}
	along := func(y int) {
		src := v[y*width : (y+1)*width]
		for i := range padded {
			padded[i] = float32(src[min(max(i-n, 0), width-1)])
		}
		dst := rows[y%size]
		for x := range dst {
			sum := w[0] * padded[x+n]
			for i := 1; i <= n; i++ {
				sum += w[i] * (padded[x+n-i] + padded[x+n+i])
			}
			dst[x] = sum
		}
	}
	for y := range min(n, height) {
		along(y)
	}
	sum := make([]float32, width)
	for y := range height {
		if y+n < height {
			along(y + n)
		}
		at := func(i int) []float32 { return rows[min(max(i, 0), height-1)%size] }
		for x, m := range at(y) {
			sum[x] = w[0] * m
		}
		for i := 1; i <= n; i++ {
			a, b := at(y-i), at(y+i)
			for x := range sum {
				sum[x] += w[i] * (a[x] + b[x])
			}
		}
		dst := v[y*width : (y+1)*width]
		for x, s := range sum {
			dst[x] = uint16(min(max(int32(s+0.5), 0), 65535))
		}
	}
}
