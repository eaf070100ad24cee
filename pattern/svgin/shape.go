package svgin

import "strings"

// basicShape returns the outline of a basic shape (SVG 2, chapter 10) in user units; nil for one without size.
func basicShape(e *element, s *style, v viewport, budget *int) (c curve, whole bool) {
	across := func(name string) float64 { x, _ := v.across(s.of(e, name)); return x }
	down := func(name string) float64 { y, _ := v.down(s.of(e, name)); return y }
	switch e.name {
	case "path":
		d := s.of(e, "d")
		if strings.HasPrefix(d, "path(") {
			d = strings.Trim(strings.TrimRight(d[len("path("):], ") "), `"' `)
		}
		return parsePath(d, budget)
	case "rect":
		return rectangle(across("x"), down("y"), across("width"), down("height"), s.of(e, "rx"), s.of(e, "ry"), v), true
	case "circle":
		r, _ := v.neither(s.of(e, "r"))
		return oval(across("cx"), down("cy"), r, r), true
	case "ellipse":
		rx, hasX := v.across(s.of(e, "rx"))
		ry, hasY := v.down(s.of(e, "ry"))
		if !hasX {
			rx = ry
		}
		if !hasY {
			ry = rx
		}
		return oval(across("cx"), down("cy"), rx, ry), true
	case "line":
		c.move([2]float64{across("x1"), down("y1")})
		c.line([2]float64{across("x2"), down("y2")})
		return c, true
	case "polygon", "polyline":
		n := numbers{e.attr["points"]}
		for {
			x, okX := n.number()
			y, okY := n.number()
			if !okX || !okY {
				break
			}
			if *budget--; *budget < 0 {
				return c, false
			}
			if len(c) == 0 {
				c.move([2]float64{x, y})
			} else {
				c.line([2]float64{x, y})
			}
		}
		if e.name == "polygon" && len(c) > 0 {
			c.close()
		}
		n.space()
		return c, n.s == ""
	}
	return nil, true
}

// oval returns an ellipse.
func oval(x, y, rx, ry float64) (c curve) {
	if !(rx > 0) || !(ry > 0) {
		return nil
	}
	right, left := [2]float64{x + rx, y}, [2]float64{x - rx, y}
	c.move(right)
	c.arc(right, rx, ry, 0, false, true, left)
	c.arc(left, rx, ry, 0, false, true, right)
	c.close()
	return c
}

// rectangle returns a rectangle, its corners rounded where radii are given: one stands for both, and neither is more
// than half the side.
func rectangle(x, y, w, h float64, rxText, ryText string, v viewport) (c curve) {
	if !(w > 0) || !(h > 0) {
		return nil
	}
	rx, hasX := v.across(rxText)
	ry, hasY := v.down(ryText)
	hasX, hasY = hasX && rx >= 0, hasY && ry >= 0
	if !hasX {
		rx = ry
	}
	if !hasY {
		ry = rx
	}
	if !hasX && !hasY || rx == 0 || ry == 0 {
		rx, ry = 0, 0
	}
	if rx > w/2 {
		rx = w / 2
	}
	if ry > h/2 {
		ry = h / 2
	}
	at := [2]float64{x + rx, y}
	c.move(at)

	for _, s := range [4][2][2]float64{
		{{x + w - rx, y}, {x + w, y + ry}},
		{{x + w, y + h - ry}, {x + w - rx, y + h}},
		{{x + rx, y + h}, {x, y + h - ry}},
		{{x, y + ry}, {x + rx, y}},
	} {
		c.line(s[0])
		if rx > 0 {
			c.arc(s[0], rx, ry, 0, false, true, s[1])
		}
	}

	c.close()
	return c
}
