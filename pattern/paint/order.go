package paint

import (
	"cmp"
	"slices"

	"openwork/pattern/appearance"
	"openwork/pattern/draft"
)

// ValueOf returns how light a swatch is, as L*.
func ValueOf(s draft.Swatch) float64 { return appearance.Value(appearance.Parse(s.Colour)) }

// Order returns the numbers of a draft's colours in the order in which they are laid: from dark to light, so that what
// runs over an edge is covered by what is lighter and laid after it (common practice); −1 alone without colours.
func Order(d draft.Draft) []int {
	out := Numbers(d)
	if out[0] < 0 {
		return out
	}
	slices.SortStableFunc(out, func(a, b int) int {
		one, _ := d.Swatch(d.Paint.Colours[a])
		other, _ := d.Swatch(d.Paint.Colours[b])
		return cmp.Compare(ValueOf(one), ValueOf(other))
	})
	return out
}
