//go:build js

package main

import (
	"encoding/json"
	"fmt"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/joined"
	"openwork/pattern/progress"
	"openwork/pattern/stepping"
)

// sheetsAnswer answers steps and join. The options are those of the packages; what the shop asks for is Cut, as for a cut file.
func sheetsAnswer(verb string, d pattern.Draft, r request, told progress.Func) (string, []byte, error) {
	format, cut := cutfile.FormatSVG, cutfile.Defaults()
	if r.Format != "" {
		format = r.Format
	}
	if len(r.Cut) > 0 {
		if err := json.Unmarshal(r.Cut, &cut); err != nil {
			return "", nil, fmt.Errorf("what the shop asks for could not be read: %w", err)
		}
	}
	cut.Unsound = append(cut.Unsound, r.Unsound...)
	choices := func(o any) error {
		if len(r.Sheets) == 0 {
			return nil
		}
		if err := json.Unmarshal(r.Sheets, o); err != nil {
			return fmt.Errorf("what was asked of the sheets could not be read: %w", err)
		}
		return nil
	}
	if verb == "steps" {
		o := stepping.Options{}
		if err := choices(&o); err != nil {
			return "", nil, err
		}
		o.Cut = cut
		answer, data, err := steps(d, o, format, r.Paper, told)
		if err != nil {
			return "", nil, err
		}
		return asJSON(answer, data)
	}
	o := joined.Options{}
	if err := choices(&o); err != nil {
		return "", nil, err
	}
	o.Cut = cut
	answer, data, err := join(d, o, format, told)
	if err != nil {
		return "", nil, err
	}
	return asJSON(answer, data)
}
