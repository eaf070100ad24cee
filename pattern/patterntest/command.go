package patterntest

import (
	"slices"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// commandNames are the commands a draft knows, and one that it does not.
var commandNames = []string{"title", "group", "fit", "cell", "lay", "repeats", "centre", "panel", "field", "edge",
	"stock",
	"sheet", "place", "size",
	"mirror", "motif", "swap", "remove", "draw", "remake", "redraw", "name", "discard", "tie", "retie", "untie", "ties",
	"nothing", "swatch", "reswatch", "unswatch", "ground", "colour", "slot", "colouring", "copy", "block", "handless",
	"subject", "subjectPlace", "subjectMirror", "subjectEdge", "subjectName", "subjectOutline", "subjectRemove",
	"paste", "tie", "retie", "retie"} // ties twice and more: one must be there before it can be changed

// valueNames are the numbers that some command reads.
var valueNames = []string{"x", "y", "turn", "scale", "a", "b", "gamma", "width", "height", "drop", "step", "across",
	"down", "margin",
	"thickness", "kerf", "bridge", "opening", "bedWidth", "bedHeight", "factor", "fromX", "fromY", "toX", "toY",
	"index", "room", "other"}

var symbols = []string{"p1", "p2", "pm", "pg", "cm", "p2mm", "p2mg", "p2gg", "c2mm", "p4", "p4mm", "p4gm", "p3", "p3m1",
	"p31m", "p6", "p6mm", "pmm"}

// Command reads a command that may suit a draft off the stream. Some fit, some are out of range, some are nonsense.
func (s *Stream) Command(d draft.Draft) pattern.Command {
	c := pattern.Command{Name: commandNames[s.Pick(len(commandNames))], Flag: s.Flag()}
	var ids []string
	for _, o := range d.Silhouettes {
		ids = append(ids, o.ID)
	}
	silhouettes := len(ids)
	for _, m := range d.Motifs {
		ids = append(ids, m.ID)
	}
	wanted := valueNames

	switch c.Name {
	case "group":
		c.Text = s.Text(symbols...)
		return c
	case "fit":
		c.Text = s.Text("tightest", "")
		c.Repeat = &draft.Repeat{Group: s.Text(symbols...), A: geometry.Snap(s.Number()),
			B: geometry.Snap(s.Number()), Gamma: geometry.Snap(s.Number())}
		if s.Flag() {
			*c.Repeat = d.Repeat
		}
		c.Motifs = slices.Clone(d.Motifs)
		for i := range c.Motifs {
			c.Motifs[i].At = [2]float64{geometry.Snap(s.Number()), geometry.Snap(s.Number())}
			c.Motifs[i].Turn = geometry.Snap(s.Number())
		}
		return c
	case "cell":
		c.Text = s.Text("", pattern.KeepArea, pattern.KeepProportion)
		wanted = []string{"a", "b", "gamma"}
	case "lay":
		c.Text = s.Text(pattern.Straight, pattern.HalfDrop, pattern.Brick)
		wanted = []string{"width", "height", "drop", "step"}
	case "repeats":
		c.Text = s.Text("", pattern.Straight, pattern.HalfDrop, pattern.Brick)
		wanted = []string{"across", "down"}
	case "centre":
		c.Text = s.Text("corner", "turn", "mirror")
		return c
	case "edge":
		c.Text = s.Text("crop", "whole", "touching")
		return c
	case "place", "size":
		c.ID = s.Text(ids[silhouettes:]...)
		wanted = []string{"x", "y", "turn", "scale", "factor"}
	case "mirror", "remove":
		c.ID = s.Text(ids[silhouettes:]...)
		return c
	case "motif", "swap":
		c.ID, c.Text = s.Text(append(ids[silhouettes:], "")...), s.Text(ids[:silhouettes]...)
		wanted = valueNames[:4]
	case "draw":
		c.ID, c.Text, c.Outline = s.Text("place", ""), s.Text("Leaf"), s.Outline()
		wanted = valueNames[:2]
	case "remake":
		c.ID, c.Text, c.Outline = s.Text(ids[silhouettes:]...), s.Text("Leaf"), s.Outline()
	case "redraw", "name", "discard":
		c.ID, c.Text, c.Outline = s.Text(ids[:silhouettes]...), s.Text("Leaf"), s.Outline()
	case "tie", "retie", "untie":
		c.ID = s.Text(append(ids[:silhouettes], "")...)
		wanted = []string{"fromX", "fromY", "toX", "toY", "width", "index"}
	case "swatch", "reswatch", "unswatch", "ground", "colour", "slot", "copy", "colouring":
		wanted = s.paint(&c, d)
	case "block", "paste":
		wanted = []string{"m", "n", "waste", "dryOfWet", "density", "tub"}
	case "subject":
		if c.Text = s.Text("Heron"); s.Flag() {
			c.ID = s.Text(ids[:silhouettes]...)
		} else {
			c.Outline = s.Outline()
		}
		wanted = []string{"x", "y", "turn", "scale", "room"}
	case "subjectPlace", "subjectMirror", "subjectEdge", "subjectName", "subjectOutline", "subjectRemove":
		var subjects []string
		for _, o := range d.Subjects {
			subjects = append(subjects, o.ID)
		}
		c.ID, wanted = s.Text(subjects...), []string{"x", "y", "turn", "scale", "room"}
		switch c.Name {
		case "subjectEdge":
			c.Text = s.Text("crop", "whole", "behind")
		case "subjectOutline":
			c.Outline = s.Outline()
		case "subjectName":
			c.Text = s.Text("Heron")
		}
	case "ties":
		for range s.Pick(4) {
			c.Ties = append(c.Ties, s.tie(ids))
		}
	default:
		c.Text = s.Text("Heron", "polyester film")
	}

	if s.Pick(8) == 0 { // without numbers, as the page may send it
		return c
	}
	c.Values = map[string]float64{}
	for n := 1 + s.Pick(min(len(wanted), 6)); n > 0; n-- {
		c.Values[wanted[s.Pick(len(wanted))]] = s.Number()
	}
	if s.Pick(6) == 0 {
		return c
	}

	switch c.Name { // what it cannot do without
	case "tie":
		for _, name := range wanted[:5] {
			if _, ok := c.Values[name]; !ok {
				c.Values[name] = float64(s.Pick(64)) / 4
			}
		}
	case "retie", "untie":
		c.Values["index"] = float64(s.Pick(max(1, len(d.Ties))))
	case "slot":
		c.Values["index"] = float64(s.Pick(len(d.PaintOf().Colours) + 1))
	case "block":
		c.Values["m"], c.Values["n"] = float64(s.Pick(4)), float64(1+s.Pick(3))
	case "size":
		c.Values["factor"] = float64(1+s.Pick(40)) / 16
	}
	return c
}

func (s *Stream) tie(ids []string) draft.Tie {
	return draft.Tie{Silhouette: s.Text(append(ids, "")...), From: [2]float64{s.Number(), s.Number()},
		To: [2]float64{s.Number(), s.Number()}, Width: s.Number()}
}
