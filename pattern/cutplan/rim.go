package cutplan

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/geometry/offset"
	"openwork/geometry/overlay"
)

// widen says by how much the sheet's outline is widened, so that the sheet is true to size when the beam has taken its
// kerf: by half of it, but not where the outline is the edge of the stock or of the bed, beyond which there is nothing.
func (b *build) widen() {
	b.grown = b.Kerf / 2
	w, h := b.box.Max[0]-b.box.Min[0], b.box.Max[1]-b.box.Min[1]
	switch {
	case b.o.Trim != TrimCut:
		b.grown = 0
		b.note("The sheet's outline is %s.", b.o.Trim.Said(b.o.Lines.Mark.Name))
	case b.Kerf == 0:
	case b.o.StockEdge:
		b.grown = 0
		b.note("The sheet's outline is the stock's edge; it is drawn to size, without the kerf.")
	case b.onBed(w, h) && !b.onBed(w+b.Kerf, h+b.Kerf):
		b.grown = 0
		b.note("The sheet's outline is as large as the bed; it is drawn to size, without the kerf.")
	}
	b.plan.Page = b.box.Pad(b.grown)
}

// outline sets the sheet's outline, grown by half the kerf where it is to be. Openings that touch the sheet's edge or
// run out over it are taken off the sheet: they are part of its outline, and no line is cut twice.
func (b *build) outline(notches orb.MultiPolygon) error {
	mp, kind, by := geometry.RectOutline(b.box.Pad(b.grown)), curve.Line, 0.0
	if b.shape != nil {
		mp, by = b.Outline, b.grown
	}
	if len(notches) > 0 {
		base := b.Outline
		if b.shape == nil {
			base = geometry.RectOutline(b.box)
		}
		var err error
		if b.grown == 0 && b.Kerf > 0 { // the edge stays where it is, what is cut out of it does not
			if notches, err = offset.Offset(notches, -b.Kerf/2, arcTolerance); err != nil {
				return fmt.Errorf("the kerf could not be allowed for at the sheet's edge: %w", err)
			}
		}
		if mp, err = overlay.Difference(base, notches); err != nil {
			return fmt.Errorf("the openings that run out over the sheet's edge could not be taken off it: %w", err)
		}
		kind, by = b.kind, b.grown
		b.note("%d openings touch the sheet's edge or run out over it; they are cut with the sheet's outline.",
			b.made.Notches)
	}

	f, err := b.fit(mp, by, kind)
	if err != nil {
		return fmt.Errorf("the sheet's outline: %w", err)
	}
	if f.facets > 0 {
		b.note("The sheet's outline is cut with kinks or straight edges, because no smooth curve within %g mm was "+
			"found.", b.o.Tolerance)
	}
	if f.left > 0 {
		b.note("%d pieces of the sheet's outline are too small to cut and left out.", f.left)
	}
	b.made.Points += f.points
	for _, p := range f.paths[len(f.paths)-f.outers:] {
		ring := p.Flatten(outlineWithin)
		for i, v := range ring {
			ring[i] = geometry.Sub(v, b.plan.Page.Min)
		}
		b.plan.Outline = append(b.plan.Outline, ring)
	}
	if b.o.Trim != TrimCut {
		b.untrimmed(f.paths)
		return nil
	}
	for _, p := range f.paths {
		b.rim = append(b.rim, Contour{Layer: Cut, Class: ClassSheet, Path: p, Map: geometry.Identity,
			Start: b.startsOf(p)[0]})
	}
	return nil
}
