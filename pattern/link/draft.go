package link

import (
	"strings"

	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// maxBytes is how many bytes a text of a draft may have: four for a character.
const maxBytes = 4 * draft.MaxText

// kinds numbers the kinds of values that the schema names: those that come true as expected equally often share what is
// learnt about that. They are part of the format.
var kinds = map[string]int{"number": sameNumber, "angle": sameAngle, "text": sameText, "id": sameID, "scale": sameScale,
	"tie": sameTie, "tie width": sameTieWidth}

// flagOf returns what is learnt about a kind of yes or no.
func (c *codec) flagOf(kind string) *chance {
	switch kind {
	case "mirrored":
		return &c.model.flags[0]
	case "bed":
		return &c.model.flags[1]
	case "paint", "no ground", "perms", "by hand":
		return &c.model.paint
	}
	return &c.model.ofField
}

// draft codes a whole draft by the schema: first what the first version of links has, in the schema's order, then what
// the second has besides, and so on.
func (c *codec) draft(d *draft.Draft, version int) {
	c.d, c.version = d, version
	for since := 1; since <= version; since++ {
		c.object(draft.Schema, d, 0, 0, since)
	}
	if c.err == nil && needs(d) < version {
		c.bad("it is of the version for " + firstOf(version) + " and has none")
	}
}

// firstOf names what links have since a version, in the schema's words.
func firstOf(version int) string {
	var keys []string
	var look func(of *draft.Object)
	look = func(of *draft.Object) {
		for _, m := range of.Members {
			if m.Link.Since == version {
				keys = append(keys, m.Key)
			} else if m.Of != nil {
				look(m.Of)
			}
		}
	}
	look(draft.Schema)
	return strings.Join(keys, " or ")
}

// needs returns the first version of links that can hold the draft.
func needs(d *draft.Draft) int {
	return needed(draft.Schema, d, plainLinks)
}

func needed(of *draft.Object, owner any, version int) int {
	for _, m := range of.Members {
		says := m.Says(owner)
		if m.Link.Since > version && says {
			version = m.Link.Since
		}
		if m.Type == draft.Record && says {
			version = needed(m.Of, m.Value(owner), version)
		}
	}
	return version
}

// object codes those members that links have since a version. owner is item i of its list; what holds it is in links
// since the version before.
func (c *codec) object(of *draft.Object, owner any, i, before, since int) {
	for _, m := range of.Members {
		if c.err != nil {
			return
		}
		from := max(m.Link.Since, before)
		switch {
		case m.Type == draft.List:
			c.list(m, owner, from, since)
		case m.Type == draft.Record:
			if v := c.record(m, owner, from == since); v != nil {
				c.object(m.Of, v, i, from, since)
			}
		case from == since:
			c.leaf(m, owner, i)
		}
	}
}

func (c *codec) list(m *draft.Member, owner any, from, since int) {
	n := m.Len(owner)
	if from == since {
		c.count(sizeCount, &n, int(m.Max), m.Key)
	}
	for i := 0; i < n && c.err == nil; i++ {
		item := c.item(m, owner, i)
		c.object(m.Of, item, i, from, since)
	}
}

// item returns item i of a list, which a reader makes when it comes to it.
func (c *codec) item(m *draft.Member, owner any, i int) any {
	if i == m.Len(owner) {
		return m.Add(owner)
	}
	return m.Item(owner, i)
}

// record returns the object a member holds; nil where there is none. Whether there is one that may be missing is coded.
func (c *codec) record(m *draft.Member, owner any, now bool) any {
	v := m.Value(owner)
	if !m.Optional || !now {
		return v
	}
	there := v != nil
	if c.flag(c.flagOf(m.Link.Kind), &there); there && v == nil {
		v = m.Add(owner)
	}
	return v
}

func (c *codec) leaf(m *draft.Member, owner any, i int) {
	expected := m.Link.Expected
	if m.Link.Expect != nil {
		expected = m.Link.Expect(c.d, owner, i)
	}
	kind := kinds[m.Link.Kind]
	switch m.Type {
	case draft.Number:
		c.number(kind, m.Value(owner).(*float64), expected.(float64))
	case draft.Point:
		p, near := m.Value(owner).(*[2]float64), expected.([2]float64)
		c.number(kind, &p[0], near[0])
		c.number(kind, &p[1], near[1])
	case draft.Flag:
		c.flag(c.flagOf(m.Link.Kind), m.Value(owner).(*bool))
	case draft.Text, draft.ID:
		c.text(kind, m.Value(owner).(*string), expected.(string), maxBytes)
	case draft.Choice:
		c.choice(m, m.Value(owner).(*string))
	case draft.Colour:
		c.colour(m.Value(owner).(*string))
	case draft.Integer, draft.Pair, draft.Row, draft.Rows, draft.Refs, draft.Numbers:
		c.wholes(m, m.Value(owner))
	case draft.Group:
		c.group(m.Value(owner).(*string))
	case draft.Ref:
		c.reference(m, m.Value(owner).(*string))
	case draft.Outline:
		switch s := owner.(type) {
		case *draft.Silhouette:
			c.outline(&s.Outline, enlarged(c.d, s.ID), &c.points)
		case *draft.Subject:
			c.outline(&s.Outline, s.Scale, &c.points)
		}
	}
}

// choice codes one of up to four texts.
func (c *codec) choice(m *draft.Member, v *string) {
	k := 0
	for c.writing && *v != "" && k < len(m.Choices)-1 && m.Choices[k] != *v { // one not said is the first
		k++
	}
	if k = int(c.raw(uint64(k), 2)); k >= len(m.Choices) {
		c.bad("its " + m.Key + " rule is none")
		return
	}
	*v = m.Choices[k]
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

// reference codes the id of a list's item by its number; where the member may have none, whether it has none comes
// first.
func (c *codec) reference(m *draft.Member, id *string) {
	none := *id == ""
	if m.Optional {
		if c.flag(c.flagOf(m.Link.Kind), &none); none {
			*id = ""
			return
		}
	}
	*id = c.one(sizeCount, m.To, c.d.IDs(m.To), *id)
}

// one codes one of a list's IDs by its number.
func (c *codec) one(kind int, list draft.Items, ids []string, id string) string {
	which := 0
	for c.writing && which < len(ids)-1 && ids[which] != id {
		which++
	}
	c.count(kind, &which, len(ids)-1, itemsOf[list])
	if c.err != nil {
		return ""
	}
	return ids[which]
}

// itemsOf names the lists that have IDs.
var itemsOf = map[draft.Items]string{draft.Silhouettes: "silhouettes", draft.Motifs: "motifs",
	draft.Swatches: "swatches"}

// enlarged returns the scale of the silhouette's largest motif.
func enlarged(d *draft.Draft, id string) float64 {
	scale := 0.0
	for _, m := range d.Motifs {
		if m.Silhouette == id {
			scale = max(scale, m.Scale)
		}
	}
	return scale
}
