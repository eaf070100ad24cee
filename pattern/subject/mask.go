// Package subject is about what stands in front of the pattern: the mask that covers it while the pattern is laid, and
// whether the figure can be told from the field. Only the engine links it.
package subject

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/geometry/overlay"
	"openwork/pattern/draft"
)

const (
	// maskTolerance in mm: the chords of a mask's arcs lie this near to them.
	maskTolerance = 0.01

	// MaxGrowth in mm is by how much a mask may be larger or smaller than its subject.
	MaxGrowth = 100.0
)

// Masked returns the indexes of the subjects that a mask is cut for: those behind which the pattern runs on, or all
// where there is none.
func Masked(d draft.Draft) []int {
	var behind, all []int
	for i, s := range d.Subjects {
		if all = append(all, i); s.Edge == draft.Behind {
			behind = append(behind, i)
		}
	}
	if len(behind) > 0 {
		return behind
	}
	return all
}

// Mask returns the draft of a sheet that the mask of the subjects is cut from: the stencil's own sheet, with the
// subjects for openings, grown by growth mm (shrunk where it is less than 0) all round. What drops out of the sheet is
// the mask, and it is true to size: the beam's width is taken off the sheet round it. The growth is the mask's alone;
// the room that the pattern keeps from a subject has nothing to do with it. What would come nearer to the sheet's edge
// than a bridge is cut off there.
//
// A part of the mask narrower than a bridge tears as a strip of sheet does, so that this is what is asked of openings.
func Mask(d draft.Draft, growth float64) (draft.Draft, error) {
	if !(math.Abs(growth) <= MaxGrowth) {
		return draft.Draft{}, fmt.Errorf("a mask may be up to %g mm larger or smaller than its subject, not %g",
			MaxGrowth, growth)
	}
	which := Masked(d)
	if len(which) == 0 {
		return draft.Draft{}, fmt.Errorf("there is no subject to cut a mask for; set one before the pattern first")
	}

	var parts []orb.MultiPolygon
	for _, i := range which {
		s := d.Subjects[i]
		part, err := offset.Offset(s.Placed(), growth+d.Sheet.KerfTaken(), maskTolerance)
		if err != nil {
			return draft.Draft{}, fmt.Errorf("the mask of %s could not be found: %w", s.Name, err)
		}
		if len(part) == 0 {
			return draft.Draft{}, fmt.Errorf("shrunk by %g mm nothing is left of the mask of %s; shrink it by less",
				-growth, s.Name)
		}
		parts = append(parts, part)
	}
	all, err := overlay.Union(parts...)
	if err != nil {
		return draft.Draft{}, fmt.Errorf("the masks could not be put together: %w", err)
	}

	field := d.SheetBound().Pad(-d.Sheet.Bridge)
	if geometry.OverlapArea(geometry.RectShape(field), geometry.NewShape(all), orb.Point{}) == 0 {
		return draft.Draft{}, fmt.Errorf("no subject lies on the sheet, so that there is no mask to cut; move %s onto "+
			"the panel", names(d, which))
	}
	return sheetOf(d, all), nil
}

// sheetOf returns a draft on the same sheet whose one opening is an outline on the panel.
func sheetOf(d draft.Draft, outline orb.MultiPolygon) draft.Draft {
	b := d.SheetBound()
	beyond := math.Min(d.PanelBound().Min[0]-b.Min[0], d.PanelBound().Min[1]-b.Min[1])
	m := d.Outlined("mask", maskTitle(d.Title), outline, math.Max(0, d.Sheet.Bridge-beyond), draft.Crop)
	m.Silhouettes[0].Name = "Mask"
	m.Sheet.Opening = d.Sheet.Bridge
	return m
}

// maskTitle is what the mask of a draft is called.
func maskTitle(title string) string {
	const added = ": mask"
	if r := []rune(title); len(r) > draft.MaxText-len(added) {
		title = string(r[:draft.MaxText-len(added)])
	}
	return title + added
}

// names lists subjects by name.
func names(d draft.Draft, which []int) string {
	var out []string
	for _, i := range which {
		out = append(out, d.Subjects[i].Name)
	}
	return strings.Join(out, ", ")
}
