package sheet

// Report is the answer of a check of the whole panel, in the shape the engine prints. Lengths in mm, areas in mm²,
// places in panel mm.
type Report struct {
	Sound            bool           `json:"sound"`
	Counts           Counts         `json:"counts"`
	OpenArea         float64        `json:"openArea"`
	SheetArea        float64        `json:"sheetArea"`
	NarrowestBetween *float64       `json:"narrowestBetween"`
	BetweenEnds      *[2][2]float64 `json:"narrowestBetweenEnds"`
	NarrowestWithin  *float64       `json:"narrowestWithin"`
	WithinEnds       *[2][2]float64 `json:"narrowestWithinEnds"`
	Problems         []Problem      `json:"problems"` // of each kind and severity the worst MaxListed
	Totals           []Total        `json:"totals"`   // how many there are of each kind and severity, listed or not
	// what bends most, one place for all its images; a ranking, no fault
	Weak []Strip `json:"weak"`
}

// Counts are of copies kept by the edge rule, of connected openings, and of islands.
type Counts struct {
	Copies   int `json:"copies"`
	Openings int `json:"openings"`
	Islands  int `json:"islands"`
}

// Of returns how many problems of a kind and severity there are; a Total of 0 when there are none.
func (r Report) Of(kind Kind, severity Severity) Total {
	for _, t := range r.Totals {
		if t.Kind == kind && t.Severity == severity {
			return t
		}
	}
	return Total{Kind: kind, Severity: severity}
}

// Count returns how many problems of a severity there are, of all kinds; exact is false when there are at least as
// many.
func (r Report) Count(severity Severity) (n int, exact bool) {
	exact = true
	for _, t := range r.Totals {
		if t.Severity == severity {
			n += t.Count
			exact = exact && !t.AtLeast
		}
	}
	return n, exact
}
