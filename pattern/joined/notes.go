package joined

import (
	"fmt"
	"math"
	"strings"

	words "openwork/pattern/sheet"
)

// unit is what lengths are written in.
func (j *Joined) unit() words.Unit { return words.Unit{Inches: j.o.Units == "in"} }

// explain adds the notes on the parts; lacking are the numbers of those that are not known by anything.
func (j *Joined) explain(lacking []string) {
	note := func(format string, a ...any) { j.Notes = append(j.Notes, fmt.Sprintf(format, a...)) }
	bridge, u := j.l.Draft.Sheet.Bridge, j.unit()
	narrowest := bridge
	for _, t := range j.Joints {
		narrowest = math.Min(narrowest, t.Clear)
	}
	if narrowest < bridge*(1-1e-9) {
		note("A joint runs %s from an opening, nearer than the bridge of %s; handle that edge with care.",
			u.Measure(narrowest), u.Measure(bridge))
	}
	if len(j.Parts) == 1 {
		note("The sheet fits the bed as it is; there is one part.")
	}

	var tabs, loose []string
	for _, p := range j.Parts {
		if len(p.open) == 0 {
			note("Part %d has no opening; it need not be cut.", p.Number)
		}
		if p.loose {
			loose = append(loose, fmt.Sprint(p.Number))
		}
		if p.Tab {
			tabs = append(tabs, fmt.Sprint(p.Number))
		}
	}
	if len(loose) > 0 {
		note("%s: there is no room for three registration holes of %s that are not in line; lay them by the joints "+
			"and "+
			"the panel's edges.", parts(loose), u.Measure(j.o.Cut.Holes.Diameter))
	}
	if len(tabs) > 0 {
		note("%s: a tab carries what there was no room for between the openings; cut it off along the part's edge "+
			"once the part is laid.", parts(tabs))
	}
	if len(lacking) > 0 {
		note("%s: there is no room for all that a part is known by, and none on the bed for a tab; write it on with "+
			"a pen, by the assembly map, before the parts are taken off the bed.", parts(lacking))
	}
	if j.o.Cut.Label.Height == 0 && len(j.Parts) > 1 {
		note("No label is wanted, so the parts carry neither numbers nor letters; the assembly map tells them apart.")
	}
}

// chosen says what is cut and how it is laid, for the sheet of paper that goes to the shop.
func (j *Joined) chosen() []string {
	u := j.unit()
	var sizes []string
	for _, p := range j.Parts {
		if len(sizes) == maxNamed {
			sizes = append(sizes, fmt.Sprintf("and %d more", len(j.Parts)-maxNamed))
			break
		}
		sizes = append(sizes, fmt.Sprintf("%d: %s", p.Number, u.Size(p.Width, p.Height)))
	}
	if n := len(j.Plates); n > 0 {
		var named []string
		for _, p := range j.Plates {
			named = append(named, fmt.Sprintf("plate %d: %s", p.Number, p.title()))
		}
		return []string{fmt.Sprintf("Each of %d plates, %s, is cut in %s alike: %s.", n, strings.Join(named, ", "),
			counted(len(j.Parts), "part", "parts"), strings.Join(sizes, "; ")),
			"The parts of one plate are laid together, once, by the letters at their joints and the holes, which all " +
				"plates have at the same places; lift them, let the paste dry, and lay the next. The assembly map " +
				"goes with them."}
	}
	return []string{fmt.Sprintf("The sheet is cut in %s, each once: %s.",
		counted(len(j.Parts), "part", "parts"), strings.Join(sizes, "; ")),
		"They are laid together, once, by the letters at their joints; the assembly map goes with them."}
}

// parts names some parts.
func parts(numbers []string) string {
	if len(numbers) == 1 {
		return "Part " + numbers[0]
	}
	return "Parts " + strings.Join(numbers, ", ")
}
