package outline

import (
	"errors"
	"fmt"
	"sort"

	"openwork/geometry"
	"openwork/geometry/fill"
	"openwork/geometry/simplify"

	"github.com/paulmach/orb"
)

// Simplify draws the outline with few points and writes its pieces into r.
func (r *Result) Simplify(mp orb.MultiPolygon, o simplify.Options) error {
	drawn, err := simplify.Outline(mp, o)
	if errors.Is(err, simplify.ErrCrossing) { // parts nearer to each other than the grid tells apart
		if mp, err = fill.Region(geometry.Rings(mp), fill.NonZero); err == nil {
			drawn, err = simplify.Outline(mp, o)
		}
	}
	if err != nil {
		return fmt.Errorf("the outline could not be drawn: %w", err)
	}
	for _, p := range drawn {
		r.Pieces = append(r.Pieces, Piece{orb.MultiPolygon{p}})
	}
	if len(r.Pieces) == 0 {
		return errors.New("no drawing found: what there is is smaller than a ten-thousandth of a millimetre")
	}
	sort.SliceStable(r.Pieces, func(i, j int) bool {
		return geometry.Area(r.Pieces[i].Outline) > geometry.Area(r.Pieces[j].Outline)
	})
	return nil
}

// Count returns "1 speck" or "5 specks".
func Count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
