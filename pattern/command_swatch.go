package pattern

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"openwork/pattern/draft"
)

// applySwatch adds the Swatches under ids of their own; what they bring as an id does not count.
func applySwatch(d *draft.Draft, c Command) error {
	if len(c.Swatches) == 0 {
		return errors.New("a new swatch needs a colour")
	}
	d.Swatches = slices.Clone(d.Swatches)
	for _, s := range c.Swatches {
		s.ID = freshID(d, "c")
		if s.Colour = strings.ToLower(s.Colour); s.Name == "" {
			s.Name = s.Colour
		}
		d.Swatches = append(d.Swatches, s)
	}
	return nil
}

// applyReswatch gives the swatch ID the name, the colour and the note of the one in Swatches.
func applyReswatch(d *draft.Draft, c Command) error {
	i, err := swatchOf(d, c.ID)
	if err != nil {
		return err
	}
	if len(c.Swatches) != 1 {
		return fmt.Errorf("a swatch is changed into one other, not into %d", len(c.Swatches))
	}
	d.Swatches = slices.Clone(d.Swatches)
	s := c.Swatches[0]
	s.ID, s.Colour = c.ID, strings.ToLower(s.Colour)
	d.Swatches[i] = s
	return nil
}

// applyUnswatch takes the swatch ID away. One that is in use stays.
func applyUnswatch(d *draft.Draft, c Command) error {
	i, err := swatchOf(d, c.ID)
	if err != nil {
		return err
	}
	p := d.PaintOf()
	if p.Ground == c.ID {
		return fmt.Errorf("%s is the ground; choose another ground first", d.Swatches[i].Name)
	}
	if slices.Contains(p.Colours, c.ID) {
		return fmt.Errorf("%s is a colour of the panel; choose another for what has it first", d.Swatches[i].Name)
	}
	d.Swatches = slices.Delete(slices.Clone(d.Swatches), i, i+1)
	if len(d.Swatches) == 0 {
		d.Swatches = nil
	}
	return nil
}

func swatchOf(d *draft.Draft, id string) (int, error) {
	if i := d.SwatchIndex(id); i >= 0 {
		return i, nil
	}
	return 0, fmt.Errorf("no swatch is called %.40q", id)
}
