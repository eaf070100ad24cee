package link

import (
	"errors"

	"openwork/pattern/draft"
)

// codec writes a draft or reads one: the same calls in the same order do both, so that the two cannot drift apart. Each
// call takes a pointer to a value, which a writer reads and a reader sets.
//
// Under it works a binary arithmetic coder: the values of all bits so far narrow an interval of 32-bit numbers, a
// likely bit by little and an unlikely one by much, and the bytes that both ends share are put out. How likely a bit
// is, is learnt while coding, bit by bit, alike on both sides. See I. H. Witten, R. M. Neal and J. G. Cleary,
// "Arithmetic coding for data compression", Communications of the ACM 30 (1987).
type codec struct {
	writing   bool
	low, high uint32 // the interval, both ends in it
	value     uint32 // reading: the four bytes at hand
	data      []byte
	at        int // reading: the next byte
	err       error
	model     models

	d       *draft.Draft
	version int // of the link
	points  int // of the outlines so far
}

func newWriter() *codec {
	c := &codec{writing: true, high: 1<<32 - 1}
	c.prime()
	c.low, c.high, c.data = 0, 1<<32-1, nil
	return c
}

func newReader(content []byte) *codec {
	c := newWriter() // what priming learns is the same for both
	c.writing, c.data = false, content
	for range 4 {
		c.value = c.value<<8 | uint32(c.next())
	}
	return c
}

// chance is how likely the next bit of a kind is a 1, from 0 to 65,536; the zero value stands for even chances.
type chance struct {
	p    uint16 // less a half
	seen uint8
}

const (
	// steady is after how many bits of a kind a chance moves no more slowly: outlines are short, and what is likely
	// changes from one to the next. Measured on smooth and on irregular outlines; 12 to 60 differ by 2 %.
	steady = 20
	// sure keeps a chance this far from never and always.
	sure = 64
)

func (p *chance) learn(bit bool) {
	v := int(p.p ^ 0x8000)
	target := 0
	if bit {
		target = 1 << 16
	}
	v += (target - v) * 2 / (2*int(p.seen) + 3)
	p.p = uint16(min(max(v, sure), 1<<16-sure)) ^ 0x8000
	if p.seen < steady {
		p.seen++
	}
}

// bit codes one bit of a kind and returns it.
func (c *codec) bit(p *chance, bit bool) bool {
	middle := c.low + uint32(uint64(c.high-c.low)*uint64(p.p^0x8000)>>16)
	if !c.writing {
		bit = c.value <= middle
	}
	if bit {
		c.high = middle
	} else {
		c.low = middle + 1
	}
	p.learn(bit)
	for (c.low^c.high)>>24 == 0 {
		if c.writing {
			c.data = append(c.data, byte(c.high>>24))
		} else {
			c.value = c.value<<8 | uint32(c.next())
		}
		c.low <<= 8
		c.high = c.high<<8 | 0xff
	}
	return bit
}

// raw codes the low n bits of v, which nothing is known about, high ones first.
func (c *codec) raw(v uint64, n int) uint64 {
	out := uint64(0)
	for n--; n >= 0; n-- {
		var even chance
		out <<= 1
		if c.bit(&even, v>>n&1 == 1) {
			out |= 1
		}
	}
	return out
}

// next returns the next byte of the content; after its end there are zeros.
func (c *codec) next() byte {
	b := byte(0)
	if c.at < len(c.data) {
		b = c.data[c.at]
	}
	c.at++
	return b
}

// left reports whether a reader that has read everything has bytes left over, which no writer leaves.
func (c *codec) left() bool { return c.at < len(c.data) }

// finish returns what was written: the fewest further bytes that lie in the interval whatever follows as zeros, without
// zeros at the end.
func (c *codec) finish() []byte {
	for n := 0; n <= 32; n += 8 {
		rest := uint32(uint64(1)<<(32-n) - 1)
		if v := uint64(c.low) + uint64(rest); v <= 1<<32-1 && uint32(v)&^rest <= c.high {
			v := uint32(v) &^ rest
			for k := 0; k < n; k += 8 {
				c.data = append(c.data, byte(v>>(24-k)))
			}
			break
		}
	}
	for len(c.data) > 0 && c.data[len(c.data)-1] == 0 {
		c.data = c.data[:len(c.data)-1]
	}
	return c.data
}

// bad notes that the content cannot have come from a writer.
func (c *codec) bad(text string) {
	if c.err == nil {
		c.err = errors.New(text)
	}
}
