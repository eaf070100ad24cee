package patterntest

import (
	"testing"

	"openwork/pattern/draft"
	"openwork/testdata/drafts"
)

// Demo returns a tight field of two silhouettes that holds.
func Demo(t testing.TB) draft.Draft {
	t.Helper()
	d, err := draft.DecodeBytes(drafts.HeronOverCarp)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
