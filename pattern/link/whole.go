package link

import (
	"strconv"

	"openwork/pattern/draft"
)

// colour codes sRGB as its 24 bits.
func (c *codec) colour(v *string) {
	var bits uint64
	if c.writing {
		bits, _ = strconv.ParseUint((*v)[1:], 16, 24)
	}
	bits = c.raw(bits, 24)
	const digits = "0123456789abcdef"
	out := []byte("#000000")
	for i := range 6 {
		out[1+i] = digits[bits>>(20-4*i)&15]
	}
	*v = string(out)
}

// wholes codes whole numbers, lists of them and lists of IDs.
func (c *codec) wholes(m *draft.Member, value any) {
	switch v := value.(type) {
	case *int:
		c.whole(m, v)
	case *[2]int:
		c.whole(m, &v[0])
		c.whole(m, &v[1])
	case *[]int:
		c.row(m, v)
	case *[][]int:
		n := len(*v)
		c.count(sizeCount, &n, int(m.Max), m.Key)
		for i := 0; i < n && c.err == nil; i++ {
			if !c.writing {
				*v = append(*v, nil)
			}
			c.row(m, &(*v)[i])
		}
	case *[]string:
		c.refs(m, v)
	case *map[string]int:
		c.numbers(m, v)
	}
}

func (c *codec) whole(m *draft.Member, v *int) {
	c.count(sizeColour, v, int(m.Max), m.Key)
}

func (c *codec) row(m *draft.Member, v *[]int) {
	n := len(*v)
	c.count(sizeCount, &n, int(m.Max), m.Key)
	for i := 0; i < n && c.err == nil; i++ {
		if !c.writing {
			*v = append(*v, 0)
		}
		c.whole(m, &(*v)[i])
	}
}

func (c *codec) refs(m *draft.Member, v *[]string) {
	ids := c.d.IDs(m.To)
	n := len(*v)
	c.count(sizeCount, &n, min(int(m.Max), len(ids)), m.Key)
	for i := 0; i < n && c.err == nil; i++ {
		if !c.writing {
			*v = append(*v, "")
		}
		(*v)[i] = c.one(sizeColour, m.To, ids, (*v)[i])
	}
}

// numbers codes a number for every item of a list, 0 for those that have none: how many items from the first on have
// one comes before.
func (c *codec) numbers(m *draft.Member, v *map[string]int) {
	ids := c.d.IDs(m.To)
	n := 0
	for i, id := range ids {
		if (*v)[id] != 0 {
			n = i + 1
		}
	}
	c.count(sizeCount, &n, len(ids), m.Key)
	out := map[string]int{}
	for _, id := range ids[:n] {
		number := (*v)[id]
		if c.count(sizeColour, &number, int(draft.MaxColours), m.Key); number != 0 {
			out[id] = number
		}
	}
	if *v = out; len(out) == 0 {
		*v = nil
	}
}
