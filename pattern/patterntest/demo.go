package patterntest

import (
	"testing"

	"openwork/pattern/draft"
	"openwork/testdata/drafts"
)

// Demo returns the draft the page starts on.
func Demo(t testing.TB) draft.Draft {
	t.Helper()
	d, err := draft.DecodeBytes(drafts.HeronOverCarp)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
