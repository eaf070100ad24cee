package pattern

import (
	"fmt"
	"strconv"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// motifOf returns the motif the command names.
func motifOf(d *draft.Draft, id string) (*draft.Motif, error) {
	if i := d.Motif(id); i >= 0 {
		return &d.Motifs[i], nil
	}
	return nil, fmt.Errorf("no motif is called %.40q", id)
}

// applyPlace moves, turns or scales the motif ID: x, y in field mm, turn in degrees, scale.
func applyPlace(d *draft.Draft, c Command) error {
	m, err := motifOf(d, c.ID)
	if err != nil {
		return err
	}
	draft.MotifObject.Set(m, c.Values)
	if _, ok := c.Values["turn"]; ok {
		m.Turn = wrapDegrees(m.Turn)
	}
	return nil
}

// applySize makes the motif ID, or every motif when ID is empty, larger or smaller by the given factor, about its
// centre of area.
func applySize(d *draft.Draft, c Command) error {
	f := c.Values["factor"]
	if !(f > 0) {
		return fmt.Errorf("a factor is above nothing, not %g", f)
	}
	found := c.ID == ""
	for i := range d.Motifs {
		m := &d.Motifs[i]
		if c.ID != "" && m.ID != c.ID {
			continue
		}
		found = true
		s, ok := d.Silhouette(m.Silhouette)
		if !ok {
			return fmt.Errorf("no silhouette is called %.40q", m.Silhouette)
		}
		heart := geometry.Centroid(s.Outline)
		before := m.Map().Apply(heart)
		m.Scale = geometry.Snap(m.Scale * f)
		after := m.Map().Apply(heart)
		for k := range m.At {
			m.At[k] = geometry.Snap(m.At[k] + before[k] - after[k])
		}
	}

	if !found {
		return fmt.Errorf("no motif is called %.40q", c.ID)
	}
	return nil
}

// applyMirror makes the motif ID mirrored or not, as Flag says.
func applyMirror(d *draft.Draft, c Command) error {
	m, err := motifOf(d, c.ID)
	if err != nil {
		return err
	}
	m.Mirrored = c.Flag
	return nil
}

// applyMotif adds a motif of the silhouette named by Text at x, y, or, when ID names a motif, a second one like it, the
// other way round with Flag.
func applyMotif(d *draft.Draft, c Command) error {
	m := draft.Motif{Silhouette: c.Text, Scale: 1}
	if c.ID != "" {
		like, err := motifOf(d, c.ID)
		if err != nil {
			return err
		}
		m = *like
		m.Mirrored = m.Mirrored != c.Flag
	}
	m.ID = freshID(d, "m")
	if number := d.PaintOf().Of[c.ID]; number != 0 {
		d.Paint = d.Paint.Clone()
		d.Paint.Of[m.ID] = number
	}
	draft.MotifObject.Set(&m, c.Values)
	d.Motifs = append(d.Motifs, m)
	return nil
}

// applySwap gives the motif ID the silhouette named by Text.
func applySwap(d *draft.Draft, c Command) error {
	m, err := motifOf(d, c.ID)
	if err != nil {
		return err
	}
	m.Silhouette = c.Text
	return nil
}

// applyRemake makes a new silhouette of Outline, under the name Text, and gives it to the motif ID, which stays in its
// place.
func applyRemake(d *draft.Draft, c Command) error {
	m, err := motifOf(d, c.ID)
	if err != nil {
		return err
	}
	if err := applyDraw(d, Command{Text: c.Text, Outline: c.Outline}); err != nil {
		return err
	}
	m.Silhouette = d.Silhouettes[len(d.Silhouettes)-1].ID
	return nil
}

func applyRemove(d *draft.Draft, c Command) error {
	i := d.Motif(c.ID)
	if i < 0 {
		return fmt.Errorf("no motif is called %.40q", c.ID)
	}
	d.Motifs = append(d.Motifs[:i], d.Motifs[i+1:]...)
	dropPaint(d)
	return nil
}

// applyDraw adds the silhouette Outline under the name Text. With ID "place" a first motif of it is set at x, y.
func applyDraw(d *draft.Draft, c Command) error {
	s := draft.Silhouette{ID: freshID(d, "s"), Name: c.Text, Outline: geometry.SnapOutline(geometry.Orient(c.Outline))}
	if s.Name == "" {
		s.Name = s.ID
	}
	d.Silhouettes = append(d.Silhouettes, s)
	if c.ID == "place" {
		return applyMotif(d, Command{Text: s.ID, Values: c.Values})
	}
	return nil
}

// applyRedraw replaces the outline of the silhouette ID; its motifs stay.
func applyRedraw(d *draft.Draft, c Command) error {
	for i := range d.Silhouettes {
		if d.Silhouettes[i].ID == c.ID {
			d.Silhouettes[i].Outline = geometry.SnapOutline(geometry.Orient(c.Outline))
			return nil
		}
	}
	return fmt.Errorf("no silhouette is called %.40q", c.ID)
}

func applyName(d *draft.Draft, c Command) error {
	for i := range d.Silhouettes {
		if d.Silhouettes[i].ID == c.ID {
			d.Silhouettes[i].Name = c.Text
			return nil
		}
	}
	return fmt.Errorf("no silhouette is called %.40q", c.ID)
}

// applyDiscard throws the silhouette ID away, and the motifs made of it and its ties.
func applyDiscard(d *draft.Draft, c Command) error {
	found := false
	var keep []draft.Silhouette
	for _, s := range d.Silhouettes {
		if s.ID == c.ID {
			found = true
		} else {
			keep = append(keep, s)
		}
	}
	if !found {
		return fmt.Errorf("no silhouette is called %.40q", c.ID)
	}
	d.Silhouettes = keep
	var motifs []draft.Motif
	for _, m := range d.Motifs {
		if m.Silhouette != c.ID {
			motifs = append(motifs, m)
		}
	}
	d.Motifs = motifs
	dropTies(d, c.ID)
	dropPaint(d)
	return nil
}

// freshID returns the first of prefix1, prefix2, … that no silhouette, motif or swatch has.
func freshID(d *draft.Draft, prefix string) string {
	used := map[string]bool{}
	for _, s := range d.Silhouettes {
		used[s.ID] = true
	}
	for _, m := range d.Motifs {
		used[m.ID] = true
	}
	for _, s := range d.Swatches {
		used[s.ID] = true
	}
	for n := 1; ; n++ {
		if id := prefix + strconv.Itoa(n); !used[id] {
			return id
		}
	}
}
