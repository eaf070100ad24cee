package main

import (
	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/joined"
	"openwork/pattern/progress"
	"openwork/pattern/stepping"
)

// cutting returns the format of a cut file and what the shop asks for, with the reasons why the sheet does not hold.
func (r request) cutting() (cutfile.Format, cutfile.Options, error) {
	format, o := cutfile.FormatSVG, cutfile.Defaults()
	if r.Format != "" {
		format = r.Format
	}
	err := choices(r.Cut, "the cut file", &o)
	o.Unsound = append(o.Unsound, r.Unsound...)
	return format, o, err
}

// sheetsAnswer answers steps and join. The options are those of the packages; what the shop asks for is Cut, as for a cut file.
func sheetsAnswer(verb string, d pattern.Draft, r request, told progress.Func) (string, []byte, error) {
	format, cut, err := r.cutting()
	if err != nil {
		return "", nil, err
	}
	if verb == "steps" {
		o := stepping.Options{}
		if err := choices(r.Sheets, "the sheets", &o); err != nil {
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
	if err := choices(r.Sheets, "the sheets", &o); err != nil {
		return "", nil, err
	}
	o.Cut = cut
	answer, data, err := join(d, o, format, told)
	if err != nil {
		return "", nil, err
	}
	return asJSON(answer, data)
}
