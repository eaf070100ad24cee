package link

import (
	"strconv"

	"openwork/pattern"
	"openwork/pattern/symmetry"
)

// maxBytes is how many bytes a text of a draft may have: four for a character.
const maxBytes = 4 * pattern.MaxText

// edges lists the edge rules by the number that stands for them.
var edges = [...]pattern.Edge{pattern.Crop, pattern.Whole, pattern.Touching}

// draft codes a whole draft. What is expected of a value is part of the format, and so is repeated here and not taken from
// pattern.Default.
func (c *codec) draft(d *pattern.Draft) {
	d.Openwork, d.Units = pattern.Version, "mm"
	c.text(sameText, &d.Title, "", maxBytes)
	c.number(sameNumber, &d.Panel.Width, 600)
	c.number(sameNumber, &d.Panel.Height, 900)
	c.number(sameNumber, &d.Field.Margin, 20)
	c.number(sameNumber, &d.Field.Origin[0], d.Panel.Width/2)
	c.number(sameNumber, &d.Field.Origin[1], d.Panel.Height/2)
	c.number(sameAngle, &d.Field.Turn, 0)
	c.edge(&d.Field.Edge)
	c.group(&d.Repeat.Group)
	c.number(sameNumber, &d.Repeat.A, 150)
	c.number(sameNumber, &d.Repeat.B, d.Repeat.A)
	c.number(sameAngle, &d.Repeat.Gamma, 90)
	c.silhouettes(d)
	c.motifs(d)
	c.sheet(&d.Sheet)
}

func (c *codec) edge(e *pattern.Edge) {
	k := 0
	for c.writing && k < len(edges)-1 && edges[k] != *e {
		k++
	}
	if k = int(c.raw(uint64(k), 2)); k >= len(edges) {
		c.bad("its edge rule is none")
		return
	}
	*e = edges[k]
}

func (c *codec) group(symbol *string) {
	number := 0
	if g, err := symmetry.Find(*symbol); c.writing && err == nil {
		number = g.Number
	}
	number = int(c.raw(uint64(number), 5))
	for _, g := range symmetry.Groups() {
		if g.Number == number {
			*symbol = g.Symbol
			return
		}
	}
	c.bad("its plane group is none")
}

func (c *codec) silhouettes(d *pattern.Draft) {
	n := len(d.Silhouettes)
	c.count(sizeCount, &n, pattern.MaxSilhouettes, "silhouettes")
	points := 0
	for i := range n {
		var s pattern.Silhouette
		if c.writing {
			s = d.Silhouettes[i]
		} else {
			d.Silhouettes = append(d.Silhouettes, s)
		}
		c.text(sameID, &s.ID, "s"+strconv.Itoa(i+1), maxBytes)
		c.text(sameText, &s.Name, s.ID, maxBytes)
		c.outline(&s.Outline, enlarged(d, s.ID), &points)
		if c.err != nil {
			return
		}
		if !c.writing {
			d.Silhouettes[i] = s
		}
	}
}

// enlarged returns the scale of the silhouette's largest motif.
func enlarged(d *pattern.Draft, id string) float64 {
	scale := 0.0
	for _, m := range d.Motifs {
		if m.Silhouette == id {
			scale = max(scale, m.Scale)
		}
	}
	return scale
}

func (c *codec) motifs(d *pattern.Draft) {
	n := len(d.Motifs)
	c.count(sizeCount, &n, pattern.MaxMotifs, "motifs")
	for i := range n {
		if !c.writing {
			d.Motifs = append(d.Motifs, pattern.Motif{})
		}
		m := d.Motifs[i]
		c.text(sameID, &m.ID, "m"+strconv.Itoa(i+1), maxBytes)
		which := 0
		for c.writing && which < len(d.Silhouettes)-1 && d.Silhouettes[which].ID != m.Silhouette {
			which++
		}
		c.count(sizeCount, &which, len(d.Silhouettes)-1, "silhouettes")
		if c.err != nil {
			return
		}
		m.Silhouette = d.Silhouettes[which].ID
		c.number(sameNumber, &m.At[0], 0)
		c.number(sameNumber, &m.At[1], 0)
		c.number(sameAngle, &m.Turn, 0)
		c.number(sameScale, &m.Scale, 1)
		c.flag(&c.model.flags[0], &m.Mirrored)
		if !c.writing {
			d.Motifs[i] = m
		}
	}
}

func (c *codec) sheet(s *pattern.Sheet) {
	c.text(sameText, &s.Stock, "polyester film", maxBytes)
	c.number(sameNumber, &s.Thickness, 0.35)
	c.number(sameNumber, &s.Kerf, 0.2)
	c.number(sameNumber, &s.Bridge, 3)
	c.number(sameNumber, &s.Opening, 1.5)
	c.number(sameNumber, &s.Width, 0)
	c.number(sameNumber, &s.Height, 0)
	bed := s.Bed != nil
	if c.flag(&c.model.flags[1], &bed); !bed {
		return
	}
	var b pattern.Bed
	if c.writing {
		b = *s.Bed
	}
	c.number(sameNumber, &b.Width, 600)
	c.number(sameNumber, &b.Height, 900)
	if !c.writing {
		s.Bed = &b
	}
}
