package scan

import "math"

// kernel is one side of a symmetric row of weights, the middle first.
type kernel []float64

// Kernels against grain. Each is twice a binomial kernel less the same applied twice: the second moment of such a
// kernel is zero, so that it moves neither straight edges nor, to the second order, curved ones, and rounds corners
// less than the plain kernel does.
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

// negative returns the sum of the negative weights of the kernel applied along rows and columns, without the sign.
func (k kernel) negative() float64 {
	plus, minus := math.Max(k[0], 0), math.Max(-k[0], 0)
	for _, w := range k[1:] {
		plus, minus = plus+2*math.Max(w, 0), minus+2*math.Max(-w, 0)
	}
	return 2 * plus * minus
}
