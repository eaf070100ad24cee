package patterntest

import (
	"testing"

	"openwork/geometry/geometrytest"
)

// Share returns n of the cases in their order, chosen at random, and all of them in a long run; see geometrytest.Share.
func Share[T any](t testing.TB, cases []T, n int) []T {
	t.Helper()
	return geometrytest.Share(t, cases, n)
}

// Count returns how many of something a test takes or expects: daily usually, long in a long run.
func Count(daily, long int) int { return geometrytest.Count(daily, long) }

// Long reports whether this is a long run, in which every test takes all its cases.
func Long() bool { return geometrytest.Long() }
