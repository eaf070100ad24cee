package svgin

// parsePath reads path data (SVG 2, chapter 9): all commands, numbers written as tightly as the grammar allows. As the
// standard wants it, what stands before an error is kept; whole tells that there was none. budget counts segments down,
// and a path that exceeds it is cut off there.
func parsePath(d string, budget *int) (c curve, whole bool) {
	n := numbers{d}
	var at, start, control [2]float64 // control: of the last curve, for the smooth ones
	var command, last byte
	for {
		n.space()
		if n.s == "" {
			return c, true
		}
		if b := n.s[0]; isLetter(b) {
			command, n.s = b, n.s[1:]
		} else if command == 0 || command == 'Z' || command == 'z' {
			return c, false
		}
		if *budget--; *budget < 0 {
			return c, false
		}
		lower := command | 0x20
		if last == 0 && lower != 'm' {
			return c, false
		}
		var v [7]float64
		ok := true
		var large, sweep bool
		count := map[byte]int{'m': 2, 'l': 2, 'h': 1, 'v': 1, 'c': 6, 's': 4, 'q': 4, 't': 2, 'a': 3, 'z': 0}
		want, known := count[lower]
		if !known {
			return c, false
		}
		for k := range want {
			if v[k], ok = n.number(); !ok {
				return c, false
			}
		}
		if lower == 'a' {
			var a, b bool
			large, a = n.flag()
			if a {
				sweep, b = n.flag()
			}
			var p, q bool
			v[3], p = n.number()
			v[4], q = n.number()
			if !a || !b || !p || !q {
				return c, false
			}
		}

		// to returns points k, k+1 of v, measured from the current point where the command is a small letter.
		to := func(k int) [2]float64 {
			p := [2]float64{v[k], v[k+1]}
			if command >= 'a' {
				p[0] += at[0]
				p[1] += at[1]
			}
			return p
		}
		if last == 'z' && lower != 'm' && lower != 'z' { // a new part begins where the last one did
			c.move(at)
		}
		next := at
		switch lower {
		case 'm':
			next = to(0)
			start = next
			c.move(next)
		case 'l':
			next = to(0)
			c.line(next)
		case 'h':
			next[0] = v[0]
			if command == 'h' {
				next[0] += at[0]
			}
			c.line(next)
		case 'v':
			next[1] = v[0]
			if command == 'v' {
				next[1] += at[1]
			}
			c.line(next)
		case 'c':
			control, next = to(2), to(4)
			c.cubic(to(0), control, next)
		case 's':
			p := at
			if last == 'c' || last == 's' {
				p = [2]float64{2*at[0] - control[0], 2*at[1] - control[1]}
			}
			control, next = to(0), to(2)
			c.cubic(p, control, next)
		case 'q':
			control, next = to(0), to(2)
			c.quad(at, control, next)
		case 't':
			if last == 'q' || last == 't' {
				control = [2]float64{2*at[0] - control[0], 2*at[1] - control[1]}
			} else {
				control = at
			}
			next = to(0)
			c.quad(at, control, next)
		case 'a':
			next = to(3)
			c.arc(at, v[0], v[1], v[2], large, sweep, next)
		case 'z':
			c.close()
			next = start
		}
		at, last = next, lower
		if command == 'M' { // further pairs are lines
			command = 'L'
		} else if command == 'm' {
			command = 'l'
		}
	}
}

func isLetter(b byte) bool { return b|0x20 >= 'a' && b|0x20 <= 'z' }
