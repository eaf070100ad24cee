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

// SmallDemo returns the field of Demo on a panel of a seventh of the area, where it holds too, for tests in which the
// size does not matter.
func SmallDemo(t testing.TB) draft.Draft {
	t.Helper()
	d := Demo(t)
	d.Panel = draft.Panel{Width: 300, Height: 260}
	d.Field.Origin = [2]float64{150, 130}
	return d
}
