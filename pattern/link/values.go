package link

import "math"

// models holds what is learnt about each kind of value.
type models struct {
	same      [8]chance             // a value is the expected one: by kind of value
	sizes     [sizeKinds][64]chance // bits in a count or a number
	tops      [sizeKinds][64][3]chance
	places    [16]chance // decimal places, as a tree of four bits
	minus     chance
	decimal   chance
	letters   [4][256]chance // a text's bytes, as trees of eight bits, by what stands before
	flags     [2]chance
	predictor [4]chance // how a ring's points are predicted, as a tree of two bits
	steps     [8]chance // an outline's step, as a tree of three bits
	along     [12]residue
	across    [12]residue
	turns     [2][3]chance // signs, by the sign before
	ofField   chance       // a tie is the field's
	paint     chance       // there is a paint, or one of its parts
}

// Kinds of value whose expectation comes true more or less often.
const (
	sameNumber = iota
	sameAngle
	sameText
	sameID
	sameScale
	sameTie
	sameTieWidth
)

// Kinds of size.
const (
	sizeCount = iota
	sizeText
	sizeNumber
	sizeColour
	sizeKinds
)

// residue is what is learnt about how far a coordinate lies from where it was expected.
type residue struct {
	bits [maxBits + 1]chance
	tops [maxBits + 1][3]chance
}

// flag codes a yes or no.
func (c *codec) flag(p *chance, v *bool) { *v = c.bit(p, *v) }

// tree codes the low n bits of v with a chance for every node on the way; nodes holds 1<<n of them.
func (c *codec) tree(nodes []chance, n int, v int) int {
	node := 1
	for n--; n >= 0; n-- {
		node <<= 1
		if c.bit(&nodes[node>>1], v>>n&1 == 1) {
			node |= 1
		}
	}
	return node - len(nodes)
}

// size codes a whole number from 0 to most: how many bits it has, one 1 for each, then the bits after the first, of
// which two are learnt.
func (c *codec) size(bits []chance, tops [][3]chance, v *uint64, limit int) {
	k := 0
	for k < limit && c.bit(&bits[k], *v>>k != 0) {
		k++
	}
	if !c.writing {
		*v = 0
		if k > 0 {
			*v = 1 << (k - 1)
		}
	}
	if k > 1 {
		b := c.bitOf(&tops[k][0], v, k-2)
		if k > 2 {
			c.bitOf(&tops[k][1+b], v, k-3)
		}
		if k > 3 {
			*v = *v>>(k-3)<<(k-3) | c.raw(*v, k-3)
		}
	}
}

// bitOf codes bit k of v, which a reader has as 0 before, and returns it.
func (c *codec) bitOf(p *chance, v *uint64, k int) int {
	if c.bit(p, *v>>k&1 == 1) {
		*v |= 1 << k
		return 1
	}
	return 0
}

// count codes how many there are of something; a reader that finds more than most is done.
func (c *codec) count(kind int, n *int, limit int, what string) {
	v := uint64(*n)
	c.size(c.model.sizes[kind][:], c.model.tops[kind][:], &v, 30)
	if *n = int(v); *n > limit {
		c.bad("it asks for more " + what + " than a draft holds")
	}
	if c.err != nil {
		*n = 0
	}
}

// decimals is how many places after the point a number may have to be kept as a decimal.
const decimals = 15

var powers = [decimals + 1]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// number codes a number that is often the expected one: as a whole number of decimal places where that brings it back
// to the last bit, else by its 64 bits.
func (c *codec) number(kind int, v *float64, expected float64) {
	if c.bit(&c.model.same[kind], *v == expected) {
		*v = expected
		return
	}

	// A float64 up to 2^53 over a power of ten up to 1e22 is the float64 nearest to the decimal.
	places, whole := 0, uint64(0)
	size := math.Abs(*v)
	for c.writing && places <= decimals {
		if w := math.Round(size * powers[places]); w < 1<<53 && w/powers[places] == size {
			whole = uint64(w)
			break
		}
		places++
	}
	if !c.bit(&c.model.decimal, places <= decimals) {
		*v = math.Float64frombits(c.raw(math.Float64bits(*v), 64))
		return
	}
	places = c.tree(c.model.places[:], 4, places)
	c.size(c.model.sizes[sizeNumber][:], c.model.tops[sizeNumber][:], &whole, 53)
	size = float64(whole) / powers[places]
	if whole != 0 && c.bit(&c.model.minus, *v < 0) {
		size = -size
	}
	*v = size
}

// text codes a text that is sometimes the expected one.
func (c *codec) text(kind int, s *string, expected string, limit int) {
	if c.bit(&c.model.same[kind], *s == expected) {
		*s = expected
		return
	}
	n := len(*s)
	c.count(sizeText, &n, limit, "letters in a text")
	out := make([]byte, 0, n)
	before := byte(' ')
	for k := range n {
		var b byte
		if c.writing {
			b = (*s)[k]
		}
		b = byte(c.tree(c.model.letters[class(before)][:], 8, int(b)))
		out = append(out, b)
		before = b
	}
	*s = string(out)
}

// class sorts bytes by what is likely to follow them.
func class(b byte) int {
	switch {
	case b >= 0x80:
		return 3
	case b >= 'a' && b <= 'z':
		return 1
	case b >= 'A' && b <= 'Z':
		return 2
	}
	return 0
}

// prime lets a new coder learn from texts like those that drafts have. They are part of the format.
func (c *codec) prime() {
	for _, s := range []string{"Untitled", "Heron over carp", "Leaves and stems in the garden",
		"Swallow, fern and moth",
		"polyester film 0.35 mm", "acrylic sheet", "card", "birch plywood", "m1", "m2", "s1", "s2", "motif 3", "leaf 4",
		"Silhouette of a hare", "Oak leaf", "Bird", "Fish", "panel for the door", "Roter Fuchs", "Feuille de lierre"} {
		c.text(sameText, &s, "", 1<<10)
	}
	c.model.same = [8]chance{}
}
