package pattern

import (
	"errors"
	"slices"

	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// fitted is the trail of a draft whose repeat and motifs a fit has set: what stood there before, and what the fit made.
type fitted struct {
	before, now arrangement
}

// arrangement is all of a draft that a fit may change, and the trail that led to it.
type arrangement struct {
	repeat draft.Repeat
	motifs []draft.Motif
	ties   []draft.Tie
	origin [2]float64 // of the field
	paint  *draft.Paint
	trail  any
}

func arrangementOf(d *draft.Draft) arrangement {
	return arrangement{d.Repeat, slices.Clone(d.Motifs), d.Ties, d.Field.Origin, d.Paint, d.Trail}
}

// Fitted reports whether a draft's repeat and motifs stand as a fit left them. The command group, with the group that
// the draft has, then gives this group with the cell as it was before the fit.
func Fitted(d draft.Draft) bool {
	f, ok := d.Trail.(*fitted)
	return ok && f.now.repeat == d.Repeat && slices.Equal(f.now.motifs, d.Motifs)
}

// applyFit takes the Repeat and the Motifs that a fit has found; Text says what it was to find. The motifs are those of
// the draft, in their order. All numbers are taken at their word, since the fit was measured with them. The ends of the
// field's ties are carried along in fractions of the cell.
func applyFit(d *draft.Draft, c Command) error {
	if c.Repeat == nil || len(c.Motifs) != len(d.Motifs) {
		return errors.New("this fit is of another draft; fit the motifs once more")
	}
	for i, m := range c.Motifs {
		if m.ID != d.Motifs[i].ID || m.Silhouette != d.Motifs[i].Silhouette {
			return errors.New("this fit is of other motifs; fit those that are here")
		}
	}
	g, err := symmetry.Find(c.Repeat.Group)
	if err != nil {
		return err
	}

	before := arrangementOf(d)
	if Fitted(*d) { // a fit after a fit: what the person had laid out stays what was before
		before = d.Trail.(*fitted).before
	}
	was := d.Repeat.Cell()
	if d.Repeat.Group != g.Symbol {
		leaveGroup(d)
	}
	d.Repeat.Group = g.Symbol
	reshape(d, was, c.Repeat.Cell())
	d.Motifs = slices.Clone(c.Motifs)
	if d.Field.Edge == draft.Whole {
		if err := centreCopies(d); err != nil {
			return err
		}
	}
	d.Trail = &fitted{before, arrangementOf(d)}
	return nil
}

// unfit gives a fitted draft the arrangement that it had before. Ties that were changed since are carried along
// instead.
func unfit(d *draft.Draft) {
	f := d.Trail.(*fitted)
	to, changed := f.before, !slices.Equal(f.now.ties, d.Ties)
	if d.Field.Origin == f.now.origin {
		d.Field.Origin = to.origin
	}
	was := d.Repeat.Cell()
	d.Repeat, d.Trail = to.repeat, to.trail
	if changed {
		reshape(d, was, to.repeat.Cell())
	} else {
		d.Ties = slices.Clone(to.ties)
	}
	d.Motifs = slices.Clone(to.motifs)
	repaint(d, to.paint, f.now.paint)
}
