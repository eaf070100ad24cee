package fit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Hold says what a fit leaves as it is.
type Hold struct {
	Turn       bool     // motifs keep their turns
	Half       bool     // motifs turn by 180 degrees only
	Step       float64  // motifs turn by whole steps of so many degrees; 0: freely
	Mirrored   bool     // motifs are not mirrored
	Place      bool     // motifs keep their places in the field
	Angle      bool     // the cell keeps its angle
	Proportion bool     // the cell keeps its angle and its sides' proportion
	Lay        bool     // an oblique cell keeps its lay: straight, half-drop or brick
	Repeats    bool     // whole repeats across and down the field
	Motifs     []string // these keep turn, place and hand
}

// holdWords name what can be held, as the command line and the page say it. "steps:15" and "motif:m2" carry a value.
var holdWords = []struct {
	word  string
	about string
	set   func(h *Hold) *bool
}{
	{"turn", "the motifs' turns", func(h *Hold) *bool { return &h.Turn }},
	{"half-turns", "turning by 180° only", func(h *Hold) *bool { return &h.Half }},
	{"mirrored", "which motifs are mirrored", func(h *Hold) *bool { return &h.Mirrored }},
	{"place", "the motifs' places", func(h *Hold) *bool { return &h.Place }},
	{"angle", "the cell's angle", func(h *Hold) *bool { return &h.Angle }},
	{"proportion", "the cell's proportion", func(h *Hold) *bool { return &h.Proportion }},
	{"lay", "the lay", func(h *Hold) *bool { return &h.Lay }},
	{"repeats", "whole repeats", func(h *Hold) *bool { return &h.Repeats }},
}

const (
	stepsWord = "steps:"
	motifWord = "motif:"
)

// HoldWords returns what can be held, in words of the command line.
func HoldWords() []string {
	var words []string
	for _, w := range holdWords {
		words = append(words, w.word)
	}
	return append(words, stepsWord+"DEGREES", motifWord+"ID")
}

// ParseHold reads words parted by commas, such as "turn,motif:m2"; none holds nothing.
func ParseHold(words string) (Hold, error) {
	var h Hold
	for word := range strings.SplitSeq(words, ",") {
		word = strings.TrimSpace(word)
		if word == "" {
			continue
		}
		if err := h.add(word); err != nil {
			return Hold{}, err
		}
	}
	return h, nil
}

func (h *Hold) add(word string) error {
	for _, w := range holdWords {
		if w.word == word {
			*w.set(h) = true
			return nil
		}
	}
	if text, ok := strings.CutPrefix(word, stepsWord); ok {
		step, err := strconv.ParseFloat(text, 64)
		if err != nil || !(step >= minStep && step <= 360) {
			return fmt.Errorf("hold %.40q: steps of a turn are from %g to 360 degrees, as in %s15", word, minStep,
				stepsWord)
		}
		h.Step = step
		return nil
	}
	if id, ok := strings.CutPrefix(word, motifWord); ok && id != "" {
		h.Motifs = append(h.Motifs, id)
		return nil
	}
	return fmt.Errorf("%.40q cannot be held; what can: %s", word, strings.Join(HoldWords(), ", "))
}

// minStep in degrees: finer steps are as good as none.
const minStep = 0.1

// turns says whether motifs turn freely.
func (h Hold) turnsFreely() bool { return !h.Turn && !h.Half && h.Step == 0 }

// motif says whether a motif is held as a whole.
func (h Hold) motif(id string) bool { return slices.Contains(h.Motifs, id) }

// each calls visit for everything held, with the same hold but for that, and its words.
func (h Hold) each(visit func(without Hold, about string)) {
	for _, w := range holdWords {
		if *w.set(&h) {
			without := h
			*w.set(&without) = false
			visit(without, w.about)
		}
	}
	if h.Step != 0 {
		without := h
		without.Step = 0
		visit(without, fmt.Sprintf("turning in steps of %g°", h.Step))
	}
	if len(h.Motifs) > 0 {
		without := h
		without.Motifs = nil
		visit(without, "the motifs held as they are")
	}
}
