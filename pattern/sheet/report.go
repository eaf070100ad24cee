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
	Problems         []Problem      `json:"problems"`
	Weak             []Strip        `json:"weak"` // what bends most, one place for all its images; a ranking, no fault
}

// Counts are of copies kept by the edge rule, of connected openings, and of islands.
type Counts struct {
	Copies   int `json:"copies"`
	Openings int `json:"openings"`
	Islands  int `json:"islands"`
}
