package cutfile

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/paulmach/orb"
)

// mostInflated bounds what a page's content may grow to when it is read back.
const mostInflated = 1 << 30

// readPDF reads back what pdf writes: the page's box, and the operators of its one stream.
func readPDF(data []byte) (*contents, error) {
	c := &contents{}
	var x, y, w, h float64
	_, box, ok := bytes.Cut(data, []byte("/MediaBox [ "))
	if n, err := fmt.Sscanf(string(box[:min(len(box), 80)]), "%f %f %f %f", &x, &y, &w, &h); !ok || n != 4 || err != nil {
		return nil, fmt.Errorf("the page's box cannot be read")
	}
	c.width, c.height = (w-x)*25.4/72, (h-y)*25.4/72
	_, packed, ok := bytes.Cut(data, []byte("\nstream\n"))
	if !ok {
		return nil, fmt.Errorf("there is no stream")
	}
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	defer z.Close()
	content, err := io.ReadAll(io.LimitReader(z, mostInflated))
	if err != nil {
		return nil, err
	}
	return c, readOperators(content, c)
}

// readOperators goes through a page's content.
func readOperators(content []byte, c *contents) error {
	s := scanner{data: content}
	scale := 1.0 // mm for each of the page's units in force
	var stack []float64
	var name string
	var p pen
	take := func(n int) ([]orb.Point, error) {
		if len(stack) != n {
			return nil, fmt.Errorf("an operator takes %d numbers and has %d", n, len(stack))
		}
		var out []orb.Point
		for k := 0; k+1 < n; k += 2 {
			out = append(out, orb.Point{stack[k] * scale, stack[k+1] * scale})
		}
		return out, nil
	}
	for {
		b, more := s.peek()
		if !more {
			return nil
		}
		if b == '-' || b == '.' || b >= '0' && b <= '9' {
			v, err := s.number()
			if err != nil {
				return err
			}
			stack = append(stack, v)
			continue
		}
		from := s.at
		for s.at < len(content) && content[s.at] > ' ' {
			s.at++
		}
		word := string(content[from:s.at])
		if strings.HasPrefix(word, "/") {
			name = word[1:]
			continue
		}
		var err error
		var at []orb.Point
		switch word {
		case "cm":
			if len(stack) != 6 || stack[0] != stack[3] || stack[1] != 0 || stack[2] != 0 || stack[4] != 0 || stack[5] != 0 {
				return fmt.Errorf("the page is not scaled evenly")
			}
			if scale = stack[0] * 25.4 / 72; math.Abs(scale-1) < 1e-9 {
				scale = 1
			}
		case "BDC":
			p.t = c.layer(Layer(name))
		case "EMC":
			p.t = nil
		case "w", "RG":
		case "m", "l", "c", "s", "S":
			if p.t == nil {
				return fmt.Errorf("something is drawn outside the layers")
			}
			switch word {
			case "m":
				if at, err = take(2); err == nil {
					p.move(at[0])
				}
			case "l":
				if at, err = take(2); err == nil {
					p.line(at[0])
				}
			case "c":
				if at, err = take(6); err == nil {
					p.curve(at[0], at[1], at[2])
				}
			case "s":
				p.close()
			case "S":
				p.lift()
			}
		default:
			err = fmt.Errorf("the page holds the operator %.20q", word)
		}
		if err != nil {
			return err
		}
		stack = stack[:0]
	}
}
