package patterntest

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"openwork/pattern/draft"
)

// Demo returns the draft the page starts on. Its file is found from this one's place, so that tests of any folder may
// ask.
func Demo(t testing.TB) draft.Draft {
	t.Helper()
	_, here, _, _ := runtime.Caller(0)
	f, err := os.Open(filepath.Join(filepath.Dir(here), "../../testdata/drafts/heron-over-carp.openwork.json"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := draft.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
