package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/fit"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
)

// fitInput asks for fitted drafts. The page names a picture's size to have each answer drawn small.
type fitInput struct {
	drafted
	Find    string   `json:"find"`
	Groups  []string `json:"groups"`
	Hold    string   `json:"hold"`
	Leave   bool     `json:"leave"`
	Effort  int      `json:"effort"`
	Seconds float64  `json:"seconds"`
	Seed    uint64   `json:"seed"`
	Width   int      `json:"width"`
	Height  int      `json:"height"`
}

// fitted are answers, with small pictures end to end in one block of bytes where they were asked for.
type fitted struct {
	rows []fittedRow
	all  []byte
}

// fittedRow is an answer with its draft as a file has it, how the draft asked about stood, and where the answer's
// picture stands in the block.
type fittedRow struct {
	fit.Answer
	Draft   json.RawMessage `json:"draft"`
	Holds   bool            `json:"holds"` // nothing is at fault in its field, away from the edges
	Was     fieldState      `json:"was"`
	Picture *pictureRow     `json:"picture,omitempty"`
}

// fieldState is how a field stands between its copies.
type fieldState struct {
	Cover     float64 `json:"cover"`     // opening area per cell area, copies counted once
	Narrowest float64 `json:"narrowest"` // mm between different copies that do not meet
	Clear     bool    `json:"clear"`     // all copies keep the bridge
	holds     bool
}

func (*fitInput) usual() *fitInput { return &fitInput{} }

func (in *fitInput) declare(f flagSet) {
	f.StringVar(&in.Find, "find", string(fit.Tightest), "what is made best: tightest, largest or evenest")
	f.Func("groups", "plane groups to fit, parted by commas, or all; left out: the draft's own", func(s string) error {
		in.Groups = strings.Split(s, ",")
		return nil
	})
	f.StringVar(&in.Hold, "hold", "", "what stays as it is, parted by commas: "+strings.Join(fit.HoldWords(), ", "))
	f.BoolVar(&in.Leave, "leave", false, "motifs on mirrors and rotation points may leave them")
	f.IntVar(&in.Effort, "effort", 0, fmt.Sprintf("rounds of the search in each group; 0: %d", fit.DefaultEffort))
	f.Float64Var(&in.Seconds, "seconds", 0, "end sooner, after so many seconds; 0: not")
	f.Func("seed", "number from which the search's random starts follow", func(s string) error {
		_, err := fmt.Sscan(s, &in.Seed)
		return err
	})
}

// run fits a draft.
func (in *fitInput) run(report progress.Func) (*fitted, error) {
	hold, err := fit.ParseHold(in.Hold)
	if err != nil {
		return nil, err
	}
	if in.Seconds < 0 {
		return nil, errors.New("seconds: a search cannot end before it begins; give 0 or more")
	}

	q := &fit.Question{Draft: in.draft, Find: fit.Find(in.Find), Groups: in.Groups, Hold: hold, Leave: in.Leave,
		Effort: in.Effort, Seed: in.Seed}
	if in.Seconds > 0 {
		end := time.Now().Add(time.Duration(in.Seconds * float64(time.Second)))
		q.Stop = func() bool { return time.Now().After(end) }
	}
	answers, err := fit.Fit(q, report)
	if err != nil {
		return nil, err
	}

	out := &fitted{}
	cache := pattern.NewShapes()
	within := &sheet.Within{}
	was, err := stateOf(in.draft, cache, within)
	if err != nil {
		return nil, err
	}
	for _, a := range answers {
		is, err := stateOf(a.Draft, cache, within)
		if err != nil {
			return nil, err
		}
		row := fittedRow{Answer: a, Draft: a.Draft.Encode(), Holds: is.holds, Was: was}
		if in.Width > 0 && in.Height > 0 {
			all, picture, err := addSmall(out.all, a.Draft, a.Group, in.Width, in.Height, cache)
			if err != nil {
				return nil, err
			}
			out.all, row.Picture = all, &picture
		}
		out.rows = append(out.rows, row)
	}
	return out, nil
}

// stateOf measures a draft's field.
func stateOf(d draft.Draft, cache *pattern.Shapes, within *sheet.Within) (fieldState, error) {
	l, err := pattern.NewLayout(d, cache)
	if err != nil {
		return fieldState{}, err
	}
	live := sheet.Check(l, within)
	out := fieldState{Cover: fit.Cover(l), Narrowest: live.Narrowest.D,
		Clear: len(live.Overlaps)+len(live.Bridges) == 0}
	// what is held at one end is warned of and no fault
	holding := func(p sheet.Place) bool { return !p.Hangs }
	lost := func(p sheet.Place) bool { return p.Lost != sheet.LostToSheet } // which is warned of
	out.holds = out.Clear && len(live.Islands) == 0 && !slices.ContainsFunc(live.Lost, lost) &&
		!slices.ContainsFunc(live.Necks, holding) && !slices.ContainsFunc(live.Narrow, holding)
	return out, nil
}

func (f *fitted) MarshalJSON() ([]byte, error) { return json.Marshal(f.rows) }

func (f *fitted) block() []byte { return f.all }
