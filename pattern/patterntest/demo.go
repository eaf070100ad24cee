package patterntest

import (
	"os"
	"testing"

	"openwork/pattern"
)

// Demo returns the draft the page starts on, for tests of packages one folder below pattern.
func Demo(t *testing.T) pattern.Draft {
	t.Helper()
	f, err := os.Open("../../testdata/drafts/heron-over-carp.openwork.json")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := pattern.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
