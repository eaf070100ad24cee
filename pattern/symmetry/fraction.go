package symmetry

import (
	"fmt"
	"strconv"
	"strings"

	"openwork/geometry"
)

// Fraction is an exact rational number in lowest terms with a positive denominator. The zero value is not a fraction;
// use Frac.
type Fraction struct{ Num, Den int }

// Frac returns n/d in lowest terms. d must not be zero; a zero gives 0/1, which no table of this package holds by
// accident because every use is tested against the published operations.
func Frac(n, d int) Fraction {
	if d == 0 {
		return Fraction{0, 1}
	}
	if d < 0 {
		n, d = -n, -d
	}
	if g := geometry.GCD(n, d); g > 1 {
		n, d = n/g, d/g
	}
	return Fraction{n, d}
}

// Plus returns f + g.
func (f Fraction) Plus(g Fraction) Fraction { return Frac(f.Num*g.Den+g.Num*f.Den, f.Den*g.Den) }

// Times returns n·f.
func (f Fraction) Times(n int) Fraction { return Frac(n*f.Num, f.Den) }

// Mod1 returns f less its whole part, in [0, 1).
func (f Fraction) Mod1() Fraction { return Frac(((f.Num%f.Den)+f.Den)%f.Den, f.Den) }

// Float returns f as a float64.
func (f Fraction) Float() float64 { return float64(f.Num) / float64(f.Den) }

// String writes f as "p/q", or "p" when it is whole.
func (f Fraction) String() string {
	if f.Den == 1 {
		return strconv.Itoa(f.Num)
	}
	return fmt.Sprintf("%d/%d", f.Num, f.Den)
}

// parseFraction reads "p" or "p/q".
func parseFraction(s string) (Fraction, error) {
	num, den, has := strings.Cut(s, "/")
	n, err := strconv.Atoi(num)
	if err != nil {
		return Fraction{}, fmt.Errorf("%q is not a fraction", s)
	}
	d := 1
	if has {
		if d, err = strconv.Atoi(den); err != nil || d == 0 {
			return Fraction{}, fmt.Errorf("%q is not a fraction", s)
		}
	}
	return Frac(n, d), nil
}

// Ratio writes f as "p/q" always, also when it is whole.
func (f Fraction) Ratio() string { return fmt.Sprintf("%d/%d", f.Num, f.Den) }
