package qr

// set sets a module that is not data.
func (c *Code) set(x, y int, dark bool) {
	c.dark[y*c.Size+x] = dark
	c.fixed[y*c.Size+x] = true
}

// patterns sets all that is not data, and keeps room for the format.
func (c *Code) patterns() {
	n := c.Size
	for k := range n {
		c.set(6, k, k%2 == 0)
		c.set(k, 6, k%2 == 0)
	}
	for _, at := range [][2]int{{3, 3}, {n - 4, 3}, {3, n - 4}} {
		for dy := -4; dy <= 4; dy++ {
			for dx := -4; dx <= 4; dx++ {
				if x, y := at[0]+dx, at[1]+dy; x >= 0 && x < n && y >= 0 && y < n {
					d := max(abs(dx), abs(dy))
					c.set(x, y, d != 2 && d != 4)
				}
			}
		}
	}
	places := alignment(c.Version)
	last := len(places) - 1
	for i, y := range places {
		for j, x := range places {
			if i == 0 && j == 0 || i == 0 && j == last || i == last && j == 0 {
				continue // finders stand there
			}
			for dy := -2; dy <= 2; dy++ {
				for dx := -2; dx <= 2; dx++ {
					c.set(x+dx, y+dy, max(abs(dx), abs(dy)) != 1)
				}
			}
		}
	}
	c.format(0)
	if c.Version >= 7 {
		v := c.Version<<12 | rest(c.Version, 0x1f25, 12)
		for k := range 18 {
			dark := v>>k&1 != 0
			c.set(n-11+k%3, k/3, dark)
			c.set(k/3, n-11+k%3, dark)
		}
	}
}

// alignment returns the rows, and columns, of alignment patterns' middles (ISO/IEC 18004, annex E): the first at 6, the last 7
// from the end, between them even steps, all the same but the first.
func alignment(version int) []int {
	if version == 1 {
		return nil
	}
	n := version/7 + 2
	step := (version*8 + n*3 + 5) / (n*4 - 4) * 2
	out := make([]int, n)
	out[0] = 6
	for k := range n - 1 {
		out[n-1-k] = 10 + 4*version - k*step
	}
	return out
}

// rest returns the bits by which a number is secured: the rest of the number moved up by count bits, divided by the generator.
func rest(v, generator, count int) int {
	r := v
	for range count {
		r = r<<1 ^ (r>>(count-1))*generator
	}
	return r
}

// format sets level and mask, twice, and the one module that is always dark.
func (c *Code) format(mask int) {
	v := 1 // level L is 01, M is 00
	if c.Level == M {
		v = 0
	}
	v = v<<3 | mask
	v = (v<<10 | rest(v, 0x537, 10)) ^ 0x5412
	n := c.Size
	for k := range 15 {
		dark := v>>k&1 != 0
		switch { // round the upper left finder
		case k < 6:
			c.set(8, k, dark)
		case k < 8:
			c.set(8, k+1, dark)
		case k == 8:
			c.set(7, 8, dark)
		default:
			c.set(14-k, 8, dark)
		}
		if k < 8 { // beside the two others
			c.set(n-1-k, 8, dark)
		} else {
			c.set(8, n-15+k, dark)
		}
	}
	c.set(8, n-8, true)
}

// lay lays the code words in columns of two, from the right, up and down in turn.
func (c *Code) lay(words []byte) {
	n := c.Size
	k := 0
	for right := n - 1; right >= 1; right -= 2 {
		if right == 6 {
			right = 5
		}
		up := (right+1)&2 == 0
		for v := range n {
			y := v
			if up {
				y = n - 1 - v
			}
			for _, x := range []int{right, right - 1} {
				if !c.fixed[y*n+x] && k < 8*len(words) {
					c.dark[y*n+x] = words[k/8]>>(7-k%8)&1 != 0
					k++
				}
			}
		}
	}
}

// mask turns over the modules of data that a mask names; twice is not at all.
func (c *Code) mask(mask int) {
	for y := range c.Size {
		for x := range c.Size {
			var on bool
			switch mask {
			case 0:
				on = (x+y)%2 == 0
			case 1:
				on = y%2 == 0
			case 2:
				on = x%3 == 0
			case 3:
				on = (x+y)%3 == 0
			case 4:
				on = (x/3+y/2)%2 == 0
			case 5:
				on = x*y%2+x*y%3 == 0
			case 6:
				on = (x*y%2+x*y%3)%2 == 0
			case 7:
				on = ((x+y)%2+x*y%3)%2 == 0
			}
			if i := y*c.Size + x; on && !c.fixed[i] {
				c.dark[i] = !c.dark[i]
			}
		}
	}
}

// penalty says how badly a code may be read, as ISO/IEC 18004 counts it: long runs, blocks, what looks like a finder, and too
// much of one shade.
func (c *Code) penalty() int {
	n, sum, dark := c.Size, 0, 0
	for _, turned := range []bool{false, true} {
		at := func(i, k int) bool { // module k of line i
			if turned {
				return c.dark[k*n+i]
			}
			return c.dark[i*n+k]
		}
		for i := range n {
			run, seen := 0, 0
			for k := range n {
				if k > 0 && at(i, k) == at(i, k-1) {
					run++
				} else {
					run = 1
				}
				if run == 5 {
					sum += 3
				} else if run > 5 {
					sum++
				}
				seen = seen << 1 & 0x7ff
				if at(i, k) {
					seen |= 1
				}
				if k >= 10 && (seen == 0b10111010000 || seen == 0b00001011101) {
					sum += 40
				}
			}
		}
	}
	for y := range n {
		for x := range n {
			v := c.Dark(x, y)
			if v {
				dark++
			}
			if x+1 < n && y+1 < n && c.Dark(x+1, y) == v && c.Dark(x, y+1) == v && c.Dark(x+1, y+1) == v {
				sum += 3
			}
		}
	}
	return sum + abs(dark*20-n*n*10)/(n*n)*10
}

func abs(v int) int { return max(v, -v) }
