package geometry

// GCD returns the greatest common divisor of two whole numbers, never negative; of 0 and 0 it is 0.
func GCD(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

// Mod returns a modulo n, from 0 to n − 1, whatever the sign of a.
func Mod(a, n int) int { return (a%n + n) % n }
