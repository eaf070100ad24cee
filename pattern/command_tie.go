package pattern

import (
	"fmt"
	"math"
	"slices"

	"openwork/pattern/draft"
)

// applyTie adds a tie: ID names its silhouette, empty for the field; fromX, fromY, toX, toY and width are in mm, in the
// silhouette's frame or the field's.
func applyTie(d *draft.Draft, c Command) error {
	t := draft.Tie{Silhouette: c.ID}
	for _, name := range [...]string{"fromX", "fromY", "toX", "toY", "width"} {
		if _, ok := c.Values[name]; !ok {
			return fmt.Errorf("a new tie needs %s", name)
		}
	}
	draft.TieObject.Set(&t, c.Values)
	d.Ties = append(slices.Clone(d.Ties), t)
	return nil
}

// applyRetie changes the tie with the given index: those of fromX, fromY, toX, toY and width that the command carries.
func applyRetie(d *draft.Draft, c Command) error {
	i, err := tieIndex(d, c)
	if err != nil {
		return err
	}
	d.Ties = slices.Clone(d.Ties)
	draft.TieObject.Set(&d.Ties[i], c.Values)
	return nil
}

// applyUntie takes the tie with the given index away.
func applyUntie(d *draft.Draft, c Command) error {
	i, err := tieIndex(d, c)
	if err != nil {
		return err
	}
	d.Ties = slices.Delete(slices.Clone(d.Ties), i, i+1)
	if len(d.Ties) == 0 {
		d.Ties = nil
	}
	return nil
}

// applyTies puts another list in the place of all ties.
func applyTies(d *draft.Draft, c Command) error {
	d.Ties = nil
	for _, t := range c.Ties {
		d.Ties = append(d.Ties, t.Snapped())
	}
	return nil
}

// tieIndex returns which tie the command means.
func tieIndex(d *draft.Draft, c Command) (int, error) {
	v, ok := c.Values["index"]
	if !ok || v != math.Floor(v) || v < 0 || v >= float64(len(d.Ties)) {
		switch n := len(d.Ties); {
		case n == 0:
			return 0, fmt.Errorf("there is no tie to change")
		case !ok:
			return 0, fmt.Errorf("which of the %d ties is meant must be said by its index, counted from 0", n)
		default:
			return 0, fmt.Errorf("there is no tie %g; they are counted from 0 to %d", v, n-1)
		}
	}
	return int(v), nil
}

// dropTies takes a silhouette's ties away.
func dropTies(d *draft.Draft, silhouette string) {
	if ties, _ := d.TiesOf(silhouette); len(ties) == 0 {
		return
	}
	d.Ties = slices.DeleteFunc(slices.Clone(d.Ties), func(t draft.Tie) bool { return t.Silhouette == silhouette })
	if len(d.Ties) == 0 {
		d.Ties = nil
	}
}

// tieStop is where a tie of the field lay at a stop of the trail; known is false for one that has no place there.
type tieStop struct {
	from, to [2]float64
	known    bool
}

// tieStops returns the places of all ties, in the list's order; a silhouette's have none.
func tieStops(d *draft.Draft) []tieStop {
	var out []tieStop
	for _, t := range d.Ties {
		out = append(out, tieStop{t.From, t.To, t.Silhouette == ""})
	}
	return out
}

// tiesSince returns the places of an older stop in the order of the ties as they are now: only of those that lie where
// the last change of group left them.
func tiesSince(old, left, here []tieStop) []tieStop {
	out := make([]tieStop, len(here))
	used := make([]bool, len(left))
	for i, h := range here {
		for j, l := range left {
			if !used[j] && h.known && l == h && j < len(old) {
				out[i], used[j] = old[j], true
				break
			}
		}
	}
	return out
}

// restoreTies puts the field's ties back where they lay at a stop, where that is known.
func restoreTies(d *draft.Draft, stops []tieStop) {
	for i, s := range stops {
		if s.known && i < len(d.Ties) {
			d.Ties[i].From, d.Ties[i].To = s.from, s.to
		}
	}
}
