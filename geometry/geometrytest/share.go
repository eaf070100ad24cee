package geometrytest

import (
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"
)

// Long reports whether this is a long run, in which every test takes all its cases: OPENWORK_LONG is 1.
func Long() bool { return os.Getenv("OPENWORK_LONG") == "1" }

// Share returns n of the cases in their order, chosen at random so that all have their turn over some runs, and all of
// them in a long run. The seed of the choice is printed; OPENWORK_SHARE repeats it.
func Share[T any](t testing.TB, cases []T, n int) []T {
	t.Helper()
	if Long() || n >= len(cases) {
		return cases
	}

	seed := rand.Uint64()
	if text := os.Getenv("OPENWORK_SHARE"); text != "" {
		var err error
		if seed, err = strconv.ParseUint(text, 10, 64); err != nil {
			t.Fatalf("OPENWORK_SHARE: %v", err)
		}
	}
	t.Logf("%d of %d cases (OPENWORK_SHARE=%d chooses the same, OPENWORK_LONG=1 takes all)", n, len(cases), seed)

	chosen := rand.New(rand.NewPCG(seed, 0)).Perm(len(cases))[:n]
	slices.Sort(chosen)
	out := make([]T, 0, n)
	for _, i := range chosen {
		out = append(out, cases[i])
	}
	return out
}

// Count returns how many of something a test takes or expects: daily usually, long in a long run.
func Count(daily, long int) int {
	if Long() {
		return long
	}
	return daily
}
