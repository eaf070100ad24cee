package link

import "openwork/pattern"

// ties codes the ties of a draft: how many, and of each whose it is, its ends and its width. They are kept exactly.
func (c *codec) ties(d *pattern.Draft) {
	n := len(d.Ties)
	c.count(sizeCount, &n, pattern.MaxTies, "ties")
	if n == 0 {
		c.bad("it is of the version for ties and has none")
	}
	width := 3.0
	for i := range n {
		var t pattern.Tie
		if c.writing {
			t = d.Ties[i]
		}
		c.owner(d, &t.Silhouette)
		c.number(sameTie, &t.From[0], 0)
		c.number(sameTie, &t.From[1], 0)
		c.number(sameTie, &t.To[0], t.From[0]) // many run along x or y
		c.number(sameTie, &t.To[1], t.From[1])
		c.number(sameTieWidth, &t.Width, width) // and most are as wide as the one before
		width = t.Width
		if c.err != nil {
			return
		}
		if !c.writing {
			d.Ties = append(d.Ties, t)
		}
	}
}

// owner codes the id of a tie's silhouette, empty for the field, by the silhouette's number.
func (c *codec) owner(d *pattern.Draft, id *string) {
	field := *id == ""
	if c.flag(&c.model.ofField, &field); field {
		*id = ""
		return
	}
	which := 0
	for c.writing && which < len(d.Silhouettes)-1 && d.Silhouettes[which].ID != *id {
		which++
	}
	c.count(sizeCount, &which, len(d.Silhouettes)-1, "silhouettes")
	if c.err == nil {
		*id = d.Silhouettes[which].ID
	}
}
