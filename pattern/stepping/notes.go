package stepping

import (
	"fmt"
	"strings"

	"openwork/pattern/draft"
)

// explain adds the notes on laying.
func (s *Stepping) explain() {
	note := func(format string, a ...any) { s.Notes = append(s.Notes, fmt.Sprintf(format, a...)) }
	part, mask := 0, 0
	var measured []string
	for _, p := range s.Places {
		if len(p.Part) > 0 {
			part++
		}
		if len(p.Mask) > 0 {
			mask++
		}
		if p.From == 0 && p.Number > 1 {
			measured = append(measured, fmt.Sprint(p.Number))
		}
	}
	if s.Surround > 0 {
		note("Some marks lie beside the panel: it needs a surround of %s, level with it.", s.unit().Measure(s.Surround))
	}
	if len(s.Holes) > 0 && len(s.Places) > 1 {
		note("Set the marks of place 1 by their coordinates. Then walk the sheet over the dry panel, place by place, " +
			"and mark through the holes; where a place meets the one before, two holes fall on its marks. Then lay " +
			"the " +
			"places pass by pass.")
	}
	if len(s.Passes) > 1 {
		note("The places are laid in %d passes; let the paste dry after each.", len(s.Passes))
	}
	if len(measured) > 0 {
		note("No place before shares two marks with %s; set theirs by the coordinates that the map lists, from the "+
			"panel's lower left corner.", named(measured))
	}
	if part > 0 && s.l.Draft.Field.Edge == draft.Crop {
		note("Mask the margin round the field with tape: at %d places openings reach over it.", part)
	} else if part > 0 {
		note("At %d places a part of an opening belongs to copies that the edge leaves out; mask it as the map says.",
			part)
	}
	if mask > 0 {
		note("At %d places openings are masked that the field does not have there; the map lists them.", mask)
	}
	if len(s.l.Draft.Subjects) > 0 {
		note("The sheet lays the field without regard to what stands before it: cover each subject with its mask " +
			"first.")
	}
	s.Chosen = s.chosen()
}

// chosen says what is cut and how often it is laid, for the sheet of paper that goes to the shop.
func (s *Stepping) chosen() []string {
	u := s.unit()
	out := []string{fmt.Sprintf("A stepping sheet of %s is cut, once, and laid %s in %s, moved over the panel by the "+
		"repeat; the map of its places goes with it.", u.Size(s.Width, s.Height), times(len(s.Places)),
		counted(len(s.Passes), "pass", "passes"))}
	if n := len(s.Plates); n > 0 {
		out = []string{fmt.Sprintf("%d stepping sheets of %s are cut, one for each colour, and each is laid %s in "+
			"%s, moved over the panel by the repeat of the colours; all lie by the same marks, and the map of their "+
			"places goes with them.", n, u.Size(s.Width, s.Height), times(len(s.Places)),
			counted(len(s.Passes), "pass", "passes"))}
	}
	if s.Surround > 0 {
		out = append(out, fmt.Sprintf("The panel lies in a surround of %s, level with it, that marks are set on.",
			u.Measure(s.Surround)))
	}
	if words := s.keyWords(); len(words) > 0 {
		out = append(append(out, s.keyHead()), words...)
	}
	return out
}

// named lists some names and how many more there are.
func named(all []string) string {
	if len(all) > maxNamed {
		return fmt.Sprintf("%s and %d more", strings.Join(all[:maxNamed], ", "), len(all)-maxNamed)
	}
	return strings.Join(all, ", ")
}
